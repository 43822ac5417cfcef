// SPDX-License-Identifier: MIT
// The cautions as both pages of a search show them.
#pragma once
#include "chosen.hpp"

#include <string>

namespace noonbench::harness {

/// An HTML list; texts are escaped.
[[nodiscard]] std::string caution_list(const Chosen& chosen);

}  // namespace noonbench::harness
