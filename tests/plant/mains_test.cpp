// SPDX-License-Identifier: MIT
#include "plant/mains.hpp"
#include "plant/calendar.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>

BOOST_AUTO_TEST_SUITE(mains)

using namespace noonbench::plant;

BOOST_AUTO_TEST_CASE(fixed_mains_keep_their_mean_and_amplitude) {
    Mains mains;
    mains.mean_c = 11.0;
    mains.amplitude_k = 4.0;
    mains.warmest_day = 220.0;
    double sum = 0.0;
    for (int day = 1; day <= 365; ++day) {
        const double c = mains_on_day_c(mains, day);
        BOOST_TEST(c <= 15.0 + 1e-12);
        BOOST_TEST(c >= 7.0 - 1e-12);
        sum += c;
    }
    BOOST_CHECK_SMALL(sum / 365.0 - 11.0, 1e-9);  // a whole period; rounding
    BOOST_CHECK_SMALL(mains_on_day_c(mains, 220.0) - 15.0, 1e-12);
}

BOOST_AUTO_TEST_CASE(without_amplitude_the_mains_are_constant) {
    Mains mains;
    mains.amplitude_k = 0.0;
    for (const double day : {1.0, 100.5, 365.9}) {
        BOOST_TEST(mains_on_day_c(mains, day) == 10.0);
    }
}

BOOST_AUTO_TEST_CASE(mains_never_freeze) {
    Mains mains;
    mains.from_air = true;
    mains.air_mean_c = -8.0;
    mains.air_range_k = 45.0;
    bool clamped = false;
    for (int day = 1; day <= 365; ++day) {
        const double c = mains_on_day_c(mains, day);
        BOOST_TEST(c >= mains.least_c);
        clamped = clamped || c == mains.least_c;
    }
    BOOST_TEST(clamped);
}

BOOST_AUTO_TEST_CASE(an_instant_has_the_temperature_of_its_day) {
    Mains mains;
    mains.from_air = true;
    for (const int year : {1999, 2023, 2024}) {
        const CivilSeconds noon_s = midnight_of({year, 3, 1}) + 43200;
        const double day = (year == 2024 ? 61.0 : 60.0) + 0.5;
        BOOST_TEST_CONTEXT("year " << year) {
            BOOST_CHECK_SMALL(mains_c(mains, noon_s) - mains_on_day_c(mains, day), 1e-12);
        }
    }
    // New Year is no step: 0.986 degrees of arc a day fall 0.1 short of the circle.
    const CivilSeconds new_year = midnight_of({2023, 1, 1});
    BOOST_CHECK_SMALL(mains_c(mains, new_year) - mains_c(mains, new_year - 1), 0.02);
}

BOOST_AUTO_TEST_SUITE_END()
