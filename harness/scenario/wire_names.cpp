// SPDX-License-Identifier: MIT
#include "wire_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace noonbench::harness {

namespace {

constexpr std::array<WireFieldInfo, 7> fields = {{
    {"state", wire_state_words, {}, "sound, open (broken) or shorted"},
    {"type", sensor_type_words, {}, "what hangs on the cable"},
    {"offset", {}, {"K", -200, 200}, "error of the element"},
    {"lead_resistance", {}, {"ohm", 0, 1e6}, "in series: long cable, corroded clip"},
    {"leakage", {}, {"kohm", 0, 1e5}, "across the cable: damp; 0 is none"},
    {"noise", {}, {"K", 0, 50}, "standard deviation"},
    {"plugged_into", sensor_names, {}, "socket at the end of the cable"},
}};

std::optional<std::size_t> index_of(std::string_view word,
                                    std::span<const std::string_view> words) {
    const auto found = std::find(words.begin(), words.end(), word);
    if (found == words.end()) return std::nullopt;
    return static_cast<std::size_t>(found - words.begin());
}

Parsed<MoveOf> unknown(std::string_view name) {
    const std::vector<std::string> all = wire_names();
    const std::vector<std::string_view> views(all.begin(), all.end());
    std::string what = "there is no wire " + in_quotes(name);
    const std::string_view nearest = nearest_word(name, views);
    if (!nearest.empty()) what += fmt::format(" (did you mean {}?)", nearest);
    std::string shape;
    for (const WireFieldInfo& field : fields) shape += fmt::format(", SENSOR.{}", field.name);
    return {std::nullopt, what,
            fmt::format("{}{}, with SENSOR one of {}", joined(other_wire_names), shape,
                        joined(sensor_names))};
}

template <class T>
Parsed<MoveOf> refused(const Parsed<T>& value) {
    return {std::nullopt, value.what, value.allowed};
}

Parsed<MoveOf> sensor_move(std::size_t sensor, std::size_t field, std::string_view to) {
    WireMove move{static_cast<firmware::Sensor>(sensor), static_cast<WireField>(field), 0.0};
    const WireFieldInfo& info = fields[field];
    if (info.words.empty()) {
        const Parsed<double> value = parse_quantity(to, info.range);
        if (!value.value) return refused(value);
        move.to = *value.value;
    } else {
        const Parsed<std::uint8_t> value = parse_word(to, info.words);
        if (!value.value) return refused(value);
        move.to = *value.value;
    }
    return {MoveOf{move}, {}, {}};
}

}  // namespace

std::span<const WireFieldInfo> wire_fields() {
    return fields;
}

std::vector<std::string> wire_names() {
    std::vector<std::string> names(other_wire_names.begin(), other_wire_names.end());
    for (const std::string_view sensor : sensor_names)
        for (const WireFieldInfo& field : fields)
            names.push_back(fmt::format("{}.{}", sensor, field.name));
    return names;
}

bool is_wire_name(std::string_view name) {
    const std::vector<std::string> names = wire_names();
    return index_of(name, sensor_names) ||
           std::find(names.begin(), names.end(), name) != names.end();
}

Parsed<MoveOf> parse_wire_move(std::string_view name, std::string_view to) {
    if (const auto other = index_of(name, other_wire_names)) {
        const Parsed<bool> connected = parse_flag(to);
        if (!connected.value) return refused(connected);
        return {MoveOf{OtherWireMove{static_cast<OtherWire>(*other), *connected.value}}, {}, {}};
    }
    const std::size_t dot = name.find('.');
    const auto sensor = index_of(name.substr(0, dot), sensor_names);
    if (!sensor) return unknown(name);
    if (dot == std::string_view::npos) return sensor_move(*sensor, 0, to);
    for (std::size_t i = 0; i < fields.size(); ++i)
        if (fields[i].name == name.substr(dot + 1)) return sensor_move(*sensor, i, to);
    return unknown(name);
}

}  // namespace noonbench::harness
