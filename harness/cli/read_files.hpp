// SPDX-License-Identifier: MIT
// Reading back what a run has left, with the errors of an input.
#pragma once
#include "traces/table.hpp"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace noonbench::cli {

/// events.csv of a run's folder, or beside (or equal to) the file named; never empty. Throws
/// InputRefused with file, line and column.
std::vector<traces::Event> read_events(const std::filesystem::path& folder_or_file);

/// trace.csv likewise.
traces::Table read_trace(const std::filesystem::path& folder_or_file);

/// "13:42", "13:42:07" on the day that begins at `first_day`, or "2026-04-15 13:42[:07]".
std::int64_t instant(const std::string& text, std::int64_t first_day);

}  // namespace noonbench::cli
