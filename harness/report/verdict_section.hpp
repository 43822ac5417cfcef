// SPDX-License-Identifier: MIT
// The requirements of a run on its page: what was asked for, whether it held and by how much.
#pragma once
#include "harness/judge/judge.hpp"

#include <span>
#include <string>

namespace noonbench::harness {

/// HTML; empty if there are none. What did not hold is told with its moment, the reasons up to it,
/// and where to look.
[[nodiscard]] std::string verdicts_section(std::span<const Verdict> verdicts);

}  // namespace noonbench::harness
