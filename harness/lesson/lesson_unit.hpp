// SPDX-License-Identifier: MIT
// Numbers of a lesson as they are written and shown: in a unit, as a time of day ("clock"), or
// counted in a word of one's own ("starts").
#pragma once
#include "harness/language/formula.hpp"
#include "harness/scenario/quantity_text.hpp"

#include <string>
#include <string_view>

namespace noonbench::harness {

inline constexpr std::string_view clock_unit = "clock";

/// The unit in which a number of that measure is kept; "clock" for a time of day.
[[nodiscard]] std::string_view kept_unit(Measure measure);
/// Whether a number of that measure can be shown in the unit.
[[nodiscard]] bool unit_fits(Measure measure, std::string_view unit);
/// What would: "l/min, l/h, m3/h", "clock", "no unit, or a word for what is counted".
[[nodiscard]] std::string fitting_units(Measure measure);
/// The unit in which distances between such numbers are written: "K" for "degC".
[[nodiscard]] std::string_view distance_unit(std::string_view unit);

/// From the measure's own unit to the one in which it is shown.
[[nodiscard]] double shown_value(double value, Measure measure, std::string_view unit);
/// With the decimals it is worth, without the unit: "47.6", "07:43" (the nearest minute); "none"
/// for NaN.
[[nodiscard]] std::string shown_text(double shown, std::string_view unit);
/// The unit as it is read, with a blank before it: " °C", " bar"; "" for a plain number.
[[nodiscard]] std::string unit_behind(std::string_view unit);

/// "2.5 kWh", "1 starts", "6" as a number in that unit; a time of day for "clock".
[[nodiscard]] Parsed<double> parse_in_unit(std::string_view text, std::string_view unit);
/// A distance, none below zero: "3 K" for a unit of "degC", "10 min" (in s) for "clock".
[[nodiscard]] Parsed<double> parse_distance(std::string_view text, std::string_view unit);

}  // namespace noonbench::harness
