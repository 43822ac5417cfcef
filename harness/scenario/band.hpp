// SPDX-License-Identifier: MIT
// The band of an uncertain quantity in numbers, on a grid coarse enough that a value from within it
// is written as a person would write it: 2.61 l/min, 200 s, 09:41:30.
#pragma once
#include "key.hpp"
#include "yaml_tree.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

struct Band {
    enum class Writing : std::uint8_t {
        quantity,     // number and unit
        duration,     // whole seconds, whole minutes as such
        time_of_day,  // 06:30:15
        date_time,    // 2026-04-15 06:30:15
    };
    Writing writing = Writing::quantity;
    std::string unit;    // of a quantity; "" is a plain number
    double least = 0.0;  // in that unit; else in s, civil seconds for date_time
    double most = 0.0;
    double step = 0.0;  // values lie at origin + a whole number of steps, or at an end
    double origin = 0.0;
    std::string least_text;
    std::string most_text;
};

/// Reads the texts as the key or lever wants them. What is wrong goes to `objections`, each with
/// its place; then there is no band.
[[nodiscard]] std::optional<Band> understood_band(const Uncertain& uncertain,
                                                  std::vector<Objection>& objections);

/// The nearest value of the grid within the band.
[[nodiscard]] double on_grid(const Band& band, double value);

/// A value of the grid as its key or lever reads it back.
[[nodiscard]] std::string written(const Band& band, double value);

/// A text of the key or lever in the numbers of its band; nothing if it cannot be read. `start_s`
/// is the scenario's start, which moments refer to.
[[nodiscard]] std::optional<double> number_in(const Band& band, std::string_view text,
                                              CivilSeconds start_s);

/// What the scenario itself says, as text of its key or lever; empty if it has no such thing.
[[nodiscard]] std::string usual_text(const Uncertain& uncertain, const Band& band, const Node& root,
                                     const Scenario& scenario);

/// Lays a value over a composed tree: its key, or one more move of its lever from the start.
void lay_value(Node& root, const Uncertain& uncertain, const std::string& text);

}  // namespace noonbench::harness
