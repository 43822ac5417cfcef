// SPDX-License-Identifier: MIT
// What a fault file tells, for the page and the terminal.
#pragma once
#include "harness/scenario/fault.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// Which of the things that a fault file tells.
enum class Told : std::uint8_t {
    customer_says,
    log_shows,
    on_site,
    measure_first,
    remedy,
    caution,
    onset,
    nothing_wrong,
    looks_like,
    bench_differs,
};

/// One thing told, under its heading.
struct FaultLine {
    Told told = Told::customer_says;
    std::string heading;
    std::string text;
};

/// In the order in which a fault is found: what is told, what is seen, what is measured, what is
/// done about it, what to beware of. Empty texts are left out.
[[nodiscard]] std::vector<FaultLine> fault_lines(const FaultText& fault);

/// One of them as an entry of a <dl class="fault">; a caution stands out.
[[nodiscard]] std::string fault_line_html(const FaultLine& line);

/// The section's body; empty without a fault.
[[nodiscard]] std::string fault_section(const std::optional<FaultText>& fault);

/// Without the blanks and newlines at its end: folded texts of YAML end in one.
[[nodiscard]] std::string trimmed(std::string_view text);

}  // namespace noonbench::harness
