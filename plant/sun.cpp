// SPDX-License-Identifier: MIT
#include "sun.hpp"

#include "si.hpp"
#include "sun_series.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace noonbench::plant {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double full_turn = 2.0 * pi;

/// Terrestrial time minus UTC: 65 s in 2003, 69 s in 2024. Ten seconds of it move the sun by 0.0001
/// degrees, so one figure does for all years.
constexpr double terrestrial_minus_utc_s = 69.0;
constexpr double j2000_utc_s = 43200.0;  // 2000-01-01 12:00, in seconds since that day's midnight

double wrapped(double angle) {
    return angle - full_turn * std::floor(angle / full_turn);
}
double wrapped_about_zero(double angle) {
    return wrapped(angle + pi) - pi;
}

double half_day_s() {
    return 0.5 * static_cast<double>(seconds_a_day);
}

/// The instant between `low_s` (sun below) and `high_s` (sun above) where it stands at the height.
double crossing_s(const Site& site, double below_s, double above_s, double elevation_rad) {
    while (std::abs(above_s - below_s) > 0.25) {
        const double middle = 0.5 * (below_s + above_s);
        (sun_position(site, middle).elevation_rad < elevation_rad ? below_s : above_s) = middle;
    }
    return 0.5 * (below_s + above_s);
}

}  // namespace

SunCoordinates sun_coordinates(double utc_s) {
    const double day_s = static_cast<double>(seconds_a_day);
    const double days = (utc_s - j2000_utc_s) / day_s;
    const double centuries = (days + terrestrial_minus_utc_s / day_s) / 36525.0;
    const EarthPlace earth = earth_place(centuries / 10.0);
    const Nutation wobble = nutation(centuries);

    // Equations 26 (obliquity), 9 (geocentric), 25 (aberration) and 28..32 of the source.
    const double mean_obliquity_deg = (84381.448 - 46.815 * centuries) / 3600.0;
    const double obliquity = radians(mean_obliquity_deg) + wobble.obliquity_rad;
    const double aberration = -radians(20.4898 / 3600.0) / earth.distance_au;
    const double longitude = wrapped(earth.longitude_rad + pi + wobble.longitude_rad + aberration);
    const double latitude = -earth.latitude_rad;

    SunCoordinates sun;
    sun.distance_au = earth.distance_au;
    sun.right_ascension_rad = wrapped(std::atan2(
        std::sin(longitude) * std::cos(obliquity) - std::tan(latitude) * std::sin(obliquity),
        std::cos(longitude)));
    sun.declination_rad = std::asin(std::sin(latitude) * std::cos(obliquity) +
                                    std::cos(latitude) * std::sin(obliquity) * std::sin(longitude));
    const double mean_sidereal_deg = 280.46061837 + 360.98564736629 * days;
    const double of_equinoxes = wobble.longitude_rad * std::cos(obliquity);
    sun.sidereal_time_rad = wrapped(radians(mean_sidereal_deg) + of_equinoxes);
    // Equation of time: mean longitude of the sun against its right ascension (source, eq. A1).
    const double mean_longitude = radians(280.4664567 + 36000.76982779 * centuries);
    const double ahead = wrapped_about_zero(mean_longitude - radians(0.0057183) -
                                            sun.right_ascension_rad + of_equinoxes);
    sun.equation_of_time_s = ahead / full_turn * day_s;
    return sun;
}

SunPosition sun_position(const Site& site, double at_s) {
    const SunCoordinates sun = sun_coordinates(at_s - static_cast<double>(site.utc_offset_s));
    const double hour_angle =
        wrapped_about_zero(sun.sidereal_time_rad + site.longitude_rad - sun.right_ascension_rad);
    const double sin_latitude = std::sin(site.latitude_rad);
    const double cos_latitude = std::cos(site.latitude_rad);
    const double sin_declination = std::sin(sun.declination_rad);
    const double cos_declination = std::cos(sun.declination_rad);

    SunPosition position;
    position.hour_angle_rad = hour_angle;
    position.declination_rad = sun.declination_rad;
    position.distance_au = sun.distance_au;
    position.equation_of_time_s = sun.equation_of_time_s;
    const double up =
        sin_latitude * sin_declination + cos_latitude * cos_declination * std::cos(hour_angle);
    const double east = -cos_declination * std::sin(hour_angle);
    const double north =
        cos_latitude * sin_declination - sin_latitude * cos_declination * std::cos(hour_angle);
    position.azimuth_rad = wrapped(std::atan2(east, north));
    // Seen from the ground the sun stands lower than from the earth's centre, by its parallax.
    const double geocentric = std::atan2(up, std::hypot(east, north));
    const double parallax = radians(8.794 / 3600.0) / sun.distance_au * std::cos(geocentric);
    position.elevation_rad = geocentric - parallax;
    position.apparent_elevation_rad =
        position.elevation_rad +
        refraction_rad(position.elevation_rad, standard_pressure_pa(site.elevation_m));
    return position;
}

SunTimes sun_times(const Site& site, CivilSeconds midnight_s) {
    SunTimes times;
    // The transit of this civil day, however far the clock is from the meridian: the hour angle
    // tells how far away it is, and the second round corrects for the sun's own motion.
    const double noon = static_cast<double>(midnight_s) + half_day_s();
    times.transit_s = noon;
    for (int round = 0; round < 3; ++round) {
        const double late = sun_position(site, times.transit_s).hour_angle_rad;
        times.transit_s -= late / full_turn * 2.0 * half_day_s();
    }
    constexpr double upper_limb = -0.8333;
    const double horizon = radians(upper_limb);
    times.rise_s = times.set_s = times.transit_s;
    if (sun_position(site, times.transit_s).elevation_rad < horizon) {
        times.kind = SunTimes::Kind::down_all_day;
        return times;
    }
    const double before = times.transit_s - half_day_s();
    const double after = times.transit_s + half_day_s();
    const bool rises = sun_position(site, before).elevation_rad < horizon;
    const bool sets = sun_position(site, after).elevation_rad < horizon;
    times.rise_s = rises ? crossing_s(site, before, times.transit_s, horizon) : before;
    times.set_s = sets ? crossing_s(site, after, times.transit_s, horizon) : after;
    if (!rises && !sets) times.kind = SunTimes::Kind::up_all_day;
    return times;
}

double refraction_rad(double elevation_rad, double pressure_pa, double air_c) {
    constexpr double sun_radius_deg = 0.26667;
    constexpr double at_horizon_deg = 0.5667;
    const double elevation_deg = degrees(elevation_rad);
    if (elevation_deg < -(sun_radius_deg + at_horizon_deg)) return 0.0;
    const double air = pressure_pa / 101000.0 * 283.0 / (273.0 + air_c);
    const double bent = elevation_deg + 10.3 / (elevation_deg + 5.11);
    return radians(air * 1.02 / (60.0 * std::tan(radians(bent))));
}

double standard_pressure_pa(double elevation_m) {
    // ISO 2533, troposphere: 288.15 K falling by 6.5 K/km.
    const double clamped = std::clamp(elevation_m, -500.0, 10000.0);
    return 101325.0 * std::pow(1.0 - 0.0065 * clamped / 288.15, 5.25588);
}

double extraterrestrial_normal_w_m2(double distance_au) {
    return solar_constant_w_m2 / (distance_au * distance_au);
}

double relative_air_mass(double apparent_elevation_rad) {
    const double zenith_deg = std::clamp(90.0 - degrees(apparent_elevation_rad), 0.0, 90.0);
    return 1.0 /
           (std::cos(radians(zenith_deg)) + 0.50572 * std::pow(96.07995 - zenith_deg, -1.6364));
}

Direction direction_of(double elevation_rad, double azimuth_rad) {
    const double level = std::cos(elevation_rad);
    return {level * std::sin(azimuth_rad), level * std::cos(azimuth_rad), std::sin(elevation_rad)};
}

Direction normal_of_plane(double slope_rad, double azimuth_rad) {
    return direction_of(0.5 * pi - slope_rad, azimuth_rad);
}

double dot(const Direction& a, const Direction& b) {
    return a.east * b.east + a.north * b.north + a.up * b.up;
}

}  // namespace noonbench::plant
