// SPDX-License-Identifier: MIT
// ROS34PW2: a linearly implicit method of order 3 with four stages, stiffly accurate and L-stable,
// which keeps its order with any approximation of the Jacobian. J. Rang and L. Angermann, New
// Rosenbrock W-methods of order 3 for partial differential algebraic equations of index 1, BIT 45
// (2005). Coefficients from memory; tests/plant/rosenbrock_test.cpp holds them to all conditions of
// order.
#pragma once
#include <array>
#include <cstddef>

namespace noonbench::plant::rosenbrock {

inline constexpr std::size_t stages = 4;
inline constexpr double diagonal = 4.3586652150845900e-01;

using Row = std::array<double, stages>;

/// Of the parts before, in the point where a stage looks at the rates.
inline constexpr std::array<Row, stages> weight{{
    {},
    {8.7173304301691801e-01},
    {8.4457060015369423e-01, -1.1299064236484185e-01},
    {0.0, 0.0, 1.0},
}};
/// Of the linear answers to the parts before.
inline constexpr std::array<Row, stages> coupling{{
    {},
    {-8.7173304301691801e-01},
    {-9.0338057013044082e-01, 5.4180672388095326e-02},
    {2.4212380706095346e-01, -1.2232505839045147e+00, 5.4526025533510214e-01},
}};
inline constexpr Row result{2.4212380706095346e-01, -1.2232505839045147e+00, 1.5452602553351020e+00,
                            4.3586652150845900e-01};
/// Of order 2, for the estimate of the error.
inline constexpr Row second_opinion{3.7810903145819369e-01, -9.6042292212423178e-02,
                                    5.0000000000000000e-01, 2.1793326075422950e-01};

// The same method in the sums u_i of the coupling (diagonal included) times the parts up to i. A
// sum is the solution of its stage's equations itself, so that no linear answer has to be worked
// out (Hairer and Wanner, Solving Ordinary Differential Equations II, section IV.7):
//   (1 / (h diagonal) - G) u_i = f(y + sum of point x u) + sum of carried / h x u + h of_time f'
namespace in_sums {

using Square = std::array<Row, stages>;

/// Parts from sums: the inverse of the coupling with its diagonal.
constexpr Square inverse_coupling() {
    Square inverse{};
    for (std::size_t i = 0; i < stages; ++i) {
        inverse[i][i] = 1.0 / diagonal;
        for (std::size_t k = 0; k < i; ++k) {
            double sum = 0.0;
            for (std::size_t j = k; j < i; ++j) sum += coupling[i][j] * inverse[j][k];
            inverse[i][k] = -sum / diagonal;
        }
    }
    return inverse;
}

/// Weights of the sums from weights of the parts.
constexpr Row of_sums(const Row& of_parts) {
    constexpr Square inverse = inverse_coupling();
    Row weights{};
    for (std::size_t i = 0; i < stages; ++i) {
        for (std::size_t k = 0; k <= i; ++k) weights[k] += of_parts[i] * inverse[i][k];
    }
    return weights;
}

inline constexpr Square point{of_sums(weight[0]), of_sums(weight[1]), of_sums(weight[2]),
                              of_sums(weight[3])};
inline constexpr Square carried = [] {
    Square rows = inverse_coupling();
    for (std::size_t i = 0; i < stages; ++i) {
        for (std::size_t k = 0; k < stages; ++k) rows[i][k] = k < i ? -rows[i][k] : 0.0;
    }
    return rows;
}();
/// Of what the weather changes in a second.
inline constexpr Row of_time = [] {
    Row sums{};
    for (std::size_t i = 0; i < stages; ++i) {
        sums[i] = diagonal;
        for (const double of_part : coupling[i]) sums[i] += of_part;
    }
    return sums;
}();
/// When a stage looks at the rates, in steps.
inline constexpr Row when = [] {
    Row sums{};
    for (std::size_t i = 0; i < stages; ++i) {
        for (const double of_part : weight[i]) sums[i] += of_part;
    }
    return sums;
}();
/// The result is the last stage's point and its sum: stiffly accurate.
inline constexpr Row error = [] {
    Row difference{};
    for (std::size_t i = 0; i < stages; ++i) difference[i] = result[i] - second_opinion[i];
    return of_sums(difference);
}();

}  // namespace in_sums

}  // namespace noonbench::plant::rosenbrock
