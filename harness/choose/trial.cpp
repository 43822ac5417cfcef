// SPDX-License-Identifier: MIT
#include "trial.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/run.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace noonbench::harness {

namespace {

constexpr std::array figures{
    FigureInfo{"backup_kwh", &YearFigures::backup_kwh, Joining::sum, "kWh"},
    FigureInfo{"pump_kwh", &YearFigures::pump_kwh, Joining::sum, "kWh"},
    FigureInfo{"tapped_kwh", &YearFigures::tapped_kwh, Joining::sum, "kWh"},
    FigureInfo{"missing_kwh", &YearFigures::missing_kwh, Joining::sum, "kWh"},
    FigureInfo{"to_store_kwh", &YearFigures::to_store_kwh, Joining::sum, "kWh"},
    FigureInfo{"tapped_l", &YearFigures::tapped_l, Joining::sum, "l"},
    FigureInfo{"cool_l", &YearFigures::cool_l, Joining::sum, "l"},
    FigureInfo{"stagnation_h", &YearFigures::stagnation_h, Joining::sum, "h"},
    FigureInfo{"pump_starts", &YearFigures::pump_starts, Joining::sum, "1"},
    FigureInfo{"most_starts_a_day", &YearFigures::most_starts_a_day, Joining::most, "1"},
    FigureInfo{"short_runs", &YearFigures::short_runs, Joining::sum, "1"},
    FigureInfo{"pump_run_h", &YearFigures::pump_run_h, Joining::sum, "h"},
    FigureInfo{"backup_starts", &YearFigures::backup_starts, Joining::sum, "1"},
    FigureInfo{"backup_run_h", &YearFigures::backup_run_h, Joining::sum, "h"},
    FigureInfo{"tap_hottest_c", &YearFigures::tap_hottest_c, Joining::most, "degC"},
    FigureInfo{"collector_hottest_c", &YearFigures::collector_hottest_c, Joining::most, "degC"},
    FigureInfo{"store_top_hottest_c", &YearFigures::store_top_hottest_c, Joining::most, "degC"},
    FigureInfo{"days_without_60", &YearFigures::days_without_60, Joining::most, "day"},
    FigureInfo{"high_limit_trips", &YearFigures::high_limit_trips, Joining::sum, "1"},
    FigureInfo{"lost_fluid_l", &YearFigures::lost_fluid_l, Joining::sum, "l"},
};

// ---------------------------------------------------------------- figures of one stretch

/// What one day adds, before its weight.
YearFigures figures_of_day(const Sums& day) {
    YearFigures f;
    f.backup_kwh = day.backup_kwh;
    f.pump_kwh = day.pump_electricity_kwh;
    f.tapped_kwh = day.tapped_kwh;
    f.missing_kwh = day.missing_kwh;
    f.to_store_kwh = day.to_store_kwh;
    f.tapped_l = day.tapped_l;
    f.cool_l = day.cool_l;
    f.stagnation_h = day.stagnation_h;
    f.pump_starts = static_cast<double>(day.pump_starts);
    f.most_starts_a_day = f.pump_starts;
    f.pump_run_h = day.pump_run_h;
    f.backup_starts = static_cast<double>(day.backup_starts);
    f.backup_run_h = day.backup_run_h;
    f.tap_hottest_c = std::max(0.0, day.tap_hottest_c);
    f.collector_hottest_c = std::max(0.0, day.collector_highest_c);
    f.store_top_hottest_c = std::max(0.0, day.store_top_highest_c);
    return f;
}

void join(YearFigures& sum, const YearFigures& more, double weight) {
    for (const FigureInfo& each : figures) {
        double& value = sum.*each.value;
        const double next = more.*each.value;
        value = each.joining == Joining::sum ? value + weight * next : std::max(value, next);
    }
}

/// Runs that the sun began from `from_s` on and that ended too soon; sampling, exercise and frost
/// are short on purpose.
double short_runs_of(const std::vector<traces::Event>& events, CivilSeconds from_s) {
    double count = 0.0;
    bool from_sun = false;
    CivilSeconds since_s = std::numeric_limits<CivilSeconds>::min();
    std::string_view reason;
    for (const traces::Event& event : events) {
        if (event.name == "pump_reason") reason = event.to;
        if (event.name != "pump_relay") continue;
        if (event.to == "on") {
            from_sun = reason == firmware::name_of(firmware::PumpReason::collecting);
            since_s = event.at_s;
        } else if (from_sun && since_s >= from_s &&
                   static_cast<double>(event.at_s - since_s) < short_run_s) {
            count += 1.0;
        }
    }
    return count;
}

/// The run-in counts as well: what matters is the time between two hot days.
double days_without_heat(const std::vector<Sums>& days) {
    int longest = 0;
    int now = 0;
    for (const Sums& day : days) {
        now = day.store_top_highest_c >= sanitised_c ? 0 : now + 1;
        longest = std::max(longest, now);
    }
    return longest;
}

void add_advice(YearFigures& year, const std::vector<std::string>& advice) {
    for (const std::string& each : advice) {
        if (year.advice.find(each) != std::string::npos) continue;
        if (!year.advice.empty()) year.advice += "; ";
        year.advice += each;
    }
}

bool tripped(const std::vector<traces::Event>& events) {
    return std::any_of(events.begin(), events.end(), [](const traces::Event& event) {
        return event.name == "high_limit_stat" && event.to == "open";
    });
}

void add_stretch(YearFigures& year, const RunResult& result, const TrialStretch& stretch) {
    for (const Sums& day : result.days) {
        if (day.from_s < stretch.counted_from_s) continue;
        join(year, figures_of_day(day), stretch.weight);
    }
    YearFigures whole;
    whole.short_runs = short_runs_of(result.events, stretch.counted_from_s);
    join(year, whole, stretch.weight);
    YearFigures once;  // not told for each day, and not to be multiplied
    once.days_without_60 = days_without_heat(result.days);
    once.high_limit_trips = tripped(result.events) ? 1.0 : 0.0;
    once.lost_fluid_l = result.fluid.lost_l;
    join(year, once, 1.0);
    add_advice(year, result.advice);
}

// ---------------------------------------------------------------- limits

/// Comfort is not for sale: two litres in a thousand are what a draw that begins in a cold pipe or
/// ends on another tick can move (judged).
double cool_limit(const YearFigures& as_delivered) {
    return as_delivered.cool_l + 0.002 * as_delivered.tapped_l;
}

double stagnation_limit(const YearFigures& as_delivered) {
    return as_delivered.stagnation_h + 10.0;
}

double starts_limit(const YearFigures& as_delivered) {
    return std::max(30.0, as_delivered.most_starts_a_day);
}

double tap_limit(const YearFigures& as_delivered) {
    return std::max(60.0, as_delivered.tap_hottest_c + 1.0);
}

/// Seven days between two hot ones are six without.
double cold_days_limit(const YearFigures& as_delivered) {
    return std::max(6.0, as_delivered.days_without_60);
}

double trips_limit(const YearFigures& as_delivered) {
    return as_delivered.high_limit_trips;
}

double missing_limit(const YearFigures& as_delivered) {
    return as_delivered.missing_kwh + 0.002 * as_delivered.tapped_kwh;
}

constexpr std::array constraints{
    ConstraintInfo{"water below comfort", "l",
                   "as much as delivered and 2 of 1000 litres tapped: backup energy is not to be "
                   "saved by lukewarm showers",
                   &YearFigures::cool_l, cool_limit, 0},
    ConstraintInfo{"heat missing at the tap", "kWh",
                   "as much as delivered and 2 thousandths of the heat tapped: draws given up",
                   &YearFigures::missing_kwh, missing_limit, 0},
    ConstraintInfo{
        "stagnation", "h",
        "10 h more than delivered: each hour ages the fluid (common practice, no source)",
        &YearFigures::stagnation_h, stagnation_limit, 0},
    ConstraintInfo{"most starts of the pump in a day", "1",
                   "30, or as many as delivered: relay and pump last longer with few (common "
                   "practice, no source)",
                   &YearFigures::most_starts_a_day, starts_limit, 1},
    ConstraintInfo{
        "hottest water at the tap", "degC",
        "60 degC, which scalds within seconds (common practice, no source), or where it is "
        "hotter as delivered 1 K more",
        &YearFigures::tap_hottest_c, tap_limit, 1},
    ConstraintInfo{"days in a row without 60 degC at the store's top", "day",
                   "a hot day a week (Swedish guideline), or as delivered: legionella",
                   &YearFigures::days_without_60, cold_days_limit, 0},
    ConstraintInfo{"trips of the high-limit stat", "1",
                   "no more than delivered: it does not reset itself",
                   &YearFigures::high_limit_trips, trips_limit, 0},
};

constexpr std::int64_t day_s = plant::seconds_a_day;

/// 1 to 4 of the year; 5 is the next year's first.
CivilSeconds quarter_begins(int year, unsigned quarter) {
    return quarter == 5 ? midnight_of({year + 1, 1, 1}) : midnight_of({year, 3 * quarter - 2, 1});
}

TrialStretch run_in_before(CivilSeconds first_s, int days, double weight) {
    return {first_s - run_in_days * day_s, (run_in_days + days) * day_s, first_s, weight};
}

}  // namespace

std::string_view name_of(TrialLength length) {
    return length == TrialLength::full_year ? "full_year" : "typical_weeks";
}

std::vector<TrialStretch> stretches_of(TrialLength length, CivilSeconds scenario_start_s,
                                       const World& world) {
    const int year = date_of(scenario_start_s).year;
    const CivilSeconds new_year_s = midnight_of({year, 1, 1});
    if (length == TrialLength::full_year) {
        const auto days = (midnight_of({year + 1, 1, 1}) - new_year_s) / day_s;
        return {run_in_before(new_year_s, static_cast<int>(days), 1.0)};
    }
    std::vector<TrialStretch> stretches;
    stretches.reserve(world.week_in_quarter.size());
    for (unsigned quarter = 1; quarter <= world.week_in_quarter.size(); ++quarter) {
        const CivilSeconds first_s = quarter_begins(year, quarter);
        const auto days = static_cast<int>((quarter_begins(year, quarter + 1) - first_s) / day_s);
        const int places = days - counted_days + 1;
        const auto place = static_cast<int>(world.week_in_quarter[quarter - 1] * places);
        stretches.push_back(run_in_before(first_s + std::min(place, places - 1) * day_s,
                                          counted_days, static_cast<double>(days) / counted_days));
    }
    return stretches;
}

std::span<const FigureInfo> figure_table() {
    return figures;
}

YearFigures figures_of(const Scenario& scenario, std::span<const TrialStretch> stretches,
                       const SkyFeed& sky) {
    YearFigures year;
    Scenario part = scenario;
    part.record.every_s = std::numeric_limits<std::int32_t>::max();  // sums and events will do
    RunWishes wishes;
    wishes.sky = &sky;
    for (const TrialStretch& stretch : stretches) {
        part.start_s = stretch.start_s;
        part.length_s = stretch.length_s;
        add_stretch(year, run(part, wishes), stretch);
    }
    return year;
}

std::shared_ptr<const SkyFeed> sky_of_world(const Scenario& site, const World& world,
                                            TrialLength length) {
    auto sky = std::make_shared<SkyFeed>(in_world(world, site));
    for (const TrialStretch& stretch : stretches_of(length, site.start_s, world)) {
        if (length == TrialLength::full_year) break;  // ten megabytes; made as it goes
        sky->keep_days(stretch.start_s, stretch.start_s + stretch.length_s);
    }
    return sky;
}

Scenario scenario_of(const Scenario& site, const YearJob& job) {
    Scenario scenario = in_world(job.world, site);
    if (job.settings) {
        scenario.controller.settings = *job.settings;
        return scenario;
    }
    return without_sun(std::move(scenario));
}

Scenario without_sun(Scenario scenario) {
    // Nothing moves in the loop: its pressures need not be solved, nor whether it freezes.
    scenario.plant.loop.hydraulics = plant::Hydraulics::given;
    for (const MoveOf& what : {MoveOf{LeverMove{"glass_clearness", 0.0}},
                               MoveOf{HandMove{Hand::pump, firmware::HandRequest::off}}}) {
        Move move;
        move.at_s = ever_since;
        move.what = what;
        scenario.moves.push_back(std::move(move));  // behind the world's own, so that it stands
    }
    return scenario;
}

YearFigures run_year(const Scenario& site, const YearJob& job) {
    const auto sky = job.sky ? job.sky() : sky_of_world(site, job.world, job.length);
    return figures_of(scenario_of(site, job), stretches_of(job.length, site.start_s, job.world),
                      *sky);
}

std::span<const ConstraintInfo> constraint_table() {
    return constraints;
}

Score score_of(const YearsOfWorld& years, const Weights& weights) {
    Score score;
    score.saving_kwh = years.without_sun.backup_kwh - years.candidate.backup_kwh;
    score.objective_kwh =
        weights.backup * score.saving_kwh - weights.pump * years.candidate.pump_kwh;
    score.margins.reserve(constraints.size());
    for (const ConstraintInfo& each : constraints) {
        score.margins.push_back(each.limit(years.as_delivered) - years.candidate.*each.figure);
    }
    return score;
}

}  // namespace noonbench::harness
