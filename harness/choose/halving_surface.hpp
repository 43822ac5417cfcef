// SPDX-License-Identifier: MIT
// A smooth guess of a number over the whole grid from a few points at which it was measured: what
// is worth running next. It only proposes; nothing that is promised rests on it.
#pragma once
#include "halving_grid.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace noonbench::harness {

/// One measured point; `noise` is the variance of its value relative to that of the others.
struct Measured {
    GridPoint point;
    double value = 0.0;
    double noise = 1.0;  // e.g. 1 / worlds
};

/// How quickly the surface changes along each dimension, and how rough it is; kept from one fit to
/// the next, which then has little left to look for. Numbers count steps on fixed scales.
struct SurfaceShape {
    std::vector<int> reach;  // of each dimension; empty: not fitted yet
    int roughness = 1;
};

/// Regression by a Gaussian process: constant mean, squared-exponential covariance with a reach of
/// its own in each dimension, whose length is that of the whole grid; independent noise.
class Surface {
  public:
    /// At least two points. Chooses the shape by the greatest likelihood, a step at a time from
    /// `shape`, and leaves there what it chose.
    Surface(const std::vector<std::size_t>& levels, std::span<const Measured> measured,
            SurfaceShape& shape);

    [[nodiscard]] double mean(std::span<const std::size_t> point) const;
    /// Mean and covariances between these points, given what was measured.
    struct Joint {
        std::vector<double> mean;
        std::vector<double> covariance;  // row by row
    };
    [[nodiscard]] Joint joint(std::span<const GridPoint> points) const;

  private:
    void fit(const SurfaceShape& shape);
    void set_likeness(const SurfaceShape& shape);
    [[nodiscard]] double likeness(std::span<const std::size_t> a,
                                  std::span<const std::size_t> b) const;

    std::vector<std::size_t> levels_;
    std::vector<Measured> measured_;
    std::vector<std::vector<double>> likeness_;  // of two levels apart by so many, per dimension
    std::vector<double> factor_;                 // lower triangle of Cholesky, row by row
    std::vector<double> weights_;                // mean = centre + likeness x weights
    double centre_ = 0.0;
    double variance_ = 0.0;
    double log_likelihood_ = 0.0;
};

}  // namespace noonbench::harness
