// SPDX-License-Identifier: MIT
// What a fault file tells, for the page and the terminal.
#pragma once
#include "harness/scenario/fault.hpp"

#include <optional>
#include <string>
#include <vector>

namespace noonbench::harness {

/// One thing told, under its heading.
struct FaultLine {
    std::string heading;
    std::string text;
};

/// In the order in which a fault is found: what is told, what is seen, what is measured, what is
/// done about it, what to beware of. Empty texts are left out.
[[nodiscard]] std::vector<FaultLine> fault_lines(const FaultText& fault);

/// The section's body; empty without a fault.
[[nodiscard]] std::string fault_section(const std::optional<FaultText>& fault);

}  // namespace noonbench::harness
