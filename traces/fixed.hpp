// SPDX-License-Identifier: MIT
// Scaled integers as decimal text and back: no rounding, no locale, the same bytes everywhere.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace noonbench::traces {

/// 10^decimals for 0..9.
std::int64_t power_of_ten(int decimals);

/// Appends raw / 10^decimals with exactly that many decimals: (-5, 3) gives "-0.005".
void append_fixed(std::string& out, std::int64_t raw, int decimals);
void append_integer(std::string& out, std::int64_t number);

struct Fixed {
    std::int64_t raw = 0;
    int decimals = 0;
};

/// The whole text as a plain decimal number of at most 18 digits: optional minus, digits, and
/// optionally a point with digits. Nothing else is taken (no plus, space or exponent).
std::optional<Fixed> parse_fixed(std::string_view text);

}  // namespace noonbench::traces
