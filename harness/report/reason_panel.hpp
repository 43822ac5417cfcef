// SPDX-License-Identifier: MIT
// The reason line and the needle at one moment, and the data with which the page shows any other.
#pragma once
#include "courses.hpp"

#include "harness/bench/run_result.hpp"

#include <string>

namespace noonbench::harness {

/// False for runs told month by month and for traces without the controller's columns.
bool has_moments(const RunResult& result);

/// HTML: the sentence, the needle, the slider. The moment shown is the first start of the pump,
/// else the middle of the run.
std::string reason_panel(const RunResult& result);

/// Members "without_reading", "moments" and "epochs" of the page's data, as JSON without the outer
/// braces.
std::string moments_json(const RunResult& result);

}  // namespace noonbench::harness
