// SPDX-License-Identifier: MIT
// All choices tried, to look through: a scatter of any two of the six figures, filters by the value
// of a setting, the settings of each point by hand, finger or keyboard, and everything again as a
// table. One page by itself; the first picture is there without scripts and on paper.
#pragma once
#include "chosen.hpp"

#include <string>

namespace noonbench::harness {

/// Same data, same bytes. Throws std::invalid_argument like check_chosen().
[[nodiscard]] std::string trade_off_html(const Chosen& chosen);

}  // namespace noonbench::harness
