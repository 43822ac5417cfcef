// SPDX-License-Identifier: MIT
#include "seat_name.hpp"

#include <boost/locale/utf.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <clocale>
#include <cwctype>
#include <optional>

namespace noonbench::harness {
namespace {

namespace utf = boost::locale::utf;

struct SignRange {
    char32_t first;
    char32_t last;
};

// Control signs, signs without a shape, signs that turn the writing round, private and unassigned
// ones: two names could look the same, or a list could be written over.
constexpr auto unseen_signs = std::to_array<SignRange>({
    {0x0000, 0x001F},   {0x007F, 0x009F},    {0x00AD, 0x00AD}, {0x034F, 0x034F}, {0x061C, 0x061C},
    {0x115F, 0x1160},   {0x17B4, 0x17B5},    {0x180B, 0x180F}, {0x200B, 0x200F}, {0x2028, 0x202E},
    {0x2060, 0x206F},   {0x3164, 0x3164},    {0xD800, 0xF8FF}, {0xFDD0, 0xFDEF}, {0xFE00, 0xFE0F},
    {0xFEFF, 0xFEFF},   {0xFFA0, 0xFFA0},    {0xFFF0, 0xFFFB}, {0xFFFE, 0xFFFF}, {0x1BCA0, 0x1BCA3},
    {0x1D173, 0x1D17A}, {0xE0000, 0x10FFFF},
});

constexpr std::u32string_view blanks =
    U"\u0020\u00A0\u1680\u2000\u2001\u2002\u2003\u2004\u2005"
    U"\u2006\u2007\u2008\u2009\u200A\u202F\u205F\u3000";

bool is_unseen(char32_t sign) {
    return std::any_of(unseen_signs.begin(), unseen_signs.end(), [&](const SignRange& range) {
        return sign >= range.first && sign <= range.last;
    });
}

/// Nothing for bytes that are no UTF-8.
std::optional<std::u32string> signs_of(std::string_view text) {
    std::u32string signs;
    signs.reserve(text.size());
    const char* at = text.data();
    const char* const end = at + text.size();
    while (at != end) {
        const utf::code_point sign = utf::utf_traits<char>::decode(at, end);
        if (sign == utf::illegal || sign == utf::incomplete) return std::nullopt;
        signs += static_cast<char32_t>(sign);
    }
    return signs;
}

std::string bytes_of(std::u32string_view signs) {
    std::string text;
    for (const char32_t sign : signs) utf::utf_traits<char>::encode(sign, std::back_inserter(text));
    return text;
}

std::u32string_view trimmed(std::u32string_view signs) {
    const std::size_t first = signs.find_first_not_of(blanks);
    if (first == std::u32string_view::npos) return {};
    return signs.substr(first, signs.find_last_not_of(blanks) - first + 1);
}

}  // namespace

Parsed<std::string> understood_seat_name(std::string_view given) {
    const std::string allowed =
        fmt::format("1 to {} characters that can be seen", longest_seat_name);
    const std::optional<std::u32string> signs = signs_of(given);
    if (!signs) return {std::nullopt, "the name is not written in UTF-8", allowed};
    const std::u32string_view name = trimmed(*signs);
    if (name.empty()) return {std::nullopt, "the name is empty", allowed};
    if (name.size() > longest_seat_name) {
        return {std::nullopt, fmt::format("the name has {} characters", name.size()), allowed};
    }
    if (std::any_of(name.begin(), name.end(), is_unseen)) {
        return {std::nullopt, "the name has characters that cannot be seen", allowed};
    }
    return {bytes_of(name), {}, {}};
}

std::string folded_name(std::string_view name) {
    static const locale_t everybodys = newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr);
    std::u32string signs = signs_of(name).value_or(std::u32string());
    for (char32_t& sign : signs) {
        const auto wide = static_cast<wint_t>(sign);
        sign = static_cast<char32_t>(everybodys != nullptr ? towlower_l(wide, everybodys)
                                                           : std::towlower(wide));
    }
    return bytes_of(signs);
}

}  // namespace noonbench::harness
