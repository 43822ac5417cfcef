// SPDX-License-Identifier: MIT
#include "read_files.hpp"

#include "traces/csv.hpp"

#include "harness/bench/clock.hpp"
#include "harness/scenario/problem.hpp"

#include <charconv>
#include <fstream>
#include <functional>
#include <optional>
#include <string_view>

namespace noonbench::cli {
namespace {

using harness::InputRefused;

template <typename Read>
auto read_file(const std::filesystem::path& path, Read read) {
    std::ifstream in(path, std::ios::binary);
    if (!in || std::filesystem::is_directory(path)) {
        throw InputRefused({{path.string(), 0, 0, "cannot be read",
                             "the folder of a run, or the file that it left there"}});
    }
    try {
        return read(in);
    } catch (const traces::ReadError& error) {
        throw InputRefused({{path.string(), static_cast<int>(error.line()),
                             static_cast<int>(error.column()), error.what(), ""}});
    }
}

std::filesystem::path beside(const std::filesystem::path& folder_or_file, const char* name) {
    if (!std::filesystem::exists(folder_or_file)) {
        throw InputRefused({{folder_or_file.string(), 0, 0, "is not there",
                             "the folder of a run, or a file that it left there"}});
    }
    if (std::filesystem::is_directory(folder_or_file)) return folder_or_file / name;
    return folder_or_file.parent_path() / name;
}

std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
    if (text.size() < at + count) return std::nullopt;
    int value = 0;
    const char* end = text.data() + at + count;
    const auto [stop, error] = std::from_chars(text.data() + at, end, value);
    if (error != std::errc{} || stop != end || text[at] == '-') return std::nullopt;
    return value;
}

/// "13:42" or "13:42:07" as seconds.
std::optional<std::int64_t> time_of_day(std::string_view text) {
    const auto hour = digits(text, 0, 2);
    const auto minute = digits(text, 3, 2);
    const bool with_seconds = text.size() == 8;
    const auto second = with_seconds ? digits(text, 6, 2) : std::optional<int>(0);
    if (!hour || !minute || !second || text[2] != ':' || (with_seconds && text[5] != ':') ||
        (!with_seconds && text.size() != 5) || *minute > 59 || *second > 59) {
        return std::nullopt;
    }
    const std::int64_t of_day = std::int64_t{*hour} * 3600 + std::int64_t{*minute} * 60 + *second;
    if (of_day > 86400) return std::nullopt;  // 24:00 is the end of the day
    return of_day;
}

std::optional<std::int64_t> date_start(std::string_view text) {
    const auto year = digits(text, 0, 4);
    const auto month = digits(text, 5, 2);
    const auto day = digits(text, 8, 2);
    if (!year || !month || !day || text[4] != '-' || text[7] != '-' || *month < 1 || *month > 12 ||
        *day < 1 || *day > 31) {
        return std::nullopt;
    }
    const std::int64_t midnight =
        harness::midnight_of({*year, static_cast<unsigned>(*month), static_cast<unsigned>(*day)});
    // the 31st of a shorter month runs over into the next
    if (harness::date_of(midnight).day != static_cast<unsigned>(*day)) return std::nullopt;
    return midnight;
}

}  // namespace

std::vector<traces::Event> read_events(const std::filesystem::path& folder_or_file) {
    const std::filesystem::path path = beside(folder_or_file, "events.csv");
    auto events = read_file(path, [](std::istream& in) { return traces::read_events_csv(in); });
    if (events.empty()) {
        throw InputRefused({{path.string(), 0, 0, "holds no event", "events.csv of a run"}});
    }
    return events;
}

traces::Table read_trace(const std::filesystem::path& folder_or_file) {
    const std::filesystem::path path = std::filesystem::is_directory(folder_or_file)
                                           ? folder_or_file / "trace.csv"
                                           : folder_or_file;
    return read_file(path, [](std::istream& in) { return traces::read_csv(in); });
}

std::int64_t instant(const std::string& text, std::int64_t first_day) {
    if (const auto clock = time_of_day(text)) return first_day + *clock;
    if (text.size() >= 16 && (text[10] == ' ' || text[10] == 'T')) {
        const auto date = date_start(std::string_view(text).substr(0, 10));
        const auto clock = time_of_day(std::string_view(text).substr(11));
        if (date && clock) return *date + *clock;
    }
    throw InputRefused({{"--at", 0, 0, "\"" + text + "\" is not a time",
                         "13:42, 13:42:07 or \"2026-04-15 13:42\""}});
}

}  // namespace noonbench::cli
