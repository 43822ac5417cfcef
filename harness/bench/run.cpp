// SPDX-License-Identifier: MIT
#include "run.hpp"

#include "cautions.hpp"
#include "clock.hpp"
#include "record.hpp"

#include "plant/fluid.hpp"

#include <algorithm>

namespace noonbench::harness {
namespace {

constexpr std::size_t days_worth_months = 62;  // longer runs are told month by month

std::vector<Sums> months_of(const std::vector<Sums>& days) {
    std::vector<Sums> months;
    for (const Sums& day : days) {
        if (months.empty() || date_of(months.back().from_s).month != date_of(day.from_s).month) {
            months.push_back(sums_from(day.from_s));
        }
        add(months.back(), day);
    }
    return months;
}

}  // namespace

double boiling_point_at_top_c(const plant::Plant& plant) {
    const plant::LoopPressure pressure = plant::loop_pressure(plant);
    return plant::boiling_point_c(plant::parameters_of(plant).loop.glycol_mass_share,
                                  pressure.atmosphere_pa + pressure.top_pa);
}

RunResult run(const Scenario& scenario, const RunWishes& wishes) {
    Bench bench = wishes.sky != nullptr ? Bench(scenario, *wishes.sky) : Bench(scenario);
    Recorder recorder(bench);
    const double boiling_c = boiling_point_at_top_c(bench.plant());
    const CivilSeconds end = scenario.start_s + scenario.length_s;
    InBetween between;
    between.every_s = wishes.watch ? 1 : scenario.record.every_s;
    between.passing = wishes.watch ? Passing::every_tick : wishes.passing;
    between.show = [&](const Bench& shown) {
        recorder.in_between(shown);
        if (wishes.watch) wishes.watch(shown);
    };
    CivilSeconds tell_at = scenario.start_s;
    while (bench.now() < end) {
        bench.decide();
        recorder.after_decision(bench);
        if (wishes.watch) wishes.watch(bench);
        const int seconds = bench.stride(end, between);
        recorder.after_stride(bench, seconds);
        if (wishes.progress && bench.now() >= tell_at) {
            tell_at = bench.now() + 21600;
            wishes.progress(static_cast<double>(bench.now() - scenario.start_s) /
                            static_cast<double>(scenario.length_s));
        }
    }
    RunResult result = recorder.finish(bench);
    if (result.days.size() > days_worth_months) result.months = months_of(result.days);
    result.boiling_point_c = boiling_c;
    result.cautions = cautions_of(result);
    return result;
}

void run_watched(const Scenario& scenario, const TickWatch& watch) {
    run_watched(scenario, scenario.start_s + scenario.length_s, watch);
}

void run_watched(const Scenario& scenario, CivilSeconds until, const TickWatch& watch) {
    Bench bench(scenario);
    const CivilSeconds end = scenario.start_s + scenario.length_s;
    // A stride may reach beyond `until`: it would be another one if it were cut there.
    const TickWatch before = [&](const Bench& shown) {
        if (shown.now() < until) watch(shown);
    };
    const InBetween between{1, until < end ? before : watch, Passing::every_tick};
    while (bench.now() < std::min(until, end)) {
        bench.decide();
        watch(bench);
        bench.stride(end, between);
    }
}

}  // namespace noonbench::harness
