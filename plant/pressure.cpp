// SPDX-License-Identifier: MIT
// The pressure of a plant's loop as it stands, with what a fault has done to the vessel.
#include "circuit.hpp"
#include "expansion.hpp"
#include "plant.hpp"

#include <cstddef>

namespace noonbench::plant {
namespace {

struct VesselNow {
    Vessel vessel{};
    double liquid_kg = 0.0;
};

/// A shut cap keeps the vessel and the liquid of the cold fill out of play. A waterlogged share of
/// it is full of water that was topped up, so the rest acts like a smaller vessel.
VesselNow vessel_now(const FilledLoop& filled, const Levers& levers) {
    if (is_set(levers.vessel_cap_closed)) return {{0.0, filled.vessel.precharge_pa}, 0.0};
    const double active = 1.0 - levers.vessel_waterlogged_share;
    return {{filled.vessel.volume_m3 * active,
             filled.vessel.precharge_pa * levers.vessel_precharge_factor},
            filled.reserve_kg * active};
}

}  // namespace

LoopPressure loop_pressure(const Plant& plant) {
    const Circuit& c = *plant.circuit;
    const FilledLoop& filled = c.filled;
    const auto loop_cells = static_cast<std::size_t>(c.layout.layers_first);
    LoopContents contents;
    contents.liquid_m3 = 0.0;
    for (std::size_t i = 0; i < loop_cells; ++i) {
        const double t_c = cell_temperature(c, i, plant.amounts[i]);
        contents.liquid_m3 += c.fluid_kg[i] * filled.fluid.at(t_c);
    }
    const VesselNow now = vessel_now(filled, plant.levers);
    // Fluid that left is missing in the vessel first; beyond its reserve the loop itself is short.
    const double lost_kg = plant.levers.lost_fluid_m3 * filled.fill_kg_m3;
    contents.liquid_m3 += (now.liquid_kg - lost_kg) * filled.fluid.at(filled.vessel_c);
    const Pressure pressure = solve_pressure(filled.room, now.vessel, contents);
    return {pressure.gauge_pa - filled.atmosphere_pa, pressure.top_pa - filled.atmosphere_pa,
            filled.atmosphere_pa, pressure.cavity_m3};
}

double gauge_pressure_pa(const Plant& plant) {
    return loop_pressure(plant).gauge_pa;
}

double top_pressure_pa(const Plant& plant) {
    return loop_pressure(plant).top_pa;
}

}  // namespace noonbench::plant
