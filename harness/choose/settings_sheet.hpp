// SPDX-License-Identifier: MIT
// The sheet for the plant room: what to set, why, how exactly, what to check on the day. One page
// by itself, made for one side of A4 (up to some twelve settings of two lines each), black on
// white in print.
#pragma once
#include "chosen.hpp"

#include <string>

namespace noonbench::harness {

/// Same data, same bytes. Throws std::invalid_argument like check_chosen().
[[nodiscard]] std::string settings_sheet_html(const Chosen& chosen);

}  // namespace noonbench::harness
