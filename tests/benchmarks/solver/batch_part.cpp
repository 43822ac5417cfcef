// SPDX-License-Identifier: MIT
#include "parts.hpp"

#include "plant/random.hpp"

#include <fmt/format.h>

#include <sys/resource.h>

#include <atomic>
#include <chrono>
#include <cstdint>
#include <exception>
#include <mutex>
#include <thread>

namespace noonbench::benchmarks {
namespace {

constexpr int full_sweep = 1000;
constexpr unsigned threads_wanted = 2;

/// From least to most in steps, all alike likely.
std::int64_t drawn(RandomStream stream, std::uint64_t which, std::int64_t least,
                   std::int64_t most) {
    return random_integer(stream, which, least, most);
}

/// Variant `number` of the sweep: start difference 6 to 12 K and stop 2 to 5 K in steps of the
/// setting, store 150 to 400 l, collectors 3 to 5.5 m2.
harness::Scenario variant_of(harness::Scenario scenario, std::uint64_t seed, int number) {
    using firmware::Setting;
    const RandomStream stream = sub_stream(random_stream(seed, "variants of the benchmark"),
                                           static_cast<std::uint64_t>(number));
    firmware::Settings& settings = scenario.controller.settings;
    settings[Setting::start_difference] = static_cast<std::int16_t>(50 * drawn(stream, 0, 12, 24));
    settings[Setting::stop_difference] = static_cast<std::int16_t>(50 * drawn(stream, 1, 4, 10));
    scenario.plant.store.volume_m3 = 1e-3 * static_cast<double>(drawn(stream, 2, 150, 400));
    Row& row = scenario.plant.rows.front();
    row.collector.area_m2 =
        0.01 * static_cast<double>(drawn(stream, 3, 300, 550)) / row.collectors_in_series;
    return scenario;
}

/// Each variant's run, on so many threads; which thread runs which is left to them.
std::vector<Lived> live_all(const harness::Scenario& house, const harness::SkyFeed& sky,
                            const BatchWishes& wishes, unsigned threads) {
    std::vector<Lived> all(static_cast<std::size_t>(wishes.variants));
    std::atomic<int> next{0};
    std::exception_ptr failure;
    std::mutex door;
    const auto work = [&] {
        try {
            for (int v = next++; v < wishes.variants; v = next++) {
                all[static_cast<std::size_t>(v)] =
                    live(variant_of(house, wishes.seed, v), sky, Way::strides);
            }
        } catch (...) {
            const std::lock_guard lock(door);
            failure = std::current_exception();
        }
    };
    {
        std::vector<std::jthread> workers;
        workers.reserve(threads);
        for (unsigned t = 0; t < threads; ++t) workers.emplace_back(work);
    }
    if (failure) std::rethrow_exception(failure);
    return all;
}

harness::SkyFeed kept_sky(const harness::Scenario& house) {
    harness::SkyFeed sky(house);
    sky.keep_days(house.start_s, house.start_s + house.length_s);
    return sky;
}

double peak_mib() {
    rusage used{};
    getrusage(RUSAGE_SELF, &used);
    return static_cast<double>(used.ru_maxrss) / 1024.0;
}

}  // namespace

bool same_bytes_on_two_threads(const Span& span, const BatchWishes& wishes) {
    const harness::Scenario house = house_year(span);
    const harness::SkyFeed sky = kept_sky(house);
    const std::vector<Lived> alone = live_all(house, sky, wishes, 1);
    const std::vector<Lived> together = live_all(house, sky, wishes, threads_wanted);
    bool same = true;
    for (std::size_t v = 0; v < alone.size(); ++v) {
        if (alone[v].bytes == together[v].bytes) continue;
        same = false;
        fmt::print(
            "variant {} leaves other bytes on two threads than on one: {:.17g} and {:.17g} "
            "kWh, {} and {} switchings\n",
            v, alone[v].solved.heat_kwh, together[v].solved.heat_kwh,
            alone[v].solved.switchings.size(), together[v].solved.switchings.size());
    }
    fmt::print("\n{} variants over {} days leave {} bytes on one thread and on two\n",
               wishes.variants, span.days, same ? "the same" : "OTHER");
    return same;
}

void batch_part(const Span& span, const BatchWishes& wishes, Results& results) {
    const harness::Scenario house = house_year(span);
    const double began_s = cpu_seconds();
    const auto began = std::chrono::steady_clock::now();
    const harness::SkyFeed sky = kept_sky(house);
    const std::vector<Lived> all = live_all(house, sky, wishes, threads_wanted);
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - began;
    const double cpu_s = cpu_seconds() - began_s;
    const double years = wishes.variants * static_cast<double>(span.days) / days_a_year;
    double starts = 0.0;
    for (const Lived& lived : all) starts += lived.solved.starts();
    fmt::print(
        "\n{} different variants (seed {}), the bench with its controller, pump regulated, "
        "{}, {} threads\n",
        wishes.variants, wishes.seed, span.text(), threads_wanted);
    const std::vector<Figure> figures{
        {"batch: variants run", static_cast<double>(wishes.variants), ""},
        {"batch: CPU s a variant-year", cpu_s / years, "s"},
        {"batch: wall s a variant-year on two threads", passed.count() / years, "s"},
        {"batch: mean pump starts a variant-year", starts / years, ""},
        {"batch: CPU over wall", cpu_s / passed.count(), ""},
        {"batch: 1,000 variant-years on two threads, scaled from CPU",
         full_sweep * cpu_s / years / threads_wanted / 3600.0, "h"},
        {"batch: peak memory of the process so far", peak_mib(), "MiB"}};
    for (const Figure& figure : figures) print_figure(figure);
    results.figures.insert(results.figures.end(), figures.begin(), figures.end());
    // The bytes on days enough; all of them again on one thread would take twice as long.
    const Span bytes_span{std::min<CivilSeconds>(span.days, 20)};
    const bool same = same_bytes_on_two_threads(bytes_span, {.variants = 6, .seed = wishes.seed});
    results.figures.push_back({"batch: same bytes on one thread and two", same ? 1.0 : 0.0, ""});
    results.right &= same;
}

}  // namespace noonbench::benchmarks
