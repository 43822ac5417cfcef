// SPDX-License-Identifier: MIT
// One thing that a fault moves and the range in which it is met, read by the readers of moves and
// of uncertain quantities, so that names, units and bounds are theirs.
#pragma once
#include "key.hpp"

#include <optional>
#include <vector>

namespace noonbench::harness {

/// A band (`least` below `most`) or the one value `to`, of exactly one thing. What is wrong goes to
/// `objections`, each with its place; then there is no range.
[[nodiscard]] std::optional<FaultRange> understood_range(const FaultRangeDraft& draft,
                                                         std::vector<Objection>& objections);

}  // namespace noonbench::harness
