// SPDX-License-Identifier: MIT
// Which points are worth running next, from what is estimated of those that ran.
#pragma once
#include "halving_grid.hpp"
#include "halving_scores.hpp"
#include "halving_surface.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace noonbench::harness {

/// Keeps the shapes of the surfaces from one proposal to the next.
class Proposer {
  public:
    /// Of more than 50,000 possible points it looks at so many drawn by the seed, and at the
    /// neighbours of the leaders.
    Proposer(const Grid& grid, std::vector<std::size_t> possible, std::uint64_t seed);

    /// Up to `count` points that have not been tried, the most promising first: by the objective
    /// that can be hoped for (mean plus one standard deviation, each pick lessening what can be
    /// hoped for near it), less the price of constraints that can be feared broken.
    [[nodiscard]] std::vector<std::size_t> propose(std::span<const Estimate> estimates,
                                                   std::size_t count);

    /// These candidates, the most promising first by the surfaces' means.
    [[nodiscard]] std::vector<std::size_t> ranked(std::span<const Estimate> estimates,
                                                  const std::vector<std::size_t>& candidates);

  private:
    struct Guess;
    [[nodiscard]] Guess guess(std::span<const Estimate> estimates);
    [[nodiscard]] std::vector<std::size_t> untried(std::span<const Estimate> estimates) const;

    const Grid& grid_;
    std::vector<std::size_t> pool_;
    std::vector<SurfaceShape> shapes_;  // of the objective, then of each margin
};

}  // namespace noonbench::harness
