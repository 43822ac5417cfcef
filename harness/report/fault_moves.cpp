// SPDX-License-Identifier: MIT
#include "fault_moves.hpp"

#include "text.hpp"

#include "plant/levers.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/words.hpp"
#include "harness/scenario/key.hpp"
#include "harness/scenario/key_lookup.hpp"
#include "harness/scenario/move_text.hpp"
#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/setting_text.hpp"
#include "harness/scenario/wire_names.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <variant>

namespace noonbench::harness {
namespace {

constexpr std::array<std::string_view, 4> hand_words = {"nothing", "automatic", "on", "off"};

std::string with_true_minus(std::string text) {
    if (text.starts_with('-')) text.replace(0, 1, "\u2212");
    return text;
}

std::string with_blanks(std::string_view name) {
    std::string out(name);
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

/// A bare sensor means the state of its cable.
std::string whole_name(const std::string& name) {
    const bool bare =
        std::find(sensor_names.begin(), sensor_names.end(), name) != sensor_names.end();
    return bare ? name + ".state" : name;
}

// ---------------------------------------------------------------- levers

bool is_switch(const plant::LeverInfo& lever) {
    return lever.unit == "switch";
}

/// The meaning of a switch begins with the value that it tells of: "0: the pump is seized".
std::string lever_words(const plant::LeverInfo& lever) {
    const std::string_view meaning = lever.meaning;
    return std::string(is_switch(lever) && meaning.substr(1, 2) == ": " ? meaning.substr(3)
                                                                        : meaning);
}

std::string lever_value(const plant::LeverInfo& lever, double value) {
    if (is_switch(lever))
        return plant::is_set(value) == plant::is_set(lever.healthy) ? "no" : "yes";
    if (lever.unit == "1") return with_true_minus(fmt::format("{:g}", value));
    if (value == 0.0) return "0";
    const bool is_volume = lever.unit == "m3";  // nobody thinks of a loop in cubic metres
    return with_true_minus(
        quantity_text(from_unit(value, lever.unit), is_volume ? "l" : lever.unit));
}

/// The only value of a switch stands in its words already.
std::string lever_range(const plant::LeverInfo& lever, const std::string& range, bool is_band) {
    if (!is_switch(lever))
        return fmt::format("{}; healthy: {}", range, lever_value(lever, lever.healthy));
    const Parsed<double> value = parse_lever_value(lever, range);
    return is_band || !value.value || lever_value(lever, *value.value) == "yes" ? "" : "no";
}

// ---------------------------------------------------------------- wires

const WireFieldInfo* field_of(std::string_view name) {
    const auto dot = name.find('.');
    if (dot == std::string_view::npos) return nullptr;
    for (const WireFieldInfo& field : wire_fields())
        if (field.name == name.substr(dot + 1)) return &field;
    return nullptr;
}

std::string wire_words(const std::string& name) {
    const WireFieldInfo* field = field_of(name);
    if (field == nullptr) return with_blanks(name);
    const std::string sensor = with_blanks(name.substr(0, name.find('.')));
    if (field->name == "state") return "cable of the " + sensor + " sensor";
    return joined({sensor, " sensor, ", field->meaning});
}

std::string wire_value(const WireMove& move) {
    const WireFieldInfo& field = wire_fields()[static_cast<std::size_t>(move.field)];
    if (field.words.empty()) return with_true_minus(quantity_text(move.to, field.range.unit));
    return with_blanks(field.words[static_cast<std::size_t>(move.to)]);
}

// ---------------------------------------------------------------- all of them

std::string meaning_of_key(const std::string& path) {
    const KeyFound found = find_key(path);
    return found.key == nullptr ? path : found.key->meaning;
}

/// Some meanings are sentences; a range follows them.
std::string without_stop(std::string text) {
    if (text.ends_with('.')) text.pop_back();
    return text;
}

std::string words_of(RangeKind kind, const std::string& name) {
    switch (kind) {
        case RangeKind::lever:
            if (const auto* lever = plant::find_lever(name)) return lever_words(*lever);
            break;
        case RangeKind::wire:
            return wire_words(name);
        case RangeKind::setting:
            if (const auto* info = find_setting(name)) return without_stop(info->meaning);
            break;
        case RangeKind::key:
            return without_stop(meaning_of_key(name));
    }
    return with_blanks(name);
}

std::string range_text(const FaultRange& range) {
    const bool is_band = range.to.empty();
    std::string text =
        is_band ? joined({"from ", range.least, " to ", range.most}) : with_blanks(range.to);
    if (range.kind == RangeKind::lever) {
        const auto* lever = plant::find_lever(range.name);
        return lever == nullptr ? text : lever_range(*lever, is_band ? text : range.to, is_band);
    }
    if (range.kind != RangeKind::setting) return text;
    const auto* info = find_setting(range.name);
    return info == nullptr
               ? text
               : fmt::format("{}; as delivered: {}", text, written_setting(*info, info->initial));
}

/// The value to which a move goes.
std::string value_of(const Move& move) {
    if (const auto* lever = std::get_if<LeverMove>(&move.what)) {
        const auto* info = plant::find_lever(lever->lever);
        return info == nullptr ? "" : lever_value(*info, lever->to);
    }
    if (const auto* hand = std::get_if<HandMove>(&move.what))
        return std::string(hand_words.at(static_cast<std::size_t>(hand->to)));
    if (const auto* setting = std::get_if<SettingMove>(&move.what))
        return setting_text(setting->setting, setting->to);
    if (const auto* wire = std::get_if<WireMove>(&move.what)) return wire_value(*wire);
    return std::get<OtherWireMove>(move.what).connected ? "yes" : "no";
}

std::string when_of(const Move& move, const Scenario& scenario) {
    std::string when;
    if (move.at_s != scenario.start_s) {
        const bool one_day = scenario.length_s <= plant::seconds_a_day;
        when = one_day ? hour_text(second_of_day(move.at_s))
                       : joined({day_text(move.at_s), " ", hour_text(second_of_day(move.at_s))});
        when = joined({" from ", when, " on"});
    }
    if (move.over_s > 0) when += fmt::format(", within {:g} h", move.over_s / 3600.0);
    return when;
}

/// All moves of one thing, one after the other; of many only how they begin. Empty where they only
/// do from the start what the words or the range say already.
std::string here_of(const std::string& name, const std::string& range, const Scenario& scenario) {
    constexpr int most_told = 3;
    std::string out;
    int count = 0;
    for (const Move& move : scenario.moves) {
        if (move.fault.empty() || whole_name(move.name) != whole_name(name)) continue;
        if (++count > most_told) continue;
        out += joined({count == 1 ? "" : ", then ", value_of(move), when_of(move, scenario)});
    }
    if (count > most_told) out += fmt::format(", and so on, {} times in all", count);
    return out == "yes" || out == range ? "" : out;
}

RangeKind kind_of(const Move& move) {
    if (std::holds_alternative<LeverMove>(move.what)) return RangeKind::lever;
    return std::holds_alternative<SettingMove>(move.what) ? RangeKind::setting : RangeKind::wire;
}

MovedThing moved_by(const Move& move, const Scenario& scenario) {
    const bool by_hand = std::holds_alternative<HandMove>(move.what);
    return {
        move.name,
        by_hand ? move.name + " switched by hand" : words_of(kind_of(move), whole_name(move.name)),
        {},
        here_of(move.name, {}, scenario)};
}

}  // namespace

std::vector<MovedThing> moved_things(const Scenario& scenario) {
    std::vector<MovedThing> things;
    if (scenario.fault) {
        for (const FaultRange& range : scenario.fault->ranges)
            things.push_back({range.name, words_of(range.kind, whole_name(range.name)),
                              range_text(range), here_of(range.name, range_text(range), scenario)});
    }
    for (const Move& move : scenario.moves) {
        if (move.fault.empty()) continue;
        const auto told = std::find_if(things.begin(), things.end(), [&](const MovedThing& t) {
            return whole_name(t.name) == whole_name(move.name);
        });
        if (told == things.end()) things.push_back(moved_by(move, scenario));
    }
    return things;
}

}  // namespace noonbench::harness
