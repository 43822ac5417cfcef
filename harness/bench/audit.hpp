// SPDX-License-Identifier: MIT
// A second opinion on the books: the boundary powers worked out again, stretch by stretch, from
// what the bench shows (sun on the planes, litres and temperatures at the tap, layer temperatures),
// by code that shares nothing with the plant's right-hand side but the property of water.
#pragma once
#include "bench.hpp"

namespace noonbench::harness {

class Audit {
  public:
    explicit Audit(const Bench& bench);

    /// After each Bench::advance() or stride(), with its length.
    void stretch(const Bench& bench, int seconds);

    /// Largest gap between the recomputed and the booked sums of sun absorbed, heat tapped and
    /// change of the store's content, relative to the larger of the booked sum and 1 MJ.
    [[nodiscard]] double largest_gap(const Bench& bench) const;

  private:
    double absorbed_j_ = 0.0;
    double tapped_j_ = 0.0;
    double store_at_start_j_ = 0.0;
};

}  // namespace noonbench::harness
