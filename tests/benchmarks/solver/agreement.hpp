// SPDX-License-Identifier: MIT
// How two lists of switchings agree.
#pragma once
#include "rule.hpp"

#include <vector>

namespace noonbench::benchmarks {

/// Farther apart two switchings are not the same one.
inline constexpr CivilSeconds farthest_partner_s = 300;

struct Agreement {
    double within_1s_pct = 100.0;  // of the true switchings
    CivilSeconds furthest_s = 0;   // of those that have a partner
    int unmatched = 0;             // of both lists, no partner of their kind within 300 s
};

/// Nearest partners first; each switching is the partner of one at most.
[[nodiscard]] Agreement agreement_of(const std::vector<Switching>& found,
                                     const std::vector<Switching>& truth);

}  // namespace noonbench::benchmarks
