// SPDX-License-Identifier: MIT
// A setting of the controller as it is written in a scenario: "8 K", "06:30", "monday friday".
#pragma once
#include "quantity_text.hpp"

#include "firmware-model/settings.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// The row of that name; null if there is none.
[[nodiscard]] const firmware::SettingInfo* find_setting(std::string_view name);

/// Text to the stored integer; refuses what is out of range or between two steps.
[[nodiscard]] Parsed<std::int16_t> parse_setting(const firmware::SettingInfo& info,
                                                 std::string_view text);

/// The stored integer as text that parse_setting() reads back.
[[nodiscard]] std::string written_setting(const firmware::SettingInfo& info, std::int16_t value);

/// The words of a choice.
[[nodiscard]] std::vector<std::string_view> choices_of(const firmware::SettingInfo& info);

/// What may be written: "2 K to 20 K in steps of 0.5 K", "off, on", ...
[[nodiscard]] std::string allowed_text(const firmware::SettingInfo& info);

/// The unit of a setting that is a number with a unit ("" for pulses, else "K", "degC", ...);
/// and how many stored steps one such unit has. Null text: not a number with a unit.
struct SettingScale {
    const char* unit = nullptr;
    int per_unit = 1;
};
[[nodiscard]] SettingScale scale_of(firmware::SettingUnit unit);

}  // namespace noonbench::harness
