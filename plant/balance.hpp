// SPDX-License-Identifier: MIT
// Books of everything that crossed the plant's boundary, and the balance against what it holds.
// The residual finds leaks in the book-keeping; it cannot see wrong physics or the size of a step.
#pragma once
#include "layout.hpp"

#include <cstdint>

namespace noonbench::plant {

/// Totals since the start, as compensated sums (Neumaier), so that a year keeps the last joule.
struct Books {
    EdgeAmounts total{};
    EdgeAmounts carry{};

    void add(const EdgeAmounts& step);
    /// Joules (hot_mass: kilograms) since the start.
    [[nodiscard]] double of(Edge edge) const;
    /// Heat at the tap over the cold water, J.
    [[nodiscard]] double tapped_j() const;
    /// Sum of all outside edges with their signs, J; `left_out` shows what a forgotten edge does.
    [[nodiscard]] double net_in_j(Edge left_out = Edge::count) const;
    /// Sum of the absolute outside edges, J.
    [[nodiscard]] double throughput_j() const;
};

/// One comparison of what is held against what was booked.
struct Residual {
    double residual_j = 0.0;
    double bound_j = 0.0;
    [[nodiscard]] bool holds() const { return residual_j <= bound_j && residual_j >= -bound_j; }
};

/// Kept over the run; `worst_step` is the step with the largest |residual| / bound.
struct Balance {
    double stored_at_start_j = 0.0;
    double worst_step_ratio = 0.0;
    Residual worst_step{};
    std::int64_t steps = 0;
};

/// Energies of all cells, and of their absolute values.
struct Stored {
    double sum_j = 0.0;
    double absolute_j = 0.0;
};
[[nodiscard]] Stored stored(const Layout& layout, const Amounts& amounts);

/// |residual| <= 1e-9 x sum of |boundary energy| + 64 x 2^-52 x sum of |stored energy| for a step;
/// the second part is rounding.
[[nodiscard]] Residual step_residual(const Layout& layout, const Amounts& before,
                                     const Amounts& after, const EdgeAmounts& step,
                                     Edge left_out = Edge::count);

/// Over the run: bound 1e-9 of the throughput, and the same rounding of one step.
[[nodiscard]] Residual run_residual(const Stored& now, const Balance& balance, const Books& books,
                                    Edge left_out = Edge::count);

}  // namespace noonbench::plant
