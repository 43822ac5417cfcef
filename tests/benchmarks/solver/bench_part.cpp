// SPDX-License-Identifier: MIT
#include "parts.hpp"

#include "harness/bench/run.hpp"
#include "harness/scenario/read.hpp"

#include <fmt/format.h>

namespace noonbench::benchmarks {
namespace {

/// With everything that `noonbench run` keeps: sums, events, hourly rows.
Solved recorded(harness::Scenario scenario, const harness::SkyFeed& sky,
                const std::vector<Switching>& switchings) {
    scenario.record.every_s = 3600;
    harness::RunWishes wishes;
    wishes.sky = &sky;
    const double began = cpu_seconds();
    const harness::RunResult result = harness::run(scenario, wishes);
    return {.name = "strides, recorded with hourly rows",
            .cpu_s = cpu_seconds() - began,
            .heat_kwh = result.total.to_store_kwh,
            .switchings = switchings};
}

Comparison compare_bench(const Span& span, const std::string& title,
                         const std::vector<std::string>& sets, bool noisy) {
    const harness::Scenario scenario = house_year(span, sets);
    const harness::SkyFeed sky(scenario);
    const Solved truth = live(scenario, sky, Way::reference).solved;
    Comparison comparison = compared_with(truth, title, static_cast<double>(span.days));
    print_heading(comparison);
    const Solved strides = live(scenario, sky, Way::strides).solved;
    add(comparison, strides, truth);
    if (noisy) {
        add(comparison, recorded(scenario, sky, strides.switchings), truth);
        add(comparison, live(scenario, sky, Way::every_tick).solved, truth);
        add(comparison, live(scenario, sky, Way::seconds).solved, truth);
    }
    add(comparison, truth, truth);
    return comparison;
}

/// A disturbed loop (steam, air, ice) goes by single seconds: these two get hot with nobody at
/// home.
void tell_disturbed(Results& results) {
    fmt::print("\n");
    for (const char* name : {"hot_idle_august_week", "holiday_without_draws"}) {
        const harness::Scenario scenario = harness::read_scenario(
            fmt::format("{}/scenarios/days/{}.yaml", NOONBENCH_SOURCE_DIR, name));
        const harness::SkyFeed sky(scenario);
        const Solved lived = live(scenario, sky, Way::strides).solved;
        const auto length_s = static_cast<double>(scenario.length_s);
        const std::vector<Figure> figures{
            {fmt::format("{}: loop disturbed, of the time", name),
             100.0 * static_cast<double>(lived.disturbed_s) / length_s, "%"},
            {fmt::format("{}: loop disturbed, of the CPU time", name),
             100.0 * lived.disturbed_cpu_s / lived.cpu_s, "%"}};
        for (const Figure& figure : figures) print_figure(figure);
        results.figures.insert(results.figures.end(), figures.begin(), figures.end());
    }
}

}  // namespace

void bench_part(const Span& span, Results& results) {
    for (const bool noisy : {true, false}) {
        for (const bool regulated : {false, true}) {
            std::vector<std::string> sets;
            if (!regulated) sets.emplace_back("controller.pump_drive=on_off");
            if (!noisy) {
                for (const char* sensor : {"collector", "store_bottom", "store_top"}) {
                    sets.push_back(fmt::format("wiring.{}.noise=0 K", sensor));
                }
            }
            const std::string title = fmt::format(
                "The bench with its controller, {}, {}, {}",
                regulated ? "pump regulated" : "pump on/off",
                noisy ? "noise of 0.03 K on the sensors" : "sensors without noise", span.text());
            results.comparisons.push_back(compare_bench(span, title, sets, noisy));
        }
    }
    tell_disturbed(results);
}

}  // namespace noonbench::benchmarks
