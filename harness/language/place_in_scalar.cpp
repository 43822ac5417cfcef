// SPDX-License-Identifier: MIT
#include "place_in_scalar.hpp"

#include "harness/scenario/raw_text.hpp"

#include <algorithm>
#include <optional>
#include <string>

namespace noonbench::harness {
namespace {

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

std::size_t after_blanks(std::string_view text, std::size_t at) {
    while (at < text.size() && is_blank(text[at])) ++at;
    return at;
}

/// Offset of a line and column in a source.
std::optional<std::size_t> offset_of(std::string_view source, int line, int column) {
    std::size_t at = 0;
    for (int passed = 1; passed < line; ++passed) {
        at = source.find('\n', at);
        if (at == std::string_view::npos) return std::nullopt;
        ++at;
    }
    at += static_cast<std::size_t>(column - 1);
    return at < source.size() ? std::optional(at) : std::nullopt;
}

/// Where the text of the value begins: behind the quote, or in the line below the sign of a block.
std::size_t first_of_value(std::string_view source, std::size_t at) {
    if (source[at] == '"' || source[at] == '\'') return at + 1;
    if (source[at] != '|' && source[at] != '>') return at;
    const std::size_t end = source.find('\n', at);
    return end == std::string_view::npos ? source.size() : end + 1;
}

/// Offset in the source of an offset in the value. Blanks may differ: YAML folds lines.
std::optional<std::size_t> walked(std::string_view source, std::size_t start,
                                  std::string_view value, std::size_t offset) {
    const bool single_quoted = source[start] == '\'';
    std::size_t at = first_of_value(source, start);
    std::size_t last_end = at;
    for (std::size_t i = 0; i < value.size(); ++i) {
        if (is_blank(value[i])) continue;
        at = after_blanks(source, at);
        if (at >= source.size() || source[at] != value[i]) return std::nullopt;
        if (i >= offset) return at;
        if (single_quoted && value[i] == '\'') ++at;  // written twice
        last_end = ++at;
    }
    return last_end;  // the end of the value
}

}  // namespace

Place place_in_text(std::string_view file, std::string_view text, std::size_t offset) {
    const std::string_view before = text.substr(0, std::min(offset, text.size()));
    const auto line = static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1;
    const std::size_t line_end = before.rfind('\n');
    const std::size_t begin = line_end == std::string_view::npos ? 0 : line_end + 1;
    return {std::string(file), line, static_cast<int>(before.size() - begin) + 1};
}

Place place_in_scalar(const Place& place, std::string_view value, std::size_t offset,
                      std::string_view source) {
    if (place.line < 1 || place.column < 1) return place;
    const auto start = offset_of(source, place.line, place.column);
    const auto found = start ? walked(source, *start, value, offset) : std::nullopt;
    return found ? place_in_text(place.file, source, *found) : place;
}

Place place_in_scalar(const Place& place, std::string_view value, std::size_t offset) {
    if (place.line < 1 || place.column < 1) return place;
    try {
        return place_in_scalar(place, value, offset, file_text(place.file));
    } catch (const InputRefused&) {  // gone since it was read
        return place;
    }
}

}  // namespace noonbench::harness
