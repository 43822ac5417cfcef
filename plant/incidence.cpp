// SPDX-License-Identifier: MIT
#include "incidence.hpp"

#include "si.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {

IncidenceAngles incidence_angles(double slope_rad, double azimuth_rad, const Direction& sun) {
    const Direction across{-std::cos(azimuth_rad), std::sin(azimuth_rad), 0.0};
    // Up the slope: level direction opposite to where the plane faces, lifted by the slope.
    const double level = -std::cos(slope_rad);
    const Direction along{level * std::sin(azimuth_rad), level * std::cos(azimuth_rad),
                          std::sin(slope_rad)};
    IncidenceAngles angles;
    angles.cos_incidence = dot(sun, normal_of_plane(slope_rad, azimuth_rad));
    const double before = std::max(angles.cos_incidence, 0.0);
    angles.longitudinal_rad = std::atan2(std::abs(dot(sun, along)), before);
    angles.transversal_rad = std::atan2(std::abs(dot(sun, across)), before);
    return angles;
}

double modifier_from_b0(double b0, double cos_incidence) {
    if (cos_incidence <= 0.0) return 0.0;
    return std::max(0.0, 1.0 - b0 * (1.0 / std::min(cos_incidence, 1.0) - 1.0));
}

double modifier_from_table(const std::array<double, 10>& every_ten_degrees, double angle_rad) {
    const double place = std::clamp(degrees(angle_rad) / 10.0, 0.0, 9.0);
    const auto below = std::min(static_cast<std::size_t>(place), std::size_t{8});
    const double share = place - static_cast<double>(below);
    return every_ten_degrees[below] * (1.0 - share) + every_ten_degrees[below + 1] * share;
}

double beam_modifier(const IncidenceModifier& modifier, const IncidenceAngles& at) {
    if (at.cos_incidence <= 0.0) return 0.0;
    if (modifier.b0 > 0.0) return modifier_from_b0(modifier.b0, at.cos_incidence);
    return modifier_from_table(modifier.longitudinal, at.longitudinal_rad) *
           modifier_from_table(modifier.transversal, at.transversal_rad);
}

}  // namespace noonbench::plant
