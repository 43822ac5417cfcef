// SPDX-License-Identifier: MIT
#include "plant/sun.hpp"
#include "plant/calendar.hpp"
#include "plant/si.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>

BOOST_AUTO_TEST_SUITE(sun)

namespace {

using namespace noonbench::plant;

Site site_at(double latitude_deg, double longitude_deg, double offset_h) {
    Site site;
    site.latitude_rad = radians(latitude_deg);
    site.longitude_rad = radians(longitude_deg);
    site.elevation_m = 0.0;
    site.utc_offset_s = static_cast<std::int32_t>(offset_h * 3600.0);
    return site;
}

double hours_into(CivilSeconds midnight, double at_s) {
    return (at_s - static_cast<double>(midnight)) / 3600.0;
}

}  // namespace

BOOST_AUTO_TEST_CASE(dates_and_seconds_agree_in_both_directions) {
    BOOST_TEST(midnight_of({2000, 1, 1}) == 0);
    BOOST_TEST(midnight_of({2000, 3, 1}) == 60 * seconds_a_day);  // 2000 had a 29 February
    BOOST_TEST(midnight_of({1999, 12, 31}) == -seconds_a_day);
    for (CivilSeconds at = -400 * seconds_a_day; at < 10000 * seconds_a_day;
         at += 7 * seconds_a_day + 4321) {
        const CivilDate date = date_of(at);
        BOOST_TEST(midnight_of(date) == midnight_before(at));
    }
    BOOST_TEST(day_of_weather_year({2024, 2, 28}) == 58);
    BOOST_TEST(day_of_weather_year({2024, 2, 29}) == 58);
    BOOST_TEST(day_of_weather_year({2024, 3, 1}) == 59);
    BOOST_TEST(day_of_weather_year({2023, 12, 31}) == 364);
}

// The clock of a place must not matter: the same instant under another offset is the same sun.
BOOST_AUTO_TEST_CASE(the_sun_stands_still_when_only_the_clock_is_moved) {
    const Site utc = site_at(-43.5, 172.6, 0.0);
    const Site own = site_at(-43.5, 172.6, 12.0);
    const double at_utc = static_cast<double>(midnight_of({2024, 9, 22})) + 20.0 * 3600.0;
    const SunPosition a = sun_position(utc, at_utc);
    const SunPosition b = sun_position(own, at_utc + 12.0 * 3600.0);
    BOOST_TEST(a.elevation_rad == b.elevation_rad);
    BOOST_TEST(a.azimuth_rad == b.azimuth_rad);
}

// Each of these has its noon within 12:00 +- 1.5 h on its own clock, far east and far west
// included.
BOOST_AUTO_TEST_CASE(the_day_is_found_in_the_civil_day_on_every_meridian) {
    for (int offset_h = -11; offset_h <= 13; ++offset_h) {
        const Site site = site_at(20.0, 15.0 * offset_h, offset_h);
        for (unsigned month = 1; month <= 12; ++month) {
            const CivilSeconds midnight = midnight_of({2023, month, 15});
            const SunTimes times = sun_times(site, midnight);
            BOOST_TEST_CONTEXT("offset " << offset_h << " month " << month) {
                BOOST_TEST((times.kind == SunTimes::Kind::rises_and_sets));
                BOOST_TEST(std::abs(hours_into(midnight, times.transit_s) - 12.0) < 0.3);
                BOOST_TEST(hours_into(midnight, times.rise_s) > 5.0);
                BOOST_TEST(hours_into(midnight, times.rise_s) < 7.0);
                BOOST_TEST(hours_into(midnight, times.set_s) > 17.0);
                BOOST_TEST(hours_into(midnight, times.set_s) < 19.0);
            }
        }
    }
}

// At rise and set the centre stands at -0.8333 degrees: 0.25 s of bisection is 0.001 degrees.
BOOST_AUTO_TEST_CASE(rise_and_set_are_where_the_upper_limb_touches_the_horizon) {
    const Site sydney = site_at(-33.87, 151.21, 10.0);
    for (unsigned month = 1; month <= 12; ++month) {
        const SunTimes times = sun_times(sydney, midnight_of({2022, month, 3}));
        for (const double at : {times.rise_s, times.set_s}) {
            BOOST_CHECK_SMALL(degrees(sun_position(sydney, at).elevation_rad) + 0.8333, 0.002);
        }
        BOOST_CHECK_SMALL(sun_position(sydney, times.transit_s).hour_angle_rad, 1e-6);
    }
}

BOOST_AUTO_TEST_CASE(beyond_the_polar_circle_there_are_days_without_rise) {
    const Site tromso = site_at(69.65, 18.96, 1.0);
    BOOST_TEST((sun_times(tromso, midnight_of({2024, 6, 21})).kind == SunTimes::Kind::up_all_day));
    BOOST_TEST(
        (sun_times(tromso, midnight_of({2024, 12, 21})).kind == SunTimes::Kind::down_all_day));
    BOOST_TEST(
        (sun_times(tromso, midnight_of({2024, 3, 20})).kind == SunTimes::Kind::rises_and_sets));
}

BOOST_AUTO_TEST_CASE(the_southern_sun_culminates_in_the_north) {
    const Site south = site_at(-43.5, 172.6, 12.0);
    const SunTimes times = sun_times(south, midnight_of({2024, 9, 23}));
    const double azimuth = degrees(sun_position(south, times.transit_s).azimuth_rad);
    BOOST_CHECK_SMALL(std::min(azimuth, 360.0 - azimuth), 0.01);
}

BOOST_AUTO_TEST_CASE(refraction_lifts_the_sun_most_at_the_horizon_and_never_lowers_it_while_up) {
    double before = 1.0;
    for (int tenths = 0; tenths <= 890; ++tenths) {
        const double lifted = refraction_rad(radians(tenths / 10.0));
        BOOST_TEST(lifted >= 0.0);
        BOOST_TEST(lifted < before);
        before = lifted;
    }
}

BOOST_AUTO_TEST_SUITE_END()
