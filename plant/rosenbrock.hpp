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

}  // namespace noonbench::plant::rosenbrock
