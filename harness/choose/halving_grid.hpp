// SPDX-License-Identifier: MIT
// The settings among which is chosen, as a grid of whole numbers: nothing here knows what a level
// means. The levels of a dimension stand in the order of what they mean, so that neighbours are
// alike.
#pragma once
#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace noonbench::harness {

/// A level, counted from 0, in each dimension.
using GridPoint = std::vector<std::size_t>;

/// A candidate is the number of its point, the last dimension counting fastest.
struct Grid {
    std::vector<std::size_t> levels;  // how many in each dimension, each >= 1
    /// Whether a point is a possible setting; empty: every one is. Always the same for a point.
    std::function<bool(std::span<const std::size_t>)> exists;

    /// All points, possible or not.
    [[nodiscard]] std::size_t size() const;
    /// Precondition: candidate < size().
    [[nodiscard]] GridPoint point_of(std::size_t candidate) const;
    /// Precondition: one level for each dimension, each below its count.
    [[nodiscard]] std::size_t candidate_of(std::span<const std::size_t> point) const;
    [[nodiscard]] bool is_possible(std::size_t candidate) const;
    /// The possible points one level away in one dimension, in ascending order.
    [[nodiscard]] std::vector<std::size_t> neighbours(std::size_t candidate) const;
    /// All possible points, in ascending order.
    [[nodiscard]] std::vector<std::size_t> possible() const;
};

/// `count` of the `possible` points (fewer if there are no more), spread evenly over the grid and
/// in an order in which the first few are spread evenly too. Deterministic for a seed.
[[nodiscard]] std::vector<std::size_t> evenly_spread(const Grid& grid,
                                                     std::span<const std::size_t> possible,
                                                     std::size_t count, std::uint64_t seed);

}  // namespace noonbench::harness
