// SPDX-License-Identifier: MIT
// What must not be guessed: the word of a class, the trainer's secret, a seat's ticket. Drawn from
// the operating system's entropy, the one kind of chance here that no seed repeats.
#pragma once
#include <string>
#include <string_view>

namespace noonbench::harness {

/// Two plain words and a number, to be said aloud and written on a board: "copper-valley-27".
[[nodiscard]] std::string drawn_class_word();
/// 60 bits in groups to be typed: "7KQD-M3XA-9TFW"; no 0 or O, 1 or I.
[[nodiscard]] std::string drawn_secret();
/// 128 bits, for machines.
[[nodiscard]] std::string drawn_ticket();

/// As people type them: case, spaces and hyphens do not count.
[[nodiscard]] bool is_same_typed(std::string_view typed, std::string_view wanted);
/// Takes as long for a wrong text as for the right one of that length.
[[nodiscard]] bool is_same_secret(std::string_view one, std::string_view other);

}  // namespace noonbench::harness
