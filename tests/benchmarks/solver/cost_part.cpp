// SPDX-License-Identifier: MIT
#include "own_ways.hpp"
#include "parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace noonbench::benchmarks {
namespace {

void tell(Results& results, CostLine line) {
    fmt::print("\ncost against {}\n", line.name);
    const CostPoint& first = line.points.front();
    for (const CostPoint& point : line.points) {
        fmt::print("{:>10.4g}{:>10.3f} s, {:.3f} of what proportion says\n", point.size,
                   point.cpu_s, point.cpu_s / first.cpu_s / (point.size / first.size));
    }
    std::fflush(stdout);
    results.costs.push_back(std::move(line));
}

/// One run of the bench of several years, looked at each time the year is over.
CostLine years_line(const Span& span) {
    constexpr int years = 3;
    harness::Scenario scenario = house_year(span, {"controller.pump_drive=on_off"});
    CostLine line{.name = span.whole() ? "simulated years, bench with controller"
                                       : fmt::format("simulated spells of {} days, bench with "
                                                     "controller",
                                                     span.days),
                  .points = {}};
    for (int year = 1; year <= years; ++year) {
        harness::Scenario longer = scenario;
        longer.length_s = year * scenario.length_s;
        const harness::SkyFeed sky(longer);
        line.points.push_back(
            {static_cast<double>(year), live(longer, sky, Way::strides).solved.cpu_s});
    }
    return line;
}

/// A quarter of the year's days for each.
CostLine variants_line(const Span& span) {
    const Span spell{std::max<CivilSeconds>(1, std::min<CivilSeconds>(30, span.days / 4))};
    harness::Scenario scenario = house_year(spell, {"controller.pump_drive=on_off"});
    harness::SkyFeed sky(scenario);
    sky.keep_days(scenario.start_s, scenario.start_s + scenario.length_s);
    CostLine line{
        .name = fmt::format("variants of {} April days, bench with controller", spell.days),
        .points = {}};
    double cpu_s = 0.0;
    for (int variant = 1; variant <= 8; ++variant) {
        scenario.plant.store.volume_m3 = 0.150 + 0.030 * variant;
        cpu_s += live(scenario, sky, Way::strides).solved.cpu_s;
        if ((variant & (variant - 1)) == 0) {
            line.points.push_back({static_cast<double>(variant), cpu_s});
        }
    }
    return line;
}

/// Layers of the store, and half as many cells in each pipe.
CostLine cells_line(const Span& span) {
    const Span spell{std::min<CivilSeconds>(30, span.days)};
    Case what{.title = {}, .world = house_world(spell), .parameters = house_parameters()};
    CostLine line{.name = fmt::format("layers of the store with half as many cells in each pipe, "
                                      "plant alone, {} April days",
                                      spell.days),
                  .points = {}};
    for (const int layers : {8, 12, 16, 24, 32}) {
        what.parameters.layers = layers;
        what.parameters.pipe_cells = layers / 2;
        line.points.push_back({static_cast<double>(layers), solve_by_strides(what).cpu_s});
    }
    return line;
}

}  // namespace

void cost_part(const Span& span, Results& results) {
    tell(results, cells_line(span));
    tell(results, variants_line(span));
    tell(results, years_line(span));
}

}  // namespace noonbench::benchmarks
