// SPDX-License-Identifier: MIT
#include "lesson_lever.hpp"

#include "lesson_unit.hpp"

#include "plant/levers.hpp"

#include <cmath>
#include <variant>

namespace noonbench::harness {

double lever_at_last(const Scenario& scenario, std::string_view lever) {
    const plant::LeverInfo* info = plant::find_lever(lever);
    double value = info != nullptr ? info->healthy : 0.0;
    for (const Move& move : scenario.moves) {
        const auto* moved = std::get_if<LeverMove>(&move.what);
        if (moved != nullptr && moved->lever == lever) value = moved->to;
    }
    return value;
}

const std::string* lever_reading(const HuntMeasurement& measurement, double value) {
    for (const auto& [key, words] : measurement.reads) {
        const Parsed<double> at = parse_in_unit(key, "");
        if (at.value && std::abs(*at.value - value) < 1e-9) return &words;
    }
    return nullptr;
}

}  // namespace noonbench::harness
