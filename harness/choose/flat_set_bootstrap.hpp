// SPDX-License-Identifier: MIT
// How far a mean over few worlds may be from the mean over all worlds: by drawing the worlds again
// with replacement (the bootstrap, Efron 1979), all candidates with the same draw. Plain redrawing
// is too sure of itself when worlds are few: its spread is too small by sqrt((n - 1) / n), and it
// takes the spread of the n for the true one. So each draw's deviation is stretched by
// sqrt(n / (n - 1)) and by sqrt((n - 1) / chi-squared of n - 1 degrees), which turns a normal
// deviation into Student's t.
#pragma once
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace noonbench::harness {

/// The worlds drawn once more.
struct WorldDraw {
    std::vector<double> weights;  // how often each world was drawn, by the number of worlds
    double stretch = 1.0;         // of the deviation, both factors
    double student = 1.0;         // of a standard normal number, which it makes one of Student's t
};

/// `draws` draws of `worlds` >= 2 worlds; throws std::invalid_argument for fewer.
[[nodiscard]] std::vector<WorldDraw> draw_worlds(std::size_t worlds, std::size_t draws,
                                                 std::uint64_t seed);

/// The mean of one number per world, as this draw would have it; with another stretch than its own.
[[nodiscard]] double mean_in(const WorldDraw& draw, std::span<const double> by_world,
                             double stretch);
[[nodiscard]] double mean_in(const WorldDraw& draw, std::span<const double> by_world);

struct MeanInterval {
    double low = 0.0;
    double high = 0.0;
};

/// Two-sided interval of the mean, cut off at equal tails. `confidence` in (0, 1).
[[nodiscard]] MeanInterval mean_interval(std::span<const double> by_world, double confidence,
                                         std::size_t draws, std::uint64_t seed);

}  // namespace noonbench::harness
