// SPDX-License-Identifier: MIT
// What nobody knows exactly on site as a cube of unit sides: each side is a band, 0 its least and 1
// its most. Only values that can be written exist, so that a file of them is the very same day.
#pragma once
#include "harness/scenario/band.hpp"
#include "harness/scenario/scenario.hpp"
#include "harness/scenario/yaml_tree.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

/// One side of the cube.
struct Dimension {
    Uncertain uncertain;
    Band band;
    std::string usual_text;    // what the scenario says
    std::string nominal_text;  // the same, or the nearest end of the band
    double nominal = 0.0;      // in the numbers of the band
};

/// Throws InputRefused where a band does not fit the scenario: no such item of a list, a key that
/// would drop what the scenario has (its sky, its household), a quantity twice.
[[nodiscard]] std::vector<Dimension> dimensions_of(std::span<const Uncertain> uncertain,
                                                   const Node& root, const Scenario& scenario);

/// The scenario's own list upon a more general one: where both name a quantity, its own counts.
[[nodiscard]] std::vector<Uncertain> laid_over(std::span<const Uncertain> general,
                                               std::span<const Uncertain> own);

/// "coil_fouling", "sky.clear_day.clouds.0.from".
[[nodiscard]] const std::string& name_of(const Dimension& dimension);

/// The usual value of every side, in the cube.
[[nodiscard]] std::vector<double> nominal_point(std::span<const Dimension> dimensions);
/// The nearest point that can be written. The usual value of a side is one of them.
[[nodiscard]] std::vector<double> snapped(std::span<const Dimension> dimensions,
                                          std::span<const double> point);
/// The values of a snapped point as they are written.
[[nodiscard]] std::vector<std::string> texts_at(std::span<const Dimension> dimensions,
                                                std::span<const double> point);
/// The scenario's tree with the values of a snapped point; sides at their usual value leave it as
/// it is where the scenario says the same.
[[nodiscard]] Node tree_at(std::span<const Dimension> dimensions, std::span<const double> point,
                           const Node& root);

}  // namespace noonbench::harness
