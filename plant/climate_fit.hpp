// SPDX-License-Identifier: MIT
// Finds each month's clearness, so that the month's mean irradiance is the climate's.
#pragma once
#include "climate.hpp"
#include "random.hpp"

namespace noonbench::plant {

/// Between knots of the clear sky by day. A parabola through noon strays by 0.3 W/m2 from its
/// chord.
inline constexpr std::int32_t seeded_grid_s = 600;

/// The cloud stream of a day 0..364.
[[nodiscard]] RandomStream cloud_stream(const SeededYear& year, int day);

/// Fills clearness of every day. Within a month the days differ by a persistent noise; a common
/// shift of the month is bisected until the mean on the 45-degree south plane at the reference
/// place is the table's. Throws std::domain_error if no shift reaches it.
void draw_clearness(const ClimateTable& table, SeededYear& year);

}  // namespace noonbench::plant
