// SPDX-License-Identifier: MIT
// Where the heat came from and went: streams through a cut house, as wide as they carry.
#pragma once
#include "harness/bench/run_result.hpp"

#include <string>

namespace noonbench::harness {

/// SVG and the same figures as a list beside it.
std::string energy_picture(const RunResult& result);

}  // namespace noonbench::harness
