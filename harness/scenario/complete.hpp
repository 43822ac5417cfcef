// SPDX-License-Identifier: MIT
// What can only be said when every key has been read.
#pragma once
#include "findings.hpp"
#include "read_map.hpp"

#include <string>

namespace noonbench::harness {

inline constexpr std::int64_t most_trace_rows = 4'000'000;

/// Fills what follows from other keys (interval of the trace, seeds, site of the sky, settings as
/// commissioned), sorts the moves, and checks what two keys must agree upon.
void complete(Draft& draft, const Given& given, const std::string& file, Findings& findings);

}  // namespace noonbench::harness
