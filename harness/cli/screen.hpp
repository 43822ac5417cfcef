// SPDX-License-Identifier: MIT
// What a run says on the terminal.
#pragma once
#include "harness/judge/judge.hpp"

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::cli {

/// A dozen lines: title, the day in figures, advice, where the files are.
std::string screen_text(const harness::Judged& judged, const std::filesystem::path& folder);

/// The text in lines of at most `width`, broken at blanks; a longer word stands alone.
std::vector<std::string> wrapped(std::string_view text, std::size_t width);

/// Rewrites one line on standard error as the run goes on, and clears it at the end.
harness::Progress progress_line();

}  // namespace noonbench::cli
