// SPDX-License-Identifier: MIT
// Verdicts for build servers: the XML that they commonly read from test programs.
#pragma once
#include <boost/json.hpp>

#include <string>

namespace noonbench::harness {

/// One test suite a scenario, one case a requirement. `scenarios` is what `judge --json` prints.
/// What is not yet known counts as a failure: it was not shown to hold. A scenario that could not
/// be run is one case with an error.
[[nodiscard]] std::string junit_xml(const boost::json::array& scenarios);

}  // namespace noonbench::harness
