// SPDX-License-Identifier: MIT
// What may be spoken of: the signals and their words, and the words of the language.
#pragma once
#include "misread.hpp"

#include "traces/signal.hpp"

#include <cstddef>
#include <span>
#include <string_view>

namespace noonbench::harness {

/// Index of a signal. Throws Misread at `at` with the nearest known name.
[[nodiscard]] std::size_t signal_index(std::string_view name, std::size_t at,
                                       std::span<const traces::Signal> signals);

/// A word of a choice or on_off signal as its number. Throws Misread at `at`.
[[nodiscard]] int word_index(std::string_view word, std::size_t at, const traces::Signal& signal);

/// "on" or "collecting"; "#3" if the signal has no such word.
[[nodiscard]] std::string word_of(const traces::Signal& signal, int word);

/// Throws Misread at the first word up to and with the one at `until` that nobody knows: the likely
/// reason for a sentence that does not fit.
void refuse_unknown_words(std::string_view text, std::size_t until,
                          std::span<const traces::Signal> signals);

}  // namespace noonbench::harness
