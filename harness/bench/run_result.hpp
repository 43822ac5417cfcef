// SPDX-License-Identifier: MIT
// What one run leaves: the trace, the events, sums for each day and for the whole, and what must
// be said beside them. Plain data; the report and the summary are made from this and nothing else.
#pragma once
#include "firmware-model/settings.hpp"
#include "traces/table.hpp"

#include "harness/scenario/scenario.hpp"

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Sums over a day of local standard time (or over the whole run). Energies in kWh.
struct Sums {
    std::int64_t from_s = 0;  // civil seconds, see traces/table.hpp
    std::int64_t until_s = 0;
    double sun_kwh_m2 = 0.0;    // received on the first row's plane
    double sun_kwh = 0.0;       // received on all glass
    double absorbed_kwh = 0.0;  // after glass and absorber
    double collector_loss_kwh = 0.0;
    double pipe_loss_kwh = 0.0;
    double to_store_kwh = 0.0;  // through the solar coil, net
    double store_loss_kwh = 0.0;
    double circulation_loss_kwh = 0.0;
    double backup_kwh = 0.0;
    double tapped_kwh = 0.0;   // over mains temperature
    double missing_kwh = 0.0;  // asked for at the tap but not delivered warm enough
    double pump_electricity_kwh = 0.0;
    double tapped_l = 0.0;  // at the tap
    double cool_l = 0.0;    // of these, below comfort
    double pump_run_h = 0.0;
    double backup_run_h = 0.0;
    double stagnation_h = 0.0;  // collector above 120 degC
    std::int64_t pump_starts = 0;
    std::int64_t backup_starts = 0;
    std::int64_t first_start_s = -1;  // second of the day of the first and last pump switching
    std::int64_t last_stop_s = -1;
    double collector_highest_c = -99.0;
    double collector_lowest_c = 999.0;
    double store_bottom_lowest_c = 999.0;
    double store_bottom_highest_c = -99.0;
    double store_top_lowest_c = 999.0;
    double store_top_highest_c = -99.0;
    double tap_hottest_c = -99.0;
    double gauge_least_bar = 1e9;
    double gauge_highest_bar = -1e9;
    std::array<double, firmware::pump_reason_count> reason_h{};  // hours with each pump reason
};

/// The checks of the books; see DEVELOPERS.md, "What the balance can and cannot show".
struct BalanceCheck {
    double run_residual_j = 0.0;
    double run_throughput_j = 0.0;
    double worst_step_ratio = 0.0;  // largest |residual| / bound of any step; holds when <= 1
    double boundary_gap = 0.0;      // largest relative gap of boundary powers summed from readouts
    bool holds = false;
};

/// What became of the loop's fluid, with solved hydraulics; litres count at the fill temperature.
struct FluidCourse {
    double most_steam_l = 0.0;
    double steam_h = 0.0;         // with steam in a collector
    double most_gas_l = 0.0;      // air at the top, or a cavity
    double most_ice_share = 0.0;  // of the place that held most
    double hot_fluid_h = 0.0;     // wet fluid above plant::ageing_from_c
    double lost_l = 0.0;          // by relief valve, leak, vent and burst
    double can_l = 0.0;           // of these, in the can under the relief valve
    double boiled_off_l = 0.0;    // of these, as steam through an open vent
    double tundish_l = 0.0;       // from the store: cold-side expansion and its safety valve
    bool burst = false;           // ice split an absorber
};

struct RunResult {
    Scenario scenario;
    traces::Table trace;
    std::vector<traces::Event> events;
    std::vector<Sums> days;    // one for each day of the run
    std::vector<Sums> months;  // filled for runs longer than 62 days
    Sums total;
    double store_change_kwh = 0.0;      // stored at the end minus at the start, store and loop
    double tally_kwh = 0.0;             // what the controller's own heat counter says
    std::vector<std::string> advice;    // texts of all advice given, in order of first appearance
    std::vector<std::string> cautions;  // that this run touches: steam, scald, frost, ...
    std::vector<std::string> messages;  // weather file convention, filled gaps, extrapolation, ...
    double boiling_point_c = 0.0;       // at the collector's top at the run's start
    BalanceCheck balance;
    FluidCourse fluid;  // all zero with given hydraulics
};

}  // namespace noonbench::harness
