// SPDX-License-Identifier: MIT
#include "notable.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace noonbench::harness {

namespace {

constexpr std::array notable{
    NotableFigure{&TriedChoice::starts_a_day, 1.0, 0, "the clicking", "starts a day",
                  "starts a day"},
    NotableFigure{&TriedChoice::stagnation_h, 5.0, 0, "the hours in which the collector boils",
                  "h a year", "h above 120 °C"},
    NotableFigure{&TriedChoice::litres_below_comfort, 20.0, 0, "water that is not warm enough",
                  "l a year", "l not warm"},
    NotableFigure{&TriedChoice::pump_electricity_kwh, 3.0, 0, "the pump's electricity",
                  "kWh a year", "kWh for the pump"},
};

}  // namespace

std::span<const NotableFigure> notable_figures() {
    return notable;
}

bool is_notable(const NotableFigure& figure, double one, double other) {
    return std::abs(one - other) >= std::max(figure.floor, 0.2 * std::max(one, other));
}

}  // namespace noonbench::harness
