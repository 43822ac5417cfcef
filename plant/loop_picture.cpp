// SPDX-License-Identifier: MIT
#include "loop_picture.hpp"

#include "si.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

/// A shut cap keeps the vessel out of play. What is waterlogged acts like a smaller vessel.
Vessel vessel_now(const FilledLoop& filled, const Levers& levers, const LoopMemory& memory) {
    const double open = memory.vessel_shut ? 0.0 : 1.0 - memory.waterlogged_share;
    return {filled.vessel.volume_m3 * open,
            filled.vessel.precharge_pa * levers.vessel_precharge_factor};
}

void look_at_cell(const Circuit& c, std::size_t i, double kg, double energy_j, LoopPicture& p) {
    p.kg[i] = kg;
    const double b_j_k = kg * c.loop_fluid.c0_j_kgk + c.metal_j_k[i];
    const double four_a = 2.0 * kg * c.loop_fluid.c1_j_kgk2;
    if (c.freezes && energy_j < 0.0 && energy_j < freezing_energy_j(c.icy, kg, c.metal_j_k[i])) {
        const FluidState state = fluid_state(c.icy, kg, c.metal_j_k[i], energy_j);
        p.t_c[i] = state.t_c;
        p.e_j_kg[i] = state.e_j_kg;
        p.ice[i] = state.ice_share;
        p.most_ice = std::max(p.most_ice, state.ice_share);
    } else {
        p.t_c[i] = 2.0 * energy_j / (b_j_k + std::sqrt(b_j_k * b_j_k + four_a * energy_j));
        p.e_j_kg[i] = c.loop_fluid.energy_j_kg(p.t_c[i]);
        p.ice[i] = 0.0;
    }
    p.coldest_c = std::min(p.coldest_c, p.t_c[i]);
}

void look_at_rows(const Circuit& c, const double* amount, LoopPicture& p) {
    const Layout& at = c.layout;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        p.wet[r] =
            std::max(amount[static_cast<std::size_t>(at.row_kg_first) + r], 0.0) / c.row_full_kg[r];
        p.steam_kg[r] = amount[static_cast<std::size_t>(at.steam_first) + r] / steam_j_kg(c);
        const auto first = static_cast<std::size_t>(at.row_first[r]);
        const auto end = first + static_cast<std::size_t>(at.row_cells[r]);
        for (std::size_t i = first; i < end; ++i) {
            look_at_cell(c, i, p.wet[r] * c.fluid_kg[i], amount[i], p);
            if (p.wet[r] > 0.01) p.hottest_wet_c = std::max(p.hottest_wet_c, p.t_c[i]);
        }
    }
}

double mean_outlet_c(const Circuit& c, const LoopPicture& p) {
    double sum_c = 0.0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(c.layout.rows); ++r) {
        sum_c += p.t_c[static_cast<std::size_t>(c.layout.row_first[r] + c.layout.row_cells[r] - 1)];
    }
    return sum_c / c.layout.rows;
}

// Steam takes room, room costs pressure, pressure lifts the boiling point.
double boiling_lift_k_kg(const Circuit& c, const Levers& levers, const LoopMemory& memory,
                         const LoopPicture& p) {
    const double top_pa = p.pressure.top_pa;
    const double give = give_m3_pa(c.filled.room, vessel_now(c.filled, levers, memory), p.contents,
                                   p.pressure.gauge_pa);
    const double steam_m3_kg = steam_gas_j_kgk * (p.boiling_c + zero_celsius_k) / top_pa;
    return c.filled.room.boiling->slope_k_per_ln_p(top_pa) / top_pa * steam_m3_kg / give;
}

// Steam fills the row that made it; air and cavity lie along the top of all rows.
void share_gas(const Circuit& c, LoopPicture& p) {
    const double top_pa = p.pressure.top_pa;
    const double steam_m3_kg = steam_gas_j_kgk * (p.boiling_c + zero_celsius_k) / top_pa;
    double rows_m3 = 0.0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(c.layout.rows); ++r) {
        p.gas_m3[r] = p.steam_kg[r] * steam_m3_kg;
        p.steam_m3 += p.gas_m3[r];
        rows_m3 += c.row_m3[r];
    }
    const double rest_m3 = p.air_m3 + p.pressure.cavity_m3;
    if (rest_m3 == 0.0) return;
    for (std::size_t r = 0; r < static_cast<std::size_t>(c.layout.rows); ++r) {
        p.gas_m3[r] += rest_m3 * c.row_m3[r] / rows_m3;
    }
}

double mean_ice(const LoopPicture& p, const Segment& s) {
    double most = 0.0;
    for (int i = s.first; i < s.first + s.count; ++i) {
        most = std::max(most, p.ice[static_cast<std::size_t>(i)]);
    }
    return most;
}

FluidProperties filling(const Circuit& c, const LoopPicture& p, const Segment& s) {
    double sum_c = 0.0;
    for (int i = s.first; i < s.first + s.count; ++i) sum_c += p.t_c[static_cast<std::size_t>(i)];
    FluidProperties fluid = c.hydraulics.fluid.at(sum_c / s.count);
    const double ice = mean_ice(p, s);
    // Stuck slush is told by the obstacles; here it only has to stay a number.
    if (ice > 0.0) fluid.viscosity_pa_s *= slush_thickening(std::min(ice, 0.99 * stuck_ice_share));
    return fluid;
}

}  // namespace

double LoopPicture::excess_m3(const Circuit& circuit, const Levers& levers,
                              const LoopMemory& memory, double gauge_pa) const {
    return surplus_m3(circuit.filled.room, vessel_now(circuit.filled, levers, memory), contents,
                      gauge_pa);
}

double steam_j_kg(const Circuit& circuit) {
    return circuit.loop_fluid.energy_j_kg(140.0) + evaporation_j_kg;
}

VesselLiquid vessel_liquid(const Circuit& circuit, double vessel_kg, double energy_j) {
    const double room_j_kg = circuit.loop_fluid.energy_j_kg(circuit.filled.vessel_c);
    const double kg = std::max(vessel_kg, 0.0);
    const double own_j = energy_j - std::min(vessel_kg, 0.0) * room_j_kg;
    const double b = kg * circuit.loop_fluid.c0_j_kgk + vessel_shell_j_k;
    const double t_c =
        2.0 * own_j / (b + std::sqrt(b * b + 2.0 * kg * circuit.loop_fluid.c1_j_kgk2 * own_j));
    return {t_c, vessel_kg > 0.0 ? circuit.loop_fluid.energy_j_kg(t_c) : room_j_kg};
}

double vessel_energy_j(const Circuit& circuit, double vessel_kg, double t_c) {
    const double at_c = vessel_kg > 0.0 ? t_c : circuit.filled.vessel_c;
    return vessel_shell_j_k * t_c + vessel_kg * circuit.loop_fluid.energy_j_kg(at_c);
}

LoopPicture look_at_loop(const Circuit& c, const Levers& levers, const LoopMemory& memory,
                         const double* amount) {
    const Layout& at = c.layout;
    LoopPicture p;
    for (std::size_t i = 0; i < static_cast<std::size_t>(at.chain_cells); ++i) {
        look_at_cell(c, i, c.fluid_kg[i], amount[i], p);
    }
    look_at_rows(c, amount, p);
    LoopContents& contents = p.contents;
    contents.liquid_m3 = 0.0;
    for (std::size_t i = 0; i < static_cast<std::size_t>(at.layers_first); ++i) {
        contents.liquid_m3 += p.kg[i] * c.filled.fluid.at(p.t_c[i]);
    }
    const double vessel_kg = amount[static_cast<std::size_t>(at.vessel_kg)];
    const VesselLiquid vessel =
        vessel_liquid(c, vessel_kg, amount[static_cast<std::size_t>(at.vessel)]);
    p.vessel_kg = vessel_kg;
    p.vessel_c = vessel.t_c;
    p.vessel_j_kg = vessel.e_j_kg;
    contents.liquid_m3 += vessel_kg * c.filled.fluid.at(vessel.t_c);
    for (const double steam_kg : p.steam_kg) contents.steam_kg += steam_kg;
    contents.air_kg = memory.air_kg + memory.bubbles_kg;
    contents.top_c = mean_outlet_c(c, p);
    p.pressure = solve_pressure(c.filled.room, vessel_now(c.filled, levers, memory), contents);
    p.boiling_c = c.filled.room.boiling->boiling_c(p.pressure.top_pa);
    p.boiling_k_kg = boiling_lift_k_kg(c, levers, memory, p);
    p.air_m3 = air_volume_m3(memory.air_kg, contents.top_c, p.pressure.top_pa);
    share_gas(c, p);
    return p;
}

LoopObstacles obstacles_of(const Circuit& circuit, const LoopPicture& picture) {
    const LoopSegments& segments = circuit.segments;
    LoopObstacles found;
    double rows_m3 = 0.0;
    double rise_m = 0.0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(circuit.layout.rows); ++r) {
        const bool stuck = mean_ice(picture, segments.rows[r]) >= stuck_ice_share;
        found.passable[r] = stuck ? 0.0 : std::min(picture.wet[r], 1.0);
        rows_m3 += circuit.row_m3[r];
        rise_m = std::max(rise_m, circuit.hydraulics.rows[r].rise_m);
    }
    for (const Segment* pipe : {&segments.hot_pipe, &segments.cold_pipe}) {
        if (mean_ice(picture, *pipe) >= stuck_ice_share) found.passable.fill(0.0);
    }
    // The pump pushes air and cavity over into the falling leg, where they break the siphon: their
    // whole column is missing there. Steam condenses in the pipe, so it is missing in the rows
    // only.
    const double in_pipe_m3 =
        picture.air_m3 + picture.pressure.cavity_m3 + std::max(picture.steam_m3 - rows_m3, 0.0);
    const double in_pipe_m = in_pipe_m3 / circuit.hot_bore_m2;
    const double in_rows_m = rise_m * std::min(picture.steam_m3 / rows_m3, 1.0);
    const double missing_m =
        std::min(in_pipe_m + in_rows_m, circuit.parameters.loop.height_m + rise_m);
    found.missing_pa = circuit.loop_density_kg_m3 * standard_gravity_m_s2 * missing_m;
    return found;
}

LoopFluids loop_fluids(const Circuit& circuit, const LoopPicture& picture) {
    const LoopSegments& segments = circuit.segments;
    LoopFluids fluids;
    fluids.hot_pipe = filling(circuit, picture, segments.hot_pipe);
    fluids.station_hot = filling(circuit, picture, segments.station_hot);
    fluids.coil = filling(circuit, picture, segments.coil);
    fluids.station_cold = filling(circuit, picture, segments.station_cold);
    fluids.cold_pipe = filling(circuit, picture, segments.cold_pipe);
    for (std::size_t r = 0; r < static_cast<std::size_t>(circuit.layout.rows); ++r) {
        fluids.rows[r] = filling(circuit, picture, segments.rows[r]);
    }
    return fluids;
}

}  // namespace noonbench::plant
