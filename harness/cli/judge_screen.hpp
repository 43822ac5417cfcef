// SPDX-License-Identifier: MIT
// What `noonbench judge` says on the terminal.
#pragma once
#include "harness/judge/children.hpp"

#include <boost/json.hpp>

#include <functional>
#include <string>
#include <vector>

namespace noonbench::cli {

/// One block a scenario, a line a requirement; what did not hold is told with moment, reasons and
/// where to look. The last line counts.
std::string verdict_table(const std::vector<boost::json::object>& done, bool colour);

/// A bar on standard error, rewritten as the work goes on, with the names of what is running.
std::function<void(const harness::Underway&)> judge_progress(std::vector<std::string> names);

}  // namespace noonbench::cli
