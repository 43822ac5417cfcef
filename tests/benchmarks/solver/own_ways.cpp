// SPDX-License-Identifier: MIT
#include "own_ways.hpp"

#include "flat_plant.hpp"

#include "plant/stride.hpp"

namespace noonbench::benchmarks {
namespace {

bool disturbed(const Plant& plant) {
    return plant.modes.loop.regime != LoopRegime::calm;
}

double heat_kwh(const Plant& plant) {
    return plant.books.of(Edge::coil) / 3.6e6;
}

/// One stride, cut at the first second within it at which the rule decides anew.
StrideReport stride_to_decision(Plant& plant, const Rule& rule, const Stretch& stretch,
                                CivilSeconds now, long& evaluations) {
    const Plant before = plant;
    int most = static_cast<int>(stretch.until_s - now);
    for (;;) {
        const StrideReport report = stride(plant, stretch.weather, now, actions_of(rule.order),
                                           stretch.tap_flow_kg_s, most);
        evaluations += report.evaluations;
        int cut = 0;
        for (int s = 1; s < report.seconds && cut == 0; ++s) {
            if (rule.wants(report.sensors.at(s), now + s) != rule.order) cut = s;
        }
        if (cut == 0) return report;
        plant = before;
        plant.stride_s = cut;
        most = cut;
    }
}

}  // namespace

Solved solve_by_strides(const Case& what) {
    Plant plant = plant_of(what.parameters);
    Rule rule{.regulated = what.regulated};
    WorldReader world(what.world);
    Solved solved{.name = "strides", .cpu_s = cpu_seconds()};
    for (CivilSeconds now = 0; now < what.world.end_s();) {
        if (rule.decide(readings(plant), now)) solved.note(rule, now);
        const StrideReport report =
            stride_to_decision(plant, rule, world.at(now), now, solved.evaluations);
        now += report.seconds;
        if (disturbed(plant)) solved.disturbed_s += report.seconds;
    }
    solved.cpu_s = cpu_seconds() - solved.cpu_s;
    solved.heat_kwh = heat_kwh(plant);
    return solved;
}

Solved solve_by_seconds(const Case& what, Method method) {
    const bool everyday = method == Method::everyday;
    Plant plant = plant_of(what.parameters);
    plant.method = method;
    Rule rule{.regulated = what.regulated};
    WorldReader world(what.world);
    Solved solved{.name = everyday ? "midpoint rule, 1 s" : "Runge-Kutta 4, 1 s",
                  .cpu_s = cpu_seconds()};
    Stretch stretch = world.at(0);
    for (CivilSeconds now = 0; now < what.world.end_s(); ++now) {
        if (now >= stretch.until_s) stretch = world.at(now);
        if (rule.decide(readings(plant), now)) solved.note(rule, now);
        const StepReport report =
            advance(plant, stretch.weather, now, actions_of(rule.order), stretch.tap_flow_kg_s);
        solved.evaluations += report.substeps * (everyday ? 2 : 4);
        if (disturbed(plant)) ++solved.disturbed_s;
    }
    solved.cpu_s = cpu_seconds() - solved.cpu_s;
    solved.heat_kwh = heat_kwh(plant);
    return solved;
}

}  // namespace noonbench::benchmarks
