// SPDX-License-Identifier: MIT
// What a data sheet has to say about itself, whatever was measured.
#pragma once
#include <string_view>
#include <vector>

namespace noonbench::harness {

inline constexpr std::string_view device_line =
    "Device: the firmware model of Noonbench behind simulated terminals (platinum 1000 ohm sensors "
    "by IEC 60751, 2000 ohm reference, 16-bit converter). No board was on the bench.";

/// What this sheet is not.
[[nodiscard]] const std::vector<std::string_view>& not_a_certificate();
/// Parts of the published scope that no test here reaches.
[[nodiscard]] const std::vector<std::string_view>& not_covered();
/// Before a real board is wired to such a bench.
[[nodiscard]] const std::vector<std::string_view>& board_cautions();

}  // namespace noonbench::harness
