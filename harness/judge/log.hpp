// SPDX-License-Identifier: MIT
// Judging what has been logged already: a run's trace, or a customer's log with our column names.
#pragma once
#include "judge.hpp"

#include "traces/table.hpp"

#include <span>
#include <vector>

namespace noonbench::harness {

/// The same rows with kind, unit, words and meaning of the columns that we know by their name;
/// other columns stay as they are. Throws std::invalid_argument, naming column and word, for a word
/// that the column cannot have.
[[nodiscard]] traces::Table with_known_signals(const traces::Table& read);

/// Judges at ticks of one second from the first row to the last: between two rows numbers go in a
/// straight line (no value where either row has none), relays and reasons stand as they stood.
/// `events` may be empty; the chains of reasons then are.
[[nodiscard]] std::vector<Verdict> judge_log(const traces::Table& log,
                                             const std::vector<traces::Event>& events,
                                             std::span<const Requirement> requirements);

}  // namespace noonbench::harness
