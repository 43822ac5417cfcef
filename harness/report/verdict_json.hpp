// SPDX-License-Identifier: MIT
// Verdicts as JSON: part of summary.json, what `judge --json` prints, and what is handed from the
// processes that run to the one that shows.
#pragma once
#include "harness/judge/judge.hpp"

#include <boost/json.hpp>

#include <span>
#include <string_view>

namespace noonbench::harness {

/// "held", "not_held", "not_yet_known".
[[nodiscard]] std::string_view truth_word(Truth truth);

/// One object a verdict. Infinite margins are null: nothing in that unit could change the verdict.
[[nodiscard]] boost::json::array verdicts_json(std::span<const Verdict> verdicts);

}  // namespace noonbench::harness
