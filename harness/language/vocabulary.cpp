// SPDX-License-Identifier: MIT
#include "vocabulary.hpp"

#include "grammar.hpp"

#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace noonbench::harness {
namespace {

using traces::Signal;
using traces::SignalKind;

constexpr std::size_t longest_list = 16;

/// `"colector" is not WHAT (did you mean collector?)`, with the list where it is short.
[[noreturn]] void refuse(std::string_view text, std::size_t at, std::string_view what,
                         const std::vector<std::string_view>& known,
                         std::string_view else_allowed) {
    std::string message = fmt::format("{} is not {}", in_quotes(text), what);
    const std::string_view nearest = nearest_word(text, known);
    if (!nearest.empty()) message += fmt::format(" (did you mean {}?)", nearest);
    const bool is_short = !known.empty() && known.size() <= longest_list;
    throw Misread(at, message, is_short ? joined(known) : std::string(else_allowed));
}

std::vector<std::string_view> names_of(std::span<const Signal> signals) {
    std::vector<std::string_view> names;
    for (const Signal& signal : signals) names.emplace_back(signal.name);
    return names;
}

std::vector<std::string_view> words_of(const Signal& signal) {
    if (signal.kind == SignalKind::on_off) return {"off", "on"};
    return {signal.choices.begin(), signal.choices.end()};
}

std::vector<std::string_view> all_words(std::span<const Signal> signals) {
    const auto language = language_words();
    std::vector<std::string_view> words(language.begin(), language.end());
    for (const Signal& signal : signals) {
        words.emplace_back(signal.name);
        const auto own = words_of(signal);
        words.insert(words.end(), own.begin(), own.end());
    }
    return words;
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}
bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

}  // namespace

std::size_t signal_index(std::string_view name, std::size_t at, std::span<const Signal> signals) {
    for (std::size_t i = 0; i < signals.size(); ++i)
        if (signals[i].name == name) return i;
    refuse(name, at, "a signal", names_of(signals), "a column of the trace");
}

int word_index(std::string_view word, std::size_t at, const Signal& signal) {
    const std::vector<std::string_view> words = words_of(signal);
    const auto found = std::find(words.begin(), words.end(), word);
    if (found == words.end()) refuse(word, at, "a word of " + signal.name, words, "");
    return static_cast<int>(found - words.begin());
}

std::string word_of(const Signal& signal, int word) {
    const std::vector<std::string_view> words = words_of(signal);
    const auto index = static_cast<std::size_t>(word);
    return word >= 0 && index < words.size() ? std::string(words[index]) : fmt::format("#{}", word);
}

void refuse_unknown_words(std::string_view text, std::size_t until,
                          std::span<const Signal> signals) {
    const std::vector<std::string_view> known = all_words(signals);
    for (std::size_t at = 0; at < text.size() && at <= until;) {
        std::size_t end = at + 1;
        const auto is_word = [](char c) { return is_letter(c) || is_digit(c); };
        if (is_word(text[at]))
            while (end < text.size() && is_word(text[end])) ++end;
        const std::string_view piece = text.substr(at, end - at);
        const bool fits = !is_letter(piece.front()) || find_unit(piece).unit != nullptr ||
                          std::find(known.begin(), known.end(), piece) != known.end();
        if (!fits)
            refuse(piece, at, "a word of the language or a signal", known,
                   "`noonbench list phrases` has the words");
        at = end;
    }
}

}  // namespace noonbench::harness
