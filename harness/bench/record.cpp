// SPDX-License-Identifier: MIT
#include "record.hpp"

#include "clock.hpp"
#include "seal.hpp"
#include "weather_now.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace noonbench::harness {
namespace {

using plant::Edge;
using plant::kilowatt_hours;

constexpr double stagnation_c = 120.0;  // hotter than a healthy run ever gets

/// What was booked since `then`, in kWh.
double since(const plant::Books& now, const plant::Books& then, Edge edge) {
    return kilowatt_hours(now.of(edge) - then.of(edge));
}

}  // namespace

Sums sums_from(CivilSeconds from_s) {
    Sums sums;
    sums.from_s = from_s;
    sums.until_s = from_s;
    return sums;
}

void add(Sums& sum, const Sums& more) {
    sum.until_s = more.until_s;
    for (const auto member :
         {&Sums::sun_kwh_m2, &Sums::sun_kwh, &Sums::absorbed_kwh, &Sums::collector_loss_kwh,
          &Sums::pipe_loss_kwh, &Sums::to_store_kwh, &Sums::store_loss_kwh,
          &Sums::circulation_loss_kwh, &Sums::backup_kwh, &Sums::tapped_kwh, &Sums::missing_kwh,
          &Sums::pump_electricity_kwh, &Sums::tapped_l, &Sums::cool_l, &Sums::pump_run_h,
          &Sums::backup_run_h, &Sums::stagnation_h}) {
        sum.*member += more.*member;
    }
    sum.pump_starts += more.pump_starts;
    sum.backup_starts += more.backup_starts;
    for (const auto member :
         {&Sums::collector_highest_c, &Sums::store_bottom_highest_c, &Sums::store_top_highest_c,
          &Sums::tap_hottest_c, &Sums::gauge_highest_bar}) {
        sum.*member = std::max(sum.*member, more.*member);
    }
    for (const auto member : {&Sums::collector_lowest_c, &Sums::store_bottom_lowest_c,
                              &Sums::store_top_lowest_c, &Sums::gauge_least_bar}) {
        sum.*member = std::min(sum.*member, more.*member);
    }
    for (std::size_t i = 0; i < sum.reason_h.size(); ++i) sum.reason_h[i] += more.reason_h[i];
}

Recorder::Recorder(const Bench& bench)
    : columns_(columns_of(bench.scenario())),
      day_books_(bench.plant().books),
      next_look_s_(bench.now()),
      last_look_s_(bench.now()),
      day_(sums_from(bench.now())),
      audit_(bench) {
    const Scenario& scenario = bench.scenario();
    result_.scenario = scenario;
    result_.trace = traces::Table(signals_of(columns_), scenario.start_s);
    result_.trace.reserve(
        static_cast<std::size_t>(scenario.length_s / scenario.record.every_s + 1));
    result_.total = sums_from(bench.now());
    stored_at_start_j_ = plant::view(bench.plant()).stored_j;
}

// ------------------------------------------------------------------ sums

namespace {

bool has_real_fluid(const Bench& bench) {
    return bench.scenario().plant.loop.hydraulics == plant::Hydraulics::solved;
}

}  // namespace

/// Extremes are looked at once a minute, or where the next stride ends.
void Recorder::look(const Bench& bench) {
    if (bench.now() < next_look_s_) return;
    const auto since_last_s = static_cast<double>(bench.now() - last_look_s_);
    last_look_s_ = bench.now();
    next_look_s_ = bench.now() - second_of_day(bench.now()) % 60 + 60;
    const plant::View v = plant::view(bench.plant());
    const auto rows = v.row_hottest_c.begin();
    const double hottest = *std::max_element(rows, rows + v.rows);
    if (hottest > stagnation_c) day_.stagnation_h += since_last_s / 3600.0;
    day_.collector_highest_c = std::max(day_.collector_highest_c, hottest);
    const auto outlets = v.row_outlet_c.begin();
    day_.collector_lowest_c =
        std::min(day_.collector_lowest_c, *std::min_element(outlets, outlets + v.rows));
    const double bottom = v.layer_c[0];
    const double top = v.layer_c[static_cast<std::size_t>(v.layers) - 1];
    day_.store_bottom_lowest_c = std::min(day_.store_bottom_lowest_c, bottom);
    day_.store_bottom_highest_c = std::max(day_.store_bottom_highest_c, bottom);
    day_.store_top_lowest_c = std::min(day_.store_top_lowest_c, top);
    day_.store_top_highest_c = std::max(day_.store_top_highest_c, top);
    const double gauge_bar = plant::gauge_pressure_pa(bench.plant()) / 1e5;
    day_.gauge_least_bar = std::min(day_.gauge_least_bar, gauge_bar);
    day_.gauge_highest_bar = std::max(day_.gauge_highest_bar, gauge_bar);
    if (!has_real_fluid(bench)) return;
    const plant::LoopFluidState fluid = plant::loop_fluid_state(bench.plant());
    FluidCourse& course = result_.fluid;
    course.most_steam_l = std::max(course.most_steam_l, fluid.steam_m3 * 1e3);
    course.most_gas_l = std::max(course.most_gas_l, fluid.gas_m3 * 1e3);
    course.most_ice_share = std::max(course.most_ice_share, fluid.most_ice_share);
}

/// What has added up by the end.
void Recorder::end_of_fluid(const Bench& bench) {
    if (!has_real_fluid(bench)) return;
    const plant::Plant& plant = bench.plant();
    const plant::LoopFluidState fluid = plant::loop_fluid_state(plant);
    const double litres_kg = 1e3 / fluid.fill_kg_m3;
    FluidCourse& course = result_.fluid;
    course.steam_h = plant.modes.loop.steam_s / 3600.0;
    course.hot_fluid_h = plant.modes.loop.hot_fluid_s / 3600.0;
    course.lost_l = fluid.lost_kg * litres_kg;
    course.can_l = fluid.can_kg * litres_kg;
    course.boiled_off_l = plant.books.of(plant::Edge::vent_mass) * litres_kg;
    course.tundish_l = plant::tundish_l(plant);
    course.burst = plant.modes.loop.burst;
}

/// An advice stands in the summary once, however often it comes.
void Recorder::keep(traces::Event event) {
    const bool given = event.what == "advice" && event.to == "on";
    const auto& known = result_.advice;
    if (given && std::find(known.begin(), known.end(), event.because) == known.end()) {
        result_.advice.push_back(event.because);
    }
    result_.events.push_back(std::move(event));
}

void Recorder::after_decision(const Bench& bench) {
    const firmware::Outputs& out = bench.outputs();
    for (traces::Event& event : notes_.after_decision(bench)) keep(std::move(event));
    const std::int64_t clock_s = second_of_day(bench.now());
    const bool was_on = !first_ && before_.pump_relay != 0;
    if (out.pump_relay != 0 && !was_on) {
        ++day_.pump_starts;
        if (day_.first_start_s < 0) day_.first_start_s = clock_s;
    }
    if (out.pump_relay == 0 && was_on) day_.last_stop_s = clock_s;
    if (out.backup_relay != 0 && (first_ || before_.backup_relay == 0)) ++day_.backup_starts;
    look(bench);
    write_row(bench);
    before_ = out;
    first_ = false;
}

void Recorder::write_row(const Bench& bench) {
    if ((bench.now() - bench.scenario().start_s) % bench.scenario().record.every_s != 0) return;
    row_.clear();
    for (const Column& column : columns_) row_.push_back(column.value(bench));
    result_.trace.append(bench.now(), row_);
}

void Recorder::after_stride(const Bench& bench, int seconds) {
    const double hours = seconds / 3600.0;
    if (bench.controller_powered()) {
        day_.reason_h[static_cast<std::size_t>(before_.pump_reason)] += hours;
    }
    day_.pump_run_h += before_.pump_relay * hours;
    // The weather runs straight between its knots: its middle is its mean.
    const WeatherNow sky =
        weather_at(bench.weather(), static_cast<double>(bench.now()) - 0.5 * seconds);
    const auto& rows = bench.scenario().plant.rows;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        day_.sun_kwh += kilowatt_hours(sky.received_w_m2[r] * rows[r].collector.area_m2 *
                                       rows[r].collectors_in_series * seconds);
    }
    day_.sun_kwh_m2 += kilowatt_hours(sky.received_w_m2[0] * seconds);
    const plant::StepReport& step = bench.plant().last;
    day_.pump_electricity_kwh += kilowatt_hours(step.pump.power_w * seconds);
    if (step.backup_on) day_.backup_run_h += hours;
    if (bench.tap_flow_kg_s() > 0.0) {
        day_.tap_hottest_c = std::max(day_.tap_hottest_c, step.delivered_c);
    }
    audit_.stretch(bench, seconds);
    if (second_of_day(bench.now()) == 0) close_day(bench);
}

void Recorder::close_day(const Bench& bench) {
    const plant::Books& books = bench.plant().books;
    day_.absorbed_kwh = since(books, day_books_, Edge::absorbed);
    day_.collector_loss_kwh = since(books, day_books_, Edge::collector_loss);
    day_.pipe_loss_kwh = since(books, day_books_, Edge::pipe_loss);
    day_.to_store_kwh = since(books, day_books_, Edge::coil);
    day_.store_loss_kwh = since(books, day_books_, Edge::store_loss);
    day_.circulation_loss_kwh = since(books, day_books_, Edge::circulation_loss);
    day_.backup_kwh = since(books, day_books_, Edge::backup);
    day_.tapped_kwh = kilowatt_hours(books.tapped_j() - day_books_.tapped_j());
    const plant::HouseholdTotals& taps = bench.household().totals;
    day_.missing_kwh = kilowatt_hours(taps.missing_j - day_taps_.missing_j);
    day_.tapped_l = taps.drawn_kg - day_taps_.drawn_kg;
    day_.cool_l = taps.below_comfort_kg - day_taps_.below_comfort_kg;
    day_.until_s = bench.now();
    add(result_.total, day_);
    result_.days.push_back(day_);
    day_books_ = books;
    day_taps_ = taps;
    day_ = sums_from(bench.now());
}

RunResult Recorder::finish(const Bench& bench) {
    end_of_fluid(bench);
    if (day_.from_s != bench.now()) close_day(bench);
    const plant::Plant& plant = bench.plant();
    const plant::Residual run = plant::balance_of_run(plant);
    result_.balance.run_residual_j = run.residual_j;
    result_.balance.run_throughput_j = plant.books.throughput_j();
    result_.balance.worst_step_ratio = plant.balance.worst_step_ratio;
    result_.balance.boundary_gap = audit_.largest_gap(bench);
    result_.balance.holds = run.holds() && plant.balance.worst_step_ratio <= 1.0;
    result_.store_change_kwh = kilowatt_hours(plant::view(plant).stored_j - stored_at_start_j_);
    result_.tally_kwh = bench.outputs().tally_wh / 1000.0;
    result_.messages = bench.messages();
    if (result_.scenario.record.sealed)
        result_.scenario.moves = shown_moves(result_.scenario.moves);
    return std::move(result_);
}

}  // namespace noonbench::harness
