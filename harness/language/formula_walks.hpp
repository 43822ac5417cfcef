// SPDX-License-Identifier: MIT
// Walks over a formula: which signals it speaks of.
#pragma once
#include "formula.hpp"

#include <cstddef>
#include <vector>

namespace noonbench::harness {

/// Indices in order of first appearance, those inside counts and totals included.
[[nodiscard]] std::vector<std::size_t> used_signals(const Formula& formula);

}  // namespace noonbench::harness
