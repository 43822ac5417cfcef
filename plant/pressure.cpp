// SPDX-License-Identifier: MIT
// The pressure of a plant's loop as it stands, worked out when asked for.
#include "circuit.hpp"
#include "loop_picture.hpp"
#include "plant.hpp"

#include <algorithm>
#include <cstddef>

namespace noonbench::plant {

LoopPressure loop_pressure(const Plant& plant) {
    const Circuit& c = *plant.circuit;
    const LoopPicture picture =
        look_at_loop(c, plant.levers, plant.modes.loop, plant.amounts.data());
    const double atmosphere_pa = c.filled.atmosphere_pa;
    return {picture.pressure.gauge_pa - atmosphere_pa, picture.pressure.top_pa - atmosphere_pa,
            atmosphere_pa, picture.pressure.cavity_m3};
}

double gauge_pressure_pa(const Plant& plant) {
    return loop_pressure(plant).gauge_pa;
}

double top_pressure_pa(const Plant& plant) {
    return loop_pressure(plant).top_pa;
}

namespace {

double loop_kg(const Circuit& c, const Amounts& amounts, const LoopMemory& memory) {
    const Layout& at = c.layout;
    double kg = memory.set_aside_kg + amounts[static_cast<std::size_t>(at.vessel_kg)];
    for (std::size_t i = 0; i < static_cast<std::size_t>(at.chain_cells); ++i) kg += c.fluid_kg[i];
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        kg += amounts[static_cast<std::size_t>(at.row_kg_first) + r] +
              amounts[static_cast<std::size_t>(at.steam_first) + r] / steam_j_kg(c);
    }
    return kg;
}

}  // namespace

double loop_fluid_kg(const Plant& plant) {
    return loop_kg(*plant.circuit, plant.amounts, plant.modes.loop);
}

LoopFluidState loop_fluid_state(const Plant& plant) {
    const Circuit& c = *plant.circuit;
    const LoopPicture picture =
        look_at_loop(c, plant.levers, plant.modes.loop, plant.amounts.data());
    LoopFluidState state;
    state.steam_m3 = picture.steam_m3;
    state.gas_m3 = picture.air_m3 + picture.pressure.cavity_m3;
    state.most_ice_share = picture.most_ice;
    state.vessel_c = picture.vessel_c;
    state.can_kg = plant.books.of(Edge::relief_mass);
    state.lost_kg =
        state.can_kg + plant.books.of(Edge::leak_mass) + plant.books.of(Edge::vent_mass);
    state.fill_kg_m3 = c.filled.fill_kg_m3;
    state.total_kg = loop_fluid_kg(plant);
    return state;
}

double tundish_l(const Plant& plant) {
    const double valve_kg = plant.books.of(Edge::safety_mass);  // a kilogram of water is a litre
    return valve_kg + plant.modes.loop.potable_drip_m3 * 1e3;
}

double fluid_balance_kg(const Plant& plant, Edge left_out) {
    double net_kg = 0.0;
    const auto count = [&](Edge edge, double sign) {
        if (edge != left_out) net_kg += sign * plant.books.of(edge);
    };
    count(Edge::filled_mass, 1.0);
    for (const Edge out : {Edge::relief_mass, Edge::leak_mass, Edge::vent_mass, Edge::taken_mass}) {
        count(out, -1.0);
    }
    return net_kg - (loop_fluid_kg(plant) - plant.filled_kg);
}

}  // namespace noonbench::plant
