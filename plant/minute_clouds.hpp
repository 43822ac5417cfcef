// SPDX-License-Identifier: MIT
// Minute by minute clouds laid over an hourly sky: the sun comes and goes in passages of cloud,
// while each hour keeps what its record says.
#pragma once
#include "hourly_sky.hpp"
#include "sky.hpp"

#include <cstdint>
#include <vector>

namespace noonbench::plant {

/// A sky of hourly records whose partly blocked hours are broken up by clouds. The same day of the
/// year has the same clouds in every year.
struct CloudedHours {
    HourlySky hours;
    std::uint64_t seed = 1;
};

/// The knots of `hours`, but in partly blocked hours the beam is nearly the clear sky's in gaps and
/// 2 % of it under clouds, where the diffuse is 1.2 times that in the gaps. Edges last 20..90 s.
/// - Clear sky: Linke turbidity 3, times the best share of it that an hour of high sun reaches on
///   the day, so that a hazy day is not taken for a cloudy one; 0.85 if that best is below 0.7 (no
///   clear hour to tell), at most 1.15.
/// - Partly blocked: the beam of 6 to 94 % of that. Clearer and duller hours stay as they are; so
///   do hours in which the clear sky has less than 50 W/m2 of beam on the horizontal, and the hour
///   that reaches midnight.
/// - Means: the hour's of global and of diffuse on the horizontal, integrated over the knots, are
///   those of the smooth hour within 1e-9 of it. For that the beam in the gaps is shifted by up to
///   10 %. Where that is not enough the gaps are widened or narrowed; where that does not serve
///   either, or the beam would exceed the extraterrestrial, the hour stays smooth.
/// On a tilted plane the beam's year is kept too, to some 1e-4; the sky's light there, which
/// Perez's model (fitted to hours) does not make in proportion, is 2 to 3 % less than that of
/// smooth hours. Shape and exceptions as for `hours`; about 170 knots a day.
[[nodiscard]] std::vector<SkyKnot> knots_of_day(const CloudedHours& sky, CivilSeconds day_start_s);

}  // namespace noonbench::plant
