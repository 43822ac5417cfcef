// SPDX-License-Identifier: MIT
#include "plant.hpp"

#include "advance.hpp"
#include "circuit.hpp"
#include "loop_events.hpp"
#include "loop_picture.hpp"
#include "rhs.hpp"
#include "solver.hpp"
#include "tick.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

constexpr double atmosphere_air_c = 20.0;  // of the litres in which bubbles are given

double store_start_c(const Layout& at, int layer, double bottom_c, double top_c) {
    return at.layers == 1 ? 0.5 * (bottom_c + top_c)
                          : bottom_c + (top_c - bottom_c) * layer / (at.layers - 1);
}

void start_sensors(Plant& plant, double air_c) {
    const Circuit& c = *plant.circuit;
    const Layout& at = c.layout;
    Amounts t_c{};
    cell_temperatures(c, plant.amounts.data(), t_c.data());
    const auto set = [&plant](int sensor, double shown_c) {
        plant.amounts[static_cast<std::size_t>(sensor)] = shown_c;
    };
    for (int r = 0; r < at.rows; ++r) set(at.row_sensor + r, air_c);
    const double* layer_c = t_c.data() + at.layers_first;
    set(at.store_bottom_sensor, at_point_c(c.store.bottom_sensor, layer_c));
    set(at.store_top_sensor, at_point_c(c.store.top_sensor, layer_c));
    set(at.station_hot_sensor, c.store.room_c);
    set(at.station_cold_sensor, c.store.room_c);
}

// The loop as it was filled. The bubbles of a new fill were in it when the gauge showed the fill
// pressure, so they took their room from the vessel's reserve: as they leave, the gauge falls.
void start_loop(Plant& plant) {
    const Circuit& c = *plant.circuit;
    const Layout& at = c.layout;
    const auto set = [&plant](int index, double value) {
        plant.amounts[static_cast<std::size_t>(index)] = value;
    };
    for (int r = 0; r < at.rows; ++r) {
        set(at.row_kg_first + r, c.row_full_kg[static_cast<std::size_t>(r)]);
    }
    const FilledLoop& filled = c.filled;
    const double bubbles_kg = c.parameters.loop.fresh_bubbles_m3 /
                              air_volume_m3(1.0, atmosphere_air_c, filled.atmosphere_pa);
    const double bubbles_m3 =
        air_volume_m3(bubbles_kg, atmosphere_air_c,
                      std::max(least_top_pa, filled.room.fill_pa - filled.room.static_pa));
    const double reserve_kg = std::max(0.0, filled.reserve_kg - bubbles_m3 * filled.fill_kg_m3);
    plant.modes.loop.bubbles_kg = bubbles_kg;
    set(at.vessel_kg, reserve_kg);
    set(at.vessel, vessel_energy_j(c, reserve_kg, filled.vessel_c));
}

}  // namespace

Plant make_plant(const Parameters& parameters, double start_store_bottom_c,
                 double start_store_top_c, double start_air_c) {
    Plant plant;
    plant.circuit = std::make_shared<const Circuit>(make_circuit(parameters));
    const Circuit& c = *plant.circuit;
    const Layout& at = c.layout;
    const auto fill = [&](int cell, double t_c) {
        plant.amounts[static_cast<std::size_t>(cell)] = cell_energy_j(c, cell, t_c);
    };
    for (int i = 0; i < at.chain_cells; ++i) fill(i, c.store.room_c);
    // Nobody finds a loop frozen when the run begins.
    const double rows_c = c.freezes ? std::max(start_air_c, c.icy.freezing_c) : start_air_c;
    for (int i = at.chain_cells; i < at.layers_first; ++i) fill(i, rows_c);
    for (int k = 0; k < at.layers; ++k) {
        fill(at.layers_first + k, store_start_c(at, k, start_store_bottom_c, start_store_top_c));
    }
    for (int k = 0; k < at.coil_cells; ++k) {  // a coil at rest has its layer's temperature
        const int layer = c.coil_layer[static_cast<std::size_t>(k)];
        fill(at.coil + k, store_start_c(at, layer, start_store_bottom_c, start_store_top_c));
    }
    start_loop(plant);
    start_sensors(plant, start_air_c);
    plant.balance.stored_at_start_j = stored(at, plant.amounts).sum_j;
    plant.filled_kg = loop_fluid_kg(plant);
    return plant;
}

const Parameters& parameters_of(const Plant& plant) {
    return plant.circuit->parameters;
}

const Layout& layout_of(const Plant& plant) {
    return plant.circuit->layout;
}

bool full_flow_reached(const Plant& plant) {
    const Circuit& c = *plant.circuit;
    return c.parameters.loop.hydraulics == Hydraulics::given || c.hydraulics.full_flow_reached;
}

namespace {

// Without its own expansion vessel the store's water that expands drips from the cold side; water
// that shrinks is made up by the mains. The store's layers keep their mass in the books.
void drip(Plant& plant, const Amounts& before) {
    const Circuit& c = *plant.circuit;
    double grown_m3 = 0.0;
    for (int layer = 0; layer < c.layout.layers; ++layer) {
        const int cell = c.layout.layers_first + layer;
        const auto i = static_cast<std::size_t>(cell);
        grown_m3 += c.store.layer_kg * (c.water.at(cell_temperature(c, i, plant.amounts[i])) -
                                        c.water.at(cell_temperature(c, i, before[i])));
    }
    if (plant.last.tap_flow_kg_s == 0.0) {
        plant.modes.loop.potable_drip_m3 += std::max(grown_m3, 0.0);
    }
}

}  // namespace

void report_delivery(double cold_j_kg, StepReport& report) {
    report.hot_draw_kg_s = at(report.edges, Edge::hot_mass);
    report.delivered_energy_j = at(report.edges, Edge::hot_out) - at(report.edges, Edge::cold_in);
    const double over_cold_j_kg =
        report.tap_flow_kg_s > 0.0 ? report.delivered_energy_j / report.tap_flow_kg_s : 0.0;
    report.delivered_c = water_heat_content.temperature_c(cold_j_kg + over_cold_j_kg);
}

Begun begin_stretch(Plant& plant, CivilSeconds now) {
    const Circuit& c = *plant.circuit;
    Begun begun;
    std::copy_n(plant.amounts.begin(), c.layout.cells, begun.before.begin());
    loop_events(c, plant.levers, plant.last.flow_m3_s, plant.amounts, plant.modes.loop,
                begun.jumps);
    plant.modes = switch_modes(c, plant.levers, now, plant.amounts, plant.modes);
    return begun;
}

void end_stretch(Plant& plant, const Begun& begun, int seconds, StepReport& report) {
    for (std::size_t e = 0; e < begun.jumps.size(); ++e) report.edges[e] += begun.jumps[e];
    report.residual =
        step_residual(plant.circuit->layout, begun.before, plant.amounts, report.edges);
    plant.books.add(report.edges);
    const double ratio = std::abs(report.residual.residual_j) / report.residual.bound_j;
    if (!(ratio <= plant.balance.worst_step_ratio)) {  // a NaN counts as worst and stays
        plant.balance.worst_step_ratio = ratio;
        plant.balance.worst_step = report.residual;
    }
    plant.balance.steps += seconds;
}

StepReport one_second(Plant& plant, const Begun& begun, const WeatherSpan& weather,
                      CivilSeconds now, const Actions& actions, double tap_flow_kg_s) {
    const Circuit& c = *plant.circuit;
    const Tick tick =
        make_tick(c, plant.levers, plant.modes, {now, actions, tap_flow_kg_s}, plant.amounts);
    StepReport report;
    report.pump = tick.pump;
    report.flow_m3_s = tick.flow_kg_s / c.loop_density_kg_m3;
    report.backup_on = tick.backup_on;
    report.circulation_on = tick.circulation_kg_s > 0.0;
    report.substeps = substeps_needed(c, tick);
    report.edges =
        integrate_second(c, {weather, now, tick}, plant.method, report.substeps, plant.amounts);
    report.tap_flow_kg_s = tick.tap_flow_kg_s;
    report_delivery(tick.cold_j_kg, report);
    if (!is_set(plant.levers.potable_vessel_healthy)) drip(plant, begun.before);
    end_stretch(plant, begun, 1, report);
    plant.last = report;
    return report;
}

StepReport advance(Plant& plant, const WeatherSpan& weather, CivilSeconds now,
                   const Actions& actions, double tap_flow_kg_s) {
    const Begun begun = begin_stretch(plant, now);
    return one_second(plant, begun, weather, now, actions, tap_flow_kg_s);
}

Residual balance_of_run(const Plant& plant, Edge left_out) {
    return run_residual(stored(plant.circuit->layout, plant.amounts), plant.balance, plant.books,
                        left_out);
}

}  // namespace noonbench::plant
