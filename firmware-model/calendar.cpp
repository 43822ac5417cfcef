// SPDX-License-Identifier: MIT
#include "calendar.hpp"

namespace noonbench::firmware {
namespace {

constexpr std::uint32_t days_per_week = 7;
constexpr std::uint32_t minutes_put_forward = 60;

std::uint32_t weekday_of(std::uint32_t date) {
    return (date + 5) % days_per_week;  // 2000-01-01 was a Saturday
}

// Days since the last 1 March. Years that begin in March put the leap day at their end, so that
// March to December need no leap year at all (the usual arithmetic of the Gregorian calendar with
// eras of 400 years; 2000-03-01 begins one, and the dates before it end the one before).
std::uint32_t day_since_march(std::uint32_t date) {
    constexpr std::uint32_t era = 146097;       // days of 400 years
    constexpr std::uint32_t to_era_begin = 60;  // 2000-01-01 to 2000-03-01
    const std::uint32_t day = (date + era - to_era_begin) % era;
    const std::uint32_t year = (day - day / 1460 + day / 36524 - day / 146096) / 365;
    return day - (365 * year + year / 4 - year / 100);
}

// European summer time lies within one March year: from the last Sunday of March to that of
// October, both times at 02:00 standard time.
bool is_summer_time(std::uint32_t date, std::uint32_t minute) {
    constexpr std::uint32_t march_31 = 30;  // days since 1 March
    constexpr std::uint32_t october_31 = 244;
    constexpr std::uint32_t change_minute = 120;
    const std::uint32_t day = day_since_march(date);
    if (day > october_31) return false;  // also keeps the dates below from wrapping
    const auto last_sunday = [&](std::uint32_t last_day) {
        return last_day - (weekday_of(date + last_day - day) + 1) % days_per_week;
    };
    const std::uint32_t now = day * minutes_per_day + minute;
    return now >= (last_sunday(march_31) * minutes_per_day + change_minute) &&
           now < (last_sunday(october_31) * minutes_per_day + change_minute);
}

}  // namespace

CivilTime civil_time(std::uint32_t clock_s, SummerTime rule) noexcept {
    std::uint32_t date = clock_s / seconds_per_day;
    std::uint32_t minute = clock_s % seconds_per_day / 60;
    CivilTime time;
    if (rule == SummerTime::european && is_summer_time(date, minute)) {
        time.summer_time = 1;
        minute += minutes_put_forward;
        if (minute >= minutes_per_day) {
            minute -= minutes_per_day;
            ++date;
        }
    }
    time.date = static_cast<std::uint16_t>(date);  // at most 49710
    time.minute_of_day = static_cast<std::int16_t>(minute);
    time.weekday = static_cast<std::uint8_t>(weekday_of(date));
    return time;
}

CivilTime civil_time(std::uint32_t clock_s, const Settings& settings) noexcept {
    return civil_time(clock_s, SummerTime{settings[Setting::summer_time]});
}

bool in_window(const CivilTime& time, std::int16_t weekdays, std::int16_t from_minute,
               std::int16_t until_minute) noexcept {
    const std::uint32_t yesterday = (time.weekday + days_per_week - 1) % days_per_week;
    const auto chosen = [&](std::uint32_t weekday) {
        return (static_cast<std::uint32_t>(weekdays) >> weekday & 1U) != 0;
    };
    const bool begun = time.minute_of_day >= from_minute;
    const bool not_over = time.minute_of_day < until_minute;
    if (from_minute <= until_minute) return begun && not_over && chosen(time.weekday);
    return (begun && chosen(time.weekday)) || (not_over && chosen(yesterday));
}

}  // namespace noonbench::firmware
