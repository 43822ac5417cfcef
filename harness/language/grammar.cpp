// SPDX-License-Identifier: MIT
// The only code that sees PEGTL. No rule tries a long phrase twice: what follows a word decides, so
// the time is linear in the text.
#include "grammar.hpp"

#include "grammar_rules.hpp"
#include "misread.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>
#include <tao/pegtl/contrib/parse_tree.hpp>

#include <array>
#include <memory>
#include <string>
#include <utility>

namespace noonbench::harness {
namespace rules {

using peg::opt;
using peg::seq;
using peg::sor;
using peg::star;

constexpr auto words = std::to_array<std::string_view>(
    {"if",      "then",  "until",  "or",      "and",  "not",     "always", "never",  "sometime",
     "within",  "from",  "to",     "between", "at",   "each",    "time",   "has",    "lasted",
     "follows", "day",   "month",  "year",    "over", "the",     "run",    "in",     "any",
     "is",      "above", "below",  "least",   "most", "goes",    "a",      "no",     "value",
     "starts",  "of",    "with",   "total",   "mean", "highest", "lowest", "change", "first",
     "last",    "abs",   "lesser", "greater", "since"});

// The longest first: what stands later may be the beginning of what stands before.
constexpr auto units_with_signs = std::to_array<std::string_view>(
    {"kWh/m2", "MJ/m2", "Wh/m2", "kW/m2", "W/m2", "l/min", "m3/h", "l/h", "\u00b0C", "%"});

using Kind = Syntax::Kind;

/// A rule that becomes a node of the tree.
template <Kind kind_, typename... Rules>
struct as : seq<Rules...> {
    static constexpr Kind kind = kind_;
};
/// Likewise, unless it holds one node only.
template <Kind kind_, typename... Rules>
struct chain : as<kind_, Rules...> {
    static constexpr bool folds = true;
};
template <Kind kind_, Text text>
struct sign : word<text> {
    static constexpr Kind kind = kind_;
};

// ---------------------------------------------------------------- single pieces

struct free_name {
    static constexpr std::size_t length(std::string_view text) {
        const std::size_t length = name_length(text);
        const bool taken =
            std::find(words.begin(), words.end(), text.substr(0, length)) != words.end();
        return taken ? 0 : length;
    }
};

struct name : Token<name> {
    static constexpr Kind kind = Kind::name;
    static constexpr std::string_view expected() { return "a signal"; }
    static constexpr std::size_t length(std::string_view text) { return free_name::length(text); }
};

struct choice : Token<choice> {
    static constexpr Kind kind = Kind::word;
    static constexpr std::string_view expected() { return "a word such as on or collecting"; }
    static constexpr std::size_t length(std::string_view text) { return free_name::length(text); }
};

struct number : Token<number> {
    static constexpr Kind kind = Kind::number;
    static constexpr std::string_view expected() { return "a number"; }
    static constexpr std::size_t length(std::string_view text) { return number_length(text); }
};

struct unit : Token<unit> {
    static constexpr Kind kind = Kind::unit;
    static constexpr std::string_view expected() { return "a unit"; }
    static constexpr std::size_t length(std::string_view text) {
        for (const std::string_view each : units_with_signs)
            if (text.starts_with(each) && name_length(text.substr(each.size())) == 0)
                return each.size();
        const std::string_view first = text.substr(0, name_length(text));
        if (first == "day" || first == "year") return first.size();
        return first.find('_') == first.npos ? free_name::length(text) : 0;  // signals have one
    }
};

struct clock : Token<clock> {
    static constexpr Kind kind = Kind::clock;
    static constexpr std::string_view expected() { return "a time of day such as 07:15"; }
    static constexpr std::size_t length(std::string_view text) { return clock_length(text); }
};

struct the_end : Token<the_end> {
    static constexpr std::string_view expected() { return "the end"; }
    static constexpr std::size_t length(std::string_view /*text*/) { return 0; }
};

struct literal : as<Kind::literal, number, opt<unit>> {};
struct length_of_time : named<"a length of time such as 10 min", literal> {};
struct comma : opt<sor<unasked<",">, unasked<":">>> {};

// ---------------------------------------------------------------- numbers

struct formula;
struct condition;
struct primary;

struct absolute : as<Kind::absolute, word<"abs">, word<"(">, formula, word<")">> {};
struct lesser
    : as<Kind::lesser, word<"lesser">, word<"(">, formula, word<",">, formula, word<")">> {};
struct greater_of
    : as<Kind::greater_of, word<"greater">, word<"(">, formula, word<",">, formula, word<")">> {};
struct parentheses : seq<word<"(">, formula, word<")">> {};

template <Kind kind_, Text first>
struct of_number : as<kind_, word<first>, word<"of">, primary> {};
struct starts : of_number<Kind::starts, "starts"> {};
struct total : of_number<Kind::total, "total"> {};
struct mean : of_number<Kind::mean, "mean"> {};
struct highest : of_number<Kind::highest, "highest"> {};
struct lowest : of_number<Kind::lowest, "lowest"> {};
struct change : of_number<Kind::change, "change"> {};
struct condition_in_parentheses : named<"a condition in parentheses", parentheses> {};
struct time_with : as<Kind::time_with, word<"time">, word<"with">, condition_in_parentheses> {};
struct time_since : as<Kind::time_since, word<"time">, word<"since">, condition_in_parentheses> {};
struct first_time : as<Kind::first_time, word<"first">, time_with> {};
struct last_time : as<Kind::last_time, word<"last">, time_with> {};

struct call : sor<absolute, lesser, greater_of, time_since> {};
struct over_a_period
    : sor<starts, total, mean, highest, lowest, change, time_with, first_time, last_time> {};
struct primary : named<"a number with its unit, a signal or a calculation",
                       sor<nested<sor<parentheses, call, over_a_period>>, clock, literal, name>> {};

struct factor;
struct negative : as<Kind::negative, nested<word<"-">, factor>> {};
struct factor : sor<negative, primary> {};
struct plus : sign<Kind::plus, "+"> {};
struct minus : sign<Kind::minus, "-"> {};
struct times : sign<Kind::times, "*"> {};
struct over : sign<Kind::over, "/"> {};
struct product : chain<Kind::product, factor, star<named<"+ - * /", sor<times, over>>, factor>> {};
struct sum : chain<Kind::sum, product, star<named<"+ - * /", sor<plus, minus>>, product>> {};

// ---------------------------------------------------------------- comparisons

struct less_equal : as<Kind::less_equal, word<"<=">, sum> {};
struct less : as<Kind::less, word<"<">, sum> {};
struct greater_equal : as<Kind::greater_equal, word<">=">, sum> {};
struct greater : as<Kind::greater, word<">">, sum> {};
struct not_equal : as<Kind::not_equal, word<"!=">, sum> {};
struct equal : as<Kind::equal, word<"=">, sum> {};
struct is_above : as<Kind::greater, word<"above">, sum> {};
struct is_below : as<Kind::less, word<"below">, sum> {};
struct is_at_least : as<Kind::greater_equal, word<"at">, word<"least">, sum> {};
struct is_at_most : as<Kind::less_equal, word<"at">, word<"most">, sum> {};
struct is_between : as<Kind::is_between, word<"between">, sum, word<"and">, sum> {};
struct is_not_word : as<Kind::is_not_word, word<"not">, choice> {};
struct is_word : as<Kind::is_word, choice> {};
struct goes : as<Kind::goes, word<"goes">, choice> {};
struct has_value : as<Kind::has_value, word<"a">, word<"value">> {};
struct has_no_value : as<Kind::has_no_value, word<"no">, word<"value">> {};

struct after_is
    : sor<is_above, is_below, is_at_least, is_at_most, is_between, is_not_word, is_word> {};
struct tail
    : named<"a comparison (< <= > >= = != is has goes)",
            sor<less_equal, less, greater_equal, greater, not_equal, equal,
                seq<word<"is">, after_is>, goes, seq<word<"has">, sor<has_value, has_no_value>>>> {
};
struct comparison : chain<Kind::comparison, sum, opt<tail>> {};

// ---------------------------------------------------------------- conditions

struct within : as<Kind::within, word<"within">, length_of_time> {};
struct from_to : as<Kind::from_to, word<"from">, length_of_time, word<"to">, length_of_time> {};
struct between : as<Kind::between, word<"between">, clock, word<"and">, clock> {};
struct lasted : as<Kind::lasted, word<"has">, word<"lasted">, length_of_time> {};

template <Kind kind_, Text first>
struct throughout : as<kind_, word<first>, opt<sor<within, from_to, between>>, comma, formula> {};
struct always : throughout<Kind::always, "always"> {};
struct never : throughout<Kind::never, "never"> {};
struct sometime : throughout<Kind::sometime, "sometime"> {};

struct if_then : as<Kind::if_then, word<"if">, formula, opt<unasked<",">>, word<"then">,
                    opt<unasked<",">>, formula> {};
struct at_clock : as<Kind::at_clock, word<"at">, clock, comma, formula> {};
struct each_time : as<Kind::each_time, word<"each">, word<"time">, comma, formula, opt<lasted>,
                      word<",">, formula, word<"follows">, within> {};
template <Kind kind_, Text period>
struct each : as<kind_, word<"each">, word<period>, comma, formula> {};
struct each_day : each<Kind::each_day, "day"> {};
struct each_month : each<Kind::each_month, "month"> {};
struct each_year : each<Kind::each_year, "year"> {};
struct over_run : as<Kind::over_run, word<"over">, word<"the">, word<"run">, comma, formula> {};
struct in_any : as<Kind::in_any, word<"in">, word<"any">, length_of_time, comma, formula> {};

struct negation : as<Kind::negation, word<"not">, condition> {};
struct prefixed : nested<sor<negation, if_then, always, never, sometime, at_clock, each_time,
                             each_day, each_month, each_year, over_run, in_any>> {};
struct condition
    : named<"a condition: a comparison, a phrase or a parenthesis", sor<prefixed, comparison>> {};
struct both : chain<Kind::both, condition, star<word<"and">, condition>> {};
struct either : chain<Kind::either, both, star<word<"or">, both>> {};
struct until : chain<Kind::until, either, opt<word<"until">, either, opt<within>>> {};
struct formula : seq<until> {};
struct sentence : seq<formula, sor<peg::eof, the_end>> {};
struct quantity : seq<literal, sor<peg::eof, the_end>> {};

// ---------------------------------------------------------------- the tree

struct Node : peg::parse_tree::basic_node<Node> {
    Syntax::Kind kind = Syntax::Kind::name;
};

/// Rules with a kind become nodes; a chain of one is what it holds.
template <typename Rule, typename = void>
struct selector : std::false_type {};
template <typename Rule>
struct selector<Rule, std::void_t<decltype(Rule::kind)>> : std::true_type {
    static void transform(std::unique_ptr<Node>& node, Progress& /*progress*/) {
        if constexpr (requires { Rule::folds; }) {
            if (node->children.size() == 1) {
                std::unique_ptr<Node> only = std::move(node->children.front());
                node = std::move(only);
                return;
            }
        }
        node->kind = Rule::kind;
    }
};

}  // namespace rules

namespace {

Syntax syntax_of(const rules::Node& node, const char* begin) {
    const std::string_view whole = node.string_view();
    const std::size_t last = whole.find_last_not_of(" \t\r\n");
    Syntax syntax{
        node.kind, whole.substr(0, last + 1), static_cast<std::size_t>(whole.data() - begin), {}};
    syntax.children.reserve(node.children.size());
    for (const auto& child : node.children) syntax.children.push_back(syntax_of(*child, begin));
    return syntax;
}

/// The word, number or sign at an offset.
std::string_view piece_at(std::string_view text, std::size_t at) {
    const std::string_view rest = text.substr(at);
    const std::size_t length = std::max(rules::name_length(rest), rules::number_length(rest));
    if (length > 0) return rest.substr(0, length);
    return rest.substr(0, std::min(rest.find_first_of(" \t\r\n"), std::size_t{20}));
}

[[noreturn]] void refuse(std::string_view text, const rules::Progress& progress) {
    const auto at = static_cast<std::size_t>(progress.farthest - progress.begin);
    if (at >= text.size())
        throw Misread(text.size(), "the requirement ends too early", joined(progress.expected));
    const bool decimal_comma = text[at] == ',' && at > 0 && rules::is_digit(text[at - 1]) &&
                               at + 1 < text.size() && rules::is_digit(text[at + 1]);
    if (decimal_comma) throw Misread(at, "a decimal comma", "a decimal point");
    throw Misread(at, in_quotes(piece_at(text, at)) + " does not fit here",
                  joined(progress.expected));
}

template <typename Rule>
Syntax parsed(std::string_view text) {
    if (text.size() > most_characters_a_requirement)
        throw Misread(0, fmt::format("a text of {} characters", text.size()),
                      fmt::format("at most {} characters", most_characters_a_requirement));
    const std::size_t end = text.find_last_not_of(" \t\r\n") + 1;  // 0 if there is nothing else
    if (end == 0) throw Misread(0, "an empty text", "`noonbench list phrases` has the words");
    const std::size_t begin = rules::blanks_from(text, 0);

    rules::peg::memory_input<rules::peg::tracking_mode::lazy> in(text.data() + begin,
                                                                 text.data() + end, "requirement");
    rules::Progress progress{text.data(), text.data(), {}, 0};
    const auto root =
        rules::peg::parse_tree::parse<Rule, rules::Node, rules::selector>(in, progress);
    if (!root || root->children.size() != 1) refuse(text.substr(0, end), progress);
    return syntax_of(*root->children.front(), text.data());
}

}  // namespace

Syntax parse_sentence(std::string_view text) {
    return parsed<rules::sentence>(text);
}

Syntax parse_literal(std::string_view text) {
    return parsed<rules::quantity>(text);
}

std::span<const std::string_view> language_words() {
    return rules::words;
}

}  // namespace noonbench::harness
