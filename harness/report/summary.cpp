// SPDX-License-Identifier: MIT
#include "summary.hpp"

#include "json_text.hpp"
#include "verdict_json.hpp"

#include "firmware-model/reason.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/words.hpp"

#include <boost/json.hpp>

#include <cmath>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

/// Rounded to `decimals`; Boost.JSON then writes the shortest text that reads back the same.
double rounded(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double r = std::round(value * scale) / scale;
    return r == 0.0 ? 0.0 : r;  // no "-0"
}

json::value clock_or_null(std::int64_t second) {
    return second < 0 ? json::value(nullptr) : json::value(clock_text(second));
}

json::object sums_json(const Sums& s) {
    json::object reasons;
    for (std::size_t i = 0; i < s.reason_h.size(); ++i) {
        if (s.reason_h[i] > 0.0) {
            reasons[firmware::name_of(static_cast<firmware::PumpReason>(i))] =
                rounded(s.reason_h[i], 3);
        }
    }
    return {{"from", date_time_text(s.from_s)},
            {"until", date_time_text(s.until_s)},
            {"sun_on_first_row_kwh_m2", rounded(s.sun_kwh_m2, 3)},
            {"sun_on_all_glass_kwh", rounded(s.sun_kwh, 3)},
            {"absorbed_kwh", rounded(s.absorbed_kwh, 3)},
            {"collector_loss_kwh", rounded(s.collector_loss_kwh, 3)},
            {"pipe_loss_kwh", rounded(s.pipe_loss_kwh, 3)},
            {"to_store_kwh", rounded(s.to_store_kwh, 3)},
            {"store_loss_kwh", rounded(s.store_loss_kwh, 3)},
            {"circulation_loss_kwh", rounded(s.circulation_loss_kwh, 3)},
            {"backup_kwh", rounded(s.backup_kwh, 3)},
            {"tapped_kwh", rounded(s.tapped_kwh, 3)},
            {"missing_at_tap_kwh", rounded(s.missing_kwh, 3)},
            {"pump_electricity_kwh", rounded(s.pump_electricity_kwh, 4)},
            {"tapped_l", rounded(s.tapped_l, 1)},
            {"below_comfort_l", rounded(s.cool_l, 1)},
            {"pump_run_h", rounded(s.pump_run_h, 3)},
            {"pump_starts", s.pump_starts},
            {"backup_run_h", rounded(s.backup_run_h, 3)},
            {"backup_starts", s.backup_starts},
            {"stagnation_h", rounded(s.stagnation_h, 2)},
            {"collector_highest_c", rounded(s.collector_highest_c, 1)},
            {"collector_lowest_c", rounded(s.collector_lowest_c, 1)},
            {"tap_hottest_c",
             s.tap_hottest_c < 0.0 ? json::value(nullptr) : rounded(s.tap_hottest_c, 1)},
            {"store_bottom_lowest_c", rounded(s.store_bottom_lowest_c, 1)},
            {"store_bottom_highest_c", rounded(s.store_bottom_highest_c, 1)},
            {"store_top_lowest_c", rounded(s.store_top_lowest_c, 1)},
            {"store_top_highest_c", rounded(s.store_top_highest_c, 1)},
            {"gauge_least_bar", rounded(s.gauge_least_bar, 2)},
            {"gauge_highest_bar", rounded(s.gauge_highest_bar, 2)},
            {"hours_by_pump_reason", std::move(reasons)}};
}

json::array all_of(const std::vector<Sums>& sums, bool with_clock) {
    json::array array;
    for (const Sums& s : sums) {
        json::object object = sums_json(s);
        if (with_clock) {
            object["first_start"] = clock_or_null(s.first_start_s);
            object["last_stop"] = clock_or_null(s.last_stop_s);
        }
        array.push_back(std::move(object));
    }
    return array;
}

json::array texts(const std::vector<std::string>& lines) {
    json::array array;
    for (const std::string& line : lines) array.push_back(json::value(line));
    return array;
}

json::object settings_json(const firmware::Settings& settings) {
    json::object object;
    for (std::size_t i = 0; i < firmware::setting_count; ++i) {
        const auto setting = static_cast<firmware::Setting>(i);
        object[firmware::setting_table()[i].name] = setting_text(setting, settings[setting]);
    }
    return object;
}

json::object balance_json(const RunResult& r) {
    return {
        {"holds", r.balance.holds},
        {"run_residual_j", rounded(r.balance.run_residual_j, 9)},
        {"run_throughput_j", rounded(r.balance.run_throughput_j, 0)},
        {"worst_step_residual_over_bound", rounded(r.balance.worst_step_ratio, 6)},
        {"boundary_powers_gap", rounded(r.balance.boundary_gap, 9)},
        {"says", "the residual finds leaks in the book-keeping, not wrong physics or step error"}};
}

json::object fluid_json(const FluidCourse& fluid) {
    return {{"most_steam_l", rounded(fluid.most_steam_l, 3)},
            {"steam_h", rounded(fluid.steam_h, 3)},
            {"most_gas_l", rounded(fluid.most_gas_l, 3)},
            {"most_ice_share", rounded(fluid.most_ice_share, 3)},
            {"fluid_above_140_degc_h", rounded(fluid.hot_fluid_h, 3)},
            {"lost_l", rounded(fluid.lost_l, 3)},
            {"in_the_can_l", rounded(fluid.can_l, 3)},
            {"boiled_off_l", rounded(fluid.boiled_off_l, 3)},
            {"tundish_l", rounded(fluid.tundish_l, 3)},
            {"burst", fluid.burst}};
}

}  // namespace

std::string summary_json(const RunResult& r, std::span<const Verdict> verdicts) {
    json::object summary{{"title", r.scenario.title},
                         {"scenario", r.scenario.name},
                         {"seed", r.scenario.seed},
                         {"requirements", verdicts_json(verdicts)},
                         {"total", sums_json(r.total)},
                         {"stored_change_kwh", rounded(r.store_change_kwh, 3)},
                         {"heat_counter_kwh", rounded(r.tally_kwh, 3)},
                         {"boiling_point_at_top_c", rounded(r.boiling_point_c, 1)},
                         {"balance", balance_json(r)},
                         {"advice", texts(r.advice)},
                         {"cautions", texts(r.cautions)},
                         {"messages", texts(r.messages)},
                         {"settings", settings_json(r.scenario.controller.settings)},
                         {"months", all_of(r.months, false)},
                         {"days", all_of(r.days, true)}};
    if (r.scenario.plant.loop.hydraulics == plant::Hydraulics::solved) {
        summary["loop_fluid"] = fluid_json(r.fluid);
    }
    return json_lines(summary);
}

}  // namespace noonbench::harness
