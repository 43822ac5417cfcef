// SPDX-License-Identifier: MIT
#include "requirement_signals.hpp"

#include "harness/language/grammar.hpp"
#include "harness/language/phrases.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <set>
#include <sstream>
#include <string>

BOOST_AUTO_TEST_SUITE(phrases)

namespace {

using namespace noonbench::harness;

}  // namespace

BOOST_AUTO_TEST_CASE(every_example_means_what_the_table_says) {
    const auto signals = test::default_signals();
    for (const Phrase& each : phrase_table())
        BOOST_TEST(test::understood(each.example, signals) == each.stl);
}

BOOST_AUTO_TEST_CASE(every_word_of_the_language_stands_in_the_table) {
    std::set<std::string> shown;
    for (const Phrase& each : phrase_table())
        for (const std::string_view text : {each.phrase, each.meaning, each.example}) {
            std::string letters(text);
            std::replace_if(
                letters.begin(), letters.end(), [](char c) { return c < 'a' || c > 'z'; }, ' ');
            std::istringstream words(letters);
            for (std::string word; words >> word;) shown.insert(word);
        }
    for (const std::string_view word : language_words())
        BOOST_TEST_CONTEXT(word) BOOST_TEST(shown.contains(std::string(word)));
}

BOOST_AUTO_TEST_CASE(the_table_fits_a_terminal_of_100_columns_and_holds_all_of_itself) {
    const std::string text = phrases_text();
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) BOOST_TEST_CONTEXT(line) {
            BOOST_TEST(line.size() <= 100U);
            BOOST_TEST(!line.ends_with(' '));
        }
    for (const Phrase& each : phrase_table()) BOOST_TEST_CONTEXT(each.phrase) {
            BOOST_TEST(text.find(each.phrase) != text.npos);
            BOOST_TEST(text.find(each.example.substr(0, 80)) != text.npos);
        }
}

BOOST_AUTO_TEST_SUITE_END()
