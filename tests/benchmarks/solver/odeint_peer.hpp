// SPDX-License-Identifier: MIT
// Boost.Odeint: Dormand-Prince 5 with dense output, started anew at each knot of the weather, each
// edge of a draw and each decision, the rule polled every second.
#pragma once
#include "rule.hpp"
#include "world.hpp"

#include <string>

namespace noonbench::benchmarks {

/// Error per step in kelvin of each cell, as the state is scaled.
[[nodiscard]] Solved solve_with_odeint(const Case& what, double tolerance_k, std::string name);

}  // namespace noonbench::benchmarks
