// SPDX-License-Identifier: MIT
// Hills and houses on the horizon.
#pragma once
#include "parameters.hpp"

#include <span>

namespace noonbench::plant {

/// Elevation of the skyline in a direction [rad]: linear between points, around the whole circle;
/// 0 without points. Points are sorted by azimuth, 0 .. 2 pi, each azimuth once.
[[nodiscard]] double skyline_rad(std::span<const HorizonPoint> skyline, double azimuth_rad);

/// Share of an even sky's light that a horizontal plane still gets: the mean of cos^2(skyline)
/// around the circle. Used for tilted planes as well, which is a simplification: a skyline behind
/// the plane costs as much as one before it.
[[nodiscard]] double sky_view(std::span<const HorizonPoint> skyline);

}  // namespace noonbench::plant
