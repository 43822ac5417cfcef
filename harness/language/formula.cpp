// SPDX-License-Identifier: MIT
#include "formula.hpp"

#include <array>

namespace noonbench::harness {
namespace {

struct MeasureInfo {
    std::string_view name;
    std::string_view unit;
    std::string_view margin_unit;
};

// In the order of Measure.
constexpr std::array<MeasureInfo, measure_count> measures = {{
    {"a plain number", "", ""},
    {"a temperature", "degC", "K"},
    {"a temperature difference", "K", "K"},
    {"a flow", "l/min", "l/min"},
    {"a power", "W", "W"},
    {"an irradiance", "W/m2", "W/m2"},
    {"an energy", "kWh", "kWh"},
    {"an irradiation", "kWh/m2", "kWh/m2"},
    {"a volume", "l", "l"},
    {"a share", "%", "%"},
    {"a length of time", "s", "s"},
    {"a time of day", "s", "s"},
    {"a pressure", "bar", "bar"},
}};
static_assert(static_cast<std::size_t>(Measure::pressure) + 1 == measure_count);

const MeasureInfo& info(Measure measure) {
    return measures.at(static_cast<std::size_t>(measure));
}

}  // namespace

std::string_view unit_of(Measure measure) {
    return info(measure).unit;
}

std::string_view margin_unit_of(Measure measure) {
    return info(measure).margin_unit;
}

std::string_view name_of(Measure measure) {
    return info(measure).name;
}

Measure measure_of_unit(std::string_view unit) {
    // The first with the unit: seconds are a length of time, never a time of day.
    for (std::size_t i = 0; i < measure_count; ++i)
        if (measures[i].unit == unit) return static_cast<Measure>(i);
    return Measure::plain;
}

}  // namespace noonbench::harness
