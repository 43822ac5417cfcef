// SPDX-License-Identifier: MIT
// A day without clouds, or with clouds exactly where one wants them.
#pragma once
#include "parameters.hpp"
#include "sky.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace noonbench::plant {

/// A cloud before the sun. Its edges are linear and lie inside the time it lasts.
struct CloudPassage {
    CivilSeconds from_s = 0;      // first second of the shadow's edge
    std::int32_t lasts_s = 600;   // both edges included; 2 s .. 1 day
    std::int32_t edge_s = 20;     // each; at least 1 s, cut to half of lasts_s
    double beam_share = 0.1;      // of the clear beam that is left
    double diffuse_factor = 1.2;  // on the clear sky's diffuse
    bool daily = false;           // again on each later day at the same time of day
};

/// Every day alike but for the sun's path and the clouds.
struct ClearDay {
    Site site{};
    double turbidity = 3.5;  // Linke; 2 very clean .. 7 murky
    double air_least_c = 8.0;
    double air_most_c = 18.0;
    double hour_of_most_air = 15.0;  // local standard time; the least is 12 h away
    double wind_m_s = 2.0;
    std::optional<double> sky_depression_k;  // sky under the air; unset: clear_sky_c(air)
    std::vector<CloudPassage> clouds;        // may overlap: their factors multiply
};

/// Every 5 min by day, at rise and set and where a cloud's edge bends; hourly by night. Shape as in
/// sky_source.hpp. Throws std::invalid_argument for a passage outside the ranges above.
[[nodiscard]] std::vector<SkyKnot> knots_of_day(const ClearDay& day, CivilSeconds day_start_s);

}  // namespace noonbench::plant
