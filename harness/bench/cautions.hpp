// SPDX-License-Identifier: MIT
// The usual cautions, chosen by what a run touches. They defer to local codes and licensed
// practice; they are never a verdict.
#pragma once
#include "run_result.hpp"

#include <string>
#include <vector>

namespace noonbench::harness {

std::vector<std::string> cautions_of(const RunResult& result);

}  // namespace noonbench::harness
