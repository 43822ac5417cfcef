// SPDX-License-Identifier: MIT
// SUNDIALS CVODE: BDF with a dense Jacobian by differences and root finding on the rule's two
// thresholds, stopped at each knot of the weather and each edge of a draw, started anew where the
// pump or a draw changes; a regulated pump is looked at every 10 s on what CVODE interpolates.
#pragma once
#include "rule.hpp"
#include "world.hpp"

#include <string>

namespace noonbench::benchmarks {

/// Relative tolerance; the absolute one of a cell is ten times as many kelvins. Throws
/// std::runtime_error when CVODE gives up.
[[nodiscard]] Solved solve_with_cvode(const Case& what, double tolerance, std::string name);

/// The tightest solution at hand: CVODE at 1e-9, or Odeint at 1e-8 K where there is no CVODE.
[[nodiscard]] Solved solve_tightly(const Case& what);

}  // namespace noonbench::benchmarks
