// SPDX-License-Identifier: MIT
// From phrases to what they mean: signals are looked up, units converted and checked.
#pragma once
#include "formula.hpp"
#include "grammar.hpp"
#include "number_phrase.hpp"

#include "traces/signal.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace noonbench::harness {

inline constexpr std::int64_t longest_window_s = std::int64_t{31} * 86400;  // bounds memory

/// A quantity as it is written, "2.6 l/min".
struct Literal {
    Measure measure = Measure::plain;
    double value = 0.0;  // in the measure's unit
    std::string_view unit;
};

/// The tree of a text. Throws Misread, best for a word that nobody knows.
[[nodiscard]] Syntax parsed_sentence(std::string_view text,
                                     std::span<const traces::Signal> signals);

/// Of a literal. Throws Misread for an unknown unit or a number without end.
[[nodiscard]] Literal literal_of(const Syntax& literal);

class SentenceReader {
  public:
    explicit SentenceReader(std::span<const traces::Signal> signals) : signals_(signals) {}

    /// Throws Misread.
    [[nodiscard]] FormulaPtr read(const Syntax& sentence) const { return condition(sentence, {}); }
    /// Of a number, or a condition of one tick. Throws Misread.
    [[nodiscard]] NumberPhrase read_number(const Syntax& sentence) const;

  private:
    /// Where in the sentence something stands.
    struct Inside {
        bool window = false;           // of a temporal phrase: nothing endless here
        bool count = false;            // of a count, total or time: the present tick alone
        std::optional<Period> period;  // over which counts and totals are taken
    };
    /// A number and how it is written.
    struct Number {
        ExpressionPtr expression;
        std::string_view unit;
    };

    // sentence_reader.cpp: conditions
    [[nodiscard]] FormulaPtr condition(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr temporal(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr connective(Formula::Op op, const Syntax& phrase,
                                        const Inside& inside) const;
    [[nodiscard]] FormulaPtr until(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr throughout(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr between_clocks(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr at_clock(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr each_time(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr over_period(const Syntax& phrase, Period period,
                                         const Inside& inside) const;
    [[noreturn]] void refuse_number(const Syntax& phrase) const;

    // comparison_reader.cpp: comparisons
    [[nodiscard]] FormulaPtr comparison(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr two_valued(const Syntax& left, const Syntax& tail) const;
    [[nodiscard]] FormulaPtr value_known(const Syntax& left, const Inside& inside) const;
    [[nodiscard]] FormulaPtr compared(const Syntax& left, const Syntax& tail,
                                      const Inside& inside) const;

    // number_reader.cpp: numbers
    [[nodiscard]] Number number(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] Number signal(const Syntax& phrase) const;
    [[nodiscard]] Number negative(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] Number chain(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] Number function(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] Number time_since(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] Number over_a_period(const Syntax& phrase, const Inside& inside) const;
    [[nodiscard]] FormulaPtr counted(const Syntax& phrase, const Inside& inside) const;
    /// Throws Misread inside another count.
    [[nodiscard]] static Inside inside_count(const Syntax& phrase, Inside inside);

    std::span<const traces::Signal> signals_;
};

/// "a temperature difference (K)", with the unit as written where it is.
[[nodiscard]] std::string described(Measure measure, std::string_view unit);
/// The units in which such a number can be written: "W, kW".
[[nodiscard]] std::string units_accepted(Measure measure);

/// A clock phrase to seconds after midnight. Throws Misread.
[[nodiscard]] std::int32_t clock_seconds(const Syntax& clock);

}  // namespace noonbench::harness
