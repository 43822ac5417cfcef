// SPDX-License-Identifier: MIT
#include "plant/clear_day.hpp"
#include "plant/calendar.hpp"
#include "plant/si.hpp"
#include "plant/sky_source.hpp"
#include "plant/sky_temperature.hpp"
#include "plant/sun.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

BOOST_AUTO_TEST_SUITE(clear_day)

namespace {

using namespace noonbench::plant;

static_assert(SkySource<ClearDay>);

const CivilSeconds june = midnight_of({2023, 6, 10});

/// The sky at a second, as the plant sees it: on the line between two knots.
SkyKnot at(const std::vector<SkyKnot>& knots, CivilSeconds at_s) {
    const auto after =
        std::upper_bound(knots.begin(), knots.end(), at_s,
                         [](CivilSeconds value, const SkyKnot& knot) { return value < knot.at_s; });
    BOOST_REQUIRE(after != knots.begin());
    BOOST_REQUIRE(after != knots.end());
    const SkyKnot& a = *(after - 1);
    const SkyKnot& b = *after;
    const double share = static_cast<double>(at_s - a.at_s) / static_cast<double>(b.at_s - a.at_s);
    SkyKnot between = a;
    between.beam_normal_w_m2 += share * (b.beam_normal_w_m2 - a.beam_normal_w_m2);
    between.diffuse_horizontal_w_m2 +=
        share * (b.diffuse_horizontal_w_m2 - a.diffuse_horizontal_w_m2);
    return between;
}

}  // namespace

BOOST_AUTO_TEST_CASE(knots_begin_at_midnight_rise_and_stay_within_the_day) {
    const auto knots = knots_of_day(ClearDay{}, june);
    BOOST_REQUIRE(!knots.empty());
    BOOST_TEST(knots.front().at_s == june);
    BOOST_TEST(knots.back().at_s < june + seconds_a_day);
    for (std::size_t i = 1; i < knots.size(); ++i) {
        const CivilSeconds gap = knots[i].at_s - knots[i - 1].at_s;
        BOOST_TEST(gap > 0);
        BOOST_TEST(gap <= 3600);
        if (knots[i].diffuse_horizontal_w_m2 > 0.0) BOOST_TEST(gap <= 300);
    }
    BOOST_TEST(knots.size() > 190U);  // 16 h of day at twelve knots, 8 of night
    BOOST_TEST(knots.size() < 230U);
}

BOOST_AUTO_TEST_CASE(there_is_light_between_rise_and_set_and_none_outside) {
    const ClearDay day;
    const SunTimes sun = sun_times(day.site, june);
    for (const SkyKnot& knot : knots_of_day(day, june)) {
        const double at_s = static_cast<double>(knot.at_s);
        if (at_s < sun.rise_s || at_s > sun.set_s) {
            BOOST_TEST(knot.beam_normal_w_m2 == 0.0);
            BOOST_TEST(knot.diffuse_horizontal_w_m2 == 0.0);
        } else if (at_s > sun.rise_s + 600.0 && at_s < sun.set_s - 600.0) {
            BOOST_TEST(knot.beam_normal_w_m2 > 0.0);
            BOOST_TEST(knot.diffuse_horizontal_w_m2 > 0.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(the_air_is_coldest_twelve_hours_from_its_warmest) {
    ClearDay day;
    day.air_least_c = -4.0;
    day.air_most_c = 9.0;
    day.hour_of_most_air = 14.0;
    for (const SkyKnot& knot : knots_of_day(day, june)) {
        const CivilSeconds into = knot.at_s - june;
        if (into == 14 * 3600) BOOST_CHECK_SMALL(knot.air_c - 9.0, 1e-9);
        if (into == 2 * 3600) BOOST_CHECK_SMALL(knot.air_c + 4.0, 1e-9);
        BOOST_TEST(knot.sky_c == clear_sky_c(knot.air_c));
    }
    day.sky_depression_k = 12.5;
    for (const SkyKnot& knot : knots_of_day(day, june)) {
        BOOST_CHECK_SMALL(knot.air_c - knot.sky_c - 12.5, 1e-9);
    }
}

BOOST_AUTO_TEST_CASE(a_cloud_stands_exactly_where_it_was_put) {
    ClearDay day;
    const auto clear = knots_of_day(day, june);
    const CivilSeconds from = june + 11 * 3600 + 123;
    day.clouds = {{from, 600, 20, 0.1, 1.5, false}};
    const auto cloudy = knots_of_day(day, june);
    // Between the knots of the clear day lies its sky's curvature: below 0.1 W/m2 within 5 min.
    constexpr double curvature_w_m2 = 0.2;
    const auto beam = [&](CivilSeconds at_s) { return at(cloudy, at_s).beam_normal_w_m2; };
    const auto whole = [&](CivilSeconds at_s) { return at(clear, at_s).beam_normal_w_m2; };
    BOOST_CHECK_SMALL(beam(from) - whole(from), curvature_w_m2);
    BOOST_CHECK_SMALL(beam(from + 10) - 0.55 * whole(from + 10), curvature_w_m2);
    BOOST_CHECK_SMALL(beam(from + 20) - 0.1 * whole(from + 20), curvature_w_m2);
    BOOST_CHECK_SMALL(beam(from + 300) - 0.1 * whole(from + 300), curvature_w_m2);
    BOOST_CHECK_SMALL(beam(from + 580) - 0.1 * whole(from + 580), curvature_w_m2);
    BOOST_CHECK_SMALL(beam(from + 600) - whole(from + 600), curvature_w_m2);
    BOOST_CHECK_SMALL(at(cloudy, from + 300).diffuse_horizontal_w_m2 -
                          1.5 * at(clear, from + 300).diffuse_horizontal_w_m2,
                      curvature_w_m2);
    BOOST_TEST(cloudy.size() == clear.size() + 4);
    // It was one passage: the next day is clear again.
    BOOST_TEST(knots_of_day(day, june + seconds_a_day).size() ==
               knots_of_day(ClearDay{}, june + seconds_a_day).size());
}

BOOST_AUTO_TEST_CASE(a_daily_cloud_returns_on_later_days_only_and_passes_midnight) {
    ClearDay day;
    day.site.latitude_rad = radians(69.6);  // the midnight sun shines on the cloud
    day.site.longitude_rad = radians(15.0);
    const CivilSeconds from = june + 86400 - 600;
    day.clouds = {{from, 1200, 60, 0.0, 1.0, true}};
    const auto beam = [&](CivilSeconds midnight, CivilSeconds at_s) {
        return at(knots_of_day(day, midnight), at_s).beam_normal_w_m2;
    };
    BOOST_TEST(beam(june - 86400, from - 86400 + 120) > 1.0);  // the day before the first
    BOOST_CHECK_SMALL(beam(june, from + 120), 1e-9);
    BOOST_CHECK_SMALL(beam(june + 86400, june + 86400 + 300), 1e-9);  // its other half
    BOOST_CHECK_SMALL(beam(june + 86400, from + 86400 + 120), 1e-9);  // and again
}

BOOST_AUTO_TEST_CASE(a_cloud_outside_its_ranges_is_refused) {
    ClearDay day;
    day.clouds = {{june, 0, 20, 0.1, 1.2, false}};
    BOOST_CHECK_THROW((void)knots_of_day(day, june), std::invalid_argument);
    day.clouds = {{june, 600, 20, -0.1, 1.2, false}};
    BOOST_CHECK_THROW((void)knots_of_day(day, june), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(far_in_the_east_and_west_the_day_has_its_light_at_noon) {
    for (const double offset : {-11.0, -5.0, 0.0, 9.5, 12.0}) {
        ClearDay day;
        day.site.longitude_rad = radians(15.0 * offset);
        day.site.utc_offset_s = static_cast<std::int32_t>(offset * 3600.0);
        double weighted = 0.0;
        double sum = 0.0;
        for (const SkyKnot& knot : knots_of_day(day, june)) {
            weighted += knot.beam_normal_w_m2 * static_cast<double>(knot.at_s - june) / 3600.0;
            sum += knot.beam_normal_w_m2;
        }
        BOOST_TEST_CONTEXT("offset " << offset)
        BOOST_CHECK_SMALL(weighted / sum - 12.0, 0.1);
    }
}

BOOST_AUTO_TEST_SUITE_END()
