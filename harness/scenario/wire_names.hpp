// SPDX-License-Identifier: MIT
// What can be bent on the wires, by name: "collector.offset", "store_bottom.state", "mains_power".
#pragma once
#include "quantity_text.hpp"
#include "scenario.hpp"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace noonbench::harness {

inline constexpr std::array<std::string_view, firmware::sensor_count> sensor_names = {
    "collector", "store_bottom", "store_top", "station_return", "second_collector"};
inline constexpr std::array<std::string_view, 4> sensor_type_words = {"platinum_1000", "ntc_10k",
                                                                      "silicon_2k", "not_fitted"};
inline constexpr std::array<std::string_view, 3> wire_state_words = {"sound", "open", "shorted"};
inline constexpr std::array<std::string_view, 4> other_wire_names = {"mains_power", "speed_wire",
                                                                     "pulse_meter", "pump_bridge"};

/// One row for each WireField, in its order. Words for a choice, else a range.
struct WireFieldInfo {
    std::string_view name;
    std::span<const std::string_view> words;
    Range range;
    std::string_view meaning;
};
[[nodiscard]] std::span<const WireFieldInfo> wire_fields();

/// A wire and the value it takes; `name` "collector" alone means its state.
[[nodiscard]] Parsed<MoveOf> parse_wire_move(std::string_view name, std::string_view to);

/// Whether parse_wire_move() takes the name.
[[nodiscard]] bool is_wire_name(std::string_view name);

/// Every name that parse_wire_move() takes, but for the bare sensors.
[[nodiscard]] std::vector<std::string> wire_names();

}  // namespace noonbench::harness
