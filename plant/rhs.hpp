// SPDX-License-Identifier: MIT
// The one right-hand side that every solver calls. Straight through: energies -> temperatures ->
// edges -> rates; no loops to close, no memory, no allocation. Every flow is computed once and
// booked with both signs; outside edges are booked beside the state.
#pragma once
#include "circuit.hpp"
#include "drive.hpp"
#include "tick.hpp"

#include <array>

namespace noonbench::plant {

/// The weather at one instant as the right-hand side wants it.
struct Outside {
    double air_c = 10.0;
    std::array<RowWeather, most_rows> row{};
};

/// Linear between the knots; `at_s` seconds after `now`.
[[nodiscard]] Outside outside_at(const WeatherSpan& weather, const Circuit& circuit,
                                 CivilSeconds now, double at_s);

/// Rates of change of all layout.total amounts: W for energies, K/s for sensors, W (kg/s) for
/// edges. All of `rate` up to layout.total is written.
void rates(const Circuit& circuit, const Tick& tick, const Outside& outside, const double* amount,
           double* rate);

/// Share of hot water at the tap for a store whose top layer has this energy.
[[nodiscard]] double hot_share_at_tap(const Tick& tick, double top_layer_j_kg);

}  // namespace noonbench::plant
