// SPDX-License-Identifier: MIT
// Building stones of the grammar on top of PEGTL: words and signs with the blanks after them,
// names, numbers, a guard against depth, and a memory of what was expected at the farthest place
// reached, for the message. For grammar.cpp alone.
#pragma once
#include "grammar.hpp"
#include "misread.hpp"

#include <tao/pegtl.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness::rules {

namespace peg = tao::pegtl;

/// What the parser knows while it goes: PEGTL hands it to every rule.
struct Progress {
    const char* begin = nullptr;
    const char* farthest = nullptr;
    std::vector<std::string_view> expected;  // at `farthest`
    int levels = 0;

    void expect(const char* at, std::string_view what) {
        if (at > farthest) {
            farthest = at;
            expected.clear();
        }
        if (at == farthest && std::find(expected.begin(), expected.end(), what) == expected.end())
            expected.push_back(what);
    }
};

/// A text as a template argument.
template <std::size_t size>
struct Text {
    constexpr Text(const char (&text)[size]) {  // NOLINT(google-explicit-constructor): for literals
        std::copy_n(text, size, chars);
    }
    [[nodiscard]] constexpr std::string_view view() const { return {chars, size - 1}; }
    char chars[size] = {};
};

constexpr bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}
constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
constexpr bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

template <typename Input>
std::string_view ahead(const Input& in) {
    return {in.current(), in.size()};
}

constexpr std::size_t blanks_from(std::string_view text, std::size_t at) {
    while (at < text.size() && is_blank(text[at])) ++at;
    return at;
}

/// Length of the name at the front, 0 if there is none.
constexpr std::size_t name_length(std::string_view text) {
    if (text.empty() || !is_letter(text.front())) return 0;
    std::size_t length = 1;
    while (length < text.size() && (is_letter(text[length]) || is_digit(text[length]))) ++length;
    return length;
}

constexpr std::size_t digits_from(std::string_view text, std::size_t at) {
    while (at < text.size() && is_digit(text[at])) ++at;
    return at;
}

/// "12" or "2.6": no exponent, no sign.
constexpr std::size_t number_length(std::string_view text) {
    const std::size_t whole = digits_from(text, 0);
    if (whole == 0 || whole == text.size() || text[whole] != '.') return whole;
    const std::size_t all = digits_from(text, whole + 1);
    return all == whole + 1 ? whole : all;
}

/// "07:15" or "07:15:30", whatever the digits say.
constexpr std::size_t clock_length(std::string_view text) {
    const auto colon_and_digits = [&](std::size_t at) {
        if (at >= text.size() || text[at] != ':') return at;
        const std::size_t end = digits_from(text, at + 1);
        return end == at + 1 ? at : end;
    };
    const std::size_t hours = digits_from(text, 0);
    if (hours == 0) return 0;
    const std::size_t minutes = colon_and_digits(hours);
    return minutes == hours ? 0 : colon_and_digits(minutes);
}

/// A rule of one piece of text, the blanks after it included; remembers its name where it fails.
template <typename Rule>
struct Token {
    using rule_t = Rule;
    using subs_t = peg::type_list<>;

    template <peg::apply_mode, peg::rewind_mode, template <typename...> class,
              template <typename...> class, typename Input, typename... Others>
    static bool match(Input& in, Progress& progress, Others&&... /*tree*/) {
        const std::string_view text = ahead(in);
        const std::size_t length = Rule::length(text);
        if (length == 0) {
            if (!Rule::expected().empty()) progress.expect(in.current(), Rule::expected());
            return false;
        }
        in.bump(blanks_from(text, length));
        return true;
    }
};

/// A word or a sign: "always", "<=".
template <Text wanted>
struct word : Token<word<wanted>> {
    static constexpr std::string_view expected() {
        return wanted.view() == "," ? "a comma" : wanted.view();
    }
    static constexpr std::size_t length(std::string_view text) {
        constexpr std::string_view self = wanted.view();
        if (!text.starts_with(self)) return 0;
        const bool goes_on = is_letter(self.front()) && name_length(text) != self.size();
        return goes_on ? 0 : self.size();
    }
};

/// A sign that may be there and that no message speaks of.
template <Text wanted>
struct unasked : Token<unasked<wanted>> {
    static constexpr std::string_view expected() { return {}; }
    static constexpr std::size_t length(std::string_view text) {
        return word<wanted>::length(text);
    }
};

/// All of Rules; where they fail at once, `what` was expected instead of the words inside them.
template <Text what, typename... Rules>
struct named {
    using rule_t = named;
    using subs_t = peg::type_list<peg::seq<Rules...>>;

    template <peg::apply_mode A, peg::rewind_mode M, template <typename...> class Action,
              template <typename...> class Control, typename Input, typename... Others>
    static bool match(Input& in, Progress& progress, Others&&... tree) {
        const char* const at = in.current();
        const std::size_t before = progress.farthest == at ? progress.expected.size() : 0;
        const bool matched =
            peg::match<peg::seq<Rules...>, A, M, Action, Control>(in, progress, tree...);
        if (!matched && progress.farthest == at) {
            progress.expected.resize(std::min(before, progress.expected.size()));
            progress.expect(at, what.view());
        }
        return matched;
    }
};

/// One level deeper. Throws Misread beyond most_levels_a_requirement.
template <typename... Rules>
struct nested {
    using rule_t = nested;
    using subs_t = peg::type_list<peg::seq<Rules...>>;

    template <peg::apply_mode A, peg::rewind_mode M, template <typename...> class Action,
              template <typename...> class Control, typename Input, typename... Others>
    static bool match(Input& in, Progress& progress, Others&&... tree) {
        if (++progress.levels > most_levels_a_requirement)
            throw Misread(static_cast<std::size_t>(in.current() - progress.begin),
                          "phrases stand inside each other more than " +
                              std::to_string(most_levels_a_requirement) + " levels deep",
                          "a flatter requirement, or several");
        const bool matched =
            peg::match<peg::seq<Rules...>, A, M, Action, Control>(in, progress, tree...);
        --progress.levels;
        return matched;
    }
};

}  // namespace noonbench::harness::rules
