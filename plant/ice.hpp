// SPDX-License-Identifier: MIT
// Slush and ice in the loop's fluid. Water freezes out and leaves the rest stronger: at t the rest
// has the share of glycol whose freezing point is t. Energy is the state, so even water's flat
// stretch at 0 degC is read back without doubt.
#pragma once
#include "fluid.hpp"

#include <array>
#include <cstddef>

namespace noonbench::plant {

/// Heat of fusion of water at 0 degC, J/kg: the handbooks' value; IAPWS R10-06(2009) has 333.43e3.
inline constexpr double fusion_j_kg = 333.6e3;
/// From this share of ice on slush does not flow, and from this on a body is solid; both rough,
/// common practice, no source.
inline constexpr double stuck_ice_share = 0.3;
inline constexpr double solid_ice_share = 0.95;

/// Heat content with ice: above the freezing point that of the liquid; below it the liquid's, less
/// the heat of fusion of the ice, 1 - x0/x by the lever rule with x the share that freezes at t.
/// Ice's own specific heat (half of water's) is left out, so cold ice holds too little energy: at
/// 20 degC below zero by about 40 kJ per kg of ice, an eighth of its fusion. Between the table's
/// points energy and ice go straight: against the lever rule ice is within 0.002 from 10 % glycol
/// up, 0.01 at 5 %, 0.12 at 1 %; traces of glycol freeze along a quarter of a kelvin.
struct IcyFluid {
    static constexpr double step_k = 0.25;
    static constexpr std::size_t points = 241;  // 60 K below the freezing point
    HeatContent liquid{};
    double freezing_c = 0.0;
    double jumps_to = 0.0;  // ice share at the freezing point's lower side: all of it for water
    std::array<double, points> ice{};  // every step_k below freezing_c; rises
};
/// `glycol_share` by mass, 0 to 0.6; stronger slush than 60 % keeps its ice.
[[nodiscard]] IcyFluid icy_fluid(double glycol_share);

struct FluidState {
    double t_c = 0.0;
    double e_j_kg = 0.0;  // of the fluid, ice included
    double ice_share = 0.0;
};

/// A body of `fluid_kg` (0: dry, then e is what fluid at its temperature would have) and
/// `metal_j_k`, not both 0, that holds `energy_j` over liquid at 0 degC. Continuous and rising in
/// the energy; from the arguments alone.
[[nodiscard]] FluidState fluid_state(const IcyFluid& fluid, double fluid_kg, double metal_j_k,
                                     double energy_j);
/// Its energy at a temperature, J; at the freezing point with no ice.
[[nodiscard]] double body_energy_j(const IcyFluid& fluid, double fluid_kg, double metal_j_k,
                                   double t_c);
/// The energy below which it holds ice, J.
[[nodiscard]] inline double freezing_energy_j(const IcyFluid& fluid, double fluid_kg,
                                              double metal_j_k) {
    return metal_j_k * fluid.freezing_c + fluid_kg * fluid.liquid.energy_j_kg(fluid.freezing_c);
}

/// How many times slush is thicker than its liquid: (1 - ice/0.3)^-2; rough. Infinite from
/// stuck_ice_share on.
[[nodiscard]] double slush_thickening(double ice_share);

}  // namespace noonbench::plant
