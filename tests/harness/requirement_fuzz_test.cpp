// SPDX-License-Identifier: MIT
// Whatever is typed in, it is understood or refused with a place inside the text.
#include "requirement_signals.hpp"

#include "plant/random.hpp"

#include "harness/language/grammar.hpp"
#include "harness/language/phrases.hpp"

#include <boost/test/unit_test.hpp>

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

BOOST_AUTO_TEST_SUITE(requirement_fuzz)

namespace {

using namespace noonbench;
using namespace noonbench::harness;
using Dice = plant::RandomSequence;
std::vector<std::string> tokens(const std::vector<traces::Signal>& signals) {
    std::vector<std::string> all = {
        "8 K", "65 degC", "2.6 l/min", "10 min", "80 %", "12 kW", "3",  "07:15", "(", ")",
        "(",   ")",       ",",         ":",      "<",    "<=",    "=",  "!=",    "+", "-",
        "*",   "/",       "\n",        "on",     "off",  "1e9",   "\t", "@"};
    for (const std::string_view word : language_words()) all.emplace_back(word);
    for (std::size_t i = 0; i < signals.size(); i += 3) all.push_back(signals[i].name);
    return all;
}

/// How many of both kinds there were: a fuzz that only ever refuses would say little.
struct Tally {
    std::size_t understood = 0;
    std::size_t refused = 0;
};

void try_out(const std::string& text, const std::vector<traces::Signal>& signals, Tally& tally) {
    try {
        const FormulaPtr formula = parse_formula(text, signals);
        BOOST_REQUIRE(formula != nullptr);
        BOOST_REQUIRE(!stl_text(*formula, signals).empty());
        (void)classes_of(*formula);
        ++tally.understood;
    } catch (const InputRefused& refused) {
        BOOST_REQUIRE_EQUAL(refused.problems().size(), 1U);
        const Problem& problem = refused.problems()[0];
        BOOST_REQUIRE(!problem.what.empty());
        BOOST_REQUIRE(!problem.allowed.empty());
        BOOST_REQUIRE(problem.line >= 1);
        BOOST_REQUIRE(problem.column >= 1);
        BOOST_REQUIRE(static_cast<std::size_t>(problem.column) <= text.size() + 1);
        ++tally.refused;
    }
}

void mutate(std::string& text, Dice& dice, const std::vector<std::string>& all) {
    const std::size_t at = dice.below(text.size() + 1);
    switch (dice.below(5)) {
        case 0:
            text.erase(at, 1 + dice.below(8));
            break;
        case 1:
            text.insert(at, " " + all[dice.below(all.size())] + " ");
            break;
        case 2:
            if (at < text.size()) text[at] = static_cast<char>(dice.below(256));
            break;
        case 3:
            text.insert(at, text.substr(dice.below(text.size() + 1), dice.below(40)));
            break;
        default:
            text = "(" + text + ")";
            break;
    }
}

}  // namespace

BOOST_AUTO_TEST_CASE(soup_of_words_is_understood_or_refused) {
    const auto signals = test::default_signals();
    const auto all = tokens(signals);
    Dice dice{1};
    Tally tally;
    for (int i = 0; i < 10000; ++i) {
        std::string text;
        const std::size_t count = 1 + dice.below(25);
        for (std::size_t k = 0; k < count; ++k) text += all[dice.below(all.size())] + " ";
        BOOST_TEST_CONTEXT("text: " << text) try_out(text, signals, tally);
    }
    BOOST_TEST(tally.refused > 9000U);
}

BOOST_AUTO_TEST_CASE(damaged_examples_are_understood_or_refused) {
    const auto signals = test::default_signals();
    const auto all = tokens(signals);
    Dice dice{2};
    Tally tally;
    for (int i = 0; i < 200; ++i)
        for (const Phrase& each : phrase_table()) {
            std::string text(each.example);
            for (std::size_t k = 1 + dice.below(3); k > 0 && !text.empty(); --k)
                mutate(text, dice, all);
            BOOST_TEST_CONTEXT("text: " << text) try_out(text, signals, tally);
        }
    BOOST_TEST_CONTEXT(tally.understood << " understood, " << tally.refused << " refused") {
        BOOST_TEST(tally.understood > 500U);
        BOOST_TEST(tally.refused > 2000U);
    }
}

BOOST_AUTO_TEST_CASE(deep_and_long_texts_are_refused_in_time) {
    const auto signals = test::default_signals();
    Tally tally;
    for (const std::string_view piece :
         {"(", "not ", "-", "always ", "if ", "each time ", "abs(", "starts of ", "starts of (",
          "lesser(1, ", "in any 1 h, ", "1 + ", "1 * ", "1 < ", "pump_relay is on and ", "(1 + ",
          "pump_relay is on until (", "sometime within 1 s ", "first time with ("})
        for (const std::size_t most : {std::size_t{100}, std::size_t{100000}}) {
            std::string text;
            for (std::size_t i = 0; i < most && text.size() + piece.size() <= 3990; ++i)
                text += piece;
            BOOST_TEST_CONTEXT("repeated: " << piece) try_out(text, signals, tally);
            BOOST_TEST_CONTEXT("repeated: " << piece) try_out(text + "1", signals, tally);
        }
    try_out(std::string(1000000, '('), signals, tally);
    BOOST_TEST(tally.understood == 0U);
}

BOOST_AUTO_TEST_SUITE_END()
