// SPDX-License-Identifier: MIT
// Where the fluid at the collector would boil, and so how high the cut-out may sensibly be.
#pragma once
#include "quantities.hpp"
#include "settings.hpp"

#include <cstdint>

namespace noonbench::firmware {

/// The cut-out should stay this far below boiling (common practice, no source).
inline constexpr TemperatureDifference boiling_margin{500};

/// Boiling point of water with 0 to 50 % propylene glycol by volume at an absolute pressure of 0.50
/// to 7.00 bar; arguments outside are taken as the nearer end. Linear between the rows of a table,
/// errs by at most 0.5 K. The table is Raoult's law with the vapour pressures of
/// IAPWS-IF97 (water) and of the equation of state of Eisenbach et al., J. Phys. Chem. Ref. Data 50
/// (2021) (propylene glycol); physically good to 1.5 K.
Temperature boiling_point(std::int16_t glycol_share_pct, std::int32_t absolute_centibar) noexcept;

/// Absolute pressure at the collector's top when the loop is cold, in 0.01 bar:
/// gauge + 1.01 bar - rho g h with rho = 1030 kg/m3 (40 % glycol at 40 degC). May be negative: a
/// loop so low in pressure draws air.
std::int32_t collector_pressure_centibar(const Settings& settings) noexcept;

/// Is the collector cut-out above the boiling point minus the margin?
bool cut_out_above_boiling(const Settings& settings) noexcept;

}  // namespace noonbench::firmware
