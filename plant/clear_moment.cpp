// SPDX-License-Identifier: MIT
#include "clear_moment.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {

ClearMoment clear_moment(const Site& site, double turbidity, CivilSeconds at_s) {
    ClearMoment moment;
    moment.sun = sun_position(site, static_cast<double>(at_s));
    moment.cos_zenith = std::sin(moment.sun.apparent_elevation_rad);
    moment.air_mass = relative_air_mass(moment.sun.apparent_elevation_rad);
    moment.extraterrestrial_normal_w_m2 = extraterrestrial_normal_w_m2(moment.sun.distance_au);
    const double pressure_share = standard_pressure_pa(site.elevation_m) / 101325.0;
    moment.sky = clear_sky({turbidity, site.elevation_m}, moment.cos_zenith,
                           moment.air_mass * pressure_share, moment.extraterrestrial_normal_w_m2);
    return moment;
}

std::vector<std::int32_t> daylight_marks(const Site& site, CivilSeconds midnight_s,
                                         std::int32_t step_s) {
    const SunTimes times = sun_times(site, midnight_s);
    if (times.kind == SunTimes::Kind::down_all_day) {
        return {};
    }
    const auto day_s = static_cast<std::int32_t>(seconds_a_day);
    const auto midnight = static_cast<double>(midnight_s);
    const double rise_s = std::ceil(times.rise_s - midnight);
    const double set_s = std::floor(times.set_s - midnight);
    // Daylight that spills over midnight belongs to two transits: then the whole day is marked.
    const bool spills = rise_s < 0.0 || set_s > day_s;
    std::vector<std::int32_t> marks;
    for (std::int32_t second = 0; second <= day_s; second += step_s) {
        if (spills || (second > rise_s && second < set_s)) {
            marks.push_back(second);
        }
    }
    for (const double edge_s : {rise_s, set_s}) {
        if (edge_s >= 0.0 && edge_s <= day_s) {
            marks.push_back(static_cast<std::int32_t>(edge_s));
        }
    }
    std::sort(marks.begin(), marks.end());
    marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
    return marks;
}

}  // namespace noonbench::plant
