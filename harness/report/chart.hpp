// SPDX-License-Identifier: MIT
// The chart of the run: temperatures with the pump as a band, the sun under it, the reasons as
// a strip. Drawn here for paper and pages without scripts; the page's script draws it again from
// the data when somebody zooms.
#pragma once
#include "harness/bench/run_result.hpp"

#include <string>

namespace noonbench::harness {

/// An SVG of the whole run, 960 wide.
std::string chart_svg(const RunResult& result);

/// Members "span", "series", "pump_on", "pump_reasons", "backup_reasons" and "words" of the page's
/// data, as JSON without the outer braces. Lines have at most 3000 points.
std::string chart_json(const RunResult& result);

/// Legend of lines and band, and of the reasons that occur with their hours.
std::string chart_legend(const RunResult& result);

}  // namespace noonbench::harness
