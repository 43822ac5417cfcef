// SPDX-License-Identifier: MIT
// Words and numbers made fit for a page.
#pragma once
#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace noonbench::harness {

/// Safe as HTML text and inside quoted attributes.
std::string escaped(std::string_view text);

/// A JSON string with its quotes, safe inside a script element.
std::string json_text(std::string_view text);

/// Fixed decimals, a true minus sign, never "-0".
std::string number_text(double value, int decimals);

/// "0.25 kWh", "14.3 kWh", "2327 kWh": about three figures.
std::string kwh_text(double kwh);

/// The parts one after the other.
std::string joined(std::initializer_list<std::string_view> parts);

/// "07:48" for a second of the day.
std::string hour_text(std::int64_t second_of_day);

/// "15 Apr 2026" for civil seconds.
std::string day_text(std::int64_t at_s);
const char* month_text(unsigned month);

/// Replaces each {{name}} of the template by its value, in one pass: values are not looked into.
/// Throws std::logic_error for a name that has no value.
using Values = std::vector<std::pair<std::string_view, std::string>>;
std::string filled_page(std::string_view page, const Values& values);

}  // namespace noonbench::harness
