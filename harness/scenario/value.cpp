// SPDX-License-Identifier: MIT
#include "value.hpp"

#include "quantity_text.hpp"
#include "setting_text.hpp"

#include "plant/calendar.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace noonbench::harness {

namespace {

/// Where a value is being stored and how to complain about it.
struct Target {
    const Key& key;
    const Node& node;
    const std::string& label;
    Draft& draft;
    Findings& findings;

    [[nodiscard]] bool complain(const std::string& what, const std::string& allowed) const {
        findings.add(node.place, label + ": " + what, allowed);
        return false;
    }
    template <class T>
    [[nodiscard]] bool refuse(const Parsed<T>& parsed) const {
        return complain(parsed.what, parsed.allowed);
    }
};

/// A number into whatever holds it; integers take whole numbers only.
bool assign(const Target& t, double si) {
    const Slot slot = t.key.slot(t.draft);
    if (auto* const* real = std::get_if<double*>(&slot)) {
        **real = si;
        return true;
    }
    if (auto* const* perhaps = std::get_if<std::optional<double>*>(&slot)) {
        **perhaps = si;
        return true;
    }
    const double whole = std::round(si);
    // 1e-6 of a second or a piece: above the rounding of 1.1 min * 60, below anything meant.
    if (std::abs(si - whole) > 1e-6)
        return t.complain(
            in_quotes(t.node.text) + (t.key.unit.empty() ? " is not a whole number"
                                                         : " is not a whole number of seconds"),
            allowed_for(t.key));
    if (auto* const* number = std::get_if<std::int32_t*>(&slot))
        **number = static_cast<std::int32_t>(whole);
    else if (auto* const* wide = std::get_if<std::int64_t*>(&slot))
        **wide = static_cast<std::int64_t>(whole);
    else if (auto* const* natural = std::get_if<std::uint64_t*>(&slot))
        **natural = static_cast<std::uint64_t>(whole);
    return true;
}

bool store_number(const Target& t) {
    const Parsed<double> si = parse_quantity(t.node.text, {t.key.unit, t.key.least, t.key.most});
    return si.value ? assign(t, *si.value) : t.refuse(si);
}

bool store_flag(const Target& t) {
    const Parsed<bool> flag = parse_flag(t.node.text);
    if (!flag.value) return t.refuse(flag);
    *std::get<bool*>(t.key.slot(t.draft)) = *flag.value;
    return true;
}

bool store_word(const Target& t) {
    const Parsed<std::uint8_t> word = parse_word(t.node.text, t.key.words);
    if (!word.value) return t.refuse(word);
    *std::get<std::uint8_t*>(t.key.slot(t.draft)) = *word.value;
    return true;
}

bool store_line(const Target& t) {
    *std::get<std::string*>(t.key.slot(t.draft)) = t.node.text;
    return true;
}

bool store_raw(const Target& t) {
    *std::get<Raw*>(t.key.slot(t.draft)) = Raw{t.node.text, t.node.place, true};
    return true;
}

bool store_time_of_day(const Target& t) {
    const Parsed<std::int32_t> seconds = parse_time_of_day(t.node.text);
    if (!seconds.value) return t.refuse(seconds);
    *std::get<std::int32_t*>(t.key.slot(t.draft)) = *seconds.value;
    return true;
}

bool store_date_time(const Target& t) {
    const Parsed<std::int64_t> at = parse_date_time(t.node.text);
    if (!at.value) return t.refuse(at);
    *std::get<std::int64_t*>(t.key.slot(t.draft)) = *at.value;
    return true;
}

/// A bare time of day is its first occurrence at or after the start.
bool store_moment(const Target& t) {
    std::int64_t& slot = *std::get<std::int64_t*>(t.key.slot(t.draft));
    const CivilSeconds start_s = t.draft.scenario.start_s;
    if (t.node.text == "start") {
        slot = start_s;
        return true;
    }
    if (const Parsed<std::int64_t> at = parse_date_time(t.node.text); at.value) {
        slot = *at.value;
        return true;
    }
    const Parsed<std::int32_t> in_day_s = parse_time_of_day(t.node.text);
    if (!in_day_s.value)
        return t.complain(in_quotes(t.node.text) + " is not a moment", allowed_for(t.key));
    slot = plant::midnight_before(start_s) + *in_day_s.value;
    if (slot < start_s) slot += plant::seconds_a_day;
    return true;
}

bool store_setting(const Target& t) {
    const Parsed<std::int16_t> value = parse_setting(*t.key.setting, t.node.text);
    if (!value.value) return t.refuse(value);
    const auto index = t.key.setting - firmware::setting_table().data();
    t.draft.scenario.controller.settings[static_cast<firmware::Setting>(index)] = *value.value;
    return true;
}

bool store_numbers(const Target& t) {
    auto& values = *std::get<std::array<double, 10>*>(t.key.slot(t.draft));
    if (t.node.items.size() != values.size())
        return t.complain(fmt::format("{} numbers stand here", t.node.items.size()),
                          allowed_for(t.key));
    for (std::size_t i = 0; i < values.size(); ++i) {
        const Node& item = t.node.items[i];
        const Parsed<double> value = parse_quantity(item.text, {"", t.key.least, t.key.most});
        if (!value.value) {
            t.findings.add(item.place, t.label + ": " + value.what, value.allowed);
            return false;
        }
        values[i] = *value.value;
    }
    return true;
}

bool store_words(const Target& t) {
    auto& values = *std::get<std::vector<std::uint8_t>*>(t.key.slot(t.draft));
    values.clear();
    for (const Node& item : t.node.items) {
        const Parsed<std::uint8_t> word = parse_word(item.text, t.key.words);
        if (!word.value) {
            t.findings.add(item.place, t.label + ": " + word.what, word.allowed);
            return false;
        }
        values.push_back(*word.value);
    }
    return true;
}

bool store_lines(const Target& t) {
    auto& lines = *std::get<std::vector<Raw>*>(t.key.slot(t.draft));
    lines.clear();
    for (const Node& item : t.node.items) {
        if (item.kind != Node::Kind::scalar) {
            t.findings.add(item.place,
                           fmt::format("{}: {} stands where {} is wanted", t.label,
                                       kind_text(item.kind), kind_text(Node::Kind::scalar)),
                           allowed_for(t.key));
            return false;
        }
        lines.push_back({item.text, item.place, true});
    }
    return true;
}

using Store = bool (*)(const Target&);

/// In the order of Form.
constexpr std::array<Store, 12> stores = {
    store_number,    store_flag,   store_word,    store_line,  store_raw,   store_time_of_day,
    store_date_time, store_moment, store_numbers, store_words, store_lines, store_setting};

}  // namespace

bool store_value(const Key& key, const Node& node, const std::string& label, Draft& draft,
                 Findings& findings) {
    const Target target{key, node, label, draft, findings};
    const bool is_list =
        key.form == Form::numbers || key.form == Form::words || key.form == Form::lines;
    const Node::Kind wanted = is_list ? Node::Kind::list : Node::Kind::scalar;
    if (node.kind != wanted)
        return target.complain(
            fmt::format("{} stands where {} is wanted", kind_text(node.kind), kind_text(wanted)),
            allowed_for(key));
    if (key.form != Form::setting && std::holds_alternative<std::monostate>(key.slot(draft)))
        return target.complain("there is only one row of collectors",
                               "this key with two rows or more under collectors");
    return stores[static_cast<std::size_t>(key.form)](target);
}

}  // namespace noonbench::harness
