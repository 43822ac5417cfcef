// SPDX-License-Identifier: MIT
// Time on the bench is one integer: seconds of local standard time since 2000-01-01 00:00.
// Everything civil is derived from it; days always have 24 hours.
#pragma once
#include "harness/scenario/scenario.hpp"

#include <cstdint>
#include <string>

namespace noonbench::harness {

struct CivilDate {
    int year = 2026;
    unsigned month = 1;  // 1..12
    unsigned day = 1;    // 1..31
};

CivilSeconds midnight_of(CivilDate date);
CivilDate date_of(CivilSeconds at);
/// Second of the day, 0..86399, and midnight of the same day.
std::int64_t second_of_day(CivilSeconds at);
CivilSeconds day_start(CivilSeconds at);

/// "13:42:07" and "2026-04-15 13:42:07".
std::string clock_text(CivilSeconds at);
std::string date_time_text(CivilSeconds at);

}  // namespace noonbench::harness
