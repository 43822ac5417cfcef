// SPDX-License-Identifier: MIT
// Between seconds of local standard time and dates of the Gregorian calendar. Days have 24 h
// always: neither summer time nor leap seconds exist here.
#pragma once
#include "sky.hpp"

#include <chrono>

namespace noonbench::plant {

struct CivilDate {
    int year = 2000;
    unsigned month = 1;  // 1..12
    unsigned day = 1;    // 1..31
};

inline constexpr int days_a_weather_year = 365;

constexpr std::chrono::sys_days civil_epoch() {
    return std::chrono::sys_days{std::chrono::year{2000} / 1 / 1};
}

/// Seconds since 2000-01-01 00:00 at the midnight that begins the date, which must exist.
constexpr CivilSeconds midnight_of(const CivilDate& date) {
    using namespace std::chrono;
    const sys_days days{year{date.year} / month{date.month} / day{date.day}};
    return CivilSeconds{(days - civil_epoch()).count()} * seconds_a_day;
}

/// The midnight at or before an instant; exact for negative times too.
constexpr CivilSeconds midnight_before(CivilSeconds at_s) {
    const CivilSeconds into_day = ((at_s % seconds_a_day) + seconds_a_day) % seconds_a_day;
    return at_s - into_day;
}

constexpr CivilDate date_of(CivilSeconds at_s) {
    using namespace std::chrono;
    const year_month_day date{civil_epoch() + days{midnight_before(at_s) / seconds_a_day}};
    return {int{date.year()}, unsigned{date.month()}, unsigned{date.day()}};
}

/// Day 0..364 of a year without 29 February, as weather years have it; 29 February repeats the
/// 28th.
constexpr int day_of_weather_year(const CivilDate& date) {
    const unsigned day = date.month == 2 && date.day == 29 ? 28 : date.day;
    const CivilSeconds since = midnight_of({2001, date.month, day}) - midnight_of({2001, 1, 1});
    return static_cast<int>(since / seconds_a_day);
}

}  // namespace noonbench::plant
