// SPDX-License-Identifier: MIT
// What every sky (file, clear day, seeded year) hands to the plant: knots at integer seconds where
// a slope may change; linear between them. Time is seconds of local standard time since
// 2000-01-01 00:00 (negative before).
#pragma once
#include <cstdint>
#include <vector>

namespace noonbench::plant {

using CivilSeconds = std::int64_t;
inline constexpr CivilSeconds seconds_a_day = 86400;

/// The sky over the site, on no particular plane.
struct SkyKnot {
    CivilSeconds at_s = 0;
    double beam_normal_w_m2 = 0.0;
    double diffuse_horizontal_w_m2 = 0.0;
    double air_c = 10.0;
    double sky_c = 0.0;  // black-body temperature of the sky dome
    double wind_m_s = 2.0;
};

inline constexpr int most_rows = 5;

/// The same at the collectors: what each row's plane receives, and the absorbable part after the
/// incidence-angle modifiers (to be multiplied by eta0).
struct PlaneKnot {
    CivilSeconds at_s = 0;
    double received_w_m2[most_rows]{};
    double absorbable_w_m2[most_rows]{};
    double air_c = 10.0;
    double sky_c = 0.0;
    double wind_m_s = 2.0;
};

}  // namespace noonbench::plant
