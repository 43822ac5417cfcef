// SPDX-License-Identifier: MIT
#include "quantity_text.hpp"

#include "units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace noonbench::harness {

namespace {

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

UnitFound known_unit(std::string_view unit) {
    const UnitFound found = find_unit(unit);
    if (found.unit == nullptr)
        throw std::logic_error("unknown unit in a table: " + std::string(unit));
    return found;
}

std::string number_text(double value) {
    // Minus zero would only puzzle a reader.
    return fmt::format("{:.9g}", value == 0.0 ? 0.0 : value);
}

std::string with_unit(double value, std::string_view unit) {
    return unit.empty() ? number_text(value) : fmt::format("{} {}", number_text(value), unit);
}

std::string example(const Range& range, const UnitFound& wanted) {
    if (wanted.unit->text.empty())
        return fmt::format("a number from {} to {}", number_text(range.least),
                           number_text(range.most));
    return fmt::format("{} to {} (units: {})", with_unit(range.least, range.unit),
                       with_unit(range.most, range.unit), units_text(range.unit));
}

/// The leading number and what follows it.
struct Split {
    std::optional<double> number;
    std::string_view rest;
};

Split split_number(std::string_view text) {
    std::string_view digits = text;
    if (digits.starts_with('+')) digits.remove_prefix(1);
    // from_chars would take "inf" and "nan"; only what begins like a decimal number may pass.
    const bool looks_like_number =
        digits.find_first_not_of("-.") != std::string_view::npos &&
        std::string_view("0123456789").find(digits[digits.find_first_not_of("-.")]) !=
            std::string_view::npos;
    if (!looks_like_number) return {std::nullopt, text};
    double value = 0.0;
    const auto result = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (result.ec != std::errc() || !std::isfinite(value)) return {std::nullopt, text};
    return {value, digits.substr(static_cast<std::size_t>(result.ptr - digits.data()))};
}

double si_value(double value, const Unit& unit) {
    return value * unit.times / unit.by;
}

/// The range check, with a hair of room so that 30 cm is not above 0.3 m.
Parsed<double> within(double value, const Unit& unit, const Range& range, const UnitFound& stated) {
    const double si = si_value(value, unit);
    const double least_si = si_value(range.least, *stated.unit);
    const double most_si = si_value(range.most, *stated.unit);
    const double room = 1e-12 * std::max(std::abs(least_si), std::abs(most_si));
    if (si >= least_si - room && si <= most_si + room)
        return {std::clamp(si, least_si, most_si), {}, {}};
    return {std::nullopt, fmt::format("{} is out of range", with_unit(value, unit.text)),
            fmt::format("{} to {}", with_unit(least_si * unit.by / unit.times, unit.text),
                        with_unit(most_si * unit.by / unit.times, unit.text))};
}

}  // namespace

Parsed<double> parse_quantity(std::string_view raw, const Range& range) {
    const std::string_view text = trimmed(raw);
    const UnitFound stated = known_unit(range.unit);
    const auto refuse = [&](std::string what) {
        return Parsed<double>{std::nullopt, std::move(what), example(range, stated)};
    };
    const Split split = split_number(text);
    if (!split.number) return refuse(in_quotes(text) + " is not a number");
    if (split.rest.starts_with(','))
        return refuse(in_quotes(text) + " has a decimal comma; write a decimal point");
    const std::string_view unit_text = trimmed(split.rest);
    if (const Unit* unit = find_unit_in(*stated.kind, unit_text))
        return within(*split.number, *unit, range, stated);
    if (unit_text.empty()) return refuse(in_quotes(text) + " has no unit");
    if (stated.unit->text.empty())
        return refuse(in_quotes(text) + " has a unit, a plain number is wanted");
    return refuse(fmt::format("{} is not a unit of {}", in_quotes(unit_text),
                              stated.kind->name.substr(stated.kind->name.find(' ') + 1)));
}

std::string quantity_text(double si, std::string_view unit) {
    return with_unit(in_unit(si, unit), unit);
}

double in_unit(double si, std::string_view unit) {
    const Unit& known = *known_unit(unit).unit;
    return si * known.by / known.times;
}

double from_unit(double value, std::string_view unit) {
    return si_value(value, *known_unit(unit).unit);
}

std::string units_text(std::string_view unit) {
    std::vector<std::string_view> texts;
    for (const Unit& each : known_unit(unit).kind->units) texts.push_back(each.text);
    return joined(texts);
}

}  // namespace noonbench::harness
