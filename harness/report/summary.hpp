// SPDX-License-Identifier: MIT
// The figures of a run as JSON: summary.json, and what --json prints.
#pragma once
#include "harness/bench/run_result.hpp"
#include "harness/judge/judge.hpp"

#include <span>
#include <string>

namespace noonbench::harness {

/// Pretty-printed, ended by a newline; numbers rounded to what they can mean, so that the bytes are
/// the same wherever the run is the same.
std::string summary_json(const RunResult& result, std::span<const Verdict> verdicts = {});

}  // namespace noonbench::harness
