// SPDX-License-Identifier: MIT
// The answer of a choice: not one winner, which a flat optimum hides in the scatter of the worlds,
// but the set of candidates that are as good for all that matters, and how sure that is.
#pragma once
#include "halving_grid.hpp"
#include "halving_scores.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace noonbench::harness {

struct FlatSetRequest {
    double tolerance = 0.004;  // of the winner's mean saving
    double confidence = 0.95;  // that is asked for
    std::size_t draws = 4000;  // of the worlds; 95 % is then known to within 0.7 % (two sigma)
    std::uint64_t seed = 1;
};

/// One of the set. All means are over the worlds of the last rung.
struct Member {
    std::size_t candidate = 0;
    double saving_kwh = 0.0;
    double objective_kwh = 0.0;
    double behind_kwh = 0.0;            // the winner's objective less its own, >= 0
    double chance = 0.0;                // that it alone is within the tolerance of the best tried
    double keeps_constraints = 0.0;     // chance that every mean margin is >= 0 over all worlds
    std::vector<double> margins;        // means, each >= 0
    std::vector<double> worst_margins;  // in the single worst world of each
    bool only_to_be_sure = false;  // behind by more than the tolerance, not excluded all the same
};

/// What is promised, and of whom: with probability `confidence` the best of the set is within
/// tolerance_kwh of the best of all candidates tried that keep the constraints in the worlds they
/// ran in. Nothing is said of points never tried, nor are the constraints, which are judged by
/// their means as measured, part of the probability (see Member::keeps_constraints, undecided).
///
/// How: the worlds are drawn again (flat_set_bootstrap.hpp), the same for all candidates, and each
/// one's differences from the winner stretched on their own; `confidence` is the share of draws in
/// which the promise holds. A candidate dropped on fewer worlds takes part by its differences from
/// the winner in those worlds, as uncertain as Student's t with the standard deviation that such
/// differences have among its like: the five nearest of those that ran everywhere, in proportion to
/// the distance from the winner where it is farther away than they; its own if that is greater. The
/// set is first what is within the tolerance by its mean; then whoever breaks the promise most
/// often joins, until it holds.
struct FlatSet {
    std::vector<Member> members;  // best first; empty if none keeps the constraints everywhere
    std::size_t winner = 0;       // then the candidate that breaks them least
    double tolerance_kwh = 0.0;
    double confidence = 0.0;  // reached; may be less than asked for. 0 for fewer than two worlds
    bool sure = false;        // as much as asked for was reached
    std::size_t worlds = 0;
    std::size_t ran_everywhere = 0;      // candidates that ran in all the worlds
    std::vector<std::size_t> threats;    // dropped early, yet spoil the promise; worst first
    std::vector<std::size_t> undecided;  // better by more than the tolerance; break a constraint,
                                         // but with a chance above 5 % not over all worlds
};

/// `worlds`: of the last rung; at least one candidate must have run in all of them, none in more.
/// Throws std::invalid_argument else. Deterministic for a seed.
[[nodiscard]] FlatSet flat_set(const Grid& grid, std::span<const Tried> tried, std::size_t worlds,
                               const FlatSetRequest& request = {});

/// What a set says of one dimension.
struct LevelRange {
    std::vector<std::size_t> present;  // levels of the members, ascending, all else free
    std::vector<std::size_t> alone;    // the same where all else is as in the winner
    bool every_level = false;          // present holds each level: the dimension does not matter,
                                       // provided that the others are chosen to suit
};

/// One for each dimension; empty ranges for an empty set.
[[nodiscard]] std::vector<LevelRange> level_ranges(const Grid& grid, const FlatSet& set);

}  // namespace noonbench::harness
