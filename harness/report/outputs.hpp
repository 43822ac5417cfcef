// SPDX-License-Identifier: MIT
// The files that a run leaves; each appears whole or not at all.
#pragma once
#include "harness/bench/run_result.hpp"
#include "harness/judge/judge.hpp"

#include <filesystem>
#include <span>

namespace noonbench::harness {

/// Writes trace.csv, events.csv, summary.json, report.html, and trace.vcd and trace.nc where the
/// scenario's record asks for them. Makes the folder. Throws traces::FileError or
/// std::filesystem::filesystem_error where the machine refuses.
void write_outputs(const RunResult& result, std::span<const Verdict> verdicts,
                   const std::filesystem::path& folder);

}  // namespace noonbench::harness
