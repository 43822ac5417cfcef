// SPDX-License-Identifier: MIT
// Which expansion vessel and which precharge a loop gets when nobody says: the installer's rules.
// All pressures above the atmosphere. Common practice, no source, except where one is named.
#pragma once

namespace noonbench::plant {

/// What the rule asks a vessel to take up.
struct VesselDuty {
    double system_m3 = 0.0;     // the whole loop's content
    double collector_m3 = 0.0;  // of it in the collectors: steam pushes all of it out
    double precharge_pa = 0.0;
    double relief_pa = 6.0e5;  // opening of the relief valve
};

/// Expansion of the fluid between -20 and 120 degC that installers reckon with, on the safe side:
/// the densities of 40 % propylene glycol give 0.095.
inline constexpr double rule_expansion = 0.13;
/// Bar above the precharge at the cold fill (rule "fill = 1.3 bar + 0.1 bar/m, precharge = fill
/// - 0.5 bar").
inline constexpr double rule_fill_above_precharge_pa = 0.5e5;

/// Kept in the vessel when cold: half a per cent of the system, three litres at least.
[[nodiscard]] double rule_reserve_m3(double system_m3);

/// The pressure up to which a vessel may be used: a tenth below the relief valve.
[[nodiscard]] double rule_final_pa(double relief_pa);

/// Share of a vessel that takes up liquid between precharge and final pressure,
/// (pe - p0) / (pe + 1 bar); at least a tenth, since near the valve no vessel would do.
[[nodiscard]] double acceptance_share(double precharge_pa, double final_pa);

/// (expansion + reserve + collectors) / acceptance share, m3.
[[nodiscard]] double needed_vessel_m3(const VesselDuty& duty);

/// The next size that is sold: 12, 18, 25, 35, 50, 80, ... 500 l; beyond, the size itself.
[[nodiscard]] double next_vessel_m3(double needed_m3);

/// Precharge for a cold fill, Pa; not below zero.
[[nodiscard]] double rule_precharge_pa(double fill_pa);

}  // namespace noonbench::plant
