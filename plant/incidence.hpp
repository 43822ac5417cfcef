// SPDX-License-Identifier: MIT
// How much less (or, with tubes, more) a collector takes in when the sun stands aslant.
#pragma once
#include "parameters.hpp"
#include "sun.hpp"

#include <array>

namespace noonbench::plant {

/// Angles between the normal of the collector and the sun's direction projected into two planes:
/// along the slope (longitudinal, tubes running up the roof) and across it (transversal).
/// tan^2(incidence) = tan^2(longitudinal) + tan^2(transversal).
struct IncidenceAngles {
    double cos_incidence = 1.0;  // at most 0: the sun is behind
    double longitudinal_rad = 0.0;
    double transversal_rad = 0.0;
};

[[nodiscard]] IncidenceAngles incidence_angles(double slope_rad, double azimuth_rad,
                                               const Direction& sun);

/// K = 1 - b0 (1/cos - 1), never below 0; 0 with the sun at or behind the plane. ASHRAE 93.
[[nodiscard]] double modifier_from_b0(double b0, double cos_incidence);

/// Linear between values at 0, 10 .. 90 degrees; the last value from 90 degrees on.
[[nodiscard]] double modifier_from_table(const std::array<double, 10>& every_ten_degrees,
                                         double angle_rad);

/// For the beam: by b0 if that is positive, else the product of the two tables (ISO 9806).
[[nodiscard]] double beam_modifier(const IncidenceModifier& modifier, const IncidenceAngles& at);

}  // namespace noonbench::plant
