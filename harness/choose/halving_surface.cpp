// SPDX-License-Identifier: MIT
#include "halving_surface.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <utility>

namespace noonbench::harness {

namespace {

// In shares of the grid's whole length; the last one makes a dimension all but unimportant.
constexpr std::array reaches = {0.2, 0.35, 0.6, 1.0, 1.8, 3.0, 6.0, 20.0};
constexpr int first_reach = 4;
// Variance of the noise at one world, in that of the surface.
constexpr std::array roughnesses = {1e-5, 1e-4, 1e-3, 1e-2, 1e-1};
constexpr double least_noise = 1e-7;  // keeps the matrix positive definite in double precision
constexpr int first_sweeps = 3;
constexpr int later_sweeps = 1;

/// Solves L x = b in place.
void solve_lower(const std::vector<double>& lower, std::span<double> b) {
    const std::size_t n = b.size();
    for (std::size_t i = 0; i < n; ++i) {
        double sum = b[i];
        const double* row = &lower[i * n];
        for (std::size_t j = 0; j < i; ++j) sum -= row[j] * b[j];
        b[i] = sum / row[i];
    }
}

/// Solves L^T x = b in place.
void solve_upper(const std::vector<double>& lower, std::span<double> b) {
    const std::size_t n = b.size();
    for (std::size_t i = n; i-- > 0;) {
        b[i] /= lower[i * n + i];
        for (std::size_t j = 0; j < i; ++j) b[j] -= lower[i * n + j] * b[i];
    }
}

/// Cholesky in place; the upper triangle is left as it is.
void factorise(std::vector<double>& matrix, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i) {
        double* row_i = &matrix[i * n];
        for (std::size_t j = 0; j <= i; ++j) {
            const double* row_j = &matrix[j * n];
            double sum = row_i[j];
            for (std::size_t k = 0; k < j; ++k) sum -= row_i[k] * row_j[k];
            row_i[j] = i == j ? std::sqrt(std::max(sum, least_noise)) : sum / row_j[j];
        }
    }
}

double product(std::span<const double> a, std::span<const double> b) {
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

/// All shapes one step away from this one, in turn, until none is better.
template <class Better>
void climb(SurfaceShape& shape, int sweeps, const Better& better) {
    const auto try_steps = [&](int& step, int count) {
        bool moved = false;
        for (const int by : {-1, 1}) {
            const int before = step;
            if (before + by < 0 || before + by >= count) continue;
            step = before + by;
            if (better()) {
                moved = true;
                break;
            }
            step = before;
        }
        return moved;
    };
    for (int sweep = 0; sweep < sweeps; ++sweep) {
        bool moved = try_steps(shape.roughness, static_cast<int>(roughnesses.size()));
        for (int& reach : shape.reach)
            moved = try_steps(reach, static_cast<int>(reaches.size())) || moved;
        if (!moved) return;
    }
}

}  // namespace

Surface::Surface(const std::vector<std::size_t>& levels, std::span<const Measured> measured,
                 SurfaceShape& shape)
    : levels_(levels), measured_(measured.begin(), measured.end()) {
    const bool first = shape.reach.empty();
    if (first) shape.reach.assign(levels.size(), first_reach);
    fit(shape);
    double best = log_likelihood_;
    climb(shape, first ? first_sweeps : later_sweeps, [&] {
        fit(shape);
        const bool is_better = log_likelihood_ > best;
        if (is_better) best = log_likelihood_;
        return is_better;
    });
    fit(shape);
}

void Surface::set_likeness(const SurfaceShape& shape) {
    likeness_.assign(levels_.size(), {});
    for (std::size_t d = 0; d < levels_.size(); ++d) {
        const double reach = reaches.at(static_cast<std::size_t>(shape.reach[d]));
        const double last = std::max(1.0, static_cast<double>(levels_[d]) - 1.0);
        for (std::size_t apart = 0; apart < levels_[d]; ++apart) {
            const double way = static_cast<double>(apart) / last / reach;
            likeness_[d].push_back(std::exp(-0.5 * way * way));
        }
    }
}

double Surface::likeness(std::span<const std::size_t> a, std::span<const std::size_t> b) const {
    double alike = 1.0;
    for (std::size_t d = 0; d < a.size(); ++d)
        alike *= likeness_[d][a[d] > b[d] ? a[d] - b[d] : b[d] - a[d]];
    return alike;
}

void Surface::fit(const SurfaceShape& shape) {
    set_likeness(shape);
    const std::size_t n = measured_.size();
    const double roughness = roughnesses.at(static_cast<std::size_t>(shape.roughness));
    factor_.assign(n * n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < i; ++j)
            factor_[i * n + j] = likeness(measured_[i].point, measured_[j].point);
        factor_[i * n + i] = 1.0 + least_noise + roughness * measured_[i].noise;
    }
    factorise(factor_, n);
    // Centre and variance are those of greatest likelihood, in closed form.
    std::vector<double> ones(n, 1.0);
    std::vector<double> values(n);
    for (std::size_t i = 0; i < n; ++i) values[i] = measured_[i].value;
    solve_lower(factor_, ones);
    solve_lower(factor_, values);
    centre_ = product(ones, values) / product(ones, ones);
    for (std::size_t i = 0; i < n; ++i) values[i] -= centre_ * ones[i];
    variance_ = product(values, values) / static_cast<double>(n);
    double log_determinant = 0.0;  // of the factor, half that of the matrix
    for (std::size_t i = 0; i < n; ++i) log_determinant += std::log(factor_[i * n + i]);
    log_likelihood_ = -log_determinant -
                      0.5 * static_cast<double>(n) * std::log(std::max(variance_, least_noise));
    solve_upper(factor_, values);
    weights_ = std::move(values);
}

double Surface::mean(std::span<const std::size_t> point) const {
    double value = centre_;
    for (std::size_t i = 0; i < measured_.size(); ++i)
        value += weights_[i] * likeness(point, measured_[i].point);
    return value;
}

Surface::Joint Surface::joint(std::span<const GridPoint> points) const {
    const std::size_t n = measured_.size();
    const std::size_t count = points.size();
    Joint found{std::vector<double>(count), std::vector<double>(count * count)};
    std::vector<double> solved(count * n);
    for (std::size_t p = 0; p < count; ++p) {
        const std::span<double> row(&solved[p * n], n);
        for (std::size_t i = 0; i < n; ++i) row[i] = likeness(points[p], measured_[i].point);
        found.mean[p] = centre_ + product(row, weights_);
        solve_lower(factor_, row);
        for (std::size_t q = 0; q <= p; ++q) {
            const std::span<const double> other(&solved[q * n], n);
            const double value = variance_ * (likeness(points[p], points[q]) - product(row, other));
            found.covariance[p * count + q] = value;
            found.covariance[q * count + p] = value;
        }
    }
    return found;
}

}  // namespace noonbench::harness
