// SPDX-License-Identifier: MIT
// Bars: a year month by month, and the hours that the pump spent with each reason.
#pragma once
#include "harness/bench/run_result.hpp"

#include <string>

namespace noonbench::harness {

/// SVG of heat into the store, backup heat and heat to the taps for each month, with its table.
/// Empty if the run is not told month by month.
std::string month_bars(const RunResult& result);

/// Table with a bar for every reason that occurred, longest first.
std::string reason_hours(const RunResult& result);

}  // namespace noonbench::harness
