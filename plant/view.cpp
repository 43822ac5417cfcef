// SPDX-License-Identifier: MIT
#include "circuit.hpp"
#include "loop_picture.hpp"
#include "plant.hpp"

#include <algorithm>
#include <cstddef>

namespace noonbench::plant {
namespace {

void show_bodies(const Plant& plant, View& shown) {
    const Circuit& c = *plant.circuit;
    const Layout& at = c.layout;
    Amounts t_c{};
    cell_temperatures(c, plant.amounts.data(), t_c.data());
    if (plant.modes.loop.regime != LoopRegime::calm) {
        const LoopPicture picture =
            look_at_loop(c, plant.levers, plant.modes.loop, plant.amounts.data());
        std::copy_n(picture.t_c.begin(), at.layers_first, t_c.begin());
    }
    shown.rows = at.rows;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        const double* first = t_c.data() + at.row_first[r];
        const double* end = first + at.row_cells[r];
        shown.row_inlet_c[r] = t_c[static_cast<std::size_t>(at.chain_cells - 1)];
        shown.row_outlet_c[r] = *(end - 1);
        shown.row_hottest_c[r] = *std::max_element(first, end);
    }
    shown.layers = at.layers;
    std::copy_n(t_c.data() + at.layers_first, at.layers, shown.layer_c.begin());
    const double* loop = t_c.data();
    shown.extrapolated = is_extrapolated(*std::max_element(loop, loop + at.layers_first));
    shown.stored_j = stored(at, plant.amounts).sum_j;
}

void show_powers(const EdgeAmounts& second, View& shown) {
    shown.absorbed_w = at(second, Edge::absorbed);
    shown.collector_loss_w = at(second, Edge::collector_loss);
    shown.collector_to_loop_w = at(second, Edge::collector_to_loop);
    shown.pipe_loss_w = at(second, Edge::pipe_loss);
    shown.pump_heat_w = at(second, Edge::pump_heat);
    shown.coil_w = at(second, Edge::coil);
    shown.store_loss_w = at(second, Edge::store_loss);
    shown.backup_w = at(second, Edge::backup);
    shown.tapped_w = at(second, Edge::hot_out) - at(second, Edge::cold_in);
    shown.circulation_loss_w = at(second, Edge::circulation_loss);
}

double cell_c(const Plant& plant, int cell) {
    const auto i = static_cast<std::size_t>(cell);
    const bool in_loop = cell < plant.circuit->layout.layers_first;
    if (in_loop && plant.modes.loop.regime != LoopRegime::calm) {
        return look_at_loop(*plant.circuit, plant.levers, plant.modes.loop, plant.amounts.data())
            .t_c[i];
    }
    return cell_temperature(*plant.circuit, i, plant.amounts[i]);
}

}  // namespace

double row_outlet_c(const Plant& plant, std::size_t row) {
    const Layout& at = plant.circuit->layout;
    return cell_c(plant, at.row_first[row] + at.row_cells[row] - 1);
}

double row_hottest_c(const Plant& plant, std::size_t row) {
    const Layout& at = plant.circuit->layout;
    double hottest_c = cell_c(plant, at.row_first[row]);
    for (int cell = 1; cell < at.row_cells[row]; ++cell) {
        hottest_c = std::max(hottest_c, cell_c(plant, at.row_first[row] + cell));
    }
    return hottest_c;
}

double layer_c(const Plant& plant, std::size_t layer) {
    return cell_c(plant, plant.circuit->layout.layers_first + static_cast<int>(layer));
}

Readings readings(const Plant& plant) {
    const Layout& at = plant.circuit->layout;
    const auto shown = [&plant](int sensor) {
        return plant.amounts[static_cast<std::size_t>(sensor)];
    };
    Readings all;
    all.collector_sensor_c = shown(at.row_sensor);
    all.second_collector_sensor_c = shown(at.row_sensor + std::min(1, at.rows - 1));
    all.store_bottom_sensor_c = shown(at.store_bottom_sensor);
    all.store_top_sensor_c = shown(at.store_top_sensor);
    all.station_hot_c = shown(at.station_hot_sensor);
    all.station_cold_c = shown(at.station_cold_sensor);
    return all;
}

View view(const Plant& plant) {
    View shown;
    shown.sensors = readings(plant);
    show_bodies(plant, shown);
    show_powers(plant.last.edges, shown);
    const PumpState& pump = plant.last.pump;
    shown.flow_m3_s = plant.last.flow_m3_s;
    shown.pump_powered = pump.powered;
    shown.pump_turning = pump.turning;
    shown.fluid_moving = shown.flow_m3_s != 0.0;
    shown.pump_power_w = pump.power_w;
    shown.high_limit_tripped = plant.modes.high_limit_tripped;
    shown.backup_on = plant.last.backup_on;
    shown.circulation_on = plant.last.circulation_on;
    shown.delivered_c = plant.last.delivered_c;
    shown.hot_draw_kg_s = plant.last.hot_draw_kg_s;
    return shown;
}

}  // namespace noonbench::plant
