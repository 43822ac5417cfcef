// SPDX-License-Identifier: MIT
#include "lesson_unit.hpp"

#include "harness/scenario/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace noonbench::harness {
namespace {

constexpr double most_in_a_lesson = 1e9;
constexpr int last_minute = 24 * 60 - 1;

bool is_known_unit(std::string_view unit) {
    return !unit.empty() && find_unit(unit).unit != nullptr;
}

int decimals_of(double shown, std::string_view unit) {
    if (unit == "bar" || unit == "l/min") return 2;
    if (unit == "%" || unit == "s" || unit == "min" || unit == "W" || unit == "W/m2") return 0;
    if (unit == "kWh" || unit == "kWh/m2") return std::abs(shown) < 19.995 ? 2 : 1;
    if (!is_known_unit(unit)) return shown == std::floor(shown) ? 0 : 2;
    return 1;
}

/// "1 starts" without its word.
std::string_view without_word(std::string_view text, std::string_view word) {
    if (!word.empty() && text.ends_with(word)) {
        text.remove_suffix(word.size());
        while (text.ends_with(' ')) text.remove_suffix(1);
    }
    return text;
}

/// In the unit, or in another of its kind.
Parsed<double> parse_known(std::string_view text, std::string_view unit, double least) {
    const Unit& own = *find_unit(unit).unit;
    Parsed<double> parsed = parse_quantity(text, {own.text, least, most_in_a_lesson});
    if (parsed.value) parsed.value = in_unit(*parsed.value, unit);
    if (!parsed.value)
        parsed.allowed = fmt::format("a number{} with its unit: {}",
                                     least < 0.0 ? "" : ", 0 or more,", units_text(own.text));
    return parsed;
}

Parsed<double> parse_plain(std::string_view text, std::string_view word, double least) {
    Parsed<double> parsed = parse_quantity(without_word(text, word), {"", least, most_in_a_lesson});
    if (!parsed.value)
        parsed.allowed = word.empty() ? "a plain number without a unit"
                                      : fmt::format("a number, alone or with {} behind it", word);
    return parsed;
}

}  // namespace

std::string_view kept_unit(Measure measure) {
    return measure == Measure::clock ? clock_unit : unit_of(measure);
}

bool unit_fits(Measure measure, std::string_view unit) {
    if (measure == Measure::clock) return unit == clock_unit;
    if (measure == Measure::plain) return unit != clock_unit && !is_known_unit(unit);
    const UnitFound found = find_unit(unit);
    return found.kind != nullptr && found.kind == find_unit(unit_of(measure)).kind;
}

std::string fitting_units(Measure measure) {
    if (measure == Measure::clock) return std::string(clock_unit);
    if (measure == Measure::plain) return "no unit, or a word for what is counted";
    return units_text(unit_of(measure));
}

std::string_view distance_unit(std::string_view unit) {
    if (unit == clock_unit) return "min";
    return is_known_unit(unit) && find_unit(unit).kind == find_unit("degC").kind ? "K" : unit;
}

double shown_value(double value, Measure measure, std::string_view unit) {
    const std::string_view own = unit_of(measure);
    if (own == unit || measure == Measure::clock || !is_known_unit(unit)) return value;
    return in_unit(from_unit(value, own), unit);
}

std::string shown_text(double shown, std::string_view unit) {
    if (std::isnan(shown)) return "none";
    if (unit == clock_unit) {
        const int minutes = std::min(static_cast<int>(std::lround(shown / 60.0)), last_minute);
        return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
    }
    std::string text = fmt::format("{:.{}f}", shown, decimals_of(shown, unit));
    if (text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos)
        text.erase(0, 1);
    return text;
}

std::string unit_behind(std::string_view unit) {
    if (unit.empty() || unit == clock_unit) return {};
    if (unit == "degC") return " \u00b0C";
    if (unit == "W/m2") return " W/m\u00b2";
    if (unit == "kWh/m2") return " kWh/m\u00b2";
    return " " + std::string(unit);
}

Parsed<double> parse_in_unit(std::string_view text, std::string_view unit) {
    if (unit == clock_unit) {
        const Parsed<std::int32_t> time = parse_time_of_day(text);
        if (!time.value) return {std::nullopt, time.what, time.allowed};
        return {double(*time.value), {}, {}};
    }
    if (!is_known_unit(unit)) return parse_plain(text, unit, -most_in_a_lesson);
    return parse_known(text, unit, -most_in_a_lesson);
}

Parsed<double> parse_distance(std::string_view text, std::string_view unit) {
    if (unit == clock_unit) return parse_known(text, "s", 0.0);
    const std::string_view own = distance_unit(unit);
    if (!is_known_unit(own)) return parse_plain(text, own, 0.0);
    return parse_known(text, own, 0.0);
}

}  // namespace noonbench::harness
