// SPDX-License-Identifier: MIT
// The cloudless sky over a site at an instant: sun's place, air mass and clear-sky model in one.
#pragma once
#include "clear_sky.hpp"
#include "parameters.hpp"
#include "sun.hpp"

#include <cstdint>
#include <vector>

namespace noonbench::plant {

struct ClearMoment {
    SunPosition sun{};
    double cos_zenith = 0.0;  // of the apparent sun
    double air_mass = 1.0;    // relative
    double extraterrestrial_normal_w_m2 = solar_constant_w_m2;
    HorizontalSky sky{};  // nothing while the sun is down
};

/// `at_s` in the site's local standard time; turbidity after Linke.
[[nodiscard]] ClearMoment clear_moment(const Site& site, double turbidity, CivilSeconds at_s);

/// Seconds of the day at which a curve of the clear sky is worth a knot: rise, set, and every
/// `step_s` between; rising, 0 .. 86400. Empty on a polar night, the whole day around under a
/// midnight sun. `step_s` divides the day.
[[nodiscard]] std::vector<std::int32_t> daylight_marks(const Site& site, CivilSeconds midnight_s,
                                                       std::int32_t step_s);

}  // namespace noonbench::plant
