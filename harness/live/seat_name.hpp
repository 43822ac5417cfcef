// SPDX-License-Identifier: MIT
// The name on a seat, as a learner may give it.
#pragma once
#include "harness/scenario/quantity_text.hpp"

#include <cstddef>
#include <string>
#include <string_view>

namespace noonbench::harness {

inline constexpr std::size_t longest_seat_name = 24;  // in characters, not bytes

/// Trimmed; refused where it is empty, too long, no UTF-8, or holds signs that are not seen or
/// that turn the writing round.
[[nodiscard]] Parsed<std::string> understood_seat_name(std::string_view given);

/// The same for names that differ in capitals only.
[[nodiscard]] std::string folded_name(std::string_view name);

}  // namespace noonbench::harness
