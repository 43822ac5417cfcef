// SPDX-License-Identifier: MIT
#include "harness/bench/clock.hpp"

#include <boost/test/unit_test.hpp>

// A suite is a namespace, and ::clock is a function of the system.
namespace civil_clock {
BOOST_AUTO_TEST_SUITE(clock)

namespace {

using namespace noonbench::harness;

constexpr CivilSeconds day_s = 86400;

}  // namespace

BOOST_AUTO_TEST_CASE(time_begins_with_the_year_2000) {
    BOOST_TEST(midnight_of({2000, 1, 1}) == 0);
    BOOST_TEST(date_time_text(0) == "2000-01-01 00:00:00");
}

// 9497 and 9601 days: counted by hand as 26 years of 365 days with the seven leap days of
// 2000, 2004 .. 2024, and 104 days from 1 January to 15 April.
BOOST_AUTO_TEST_CASE(known_dates_lie_where_a_calendar_puts_them) {
    BOOST_TEST(midnight_of({2026, 1, 1}) == (26 * 365 + 7) * day_s);
    BOOST_TEST(midnight_of({2026, 4, 15}) == (26 * 365 + 7 + 31 + 28 + 31 + 14) * day_s);
    BOOST_TEST(midnight_of({1999, 12, 31}) == -day_s);
}

BOOST_AUTO_TEST_CASE(every_day_of_a_hundred_years_comes_back_as_itself) {
    CivilDate before = date_of(-day_s);
    for (CivilSeconds at = 0; at < 36525 * day_s; at += day_s) {
        const CivilDate date = date_of(at);
        BOOST_TEST_REQUIRE(midnight_of(date) == at);
        const bool next_day = date.day == before.day + 1 && date.month == before.month;
        BOOST_TEST_REQUIRE((next_day || date.day == 1U), date_time_text(at));
        before = date;
    }
}

BOOST_AUTO_TEST_CASE(the_leap_day_of_a_century_is_there_only_every_400_years) {
    BOOST_TEST(midnight_of({2000, 3, 1}) - midnight_of({2000, 2, 28}) == 2 * day_s);
    BOOST_TEST(midnight_of({2100, 3, 1}) - midnight_of({2100, 2, 28}) == day_s);
}

BOOST_AUTO_TEST_CASE(the_last_second_of_a_day_still_belongs_to_it) {
    const CivilSeconds midnight = midnight_of({2026, 4, 15});
    BOOST_TEST(second_of_day(midnight) == 0);
    BOOST_TEST(second_of_day(midnight + day_s - 1) == 86399);
    BOOST_TEST(day_start(midnight + day_s - 1) == midnight);
    BOOST_TEST(day_start(midnight + day_s) == midnight + day_s);
}

BOOST_AUTO_TEST_CASE(seconds_before_the_year_2000_count_forward_within_their_day) {
    BOOST_TEST(second_of_day(-1) == 86399);
    BOOST_TEST(day_start(-1) == -day_s);
    BOOST_TEST(day_start(-day_s) == -day_s);
    BOOST_TEST(second_of_day(-day_s) == 0);
    BOOST_TEST(date_time_text(-1) == "1999-12-31 23:59:59");
}

BOOST_AUTO_TEST_CASE(texts_have_two_digits_everywhere) {
    const CivilSeconds at = midnight_of({2026, 4, 5}) + 3 * 3600 + 4 * 60 + 5;
    BOOST_TEST(clock_text(at) == "03:04:05");
    BOOST_TEST(date_time_text(at) == "2026-04-05 03:04:05");
}

BOOST_AUTO_TEST_CASE(the_two_ways_from_a_date_to_seconds_agree) {
    for (int year = 1996; year <= 2104; year += 9) {
        for (unsigned month = 1; month <= 12; ++month) {
            BOOST_TEST(midnight_of({year, month, 28}) ==
                       civil_seconds(year, static_cast<int>(month), 28));
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
}  // namespace civil_clock
