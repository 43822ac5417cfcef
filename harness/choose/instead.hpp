// SPDX-License-Identifier: MIT
// Why a setting was chosen, as the bench has it: the same choice with that setting alone at another
// value, in the same worlds.
#pragma once
#include "chosen.hpp"
#include "halving_grid.hpp"
#include "halving_scores.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

/// For each dimension the candidate that differs from the winner in it alone: at the level as
/// delivered if the winner has another, else a step beside it, one that ran in all `worlds` already
/// before one that did not. Where that is no point of the grid, the nearest level that is one; none
/// if there is none.
[[nodiscard]] std::vector<std::optional<std::size_t>> instead_candidates(
    const Grid& grid, std::size_t winner, std::size_t delivered, std::span<const Tried> tried,
    std::size_t worlds);

/// What came of one of them.
struct Instead {
    std::string value;          // with unit
    bool as_delivered = false;  // it is the value as delivered
    TriedChoice chosen;         // means over the same worlds
    TriedChoice other;
    Interval better_kwh;              // the other's objective less the chosen one's
    std::vector<std::string> broken;  // limits that the other does not keep in the mean
};

/// "Left at 8 K: 14 kWh a year worse (9 to 19), 3 starts a day more." Short enough for a column.
[[nodiscard]] std::string reason_text(const Instead& instead);

}  // namespace noonbench::harness
