// SPDX-License-Identifier: MIT
// What happened, told in five sentences.
#pragma once
#include "harness/bench/run_result.hpp"

#include <string>
#include <vector>

namespace noonbench::harness {

/// Plain text, five sentences: sun, pump, store, taps and backup, heat of the collector.
std::vector<std::string> what_happened(const RunResult& result);

/// "one day", "7 days", "36 hours": how long the run is.
std::string length_text(const RunResult& result);

/// "boiler", "immersion heater" or "backup".
const char* backup_name(const Scenario& scenario);

}  // namespace noonbench::harness
