// SPDX-License-Identifier: MIT
// The shape of a requirement, before anyone asks what its words mean: text to a tree of phrases.
// Conditions and numbers share one grammar, so that a parenthesis needs no guess of what it holds;
// sentence_reader tells them apart.
#pragma once
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// One phrase. `children` in the order of the text.
struct Syntax {
    enum class Kind : std::uint8_t {
        // conditions
        if_then,  // A, B
        until,    // A, B and perhaps `within`
        either,   // A, B, ...
        both,     // A, B, ...
        negation,
        always,     // perhaps within, from_to or between; F
        never,      // likewise
        sometime,   // likewise
        at_clock,   // clock, F
        each_time,  // A, perhaps lasted; B, within
        each_day,   // F
        each_month,
        each_year,
        over_run,
        in_any,      // literal, F
        comparison,  // X, and one of the tails
        // parts of phrases
        within,   // literal
        from_to,  // literal, literal
        between,  // clock, clock
        lasted,   // literal
        // tails of a comparison
        less,  // Y
        less_equal,
        greater,
        greater_equal,
        equal,
        not_equal,
        is_between,   // Y, Z
        is_word,      // word
        is_not_word,  // word
        goes,         // word
        has_value,
        has_no_value,
        // numbers
        sum,      // X, plus or minus, Y, ...
        product,  // X, times or over, Y, ...
        plus,
        minus,
        times,
        over,
        negative,  // X
        absolute,
        lesser,  // X, Y
        greater_of,
        starts,  // a name or a condition
        time_with,
        time_since,  // a condition
        first_time,
        last_time,
        total,
        mean,
        highest,
        lowest,
        change,
        literal,  // number and perhaps a unit
        number,
        unit,
        clock,
        name,
        word,
    };
    Kind kind = Kind::name;
    std::string_view text;  // part of the text that was parsed, without blanks at its end
    std::size_t at = 0;     // its offset there
    std::vector<Syntax> children;
};

inline constexpr std::size_t most_characters_a_requirement = 4000;
inline constexpr int most_levels_a_requirement = 64;

/// The tree of a text. Throws Misread: too long, too deep, or a word where another was expected.
/// The text must outlive the tree.
[[nodiscard]] Syntax parse_sentence(std::string_view text);

/// A number with perhaps a unit, "2 K", as Kind::literal. Throws Misread.
[[nodiscard]] Syntax parse_literal(std::string_view text);

/// The words of the language, none of which may name a signal.
[[nodiscard]] std::span<const std::string_view> language_words();

}  // namespace noonbench::harness
