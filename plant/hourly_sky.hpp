// SPDX-License-Identifier: MIT
// A sky made of 8760 hourly records, whatever convention of time they follow.
#pragma once
#include "parameters.hpp"
#include "sky.hpp"

#include <cstdint>
#include <vector>

namespace noonbench::plant {

struct SkyHour {
    double global_horizontal_w_m2 = 0.0;   // mean of the record's hour
    double diffuse_horizontal_w_m2 = 0.0;  // not above the global
    double air_c = 10.0;                   // this and the following: at the stamp
    double sky_c = 0.0;
    double wind_m_s = 2.0;
};

/// A year of 365 days that repeats for ever; 29 February repeats the 28th.
/// The record of day d (0..364) and hour h (0..23), number 24 d + h, is stamped at local midnight
/// of its day + 3600 h + first_stamp_s. Its irradiance is the mean of the 3600 s whose middle is
/// sun_shift_s later; a value measured at an instant is taken for the mean of the hour around it.
/// - hour-ending, local standard time: first_stamp_s 3600, sun_shift_s -1800
/// - stamped in UTC, measured 634 s later: first_stamp_s = site.utc_offset_s, sun_shift_s 634
struct HourlySky {
    Site site{};
    std::vector<SkyHour> hours;         // 8760
    std::int32_t first_stamp_s = 3600;  // -86400 .. 86400
    std::int32_t sun_shift_s = -1800;   // -7200 .. 7200
};

/// Keeps each record's energy: between rise and set the sun's own path shapes the hour (the clear
/// sky's beam, and for the diffuse the sine of the elevation), scaled so that the mean of global
/// and of diffuse on the horizontal, integrated over the knots, is the record's to rounding. At the
/// border of two hours the lower of the two scales holds; beam that the sun is too low to carry
/// becomes diffuse. Temperatures and wind are linear between stamps.
/// Shape as in sky_source.hpp. Throws std::invalid_argument unless there are 8760 records and the
/// times are in range.
[[nodiscard]] std::vector<SkyKnot> knots_of_day(const HourlySky& sky, CivilSeconds day_start_s);

}  // namespace noonbench::plant
