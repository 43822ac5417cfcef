// SPDX-License-Identifier: MIT
// Words, their neighbours, and text made safe to be shown in a message.
#include "quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <vector>

namespace noonbench::harness {

namespace {

/// Levenshtein distance (Wagner and Fischer 1974), one row at a time.
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({replaced, row[j] + 1, row[j - 1] + 1});
        }
    }
    return row.back();
}

}  // namespace

std::string in_quotes(std::string_view text) {
    constexpr std::size_t most = 40;
    std::string shown;
    for (const char c : text.substr(0, most))
        if (static_cast<unsigned char>(c) >= 0x20) shown += c;
    // A cut must not leave half of a UTF-8 character behind.
    if (text.size() > most) {
        std::size_t end = shown.size();
        while (end > 0 && (static_cast<unsigned char>(shown[end - 1]) & 0xC0U) == 0x80U) --end;
        if (end > 0 && static_cast<unsigned char>(shown[end - 1]) >= 0x80U) --end;
        if (end > 0 && end < shown.size()) shown.resize(end);
        shown += "...";
    }
    return "\"" + shown + "\"";
}

std::string_view nearest_word(std::string_view text, std::span<const std::string_view> words) {
    if (text.size() > 64) return {};
    std::string_view best;
    // A third of the letters may be wrong, at most three; more is another word.
    std::size_t best_distance = std::min<std::size_t>(text.size() / 3, 3) + 1;
    for (const std::string_view word : words) {
        const std::size_t distance = edit_distance(text, word);
        if (distance >= best_distance) continue;
        best = word;
        best_distance = distance;
    }
    return best;
}

std::string joined(std::span<const std::string_view> words) {
    return fmt::format("{}", fmt::join(words.begin(), words.end(), ", "));
}

Parsed<std::uint8_t> parse_word(std::string_view text, std::span<const std::string_view> words) {
    for (std::size_t i = 0; i < words.size(); ++i)
        if (words[i] == text) return {static_cast<std::uint8_t>(i), {}, {}};
    const std::string_view nearest = nearest_word(text, words);
    std::string what = in_quotes(text) + " is not one of the words";
    if (!nearest.empty()) what += fmt::format(" (did you mean {}?)", nearest);
    return {std::nullopt, what, joined(words)};
}

Parsed<bool> parse_flag(std::string_view text) {
    if (text == "yes" || text == "on" || text == "true") return {true, {}, {}};
    if (text == "no" || text == "off" || text == "false") return {false, {}, {}};
    return {std::nullopt, in_quotes(text) + " is neither yes nor no", "yes, no"};
}

}  // namespace noonbench::harness
