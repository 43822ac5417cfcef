// SPDX-License-Identifier: MIT
// The project's own ways of carrying the plant.
#pragma once
#include "rule.hpp"
#include "world.hpp"

namespace noonbench::benchmarks {

[[nodiscard]] Solved solve_by_strides(const Case& what);
[[nodiscard]] Solved solve_by_seconds(const Case& what, Method method);

}  // namespace noonbench::benchmarks
