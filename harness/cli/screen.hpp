// SPDX-License-Identifier: MIT
// What a run says on the terminal.
#pragma once
#include "harness/judge/judge.hpp"

#include <filesystem>
#include <string>

namespace noonbench::cli {

/// A dozen lines: title, the day in figures, advice, where the files are.
std::string screen_text(const harness::Judged& judged, const std::filesystem::path& folder);

/// Rewrites one line on standard error as the run goes on, and clears it at the end.
harness::Progress progress_line();

}  // namespace noonbench::cli
