// SPDX-License-Identifier: MIT
// What is constant during one second: the modes that have memory, and everything that follows from
// actions, levers and modes without the amounts of the moment.
#pragma once
#include "circuit.hpp"
#include "drive.hpp"
#include "levers.hpp"
#include "plant.hpp"
#include "pump.hpp"

#include <array>

namespace noonbench::plant {

struct Tick {
    PumpState pump{};
    double flow_kg_s = 0.0;  // of the loop; negative: backward through a leaking check valve
    std::array<double, most_rows> row_flow_kg_s{};
    std::array<double, most_coil_cells> coil_w_k{};
    std::array<int, most_coil_cells> coil_layer{};
    double tap_flow_kg_s = 0.0;
    double cold_j_kg = 0.0;
    double mixer_set_j_kg = 0.0;
    double mixer_stuck_share = -1.0;  // below 0: the valve works
    bool backup_on = false;
    double circulation_kg_s = 0.0;
    double inlet_jet = 0.0;
    double glass_clearness = 1.0;
    double hot_pipe_loss_factor = 1.0;
    double cold_pipe_loss_factor = 1.0;
    double store_loss_factor = 1.0;
    double connection_loss_factor = 1.0;
    double hot_pipe_convection = 0.0;
    double safety_kg_s = 0.0;  // out of the store's safety valve
    Levers levers{};           // for the pressure of a disturbed loop
    LoopMemory loop{};
    double stiffest_boiling_per_s = 0.0;
    std::array<double, most_rows> row_sensor_contact{};
    std::array<int, most_rows> row_sensor_cell{};
    double bottom_sensor_contact = 1.0;
    double top_sensor_contact = 1.0;
};

/// True from the start of a window to just before its end; pairs of seconds of the day.
[[nodiscard]] bool in_windows(const std::array<std::int32_t, 4>& windows_s, CivilSeconds now);

/// The modes of the coming second, from the amounts at its start.
[[nodiscard]] Modes switch_modes(const Circuit& circuit, const Levers& levers, CivilSeconds now,
                                 const Amounts& amounts, Modes modes);

/// How far the store's temperatures are from what would switch one of these modes, K.
[[nodiscard]] double store_switching_margin_k(const Circuit& circuit, const Amounts& amounts,
                                              const Modes& modes);

struct TickDrive {
    CivilSeconds now = 0;
    Actions actions{};
    double tap_flow_kg_s = 0.0;
};
[[nodiscard]] Tick make_tick(const Circuit& circuit, const Levers& levers, const Modes& modes,
                             const TickDrive& drive, const Amounts& amounts);

/// The loop's flow and the coil's conductances for other amounts within the tick.
void renew_flow(const Circuit& circuit, const Levers& levers, const Amounts& amounts, Tick& tick);

/// Upper estimate of the fastest rate in the plant, 1/s; decides on substeps.
[[nodiscard]] double stiffest_rate_per_s(const Circuit& circuit, const Tick& tick);

}  // namespace noonbench::plant
