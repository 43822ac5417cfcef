// SPDX-License-Identifier: MIT
// The other direction of value.hpp: what a key allows and what it holds, as text.
#include "quantity_text.hpp"
#include "setting_text.hpp"
#include "value.hpp"

#include <fmt/format.h>

#include <array>
#include <vector>

namespace noonbench::harness {

namespace {

/// A number of any width, in SI; nothing where none is held.
std::optional<double> number_in(const Slot& slot) {
    if (auto* const* real = std::get_if<double*>(&slot)) return **real;
    if (auto* const* perhaps = std::get_if<std::optional<double>*>(&slot)) return **perhaps;
    if (auto* const* number = std::get_if<std::int32_t*>(&slot)) return double{1} * **number;
    if (auto* const* wide = std::get_if<std::int64_t*>(&slot)) return static_cast<double>(**wide);
    if (auto* const* natural = std::get_if<std::uint64_t*>(&slot))
        return static_cast<double>(**natural);
    return std::nullopt;
}

std::string written_number(const Key& key, const Slot& slot) {
    const std::optional<double> si = number_in(slot);
    return si ? quantity_text(*si, key.unit) : std::string();
}

/// A state that has no word of its own (people instead of a load profile) is not written.
std::string written_word(const Key& key, std::uint8_t index) {
    return index < key.words.size() ? std::string(key.words[index]) : std::string();
}

std::string written_numbers(const std::array<double, 10>& values) {
    return fmt::format("[{}]", fmt::join(values, ", "));
}

std::string range_text(const Key& key) {
    const auto edge = [&](double value) {
        return quantity_text(from_unit(value, key.unit), key.unit);
    };
    std::string range = fmt::format("{} to {}", edge(key.least), edge(key.most));
    if (key.unit.empty()) return range;
    return fmt::format("{} (units: {})", range, units_text(key.unit));
}

}  // namespace

std::string allowed_for(const Key& key) {
    switch (key.form) {
        case Form::number:
            return range_text(key);
        case Form::flag:
            return "yes, no";
        case Form::word:
            return joined(key.words);
        case Form::line:
        case Form::raw:
            return "text";
        case Form::time_of_day:
            return "a time of day, such as 06:30 or 06:30:15";
        case Form::date_time:
            return "a date with or without a time, such as 2026-04-15 06:30";
        case Form::moment:
            return "start, a time of day (06:30), or a date with a time";
        case Form::numbers:
            return fmt::format("ten plain numbers from {:g} to {:g}, as [1, 0.99, ...]", key.least,
                               key.most);
        case Form::words:
            return "a list of words of " + joined(key.words);
        case Form::lines:
            return "a list of texts";
        case Form::setting:
            return allowed_text(*key.setting);
        case Form::list:
            return fmt::format("{:g} to {:g} maps (keys with values), each begun by a dash",
                               key.least, key.most);
    }
    return {};
}

std::string written_value(const Key& key, Draft& draft) {
    if (key.form == Form::setting) {
        const auto index = key.setting - firmware::setting_table().data();
        const auto& settings = draft.scenario.controller.settings;
        return written_setting(*key.setting, settings[static_cast<firmware::Setting>(index)]);
    }
    if (!key.slot) return {};
    const Slot slot = key.slot(draft);
    if (std::holds_alternative<std::monostate>(slot)) return {};
    switch (key.form) {
        case Form::number:
            return written_number(key, slot);
        case Form::flag:
            return *std::get<bool*>(slot) ? "yes" : "no";
        case Form::word:
            return written_word(key, *std::get<std::uint8_t*>(slot));
        case Form::line:
            return *std::get<std::string*>(slot);
        case Form::time_of_day:
            return time_of_day_text(*std::get<std::int32_t*>(slot));
        case Form::date_time:
            return moment_text(*std::get<std::int64_t*>(slot));
        case Form::numbers:
            return written_numbers(*std::get<std::array<double, 10>*>(slot));
        default:
            return {};
    }
}

}  // namespace noonbench::harness
