// SPDX-License-Identifier: MIT
// "7 K" to 7.0: quantities as people write them, always with their unit. Decimal point only,
// whatever the locale. Nothing here throws; a refusal says what is wrong and what would be right.
#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace noonbench::harness {

/// A value, or why there is none.
template <class T>
struct Parsed {
    std::optional<T> value;
    std::string what;
    std::string allowed;
};

/// What a key accepts: the unit in which its range is stated, and the range in that unit.
/// The unit "" stands for a plain number.
struct Range {
    std::string_view unit;
    double least = 0.0;
    double most = 0.0;
};

/// "2.6 l/min" to SI (the value that `plant` wants). Any unit of the same kind is accepted; the
/// range is shown in the unit that was written. NaN, infinity and decimal commas are refused.
[[nodiscard]] Parsed<double> parse_quantity(std::string_view text, const Range& range);

/// SI back to text in the given unit, "300 l"; at most nine figures.
[[nodiscard]] std::string quantity_text(double si, std::string_view unit);

/// SI value as a plain number in the given unit.
[[nodiscard]] double in_unit(double si, std::string_view unit);

/// SI value of a plain number in the given unit.
[[nodiscard]] double from_unit(double value, std::string_view unit);

/// All units of the kind to which `unit` belongs: "mm, cm, m".
[[nodiscard]] std::string units_text(std::string_view unit);

/// "06:30" or "06:30:15" to seconds after midnight; 24:00 is the end of the day.
[[nodiscard]] Parsed<std::int32_t> parse_time_of_day(std::string_view text);

/// "2026-04-15", "2026-04-15 06:30" or with seconds, to seconds since 2000-01-01 00:00.
[[nodiscard]] Parsed<std::int64_t> parse_date_time(std::string_view text);

/// One of the words, by its index; the refusal names the nearest.
[[nodiscard]] Parsed<std::uint8_t> parse_word(std::string_view text,
                                              std::span<const std::string_view> words);

/// yes, no, on, off, true or false.
[[nodiscard]] Parsed<bool> parse_flag(std::string_view text);

/// "06:30" or "06:30:15"; "2026-04-15 06:30" or with seconds.
[[nodiscard]] std::string time_of_day_text(std::int32_t seconds_after_midnight);
[[nodiscard]] std::string moment_text(std::int64_t civil_s);

/// The text in double quotes, cut after 40 characters, control characters left out.
[[nodiscard]] std::string in_quotes(std::string_view text);

/// The nearest of the words by edit distance, if near enough to be meant; else empty.
[[nodiscard]] std::string_view nearest_word(std::string_view text,
                                            std::span<const std::string_view> words);

/// The words joined by ", ".
[[nodiscard]] std::string joined(std::span<const std::string_view> words);

}  // namespace noonbench::harness
