// SPDX-License-Identifier: MIT
// Liquids: propylene glycol and water by mass share (Melinder 2010, Properties of Secondary Working
// Fluids for Indirect Systems; coefficients as tabulated in public files of the CoolProp project),
// water alone at share 0. Melinder prints values to 40 degC; to 100 degC the polynomials stay
// within 0.7 % (density), 0.5 % (specific heat), 6 % (conductivity) of the ASHRAE tables; above 100
// degC every property is continued in a straight line and counts as extrapolated.
#pragma once

namespace noonbench::plant {

inline constexpr double properties_end_c = 100.0;
inline constexpr double most_glycol_share = 0.6;  // mass

[[nodiscard]] constexpr bool is_extrapolated(double t_c) {
    return t_c > properties_end_c;
}

/// kg/m3; share 0..0.6 by mass.
[[nodiscard]] double density_kg_m3(double glycol_share, double t_c);
/// J/kgK
[[nodiscard]] double specific_heat_j_kgk(double glycol_share, double t_c);
/// W/mK
[[nodiscard]] double conductivity_w_mk(double glycol_share, double t_c);
/// Pa s (dynamic). Above 100 degC its logarithm goes on in a straight line, so it stays positive.
[[nodiscard]] double viscosity_pa_s(double glycol_share, double t_c);
/// degC; first ice.
[[nodiscard]] double freezing_point_c(double glycol_share);

/// Pa; IAPWS-IF97 region 4, 0..370 degC.
[[nodiscard]] double water_vapour_pressure_pa(double t_c);
/// Pa; Eisenbach et al., J. Phys. Chem. Ref. Data 50 (2021), ancillary equation.
[[nodiscard]] double glycol_vapour_pressure_pa(double t_c);
/// degC at absolute pressure (2 kPa .. 2 MPa); Raoult's law, about 1.5 K good.
[[nodiscard]] double boiling_point_c(double glycol_share, double absolute_pressure_pa);

/// Specific energy over liquid at 0 degC: e(t) = c0 t + c1 t^2 / 2, J/kg.
struct HeatContent {
    double c0_j_kgk = 0.0;
    double c1_j_kgk2 = 0.0;

    [[nodiscard]] constexpr double energy_j_kg(double t_c) const {
        return t_c * (c0_j_kgk + 0.5 * c1_j_kgk2 * t_c);
    }
    [[nodiscard]] constexpr double specific_heat_j_kgk(double t_c) const {
        return c0_j_kgk + c1_j_kgk2 * t_c;
    }
    /// Exact inverse of energy_j_kg.
    [[nodiscard]] double temperature_c(double energy_j_kg) const;
};

/// Least squares to the specific heat over freezing point (at least -20) .. 100 degC.
[[nodiscard]] HeatContent loop_heat_content(double glycol_share);

/// The store's water: least squares to the enthalpy of IAPWS-IF97 at 3 bar every 10 K from 0 to
/// 100 degC; no further off than 201 J/kg (0.05 K).
inline constexpr HeatContent water_heat_content{4186.52215, 0.0284410};
inline constexpr double water_density_kg_m3 = 998.3;  // 20 degC, 3 bar, IAPWS-IF97

}  // namespace noonbench::plant
