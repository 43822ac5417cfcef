// SPDX-License-Identifier: MIT
// Clock times, dates and words of quantity_text.hpp.
#include "quantity_text.hpp"
#include "scenario.hpp"

#include "plant/calendar.hpp"

#include <fmt/format.h>

#include <chrono>
#include <vector>

namespace noonbench::harness {

namespace {

constexpr std::string_view time_form = "a time of day, 00:00 to 24:00, such as 06:30 or 06:30:15";
constexpr std::string_view date_form =
    "a date with or without a time, 1900-01-01 to 2199-12-31, such as 2026-04-15 06:30";

/// Exactly the digits given, as a number; nothing if the text is anything else.
std::optional<int> digits(std::string_view text, std::size_t least, std::size_t most) {
    if (text.size() < least || text.size() > most) return std::nullopt;
    int value = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        value = 10 * value + (c - '0');
    }
    return value;
}

std::vector<std::string_view> split(std::string_view text, char at) {
    std::vector<std::string_view> parts;
    for (std::size_t end = text.find(at); end != std::string_view::npos; end = text.find(at)) {
        parts.push_back(text.substr(0, end));
        text.remove_prefix(end + 1);
    }
    parts.push_back(text);
    return parts;
}

std::optional<std::int32_t> time_of_day(std::string_view text) {
    const auto parts = split(text, ':');
    if (parts.size() < 2 || parts.size() > 3) return std::nullopt;
    const auto hour = digits(parts[0], 1, 2);
    const auto minute = digits(parts[1], 2, 2);
    const auto second = parts.size() == 3 ? digits(parts[2], 2, 2) : std::optional<int>(0);
    if (!hour || !minute || !second || *minute > 59 || *second > 59) return std::nullopt;
    const int seconds = (*hour * 60 + *minute) * 60 + *second;
    if (seconds > plant::seconds_a_day) return std::nullopt;
    return seconds;
}

std::optional<CivilSeconds> date(std::string_view text) {
    const auto parts = split(text, '-');
    if (parts.size() != 3) return std::nullopt;
    const auto year = digits(parts[0], 4, 4);
    const auto month = digits(parts[1], 2, 2);
    const auto day = digits(parts[2], 2, 2);
    if (!year || !month || !day || *year < 1900 || *year > 2199) return std::nullopt;
    const std::chrono::year_month_day written{std::chrono::year{*year},
                                              std::chrono::month(static_cast<unsigned>(*month)),
                                              std::chrono::day(static_cast<unsigned>(*day))};
    if (!written.ok()) return std::nullopt;
    return civil_seconds(*year, *month, *day);
}

}  // namespace

Parsed<std::int32_t> parse_time_of_day(std::string_view text) {
    if (const auto seconds = time_of_day(text)) return {seconds, {}, {}};
    return {std::nullopt, in_quotes(text) + " is not a time of day", std::string(time_form)};
}

Parsed<std::int64_t> parse_date_time(std::string_view text) {
    const std::size_t gap = text.find_first_of(" T");
    const auto day_s = date(text.substr(0, gap));
    std::optional<std::int32_t> in_day_s = 0;
    if (gap != std::string_view::npos) in_day_s = time_of_day(text.substr(gap + 1));
    if (day_s && in_day_s) return {*day_s + *in_day_s, {}, {}};
    return {std::nullopt, in_quotes(text) + " is not a date", std::string(date_form)};
}

std::string time_of_day_text(std::int32_t seconds_after_midnight) {
    const int s = seconds_after_midnight;
    if (s % 60 == 0) return fmt::format("{:02}:{:02}", s / 3600, s / 60 % 60);
    return fmt::format("{:02}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
}

std::string moment_text(std::int64_t civil_s) {
    const plant::CivilDate date = plant::date_of(civil_s);
    const auto in_day_s = static_cast<std::int32_t>(civil_s - plant::midnight_before(civil_s));
    return fmt::format("{:04}-{:02}-{:02} {}", date.year, date.month, date.day,
                       time_of_day_text(in_day_s));
}

CivilSeconds civil_seconds(int year, int month, int day) {
    return plant::midnight_of({year, static_cast<unsigned>(month), static_cast<unsigned>(day)});
}

}  // namespace noonbench::harness
