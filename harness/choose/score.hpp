// SPDX-License-Identifier: MIT
// What the search for settings sees of the bench: numbers for a candidate in a world. A candidate
// is one choice of settings; a world is one draw of everything that nobody knows before (weather,
// household, tolerances of the installation), the same draw for every candidate.
#pragma once
#include <cstddef>
#include <functional>
#include <span>
#include <vector>

namespace noonbench::harness {

/// One run that is wanted: both count from 0.
struct Trial {
    std::size_t candidate = 0;
    std::size_t world = 0;
    friend bool operator==(const Trial&, const Trial&) = default;
};

/// What came of it.
struct Score {
    double saving_kwh = 0.0;  // backup energy saved against the same world without the sun, a year
    double objective_kwh = 0.0;   // saving less the weighted pump electricity; more is better
    std::vector<double> margins;  // one for each constraint, in its own unit; below 0 = broken
};

/// Runs all trials, in any order and on any number of threads; scores stand in the order of trials.
/// The same trial always has the same score.
using RunTrials = std::function<std::vector<Score>(std::span<const Trial>)>;

}  // namespace noonbench::harness
