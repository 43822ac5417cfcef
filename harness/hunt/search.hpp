// SPDX-License-Identifier: MIT
// The search itself, knowing nothing but a cube and a number at each of its points: first a point
// at which the number is negative, then one as near to the usual point as the runs allow.
#pragma once
#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace noonbench::harness {

/// The margin at a point of the unit cube, in units of the requirement's scale; negative = broken.
/// Must be finite and the same for the same point.
using MarginAt = std::function<double(std::span<const double>)>;
/// The nearest point that exists; may be empty.
using Snap = std::function<std::vector<double>(std::span<const double>)>;

struct SearchProblem {
    std::vector<double> nominal;  // the usual point; its size is the number of dimensions
    MarginAt margin_at;
    Snap snap;
};

struct SearchRequest {
    int budget = 400;  // evaluations of margin_at in all, >= 1
    std::uint64_t seed = 1;
    bool mildest = true;  // false: the first break ends it
};

/// One more step downward: what was the smallest margin after so many runs.
struct Improvement {
    int runs = 0;
    double margin = 0.0;
};

struct SearchResult {
    bool broken = false;
    std::vector<double> point;  // the mildest broken one, else the one of the smallest margin
    double margin = 0.0;        // there
    int runs_to_break = 0;      // 0: not broken
    int runs = 0;
    std::vector<Improvement> history;  // until the first break
};

/// Deterministic for a seed. Throws std::invalid_argument for no dimensions or no budget.
[[nodiscard]] SearchResult search(const SearchProblem& problem, const SearchRequest& request);

/// How far a point is from the usual one: the greatest share of a band that any side has moved.
[[nodiscard]] double greatest_move(std::span<const double> point, std::span<const double> nominal);
/// The root of the mean square of these shares.
[[nodiscard]] double mean_move(std::span<const double> point, std::span<const double> nominal);

}  // namespace noonbench::harness
