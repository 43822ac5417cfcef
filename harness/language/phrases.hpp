// SPDX-License-Identifier: MIT
// The phrases of requirements, for people: the one table, which a test holds to the truth.
#pragma once
#include <span>
#include <string>
#include <string_view>

namespace noonbench::harness {

struct Phrase {
    std::string_view heading;  // of a group that begins here, or empty
    std::string_view
        phrase;  // A, B, F: conditions; X, Y: numbers; T: a length of time; S: a signal
    std::string_view meaning;  // in plain words
    std::string_view example;
    std::string_view stl;  // of the example
};

/// In order of reading.
[[nodiscard]] std::span<const Phrase> phrase_table();

/// The table for a terminal, at most 100 columns wide.
[[nodiscard]] std::string phrases_text();

}  // namespace noonbench::harness
