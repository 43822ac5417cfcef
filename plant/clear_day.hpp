// SPDX-License-Identifier: MIT
// A day without clouds, or with clouds exactly where one wants them.
#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "parameters.hpp"
#include "sky.hpp"

namespace noonbench::plant {

/// A cloud before the sun. Its edges lie inside `from_s .. until_s` and are linear.
struct CloudPassage {
    std::int32_t from_s = 0;         // after midnight, of every day that is asked for
    std::int32_t until_s = 0;
    double beam_transmission = 0.1;  // 0 = opaque
    double diffuse_factor = 1.2;     // on the clear sky's diffuse
    std::int32_t edge_s = 30;        // at most half of the passage
};

/// Every day alike but for the sun's path.
struct ClearDay {
    double turbidity = 3.5;           // Linke; 2 very clean .. 7 murky
    double air_least_c = 10.0;
    double air_most_c = 20.0;
    double hour_of_most_air = 15.0;   // local standard time; the least is 12 h away
    double wind_m_s = 2.0;
    std::optional<double> sky_depression_k;  // sky under the air; unset: clear_sky_c(air)
    std::vector<CloudPassage> clouds;        // may overlap: their factors multiply
};

/// Every 5 min by day, at rise and set and where a cloud's edge bends; hourly by night. Throws
/// std::invalid_argument for a passage that ends before it begins or leaves the day.
[[nodiscard]] std::vector<SkyKnot> knots_of_day(const Site& site, const ClearDay& day,
                                                CivilSeconds midnight_s);

}  // namespace noonbench::plant
