// SPDX-License-Identifier: MIT
// The clock on the wall, from the seconds of the clock chip (local standard time since 2000-01-01).
#pragma once
#include "settings.hpp"

#include <cstdint>

namespace noonbench::firmware {

inline constexpr std::uint32_t seconds_per_day = 86400;
inline constexpr std::int16_t minutes_per_day = 1440;

/// Values of Setting::summer_time.
enum class SummerTime : std::int16_t { none, european };

struct CivilTime {
    std::uint16_t date = 0;          // days since 2000-01-01
    std::int16_t minute_of_day = 0;  // 0..1439
    std::uint8_t weekday = 0;        // 0 = Monday .. 6 = Sunday
    std::uint8_t summer_time = 0;    // 1 while the clock is put forward by an hour

    friend constexpr bool operator==(const CivilTime&, const CivilTime&) = default;
};

/// Civil time of the clock chip's second, right from 2000 to 2136 (all of uint32). European summer
/// time: from 02:00 standard time on the last Sunday of March to 02:00 standard time on the last
/// Sunday of October (directive 2000/84/EC: 01:00 UTC, which is 02:00 of central European time).
CivilTime civil_time(std::uint32_t clock_s, SummerTime rule) noexcept;

/// The same with Setting::summer_time.
CivilTime civil_time(std::uint32_t clock_s, const Settings& settings) noexcept;

/// Is the minute within [from, until) of a window that begins on one of `weekdays` (bit 0 =
/// Monday)? A window with until < from runs across midnight and belongs to the day on which it
/// begins. from == until is no window at all; 0 to 1440 is the whole day.
bool in_window(const CivilTime& time, std::int16_t weekdays, std::int16_t from_minute,
               std::int16_t until_minute) noexcept;

}  // namespace noonbench::firmware
