// SPDX-License-Identifier: MIT
#include "move_text.hpp"

#include "setting_text.hpp"
#include "wire_names.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

namespace noonbench::harness {

namespace {

constexpr std::array<std::string_view, 2> hand_names = {"pump", "backup"};

using Read = Parsed<MoveOf> (*)(std::string_view name, std::string_view to);

Parsed<MoveOf> no_such(std::string_view kind, std::string_view name,
                       const std::vector<std::string_view>& names) {
    std::string what = fmt::format("there is no {} {}", kind, in_quotes(name));
    const std::string_view nearest = nearest_word(name, names);
    if (!nearest.empty()) what += fmt::format(" (did you mean {}?)", nearest);
    return {std::nullopt, what, joined(names)};
}

Parsed<MoveOf> read_setting(std::string_view name, std::string_view to) {
    const firmware::SettingInfo* info = find_setting(name);
    if (info == nullptr) {
        std::vector<std::string_view> names;
        for (const firmware::SettingInfo& each : firmware::setting_table())
            names.emplace_back(each.name);
        return no_such("setting", name, names);
    }
    const Parsed<std::int16_t> value = parse_setting(*info, to);
    if (!value.value) return {std::nullopt, value.what, value.allowed};
    const auto index = info - firmware::setting_table().data();
    return {MoveOf{SettingMove{static_cast<firmware::Setting>(index), *value.value}}, {}, {}};
}

Parsed<MoveOf> read_lever(std::string_view name, std::string_view to) {
    const plant::LeverInfo* lever = plant::find_lever(name);
    if (lever == nullptr) {
        std::vector<std::string_view> names;
        names.reserve(plant::lever_table.size());
        for (const plant::LeverInfo& each : plant::lever_table) names.push_back(each.name);
        return no_such("lever", name, names);
    }
    const Parsed<double> value = parse_lever_value(*lever, to);
    if (!value.value) return {std::nullopt, value.what, value.allowed};
    return {MoveOf{LeverMove{std::string(name), *value.value}}, {}, {}};
}

Parsed<MoveOf> read_hand(std::string_view name, std::string_view to) {
    static constexpr std::array<std::string_view, 3> requests = {"automatic", "on", "off"};
    const Parsed<std::uint8_t> hand = parse_word(name, hand_names);
    if (!hand.value) return {std::nullopt, hand.what, hand.allowed};
    const Parsed<std::uint8_t> request = parse_word(to, requests);
    if (!request.value) return {std::nullopt, request.what, request.allowed};
    // HandRequest begins with `none`, which nobody asks for.
    return {MoveOf{HandMove{static_cast<Hand>(*hand.value),
                            static_cast<firmware::HandRequest>(*request.value + 1)}},
            {},
            {}};
}

bool is_hand(std::string_view name) {
    return name == hand_names[0] || name == hand_names[1];
}
bool is_setting(std::string_view name) {
    return find_setting(name) != nullptr;
}
bool is_lever(std::string_view name) {
    return plant::find_lever(name) != nullptr;
}

/// What a move moves: the word that was given, and how it is read.
struct Target {
    const Raw* raw = nullptr;
    Read read = nullptr;
    bool (*is_known)(std::string_view) = nullptr;
    int given = 0;
};

Target target_of(const MoveDraft& draft) {
    Target target;
    const Target all[] = {{&draft.setting, read_setting, is_setting},
                          {&draft.lever, read_lever, is_lever},
                          {&draft.hand, read_hand, is_hand},
                          {&draft.wire, parse_wire_move, is_wire_name}};
    int given = 0;
    for (const Target& each : all) {
        if (!each.raw->given) continue;
        target = each;
        ++given;
    }
    target.given = given;
    return target;
}

bool can_slide(const MoveOf& what) {
    if (const auto* lever = std::get_if<LeverMove>(&what)) {
        const plant::LeverInfo* info = plant::find_lever(lever->lever);
        return info != nullptr && info->unit != "switch";
    }
    const auto* wire = std::get_if<WireMove>(&what);
    return wire != nullptr && wire_fields()[static_cast<std::size_t>(wire->field)].words.empty();
}

}  // namespace

Parsed<double> parse_lever_value(const plant::LeverInfo& lever, std::string_view to) {
    if (lever.unit == "switch") {
        if (to == "0" || to == "1") return {to == "1" ? 1.0 : 0.0, {}, {}};
        const Parsed<bool> flag = parse_flag(to);
        if (!flag.value) return {std::nullopt, flag.what, flag.allowed};
        return {*flag.value ? 1.0 : 0.0, {}, {}};
    }
    if (lever.unit != "1") {
        Parsed<double> value = parse_quantity(to, {lever.unit, lever.least, lever.most});
        if (value.value) value.value = in_unit(*value.value, lever.unit);
        return value;
    }
    if (to.ends_with('%')) return parse_quantity(to, {"%", lever.least * 100, lever.most * 100});
    return parse_quantity(to, {"", lever.least, lever.most});
}

Place place_of(const MoveDraft& draft) {
    const Target target = target_of(draft);
    if (target.given != 1) return {};
    // A name that is known leaves the value to be wrong.
    return target.is_known(target.raw->text) ? draft.to.place : target.raw->place;
}

Parsed<Move> understood(const MoveDraft& draft, const Scenario& scenario) {
    const Target target = target_of(draft);
    if (target.given != 1)
        return {std::nullopt, fmt::format("a move names {} things to move", target.given),
                "exactly one of setting, lever, hand, wire"};
    const Parsed<MoveOf> what = target.read(target.raw->text, draft.to.text);
    if (!what.value) return {std::nullopt, what.what, what.allowed};
    if (draft.over_s > 0 && !can_slide(*what.value))
        return {std::nullopt, in_quotes(target.raw->text) + " cannot slide (over:)",
                "over: for levers and numbers on wires only"};
    const CivilSeconds end_s = scenario.start_s + scenario.length_s;
    if (draft.at_s < scenario.start_s || draft.at_s >= end_s)
        return {std::nullopt,
                fmt::format("the move at {} lies outside the run", moment_text(draft.at_s)),
                fmt::format("{} to {}", moment_text(scenario.start_s), moment_text(end_s - 1))};
    Move move;
    move.at_s = draft.at_s;
    move.over_s = draft.over_s;
    move.what = *what.value;
    move.name = target.raw->text;
    move.place = target.raw->place;
    return {move, {}, {}};
}

}  // namespace noonbench::harness
