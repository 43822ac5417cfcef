// SPDX-License-Identifier: MIT
#include "clear_day.hpp"

#include "calendar.hpp"
#include "clear_sky.hpp"
#include "sky_temperature.hpp"
#include "sun.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace noonbench::plant {
namespace {

constexpr CivilSeconds by_day_s = 300;
constexpr CivilSeconds by_night_s = 3600;

void check(const CloudPassage& cloud) {
    const bool sound = cloud.lasts_s >= 2 && cloud.lasts_s <= seconds_a_day && cloud.edge_s >= 0 &&
                       cloud.beam_share >= 0.0 && cloud.diffuse_factor >= 0.0;
    if (!sound) {
        throw std::invalid_argument("cloud passage at second " + std::to_string(cloud.from_s) +
                                    ": lasts " + std::to_string(cloud.lasts_s) + " s, edge " +
                                    std::to_string(cloud.edge_s) + " s");
    }
}

/// One passage on one day, in absolute time, with whole seconds where it bends.
struct Shadow {
    CivilSeconds from_s, dark_s, light_s, until_s;
    double beam_share, diffuse_factor;

    /// 0 outside, 1 while the cloud is wholly before the sun.
    [[nodiscard]] double depth(CivilSeconds at_s) const {
        if (at_s <= from_s || at_s >= until_s) return 0.0;
        if (at_s < dark_s) return part(at_s - from_s, dark_s - from_s);
        if (at_s > light_s) return part(until_s - at_s, until_s - light_s);
        return 1.0;
    }

  private:
    static double part(CivilSeconds done_s, CivilSeconds whole_s) {
        return static_cast<double>(done_s) / static_cast<double>(whole_s);
    }
};

/// Every passage that touches the day. An edge needs a second at least: the sky is a line between
/// knots, and two knots cannot stand on one second.
std::vector<Shadow> shadows_of(const ClearDay& day, CivilSeconds day_start_s) {
    std::vector<Shadow> shadows;
    for (const CloudPassage& cloud : day.clouds) {
        check(cloud);
        const CivilSeconds edge =
            std::min<CivilSeconds>(std::max(cloud.edge_s, 1), cloud.lasts_s / 2);
        // A daily cloud may have begun on the evening before.
        for (const CivilSeconds today : {day_start_s - seconds_a_day, day_start_s}) {
            const CivilSeconds first = midnight_before(cloud.from_s);
            if (cloud.daily && today < first) continue;
            const CivilSeconds from = cloud.daily ? today + cloud.from_s - first : cloud.from_s;
            shadows.push_back({from, from + edge, from + cloud.lasts_s - edge, from + cloud.lasts_s,
                               cloud.beam_share, cloud.diffuse_factor});
            if (!cloud.daily) break;
        }
    }
    return shadows;
}

/// Whole seconds at which a knot stands, rising, within the day.
std::vector<CivilSeconds> times_of(const SunTimes& sun, const std::vector<Shadow>& shadows,
                                   CivilSeconds day_start_s) {
    const CivilSeconds day_end_s = day_start_s + seconds_a_day;
    const auto rise = static_cast<CivilSeconds>(std::floor(sun.rise_s));
    const auto set = static_cast<CivilSeconds>(std::ceil(sun.set_s));
    // Around midnight of a bright night the sun of the neighbouring day may still be up.
    const auto lit = [&](CivilSeconds at_s) {
        return (at_s >= rise && at_s <= set) || at_s + seconds_a_day <= set ||
               at_s - seconds_a_day >= rise;
    };
    std::vector<CivilSeconds> times;
    for (CivilSeconds at = day_start_s; at < day_end_s; at += by_day_s) {
        if (at % by_night_s == 0 || lit(at)) times.push_back(at);
    }
    for (const CivilSeconds shift : {-seconds_a_day, CivilSeconds{0}, seconds_a_day}) {
        times.push_back(rise + shift);
        times.push_back(set + shift);
    }
    for (const Shadow& shadow : shadows) {
        times.insert(times.end(), {shadow.from_s, shadow.dark_s, shadow.light_s, shadow.until_s});
    }
    std::erase_if(times, [&](CivilSeconds at) { return at < day_start_s || at >= day_end_s; });
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

double air_c_at(const ClearDay& day, CivilSeconds at_s) {
    const double hour = static_cast<double>(at_s - midnight_before(at_s)) / 3600.0;
    const double turn = 2.0 * std::numbers::pi * (hour - day.hour_of_most_air) / 24.0;
    return 0.5 * (day.air_most_c + day.air_least_c) +
           0.5 * (day.air_most_c - day.air_least_c) * std::cos(turn);
}

SkyKnot knot_at(const ClearDay& day, const std::vector<Shadow>& shadows, CivilSeconds at_s) {
    SkyKnot knot;
    knot.at_s = at_s;
    knot.air_c = air_c_at(day, at_s);
    knot.sky_c =
        day.sky_depression_k ? knot.air_c - *day.sky_depression_k : clear_sky_c(knot.air_c);
    knot.wind_m_s = day.wind_m_s;
    const SunPosition sun = sun_position(day.site, static_cast<double>(at_s));
    if (sun.apparent_elevation_rad <= 0.0) return knot;
    const double air_mass = relative_air_mass(sun.apparent_elevation_rad) *
                            standard_pressure_pa(day.site.elevation_m) / 101325.0;
    const HorizontalSky clear =
        clear_sky({day.turbidity, day.site.elevation_m}, std::sin(sun.apparent_elevation_rad),
                  air_mass, extraterrestrial_normal_w_m2(sun.distance_au));
    knot.beam_normal_w_m2 = clear.beam_normal_w_m2;
    knot.diffuse_horizontal_w_m2 = clear.diffuse_horizontal_w_m2;
    for (const Shadow& shadow : shadows) {
        const double depth = shadow.depth(at_s);
        knot.beam_normal_w_m2 *= 1.0 + depth * (shadow.beam_share - 1.0);
        knot.diffuse_horizontal_w_m2 *= 1.0 + depth * (shadow.diffuse_factor - 1.0);
    }
    return knot;
}

}  // namespace

std::vector<SkyKnot> knots_of_day(const ClearDay& day, CivilSeconds day_start_s) {
    const std::vector<Shadow> shadows = shadows_of(day, day_start_s);
    std::vector<SkyKnot> knots;
    for (const CivilSeconds at : times_of(sun_times(day.site, day_start_s), shadows, day_start_s)) {
        knots.push_back(knot_at(day, shadows, at));
    }
    return knots;
}

}  // namespace noonbench::plant
