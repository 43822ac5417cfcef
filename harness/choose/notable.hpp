// SPDX-License-Identifier: MIT
// Which differences between two choices of settings somebody would notice, besides the energy.
#pragma once
#include "chosen.hpp"

#include <span>
#include <string_view>

namespace noonbench::harness {

struct NotableFigure {
    double TriedChoice::*quantity;
    double floor;  // a smaller difference is none
    int decimals;
    std::string_view name;        // "the clicking"
    std::string_view unit;        // "starts a day"
    std::string_view short_unit;  // in a narrow column: "starts a day"
};

/// The most annoying first.
[[nodiscard]] std::span<const NotableFigure> notable_figures();

/// The floor and a fifth of the greater one are what somebody would notice (our judgement).
[[nodiscard]] bool is_notable(const NotableFigure& figure, double one, double other);

}  // namespace noonbench::harness
