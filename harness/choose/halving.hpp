// SPDX-License-Identifier: MIT
// The search for the best settings, knowing only numbers. Rungs, as in successive halving: many
// candidates in one world, then ever fewer in ever more. Unlike there, each rung also adds
// candidates that a smooth surface through the scores so far proposes, so that the search climbs
// while the worlds become more; the last rung looks at the winner's neighbours and finishes those
// that were dropped too early to be sure of the promise.
#pragma once
#include "flat_set.hpp"
#include "halving_grid.hpp"
#include "halving_scores.hpp"
#include "score.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

namespace noonbench::harness {

/// Told after each batch of trials.
struct RungReport {
    std::size_t rung = 0;  // from 1
    std::size_t rungs = 0;
    std::size_t worlds = 0;  // of this rung
    std::size_t alive = 0;   // candidates that have run in all of these
    std::size_t trials_done = 0;
    std::size_t trials_expected = 0;  // in the whole search
};

struct HalvingRequest {
    Grid grid;
    std::vector<std::size_t> delivered;  // candidates that always take part, in all worlds
    std::size_t budget = 400;            // trials
    std::size_t worlds = 8;              // of the last rung, >= 2; see worlds_for()
    std::uint64_t seed = 1;
    FlatSetRequest promise;
    std::function<void(const RungReport&)> progress;  // may be empty
};

struct HalvingResult {
    std::vector<Tried> tried;  // all scores, in ascending order of candidates
    FlatSet set;
    std::size_t trials = 0;
    std::size_t possible = 0;             // points of the grid; tried.size() of them were tried
    std::vector<std::size_t> neighbours;  // of the winner, all that are possible
    std::vector<std::size_t> neighbours_unrun;  // of these, not in all worlds of the last rung
};

/// As many worlds as a budget pays for if some thirty candidates are to run in all of them.
[[nodiscard]] std::size_t worlds_for(std::size_t budget);

/// Deterministic for a seed if the scores are. Everything is run if the budget allows it. Throws
/// std::invalid_argument for a grid without a possible point, a delivered candidate that is none,
/// fewer than two worlds, or a budget below what the delivered candidates (or one candidate) need.
[[nodiscard]] HalvingResult search_settings(const HalvingRequest& request, const RunTrials& run);

}  // namespace noonbench::harness
