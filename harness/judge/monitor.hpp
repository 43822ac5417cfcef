// SPDX-License-Identifier: MIT
// Watches requirements while a run goes on, or afterwards: the same ticks give the same verdicts
// and margins, bit for bit. Memory is bounded by the windows, time is linear in the ticks.
//
// Margin of a class (Donze and Maler 2010): the robustness of the formula with the comparisons of
// that class taken as distances and everything else by its sign alone (plus or minus infinity).
// For `shift` the distance of a two-valued signal is its time robustness (same paper, section 4):
// the least number of seconds by which it would have to be shifted, earlier or later, to change at
// this tick; the two directions are evaluated apart and the smaller magnitude is the margin. A
// two-valued signal is taken to have stood before the first and after the last tick as it stood
// there, and looks no farther than an hour (`longest_shift_s`).
#pragma once
#include "plant/drive.hpp"

#include "harness/language/requirement.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace noonbench::harness {

inline constexpr std::int64_t longest_shift_s = 3600;

/// One margin. lo == hi when the run has decided it; with AtEnd::unknown what lies past the end
/// leaves an interval. Infinite where nothing in this unit could change the verdict.
struct Margin {
    MarginClass margin_class{};
    double lo = 0.0;
    double hi = 0.0;
    std::int64_t tightest_at_s = 0;  // civil seconds of the tick that decided; start if none did
};

enum class Truth : std::uint8_t { held, not_held, not_known };

struct Outcome {
    Truth truth = Truth::not_known;
    bool put_to_the_test = false;  // false: held, but nothing ever came up that could have failed
    std::vector<Margin> margins;   // one for each class, in their order
};

/// A number, or whether a condition holds (1 or 0), at one tick.
struct NumberAt {
    ExpressionPtr number;   // this or the next
    FormulaPtr condition;   // without windows
    std::int64_t at_s = 0;  // civil seconds
};

class Monitor {
  public:
    /// Ticks follow each other from start_s (civil seconds) on, one a second. Throws
    /// std::invalid_argument for an endless window inside another temporal operator.
    Monitor(std::span<const Requirement> requirements, std::int64_t start_s,
            std::span<const NumberAt> numbers = {});
    ~Monitor();
    Monitor(Monitor&&) noexcept;
    Monitor& operator=(Monitor&&) noexcept;

    /// Indices of the signals that are needed, ascending; tick() wants their values in this order.
    [[nodiscard]] const std::vector<std::size_t>& signals() const;

    /// Room for one tick's values in the order of signals(); fill, then call tick().
    [[nodiscard]] double* row();
    void tick();

    /// Ends the run. One outcome a requirement, in their order. Nothing may be fed afterwards.
    [[nodiscard]] std::vector<Outcome> finish();

    /// Of the ended run: one value for each number asked, NaN where there was none or no such tick.
    [[nodiscard]] const std::vector<double>& numbers() const;

    /// How many values of single ticks are held: bounded by the windows, whatever the run's length.
    [[nodiscard]] std::size_t buffered() const;

  private:
    struct Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace noonbench::harness
