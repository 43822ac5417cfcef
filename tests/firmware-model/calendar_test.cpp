// SPDX-License-Identifier: MIT
#include "firmware-model/calendar.hpp"

#include <boost/test/unit_test.hpp>

#include <chrono>
#include <cstdint>

BOOST_AUTO_TEST_SUITE(calendar)

using namespace noonbench::firmware;

namespace {

using std::chrono::sys_days;
using std::chrono::year;

constexpr sys_days epoch{year{2000} / 1 / 1};

std::uint32_t date_of(std::chrono::year_month_day day) {
    return static_cast<std::uint32_t>((sys_days{day} - epoch).count());
}

std::uint32_t second(std::chrono::year_month_day day, int hour, int minute, int s = 0) {
    return date_of(day) * 86400U + static_cast<std::uint32_t>(hour * 3600 + minute * 60 + s);
}

CivilTime european(std::uint32_t clock_s) {
    return civil_time(clock_s, SummerTime::european);
}

// Directive 2000/84/EC by the standard library's calendar.
bool is_summer(std::uint32_t clock_s) {
    const sys_days today = epoch + std::chrono::days{clock_s / 86400};
    const year y = std::chrono::year_month_day{today}.year();
    using std::chrono::last;
    using std::chrono::Sunday;
    const auto begin = second(sys_days{y / 3 / Sunday[last]}, 2, 0);
    const auto end = second(sys_days{y / 10 / Sunday[last]}, 2, 0);
    return clock_s >= begin && clock_s < end;
}

constexpr int monday = 0;
constexpr int tuesday = 1;
constexpr int sunday = 6;

CivilTime at(int weekday, int minute) {
    CivilTime time;
    time.weekday = static_cast<std::uint8_t>(weekday);
    time.minute_of_day = static_cast<std::int16_t>(minute);
    return time;
}

constexpr std::int16_t on_monday = 1;
constexpr std::int16_t on_sunday = 64;
constexpr std::int16_t every_day = 127;

}  // namespace

BOOST_AUTO_TEST_CASE(the_first_second_is_midnight_of_a_saturday) {
    const CivilTime first = european(0);
    BOOST_TEST(first.date == 0);
    BOOST_TEST(first.weekday == 5);
    BOOST_TEST(first.minute_of_day == 0);
    BOOST_TEST(first.summer_time == 0);
    BOOST_TEST(european(59).minute_of_day == 0);
    BOOST_TEST(european(60).minute_of_day == 1);
    BOOST_TEST(european(86399).minute_of_day == 1439);
    BOOST_TEST(european(86400).date == 1);
    BOOST_TEST(european(2 * 86400).weekday == monday);
}

BOOST_AUTO_TEST_CASE(summer_time_begins_on_the_last_sunday_of_march_at_two) {
    using namespace std::chrono_literals;
    const auto day = 2026y / 3 / 29;
    const CivilTime before = european(second(day, 1, 59, 59));
    BOOST_TEST(before.summer_time == 0);
    BOOST_TEST(before.minute_of_day == 119);
    const CivilTime after = european(second(day, 2, 0));
    BOOST_TEST(after.summer_time == 1);
    BOOST_TEST(after.minute_of_day == 180);
    BOOST_TEST(after.weekday == sunday);
}

BOOST_AUTO_TEST_CASE(summer_time_ends_on_the_last_sunday_of_october_at_two_standard_time) {
    using namespace std::chrono_literals;
    const auto day = 2026y / 10 / 25;
    const CivilTime before = european(second(day, 1, 59, 59));
    BOOST_TEST(before.summer_time == 1);
    BOOST_TEST(before.minute_of_day == 179);  // 02:59, and again in a second
    const CivilTime after = european(second(day, 2, 0));
    BOOST_TEST(after.summer_time == 0);
    BOOST_TEST(after.minute_of_day == 120);
}

BOOST_AUTO_TEST_CASE(the_last_hour_of_a_summer_day_is_the_first_of_the_next_date) {
    using namespace std::chrono_literals;
    const auto day = 2026y / 7 / 5;  // a Sunday
    BOOST_TEST(european(second(day, 22, 59)).minute_of_day == 1439);
    BOOST_TEST(european(second(day, 22, 59)).weekday == sunday);
    const CivilTime next = european(second(day, 23, 0));
    BOOST_TEST(next.minute_of_day == 0);
    BOOST_TEST(next.weekday == monday);
    BOOST_TEST(next.date == date_of(2026y / 7 / 6));
}

BOOST_AUTO_TEST_CASE(without_summer_time_the_clock_stays_as_it_is) {
    using namespace std::chrono_literals;
    const CivilTime july = civil_time(second(2026y / 7 / 5, 23, 30), SummerTime::none);
    BOOST_TEST(july.minute_of_day == 23 * 60 + 30);
    BOOST_TEST(july.summer_time == 0);
    BOOST_TEST(july.date == date_of(2026y / 7 / 5));
}

BOOST_AUTO_TEST_CASE(the_setting_chooses_the_rule) {
    using namespace std::chrono_literals;
    Settings settings = default_settings();
    const std::uint32_t noon = second(2026y / 7 / 5, 12, 0);
    settings[Setting::summer_time] = 1;
    BOOST_TEST(civil_time(noon, settings).minute_of_day == 13 * 60);
    settings[Setting::summer_time] = 0;
    BOOST_TEST(civil_time(noon, settings).minute_of_day == 12 * 60);
}

BOOST_AUTO_TEST_CASE(every_day_until_2136_agrees_with_the_standard_library) {
    for (std::uint32_t date = 0; date < 49710; ++date) {
        const sys_days day = epoch + std::chrono::days{date};
        const auto weekday = std::chrono::weekday{day}.iso_encoding() - 1;
        for (const std::uint32_t in_day : {0U, 7199U, 7200U, 43200U, 82799U, 82800U, 86399U}) {
            const std::uint32_t clock_s = date * 86400 + in_day;
            const CivilTime plain = civil_time(clock_s, SummerTime::none);
            const CivilTime summer = european(clock_s);
            const bool forward = is_summer(clock_s);
            const bool shifted =
                summer == civil_time(clock_s + 3600, SummerTime::none) || summer.summer_time == 1;
            const auto civil = summer.date * 1440 + summer.minute_of_day;
            const auto wanted = plain.date * 1440 + plain.minute_of_day + (forward ? 60 : 0);
            if (plain.date != date || plain.weekday != weekday || civil != wanted ||
                shifted != forward) {
                BOOST_FAIL("wrong on day " << date << " at second " << in_day);
            }
        }
    }
    BOOST_TEST(european(0xFFFFFFFFU).date == 49710);
}

BOOST_AUTO_TEST_CASE(a_window_takes_its_first_minute_and_leaves_its_last) {
    BOOST_TEST(!in_window(at(monday, 1019), every_day, 1020, 1260));
    BOOST_TEST(in_window(at(monday, 1020), every_day, 1020, 1260));
    BOOST_TEST(in_window(at(monday, 1259), every_day, 1020, 1260));
    BOOST_TEST(!in_window(at(monday, 1260), every_day, 1020, 1260));
}

BOOST_AUTO_TEST_CASE(a_window_is_open_on_its_days_only) {
    BOOST_TEST(in_window(at(monday, 600), on_monday, 540, 660));
    BOOST_TEST(!in_window(at(tuesday, 600), on_monday, 540, 660));
    BOOST_TEST(!in_window(at(sunday, 600), on_monday, 540, 660));
    BOOST_TEST(!in_window(at(monday, 600), 0, 540, 660));
    BOOST_TEST(in_window(at(sunday, 600), on_sunday, 540, 660));
}

BOOST_AUTO_TEST_CASE(a_window_across_midnight_belongs_to_the_day_it_begins_on) {
    const std::int16_t from = 22 * 60;
    const std::int16_t until = 6 * 60;
    BOOST_TEST(!in_window(at(monday, from - 1), on_monday, from, until));
    BOOST_TEST(in_window(at(monday, from), on_monday, from, until));
    BOOST_TEST(in_window(at(monday, 1439), on_monday, from, until));
    BOOST_TEST(in_window(at(tuesday, 0), on_monday, from, until));
    BOOST_TEST(in_window(at(tuesday, until - 1), on_monday, from, until));
    BOOST_TEST(!in_window(at(tuesday, until), on_monday, from, until));
    BOOST_TEST(!in_window(at(monday, 0), on_monday, from, until));  // Sunday's, not chosen
    BOOST_TEST(!in_window(at(tuesday, from), on_monday, from, until));
    BOOST_TEST(in_window(at(monday, 0), on_sunday, from, until));  // the week closes
}

BOOST_AUTO_TEST_CASE(equal_ends_are_no_window_and_0_to_1440_is_the_whole_day) {
    BOOST_TEST(!in_window(at(monday, 600), every_day, 600, 600));
    BOOST_TEST(!in_window(at(monday, 0), every_day, 0, 0));
    BOOST_TEST(in_window(at(monday, 0), every_day, 0, 1440));
    BOOST_TEST(in_window(at(monday, 1439), every_day, 0, 1440));
    BOOST_TEST(!in_window(at(monday, 1439), every_day, 1440, 60));  // begins at its midnight
    BOOST_TEST(in_window(at(tuesday, 0), on_monday, 1440, 60));
}

BOOST_AUTO_TEST_CASE(civil_times_are_equal_only_in_all_parts) {
    const CivilTime time{9000, 600, 3, 1};
    BOOST_TEST((time == CivilTime{9000, 600, 3, 1}));
    BOOST_TEST(!(time == CivilTime{9001, 600, 3, 1}));
    BOOST_TEST(!(time == CivilTime{9000, 601, 3, 1}));
    BOOST_TEST(!(time == CivilTime{9000, 600, 4, 1}));
    BOOST_TEST(!(time == CivilTime{9000, 600, 3, 0}));
}

BOOST_AUTO_TEST_SUITE_END()
