// SPDX-License-Identifier: MIT
// Figures, signals and settings as tables.
#pragma once
#include "harness/bench/run_result.hpp"

#include <string>

namespace noonbench::harness {

/// Sums and extremes of the run, each with who could see it on a real site.
std::string figures_table(const RunResult& result);

/// Every column of the trace: meaning, least, greatest and last value, who can see it.
std::string signals_table(const RunResult& result);

/// Settings that differ from those delivered, then all, with value and meaning.
std::string settings_tables(const RunResult& result);

/// All settings as one compact list, for paper.
std::string settings_on_paper(const RunResult& result);

/// "customer's log", "read on site", "bench only".
const char* words_of(traces::Visibility visible);

}  // namespace noonbench::harness
