// SPDX-License-Identifier: MIT
#include "clock.hpp"

#include <fmt/format.h>

#include <chrono>

namespace noonbench::harness {
namespace {

constexpr CivilSeconds a_day = 86400;
constexpr std::chrono::sys_days epoch =
    std::chrono::year{2000} / std::chrono::January / std::chrono::day{1};

CivilSeconds days_before(CivilSeconds at) {
    return at >= 0 ? at / a_day : -((a_day - 1 - at) / a_day);
}

}  // namespace

CivilSeconds midnight_of(CivilDate date) {
    const std::chrono::sys_days day =
        std::chrono::year{date.year} / std::chrono::month{date.month} / std::chrono::day{date.day};
    return (day - epoch).count() * a_day;
}

CivilDate date_of(CivilSeconds at) {
    const std::chrono::year_month_day ymd{epoch + std::chrono::days{days_before(at)}};
    return {static_cast<int>(ymd.year()), static_cast<unsigned>(ymd.month()),
            static_cast<unsigned>(ymd.day())};
}

CivilSeconds day_start(CivilSeconds at) {
    return days_before(at) * a_day;
}

std::int64_t second_of_day(CivilSeconds at) {
    return at - day_start(at);
}

std::string clock_text(CivilSeconds at) {
    const std::int64_t s = second_of_day(at);
    return fmt::format("{:02}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
}

std::string date_time_text(CivilSeconds at) {
    const CivilDate date = date_of(at);
    return fmt::format("{:04}-{:02}-{:02} {}", date.year, date.month, date.day, clock_text(at));
}

}  // namespace noonbench::harness
