// SPDX-License-Identifier: MIT
// Every score that was paid for, and what the scores so far let expect of each candidate. A
// candidate always meets the worlds 0, 1, 2, ... in this order, so that any two can be compared
// world by world.
#pragma once
#include "score.hpp"

#include <cstddef>
#include <map>
#include <span>
#include <vector>

namespace noonbench::harness {

/// A candidate with its scores in the worlds 0 .. by_world.size() - 1.
struct Tried {
    std::size_t candidate = 0;
    std::vector<Score> by_world;
};

/// A candidate that is to have run in the worlds 0 .. worlds - 1.
struct Wanted {
    std::size_t candidate = 0;
    std::size_t worlds = 0;
};

/// Runs trials, none of them twice, and never more than the budget.
class ScoreBook {
  public:
    ScoreBook(RunTrials run, std::size_t budget);

    /// Runs what is missing; what is wanted from the first candidate on that no longer fits into
    /// the budget is left out, candidates whole. In one call of RunTrials. Throws
    /// std::runtime_error if the scores are not as many as the trials, are not finite, or differ
    /// in their number of margins.
    void run(std::span<const Wanted> wanted);
    void run(std::span<const std::size_t> candidates, std::size_t worlds);

    /// Trials that run() would need, were there no budget.
    [[nodiscard]] std::size_t missing(std::span<const std::size_t> candidates,
                                      std::size_t worlds) const;
    [[nodiscard]] std::size_t done() const { return done_; }
    [[nodiscard]] std::size_t left() const { return budget_ - done_; }
    /// In how many worlds it ran.
    [[nodiscard]] std::size_t worlds_of(std::size_t candidate) const;
    /// All that ran, in ascending order of candidates.
    [[nodiscard]] std::vector<Tried> tried() const;

  private:
    void keep(std::span<const Trial> trials, std::span<const Score> scores);

    RunTrials run_;
    std::size_t budget_;
    std::size_t done_ = 0;
    std::map<std::size_t, std::vector<Score>> scores_;
};

/// What a candidate's means over all worlds would be, as far as is known.
struct Estimate {
    std::size_t candidate = 0;
    std::size_t worlds = 0;  // in which it ran
    double objective_kwh = 0.0;
    std::vector<double> margins;
};

/// The mean over the worlds if a candidate ran in all of them; else its own mean corrected by what
/// its worlds give or take to the candidates that ran in more: the least-squares fit of candidate
/// plus world. At least one must have run in `worlds` worlds.
[[nodiscard]] std::vector<Estimate> estimates(std::span<const Tried> tried, std::size_t worlds);

/// How far the constraints are broken: the sum of what is below 0, each in standard deviations of
/// its margin among these candidates. In the order of the estimates; 0 = all are kept.
[[nodiscard]] std::vector<double> violations(std::span<const Estimate> estimates);

/// Numbers of estimates, best first: those that keep the constraints by objective, then the others
/// by how far they break them. Equals stand in the order of the estimates.
[[nodiscard]] std::vector<std::size_t> in_strict_order(std::span<const Estimate> estimates);

/// The same with a price for a broken constraint, high enough that a far better objective outside
/// does not pay, low enough that what breaks a constraint by a hair stands next to what keeps it.
[[nodiscard]] std::vector<std::size_t> in_priced_order(std::span<const Estimate> estimates);

/// Price of a violation by 1, in standard deviations of the objective.
inline constexpr double price_of_violation = 3.0;

[[nodiscard]] double mean_of(std::span<const double> values);
/// About the mean, with n - 1; 0 for fewer than two.
[[nodiscard]] double standard_deviation_of(std::span<const double> values);

}  // namespace noonbench::harness
