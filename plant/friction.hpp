// SPDX-License-Identifier: MIT
// Friction in a round pipe, Darcy's factor f: dp = f (L/d) rho v^2/2. Where flow may be zero, the
// product phi = f Re is used instead: dp = phi mu L v / (2 d^2), so nothing is divided by Re.
#pragma once

namespace noonbench::plant {

inline constexpr double laminar_end_reynolds = 2000.0;
inline constexpr double turbulent_start_reynolds = 4000.0;

/// 64/Re (Hagen and Poiseuille); Reynolds number above 0.
[[nodiscard]] double laminar_friction(double reynolds);

/// Haaland (1983), J. Fluids Eng. 105: 1/sqrt f = -1.8 log10((e/3.7)^1.11 + 6.9/Re), with e the
/// roughness over the bore, 0..0.05; Reynolds number 4000..1e8.
[[nodiscard]] double haaland_friction(double reynolds, double relative_roughness);

/// Colebrook (1939): 1/sqrt f = -2 log10(e/3.7 + 2.51/(Re sqrt f)), by six Newton steps from
/// Haaland; a reference to check against, too dear for every second.
[[nodiscard]] double colebrook_friction(double reynolds, double relative_roughness);

/// (e/3.7)^1.11, the part of Haaland's formula that a pipe keeps for life.
[[nodiscard]] double haaland_roughness_term(double relative_roughness);

struct FrictionProduct {
    double phi = 64.0;   // f Re
    double slope = 0.0;  // d phi / d Re
};

/// phi = f Re for a Reynolds number from 0 up: 64 to 2000, Haaland from 4000, between them a smooth
/// blend (cubic, level at both ends). phi never falls, so pressure drop rises with flow. No book
/// gives the transition; real pipes jump about in it.
[[nodiscard]] FrictionProduct friction_product(double reynolds, double roughness_term);

}  // namespace noonbench::plant
