// SPDX-License-Identifier: MIT
#include "tick.hpp"

#include "boiling.hpp"
#include "coil.hpp"
#include "loop_picture.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

// The store's temperature-and-pressure valve: what it lets out, and how far it cools the top before
// it shuts. Common practice, no source.
constexpr double safety_valve_kg_s = 0.15;
constexpr double safety_valve_band_k = 4.0;

double cell_temperature_c(const Circuit& c, const Amounts& amounts, int cell) {
    const auto i = static_cast<std::size_t>(cell);
    return 2.0 * amounts[i] / (c.b_j_k[i] + std::sqrt(c.b_squared[i] + c.four_a[i] * amounts[i]));
}

double at_point_c(const Circuit& c, const Amounts& amounts, const LayerPoint& point) {
    const int lower = c.layout.layers_first + point.lower;
    const double lower_c = cell_temperature_c(c, amounts, lower);
    if (point.upper_share == 0.0) return lower_c;
    const double upper_c = cell_temperature_c(c, amounts, lower + 1);
    return lower_c + point.upper_share * (upper_c - lower_c);
}

// Reverse flow while the pump rests, kg/s: the warm coil drives fluid up the hot pipe into a cold
// collector. Laminar, so in proportion to the difference; 30 K through a fully open valve give
// about 0.2 l/min, which empties the one to three kilowatt hours a night that such stores lose.
double reverse_flow_kg_s(const Circuit& c, const Levers& levers, const Amounts& amounts) {
    constexpr double open_valve_kg_s_k = 1.1e-4;  // chosen for the above; rough
    double collectors_c = 0.0;
    int cells = 0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(c.layout.rows); ++r) {
        for (int i = 0; i < c.layout.row_cells[r]; ++i, ++cells) {
            collectors_c += cell_temperature_c(c, amounts, c.layout.row_first[r] + i);
        }
    }
    const double excess_k = cell_temperature_c(c, amounts, c.layout.coil) - collectors_c / cells;
    return levers.check_valve_leak * open_valve_kg_s_k * std::max(excess_k, 0.0);
}

// Solved hydraulics: the flow at which pressures balance, with the temperatures of this moment.
// It is a mass flow, so litres are counted at 20 degC as everywhere.
LoopFlow solved_flow(const Circuit& c, const Amounts& amounts, double level, Tick& tick) {
    if (tick.loop.regime == LoopRegime::calm) {
        return solve_loop(c.hydraulics, loop_fluids(c, amounts), level, tick.levers);
    }
    const LoopPicture picture = look_at_loop(c, tick.levers, tick.loop, amounts.data());
    tick.stiffest_boiling_per_s = stiffest_boiling_per_s(c, picture);
    return solve_loop(c.hydraulics, loop_fluids(c, picture), level, tick.levers,
                      obstacles_of(c, picture));
}

void solve_flow(const Circuit& c, const Levers& levers, const Amounts& amounts, Tick& tick) {
    const double level = tick.pump.turning ? tick.pump.level : 0.0;
    const LoopFlow solved = solved_flow(c, amounts, level, tick);
    tick.flow_kg_s = solved.total_kg_s * levers.flow_factor;
    for (std::size_t r = 0; r < tick.row_flow_kg_s.size(); ++r) {
        tick.row_flow_kg_s[r] = solved.row_kg_s[r] * levers.flow_factor;
    }
    tick.pump.moving = tick.pump.turning && tick.flow_kg_s > 0.0;
    tick.pump.flow_m3_s = tick.pump.moving ? tick.flow_kg_s / c.loop_density_kg_m3 : 0.0;
}

void share_flow(const Circuit& c, const Levers& levers, Tick& tick) {
    const std::array factors{levers.row_1_flow_factor, levers.row_2_flow_factor,
                             levers.row_3_flow_factor, levers.row_4_flow_factor,
                             levers.row_5_flow_factor};
    const auto rows = static_cast<std::size_t>(c.layout.rows);
    double weights = 0.0;
    for (std::size_t r = 0; r < rows; ++r) {
        tick.row_flow_kg_s[r] = factors[r] * c.rows[r].cell_area_m2 * c.rows[r].cells;
        weights += tick.row_flow_kg_s[r];
    }
    if (weights <= 0.0) tick.flow_kg_s = 0.0;
    for (std::size_t r = 0; r < rows; ++r) {
        tick.row_flow_kg_s[r] *= weights > 0.0 ? tick.flow_kg_s / weights : 0.0;
    }
}

// Given hydraulics: full flow in proportion to the pump's level.
void give_flow(const Circuit& c, const Levers& levers, const Amounts& amounts, Tick& tick) {
    tick.flow_kg_s = tick.pump.flow_m3_s * c.loop_density_kg_m3;
    if (!tick.pump.moving && levers.check_valve_leak > 0.0) {
        tick.flow_kg_s = -reverse_flow_kg_s(c, levers, amounts);
    }
    share_flow(c, levers, tick);
    if (tick.flow_kg_s == 0.0) {
        tick.pump.moving = false;
        tick.pump.flow_m3_s = 0.0;
    }
}

void set_coil(const Circuit& c, const Levers& levers, Tick& tick) {
    const double flow_w_k = std::abs(tick.flow_kg_s) * c.loop_cp_j_kgk;
    const bool crossed = is_set(levers.coil_ports_crossed);
    const auto cells = static_cast<std::size_t>(c.layout.coil_cells);
    double ua_w_k = 0.0;
    for (std::size_t k = 0; k < cells; ++k) {
        const std::size_t from = crossed ? cells - 1 - k : k;
        tick.coil_layer[k] = c.coil_layer[from];
        const bool is_like_last = k > 0 && c.coil_ua_w_k[from] == ua_w_k;  // all but the ends are
        ua_w_k = c.coil_ua_w_k[from];
        tick.coil_w_k[k] = is_like_last
                               ? tick.coil_w_k[k - 1]
                               : cell_conductance_w_k(ua_w_k * levers.coil_fouling, flow_w_k);
    }
}

void set_sensors(const Circuit& c, const Levers& levers, Tick& tick) {
    const bool crossed = is_set(levers.collector_pipes_crossed);
    for (std::size_t r = 0; r < static_cast<std::size_t>(c.layout.rows); ++r) {
        const Row& row = c.parameters.rows[r];
        const bool at_hot_end = (row.sensor_place == CollectorSensorPlace::hot_end) != crossed;
        tick.row_sensor_cell[r] =
            c.layout.row_first[r] + (at_hot_end ? c.layout.row_cells[r] - 1 : 0);
        tick.row_sensor_contact[r] = row.sensor_contact;
    }
    tick.row_sensor_contact[0] *= levers.collector_sensor_contact;
    tick.row_sensor_contact[1] *= levers.second_collector_sensor_contact;
    const Store& store = c.parameters.store;
    tick.bottom_sensor_contact = store.bottom_sensor_contact * levers.store_bottom_sensor_contact;
    tick.top_sensor_contact = store.top_sensor_contact * levers.store_top_sensor_contact;
}

}  // namespace

bool in_windows(const std::array<std::int32_t, 4>& windows_s, CivilSeconds now) {
    const CivilSeconds rest = now % seconds_a_day;
    const CivilSeconds of_day = rest < 0 ? rest + seconds_a_day : rest;
    return (of_day >= windows_s[0] && of_day < windows_s[1]) ||
           (of_day >= windows_s[2] && of_day < windows_s[3]);
}

Modes switch_modes(const Circuit& circuit, const Levers& levers, CivilSeconds now,
                   const Amounts& amounts, Modes modes) {
    const Store& store = circuit.parameters.store;
    const int top = circuit.layout.layers_first + circuit.layout.layers - 1;
    if (!is_set(levers.high_limit_closed)) {
        modes.high_limit_tripped = false;  // held open by the lever; its return is the reset
    } else if (store.high_limit_fitted &&
               cell_temperature_c(circuit, amounts, top) > store.high_limit_c) {
        modes.high_limit_tripped = true;
    }
    const double top_c = cell_temperature_c(circuit, amounts, top);
    modes.safety_valve_open =
        top_c > store.safety_valve_c - (modes.safety_valve_open ? safety_valve_band_k : 0.0);
    const Backup& backup = circuit.parameters.backup;
    if (backup.by_controller || backup.kind == BackupKind::none) {
        modes.own_thermostat_on = false;
        return modes;
    }
    const double sensed_c = at_point_c(circuit, amounts, circuit.store.own_thermostat);
    if (!in_windows(backup.own_windows_s, now) || sensed_c >= backup.own_target_c) {
        modes.own_thermostat_on = false;
    } else if (sensed_c < backup.own_target_c - backup.own_hysteresis_k) {
        modes.own_thermostat_on = true;
    }
    return modes;
}

double store_switching_margin_k(const Circuit& circuit, const Amounts& amounts,
                                const Modes& modes) {
    const Store& store = circuit.parameters.store;
    const int top = circuit.layout.layers_first + circuit.layout.layers - 1;
    const double top_c = cell_temperature_c(circuit, amounts, top);
    double margin_k = std::abs(
        top_c - (store.safety_valve_c - (modes.safety_valve_open ? safety_valve_band_k : 0.0)));
    if (store.high_limit_fitted && !modes.high_limit_tripped) {
        margin_k = std::min(margin_k, std::abs(top_c - store.high_limit_c));
    }
    const Backup& backup = circuit.parameters.backup;
    if (backup.by_controller || backup.kind == BackupKind::none) return margin_k;
    const double sensed_c = at_point_c(circuit, amounts, circuit.store.own_thermostat);
    const double switches_c =
        backup.own_target_c - (modes.own_thermostat_on ? 0.0 : backup.own_hysteresis_k);
    return std::min(margin_k, std::abs(sensed_c - switches_c));
}

void renew_flow(const Circuit& circuit, const Levers& levers, const Amounts& amounts, Tick& tick) {
    if (circuit.parameters.loop.hydraulics == Hydraulics::solved) {
        solve_flow(circuit, levers, amounts, tick);
    } else {
        give_flow(circuit, levers, amounts, tick);
    }
    set_coil(circuit, levers, tick);
}

Tick make_tick(const Circuit& circuit, const Levers& levers, const Modes& modes,
               const TickDrive& drive, const Amounts& amounts) {
    const Parameters& p = circuit.parameters;
    Tick tick;
    tick.levers = levers;
    tick.loop = modes.loop;
    tick.pump = pump_state(p.loop.pump, drive.actions, levers, modes.high_limit_tripped);
    renew_flow(circuit, levers, amounts, tick);
    set_sensors(circuit, levers, tick);
    tick.tap_flow_kg_s = std::max(drive.tap_flow_kg_s, 0.0);
    tick.cold_j_kg = water_heat_content.energy_j_kg(drive.actions.mains_c);
    tick.mixer_set_j_kg =
        water_heat_content.energy_j_kg(p.tap.mixer_set_c + levers.mixer_set_shift_k);
    tick.mixer_stuck_share = p.tap.mixer_fitted ? levers.mixer_stuck_share : 1.0;
    const bool asked =
        p.backup.by_controller ? drive.actions.backup_asked : modes.own_thermostat_on;
    tick.backup_on = p.backup.kind != BackupKind::none && !modes.high_limit_tripped &&
                     !is_set(levers.backup_blocked) && (asked || is_set(levers.backup_forced));
    const bool circulating =
        p.circulation.fitted &&
        (is_set(levers.circulation_forced) || in_windows(p.circulation.running_s, drive.now));
    tick.circulation_kg_s = circulating ? p.circulation.flow_kg_s : 0.0;
    tick.inlet_jet = levers.inlet_jet;
    tick.glass_clearness = levers.glass_clearness;
    tick.hot_pipe_loss_factor = levers.hot_pipe_loss_factor;
    tick.cold_pipe_loss_factor = levers.cold_pipe_loss_factor;
    tick.store_loss_factor = levers.store_loss_factor;
    tick.connection_loss_factor = levers.connection_loss_factor;
    tick.hot_pipe_convection = levers.hot_pipe_convection;
    if (modes.safety_valve_open) tick.safety_kg_s = safety_valve_kg_s;
    return tick;
}

double stiffest_rate_per_s(const Circuit& circuit, const Tick& tick) {
    constexpr double warm_cp = 1.1;  // glycol at 100 degC against loop_cp at 50 degC, rounded up
    const double flow_w_k = std::abs(tick.flow_kg_s) * circuit.loop_cp_j_kgk * warm_cp;
    double coil_w_k = 0.0;
    for (std::size_t k = 0; k < static_cast<std::size_t>(circuit.layout.coil_cells); ++k) {
        coil_w_k = std::max(coil_w_k, tick.coil_w_k[k]);
    }
    double rate = std::max(flow_w_k * circuit.quickest_chain_k_j,
                           (flow_w_k + coil_w_k) * circuit.quickest_coil_k_j);
    for (std::size_t r = 0; r < static_cast<std::size_t>(circuit.layout.rows); ++r) {
        const double row_w_k = std::abs(tick.row_flow_kg_s[r]) * circuit.loop_cp_j_kgk * warm_cp;
        rate = std::max(rate, row_w_k * circuit.quickest_row_k_j[r]);
    }
    const StoreCoefficients& store = circuit.store;
    const double exchanged = 1.0 + 4.0 * (store.inlet_stir[0] + jet_exchange * tick.inlet_jet);
    const double water_per_s =
        ((tick.tap_flow_kg_s + tick.safety_kg_s) * exchanged + tick.circulation_kg_s) /
        store.layer_kg;
    // A chain of equal conductances: 4 G/C; all pairs of N layers: N G/C.
    const double conduction_per_s =
        (4.0 * (store.conduction_w_k + store.buoyancy_w_k) + store.layers * store.plume_w_k) /
        store.layer_j_k;
    rate = std::max(rate, conduction_per_s + water_per_s + coil_w_k / store.layer_j_k);
    return rate + tick.stiffest_boiling_per_s;
}

}  // namespace noonbench::plant
