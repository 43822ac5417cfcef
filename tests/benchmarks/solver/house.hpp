// SPDX-License-Identifier: MIT
// The demo house on the bench with its real controller, and its weather for the plant alone.
#pragma once
#include "rule.hpp"
#include "world.hpp"

#include "harness/bench/bench.hpp"
#include "harness/bench/sky_feed.hpp"
#include "harness/scenario/scenario.hpp"

#include <string>
#include <vector>

namespace noonbench::benchmarks {

/// What is run of the year: all of it, or days from 1 April on.
struct Span {
    CivilSeconds days = 365;

    [[nodiscard]] bool whole() const { return days == 365; }
    [[nodiscard]] CivilSeconds first_day() const { return whole() ? 0 : 90; }
    [[nodiscard]] std::string text() const;
};

/// The demo house's year with overrides path.to.key=VALUE.
[[nodiscard]] harness::Scenario house_year(const Span& span,
                                           const std::vector<std::string>& sets = {});

/// Its weather, brought to the collectors, and three draws a day, 270 l at the tap.
[[nodiscard]] World house_world(const Span& span);

/// How the bench is carried.
enum class Way : std::uint8_t {
    strides,     // quiet ticks in one go
    every_tick,  // strides, each tick run
    seconds,     // midpoint rule each second
    reference    // Runge-Kutta 4 each second
};

/// Runs the scenario to its end, with nothing recorded but switchings.
struct Lived {
    Solved solved;
    std::string bytes;  // of all that the run led to
};
[[nodiscard]] Lived live(const harness::Scenario& scenario, const harness::SkyFeed& sky, Way way);

}  // namespace noonbench::benchmarks
