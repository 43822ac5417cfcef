// SPDX-License-Identifier: MIT
#include "ice.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace noonbench::plant {
namespace {

constexpr double strongest_share = 0.6;

// The share of glycol that begins to freeze at t: inverse of freezing_point_c, by halving.
double freezing_share(double t_c) {
    double low = 0.0;
    double high = strongest_share;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (freezing_point_c(middle) > t_c ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

double liquid_t_c(const HeatContent& liquid, double fluid_kg, double metal_j_k, double energy_j) {
    const double b = fluid_kg * liquid.c0_j_kgk + metal_j_k;
    return 2.0 * energy_j / (b + std::sqrt(b * b + 2.0 * fluid_kg * liquid.c1_j_kgk2 * energy_j));
}

double node_c(const IcyFluid& fluid, std::size_t i) {
    return fluid.freezing_c - static_cast<double>(i) * IcyFluid::step_k;
}

// Specific energy at a point of the table, ice included.
double node_j_kg(const IcyFluid& fluid, std::size_t i) {
    return fluid.liquid.energy_j_kg(node_c(fluid, i)) - fusion_j_kg * fluid.ice[i];
}

double node_energy_j(const IcyFluid& fluid, double fluid_kg, double metal_j_k, std::size_t i) {
    return metal_j_k * node_c(fluid, i) + fluid_kg * node_j_kg(fluid, i);
}

}  // namespace

IcyFluid icy_fluid(double glycol_share) {
    IcyFluid fluid;
    fluid.liquid = loop_heat_content(glycol_share);
    fluid.freezing_c = glycol_share > 0.0 ? std::min(freezing_point_c(glycol_share), 0.0) : 0.0;
    fluid.jumps_to = glycol_share > 0.0 ? 0.0 : 1.0;
    for (std::size_t i = 0; i < IcyFluid::points; ++i) {
        const double rest = std::max(freezing_share(node_c(fluid, i)), glycol_share);
        fluid.ice[i] = glycol_share > 0.0 ? 1.0 - glycol_share / rest : 1.0;
    }
    fluid.ice[0] = fluid.jumps_to;
    return fluid;
}

FluidState fluid_state(const IcyFluid& fluid, double fluid_kg, double metal_j_k, double energy_j) {
    const double freezing_j = freezing_energy_j(fluid, fluid_kg, metal_j_k);
    if (!(energy_j < freezing_j)) {
        const double t_c = liquid_t_c(fluid.liquid, fluid_kg, metal_j_k, energy_j);
        return {t_c, fluid.liquid.energy_j_kg(t_c), 0.0};
    }
    const double jump_j = fluid_kg * fusion_j_kg * fluid.jumps_to;
    if (energy_j > freezing_j - jump_j) {  // water's flat stretch
        const double ice = (freezing_j - energy_j) / (fluid_kg * fusion_j_kg);
        const double e_j_kg = fluid.liquid.energy_j_kg(fluid.freezing_c) - fusion_j_kg * ice;
        return {fluid.freezing_c, e_j_kg, ice};
    }
    // Which quarter of a kelvin; within it all rises nearly straight, so straight it is.
    std::size_t warm = 0;
    std::size_t cold = IcyFluid::points - 1;
    const auto energy_at = [&](std::size_t i) {
        return node_energy_j(fluid, fluid_kg, metal_j_k, i);
    };
    while (cold - warm > 1) {
        const std::size_t middle = (warm + cold) / 2;
        (energy_at(middle) > energy_j ? warm : cold) = middle;
    }
    const double warm_j = energy_at(warm);
    const double share = (warm_j - energy_j) / (warm_j - energy_at(cold));
    const double t_c = node_c(fluid, warm) - share * IcyFluid::step_k;
    const double ice = fluid.ice[warm] + std::min(share, 1.0) * (fluid.ice[cold] - fluid.ice[warm]);
    // From the line, not as what the metal leaves: a nearly dry body would leave only rounding.
    const double warm_j_kg = node_j_kg(fluid, warm);
    return {t_c, warm_j_kg + share * (node_j_kg(fluid, cold) - warm_j_kg), ice};
}

double body_energy_j(const IcyFluid& fluid, double fluid_kg, double metal_j_k, double t_c) {
    if (t_c >= fluid.freezing_c) {
        return metal_j_k * t_c + fluid_kg * fluid.liquid.energy_j_kg(t_c);
    }
    const double place = (fluid.freezing_c - t_c) / IcyFluid::step_k;
    const auto warm = std::min(static_cast<std::size_t>(place), IcyFluid::points - 2);
    const double share = place - static_cast<double>(warm);
    const double warm_j = node_energy_j(fluid, fluid_kg, metal_j_k, warm);
    return warm_j + share * (node_energy_j(fluid, fluid_kg, metal_j_k, warm + 1) - warm_j);
}

double slush_thickening(double ice_share) {
    const double left = 1.0 - ice_share / stuck_ice_share;
    return left > 0.0 ? 1.0 / (left * left) : std::numeric_limits<double>::infinity();
}

}  // namespace noonbench::plant
