// SPDX-License-Identifier: MIT
#include "house.hpp"

#include "harness/scenario/read.hpp"

#include <fmt/format.h>

#include <array>
#include <type_traits>

namespace noonbench::benchmarks {
namespace {

constexpr std::array way_names{"strides", "strides, each tick run", "midpoint rule, 1 s",
                               "Runge-Kutta 4, 1 s"};

/// The bench shows its plant and lends it to nobody; here alone the method of its seconds is
/// chosen from outside, before the first of them. The bench itself is no constant.
void carry_by_reference(harness::Bench& bench) {
    const_cast<Plant&>(bench.plant()).method = Method::reference;
}

template <class Value>
void append(std::string& bytes, const Value& value) {
    static_assert(std::is_trivially_copyable_v<Value>);
    bytes.append(reinterpret_cast<const char*>(&value), sizeof(value));
}

std::string bytes_of(const harness::Bench& bench, const Solved& solved) {
    std::string bytes;
    const Plant& plant = bench.plant();
    for (int i = 0; i < layout_of(plant).edges_first; ++i) {
        append(bytes, plant.amounts[static_cast<std::size_t>(i)]);
    }
    for (int edge = 0; edge < edge_count; ++edge) {
        append(bytes, plant.books.of(static_cast<Edge>(edge)));
    }
    for (const Switching& switching : solved.switchings) {
        append(bytes, switching.at_s);
        append(bytes, switching.on);
    }
    append(bytes, bench.outputs().tally_wh);
    return bytes;
}

}  // namespace

std::string Span::text() const {
    return whole() ? "the whole year" : fmt::format("{} days from 1 April, scaled", days);
}

harness::Scenario house_year(const Span& span, const std::vector<std::string>& sets) {
    harness::Scenario scenario = harness::read_scenario(
        std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/years/average_climate.yaml", sets);
    scenario.start_s += span.first_day() * seconds_a_day;
    scenario.length_s = span.days * seconds_a_day;
    return scenario;
}

World house_world(const Span& span) {
    const harness::Scenario scenario = house_year(span);
    harness::SkyFeed sky(scenario);
    World world;
    world.days = span.days;
    world.draws = {{7 * 3600, 7 * 3600 + 900, 0.1},
                   {12 * 3600, 12 * 3600 + 600, 0.1},
                   {19 * 3600, 19 * 3600 + 1200, 0.1}};
    world.knots.reserve(static_cast<std::size_t>(span.days) * 250);
    const CivilSeconds end = scenario.start_s + scenario.length_s;
    WeatherSpan weather{};
    for (CivilSeconds now = scenario.start_s; now < end; now = weather.to.at_s) {
        weather = sky.at(now);
        world.knots.push_back(weather.from);
    }
    world.knots.push_back(weather.to);
    for (PlaneKnot& knot : world.knots) knot.at_s -= scenario.start_s;
    return world;
}

Lived live(const harness::Scenario& scenario, const harness::SkyFeed& sky, Way way) {
    Lived lived{
        .solved = {.name = way_names[static_cast<std::size_t>(way)], .cpu_s = cpu_seconds()},
        .bytes = {}};
    Solved& solved = lived.solved;
    harness::Bench bench(scenario, sky);
    if (way == Way::reference) carry_by_reference(bench);
    const harness::InBetween between{.every_s = 0,
                                     .show = {},
                                     .passing = way == Way::every_tick
                                                    ? harness::Passing::every_tick
                                                    : harness::Passing::skipping};
    const CivilSeconds end = scenario.start_s + scenario.length_s;
    bool was_on = false;
    bool was_calm = true;
    double disturbed_from_s = 0.0;
    while (bench.now() < end) {
        bench.decide();
        const bool on = bench.outputs().pump_relay != 0;
        if (on != was_on) solved.switchings.push_back({bench.now() - scenario.start_s, on});
        was_on = on;
        const bool calm = bench.plant().modes.loop.regime == LoopRegime::calm;
        if (calm != was_calm && !calm) disturbed_from_s = cpu_seconds();
        if (calm != was_calm && calm) solved.disturbed_cpu_s += cpu_seconds() - disturbed_from_s;
        was_calm = calm;
        int seconds = 1;
        if (way == Way::strides || way == Way::every_tick) {
            seconds = bench.stride(end, between);
        } else {
            bench.advance();
        }
        if (!calm) solved.disturbed_s += seconds;
    }
    if (!was_calm) solved.disturbed_cpu_s += cpu_seconds() - disturbed_from_s;
    solved.cpu_s = cpu_seconds() - solved.cpu_s;
    solved.heat_kwh = bench.plant().books.of(Edge::coil) / 3.6e6;
    lived.bytes = bytes_of(bench, solved);
    return lived;
}

}  // namespace noonbench::benchmarks
