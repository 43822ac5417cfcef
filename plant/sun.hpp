// SPDX-License-Identifier: MIT
// Where the sun stands. The method is that of Reda & Andreas, Solar Position Algorithm, NREL/TP-
// 560-34302 (Meeus, Astronomical Algorithms, ch. 22 and 25, VSOP87 series), with the series cut
// where a term moves the sun by less than 0.0002 deg. Error for 1990..2060: below 0.001 deg against
// that algorithm, to which comes up to 0.004 deg since UTC is taken for UT1.
#pragma once
#include "parameters.hpp"
#include "sky.hpp"

namespace noonbench::plant {

/// Total solar irradiance at one astronomical unit (Kopp & Lean 2011, rounded).
inline constexpr double solar_constant_w_m2 = 1361.0;

/// Seen from the centre of the earth.
struct SunCoordinates {
    double right_ascension_rad = 0.0;
    double declination_rad = 0.0;
    double distance_au = 1.0;
    double sidereal_time_rad = 0.0;   // apparent, at Greenwich
    double equation_of_time_s = 0.0;  // apparent minus mean solar time
};

/// Seen from the site.
struct SunPosition {
    double elevation_rad = 0.0;           // true, of the disc's centre, without refraction
    double apparent_elevation_rad = 0.0;  // as the light comes in, refraction added
    double azimuth_rad = 0.0;             // clockwise from north, 0 .. 2 pi
    double hour_angle_rad = 0.0;          // -pi .. pi, afternoon positive
    double declination_rad = 0.0;
    double distance_au = 1.0;
    double equation_of_time_s = 0.0;
};

/// Rise and set of the upper limb with standard refraction (centre at -0.8333 deg), in local
/// standard time. They belong to the transit that falls into the civil day, so near midnight, in
/// high summer of high latitudes, they may lie outside that day.
struct SunTimes {
    enum class Kind { rises_and_sets, up_all_day, down_all_day };
    Kind kind = Kind::rises_and_sets;
    double transit_s = 0.0;
    double rise_s = 0.0;  // with up_all_day: transit -+ 12 h; with down_all_day: the transit
    double set_s = 0.0;
};

/// `utc_s`: seconds of UTC since 2000-01-01 00:00.
[[nodiscard]] SunCoordinates sun_coordinates(double utc_s);

/// `at_s` in the site's local standard time; fractions of a second allowed.
[[nodiscard]] SunPosition sun_position(const Site& site, double at_s);

/// Rise, transit and set for the civil day that begins at `midnight_s`; to about 2 s.
[[nodiscard]] SunTimes sun_times(const Site& site, CivilSeconds midnight_s);

/// What refraction adds to a true elevation [rad]; zero once the whole disc is below the horizon.
/// Bennett's form as in Reda & Andreas, eq. 42.
[[nodiscard]] double refraction_rad(double elevation_rad, double pressure_pa = 101325.0,
                                    double air_c = 10.0);

/// Pressure of the standard atmosphere at a height above the sea [Pa], -500 .. 10000 m.
[[nodiscard]] double standard_pressure_pa(double elevation_m);

/// Irradiance outside the atmosphere on a plane facing the sun [W/m2].
[[nodiscard]] double extraterrestrial_normal_w_m2(double distance_au);

/// Relative optical air mass, Kasten & Young 1989, of an apparent elevation; at and below the
/// horizon its value on the horizon, 37.92.
[[nodiscard]] double relative_air_mass(double apparent_elevation_rad);

/// A direction as a unit vector: east, north, up.
struct Direction {
    double east = 0.0;
    double north = 0.0;
    double up = 1.0;
};
[[nodiscard]] Direction direction_of(double elevation_rad, double azimuth_rad);

/// The direction a plane faces.
[[nodiscard]] Direction normal_of_plane(double slope_rad, double azimuth_rad);

[[nodiscard]] double dot(const Direction& a, const Direction& b);

}  // namespace noonbench::plant
