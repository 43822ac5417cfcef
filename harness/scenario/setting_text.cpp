// SPDX-License-Identifier: MIT
#include "setting_text.hpp"

#include "plant/sky.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace noonbench::harness {

namespace {

using firmware::SettingInfo;
using firmware::SettingUnit;

constexpr std::array<std::string_view, 7> weekday_names = {
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
constexpr std::string_view weekday_form =
    "every_day, never, or names such as monday friday (monday to sunday)";
constexpr int every_day = 127;

template <class T>
Parsed<std::int16_t> refused_as(const Parsed<T>& parsed) {
    return {std::nullopt, parsed.what, parsed.allowed};
}

Parsed<std::int16_t> out_of_range(const SettingInfo& info, std::string_view text) {
    return {std::nullopt, in_quotes(text) + " is out of range", allowed_text(info)};
}

/// The last gate of every kind of number: the step of the table.
Parsed<std::int16_t> on_a_step(const SettingInfo& info, std::string_view text,
                               std::int64_t stored) {
    if (stored < info.least || stored > info.most) return out_of_range(info, text);
    if (info.step > 1 && (stored - info.least) % info.step != 0)
        return {std::nullopt, in_quotes(text) + " lies between two steps", allowed_text(info)};
    return {static_cast<std::int16_t>(stored), {}, {}};
}

Parsed<std::int16_t> parse_number(const SettingInfo& info, std::string_view text) {
    const SettingScale scale = scale_of(info.unit);
    const double per_unit = scale.per_unit;
    const Parsed<double> si =
        parse_quantity(text, {scale.unit, info.least / per_unit, info.most / per_unit});
    if (!si.value) return refused_as(si);
    const double exact = in_unit(*si.value, scale.unit) * per_unit;
    const double stored = std::round(exact);
    // 1e-6 of the smallest stored step: far above rounding, far below anything written on purpose.
    if (std::abs(exact - stored) > 1e-6)
        return {std::nullopt, in_quotes(text) + " lies between two steps", allowed_text(info)};
    return on_a_step(info, text, static_cast<std::int64_t>(stored));
}

Parsed<std::int16_t> parse_minute_of_day(const SettingInfo& info, std::string_view text) {
    const Parsed<std::int32_t> seconds = parse_time_of_day(text);
    if (!seconds.value) return refused_as(seconds);
    if (*seconds.value % 60 != 0)
        return {std::nullopt, in_quotes(text) + " lies between two steps", allowed_text(info)};
    return on_a_step(info, text, *seconds.value / 60);
}

Parsed<std::int16_t> parse_date(const SettingInfo& info, std::string_view text) {
    if (text == "never") return {std::int16_t{0}, {}, {}};
    const Parsed<std::int64_t> seconds = parse_date_time(text);
    if (!seconds.value || *seconds.value % plant::seconds_a_day != 0)
        return {std::nullopt, in_quotes(text) + " is not a date", allowed_text(info)};
    const std::int64_t days = *seconds.value / plant::seconds_a_day;
    // 0 stands for "never", so the first of January 2000 itself cannot be said.
    if (days == 0) return out_of_range(info, text);
    return on_a_step(info, text, days);
}

Parsed<std::int16_t> parse_weekdays(const SettingInfo& info, std::string_view text) {
    if (text == "every_day") return on_a_step(info, text, every_day);
    if (text == "never") return on_a_step(info, text, 0);
    unsigned bits = 0;
    std::string_view rest = text;
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find_first_of(" ,"), rest.size());
        const std::string_view word = rest.substr(0, end);
        rest.remove_prefix(std::min(end + 1, rest.size()));
        if (word.empty()) continue;
        const Parsed<std::uint8_t> day = parse_word(word, weekday_names);
        if (!day.value) return {std::nullopt, day.what, std::string(weekday_form)};
        bits |= 1U << *day.value;
    }
    return on_a_step(info, text, bits);
}

std::string written_weekdays(int bits) {
    if (bits == every_day) return "every_day";
    std::string names;
    for (std::size_t day = 0; day < weekday_names.size(); ++day) {
        if ((static_cast<unsigned>(bits) >> day & 1U) == 0) continue;
        if (!names.empty()) names += ' ';
        names += weekday_names[day];
    }
    return names.empty() ? "never" : names;
}

std::string number(int stored, const SettingScale& scale) {
    return quantity_text(from_unit(static_cast<double>(stored) / scale.per_unit, scale.unit),
                         scale.unit);
}

}  // namespace

SettingScale scale_of(SettingUnit unit) {
    switch (unit) {
        case SettingUnit::difference_k:
            return {"K", 100};
        case SettingUnit::temperature_c:
            return {"degC", 100};
        case SettingUnit::seconds:
            return {"s", 1};
        case SettingUnit::minutes:
            return {"min", 1};
        case SettingUnit::hours:
            return {"h", 1};
        case SettingUnit::days:
            return {"days", 1};
        case SettingUnit::percent:
            return {"%", 1};
        case SettingUnit::litres_per_minute:
            return {"l/min", 100};
        case SettingUnit::bar:
            return {"bar", 100};
        case SettingUnit::metres:
            return {"m", 10};
        case SettingUnit::pulses_per_litre:
            return {"pulses/l", 1};
        case SettingUnit::level_per_kelvin:
            return {"%/K", 10};
        case SettingUnit::minute_of_day:
        case SettingUnit::weekdays:
        case SettingUnit::date:
        case SettingUnit::choice:
            return {};
    }
    return {};
}

const SettingInfo* find_setting(std::string_view name) {
    for (const SettingInfo& info : firmware::setting_table())
        if (name == info.name) return &info;
    return nullptr;
}

std::vector<std::string_view> choices_of(const SettingInfo& info) {
    std::vector<std::string_view> words;
    for (int i = 0; info.choices != nullptr && i <= info.most; ++i)
        words.emplace_back(info.choices[i]);
    return words;
}

Parsed<std::int16_t> parse_setting(const SettingInfo& info, std::string_view text) {
    if (scale_of(info.unit).unit != nullptr) return parse_number(info, text);
    if (info.unit == SettingUnit::minute_of_day) return parse_minute_of_day(info, text);
    if (info.unit == SettingUnit::date) return parse_date(info, text);
    if (info.unit == SettingUnit::weekdays) return parse_weekdays(info, text);
    const std::vector<std::string_view> words = choices_of(info);
    // YAML writers put yes and true where a table says on; the words of the table still come first.
    const Parsed<bool> flag = parse_flag(text);
    const bool is_switch = words.size() == 2 && parse_flag(words[1]).value.value_or(false);
    if (is_switch && flag.value) return {static_cast<std::int16_t>(*flag.value ? 1 : 0), {}, {}};
    const Parsed<std::uint8_t> word = parse_word(text, words);
    if (!word.value) return refused_as(word);
    return {static_cast<std::int16_t>(*word.value), {}, {}};
}

std::string written_setting(const SettingInfo& info, std::int16_t value) {
    const SettingScale scale = scale_of(info.unit);
    if (scale.unit != nullptr) return number(value, scale);
    if (info.unit == SettingUnit::minute_of_day) return time_of_day_text(value * 60);
    if (info.unit == SettingUnit::weekdays) return written_weekdays(value);
    if (info.unit == SettingUnit::date)
        return value == 0 ? "never" : moment_text(value * plant::seconds_a_day).substr(0, 10);
    return info.choices[value];
}

std::string allowed_text(const SettingInfo& info) {
    const SettingScale scale = scale_of(info.unit);
    if (scale.unit != nullptr)
        return fmt::format("{} to {} in steps of {}", number(info.least, scale),
                           number(info.most, scale), number(info.step, scale));
    if (info.unit == SettingUnit::minute_of_day)
        return fmt::format("{} to {} in steps of {} min", time_of_day_text(info.least * 60),
                           time_of_day_text(info.most * 60), info.step);
    if (info.unit == SettingUnit::weekdays) return std::string(weekday_form);
    if (info.unit == SettingUnit::date)
        return fmt::format("never, or a date from 2000-01-02 to {}",
                           moment_text(info.most * plant::seconds_a_day).substr(0, 10));
    return joined(choices_of(info));
}

}  // namespace noonbench::harness
