// SPDX-License-Identifier: MIT
// Loops over one block, written so that a compiler makes vector code of them: no branches, a fixed
// length, several partial results where one would be a chain.
#pragma once
#include "block.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace noonbench::harness {

inline constexpr std::size_t block_size = static_cast<std::size_t>(block_ticks);

struct Least {
    static constexpr double neutral = endless_margin;
    static double of(double a, double b) { return b < a ? b : a; }
};
struct Most {
    static constexpr double neutral = -endless_margin;
    static double of(double a, double b) { return a < b ? b : a; }
};
struct Sum {
    static constexpr double neutral = 0.0;
    static double of(double a, double b) { return a + b; }
};

template <class Function>
void each(const double* a, double* out, Function function) {
    for (std::size_t i = 0; i < block_size; ++i) out[i] = function(a[i]);
}
template <class Function>
void each(const double* a, const double* b, double* out, Function function) {
    for (std::size_t i = 0; i < block_size; ++i) out[i] = function(a[i], b[i]);
}

/// Folds any number of values; for sums the order is not the order of time.
template <class Combine>
double folded(const double* values, std::size_t count) {
    constexpr std::size_t lanes = 8;
    std::array<double, lanes> part;
    part.fill(Combine::neutral);
    std::size_t i = 0;
    for (; i + lanes <= count; i += lanes) {
        for (std::size_t j = 0; j < lanes; ++j) part[j] = Combine::of(part[j], values[i + j]);
    }
    for (; i < count; ++i) part[0] = Combine::of(part[0], values[i]);
    double all = part[0];
    for (std::size_t j = 1; j < lanes; ++j) all = Combine::of(all, part[j]);
    return all;
}

/// The exact bounds of a block; NaNs are passed over and noted.
inline Bounds bounds_of_values(const double* values) {
    constexpr std::size_t lanes = 8;
    std::array<double, lanes> lo;
    std::array<double, lanes> hi;
    std::array<double, lanes> gap{};
    lo.fill(endless_margin);
    hi.fill(-endless_margin);
    for (std::size_t i = 0; i < block_size; i += lanes) {
        for (std::size_t j = 0; j < lanes; ++j) {
            const double x = values[i + j];
            lo[j] = x < lo[j] ? x : lo[j];
            hi[j] = x > hi[j] ? x : hi[j];
            gap[j] = x == x ? gap[j] : 1.0;
        }
    }
    return {*std::min_element(lo.begin(), lo.end()), *std::max_element(hi.begin(), hi.end()),
            *std::max_element(gap.begin(), gap.end()) > 0.0};
}

}  // namespace noonbench::harness
