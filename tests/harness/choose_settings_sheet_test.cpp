// SPDX-License-Identifier: MIT
#include "harness/choose/settings_sheet.hpp"
#include "harness/report/text.hpp"
#include "tests/harness/choose_settings_sheet_demo.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_settings_sheet)

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// The page with plain blanks before units.
std::string plain(std::string page) {
    const std::string kept = "\u00a0";
    for (auto at = page.find(kept); at != std::string::npos; at = page.find(kept, at)) {
        page.replace(at, kept.size(), " ");
    }
    return page;
}

Chosen with_settings(std::size_t count) {
    Chosen chosen = invented_search();
    const std::vector<ChosenSetting> some = chosen.settings;
    chosen.settings.clear();
    for (std::size_t i = 0; i < count; ++i) chosen.settings.push_back(some[i % some.size()]);
    return chosen;
}

/// Two settings on a grid of three by three; in the set are those named, by start and stop.
Chosen small_grid(const std::vector<std::pair<std::size_t, std::size_t>>& in_set) {
    Chosen chosen;
    chosen.searched = {{"start difference", {"5 K", "7 K", "9 K"}},
                       {"stop difference", {"3 K", "4 K", "5 K"}}};
    chosen.settings = {{.name = "start difference",
                        .value = "7 K",
                        .as_delivered = "8 K",
                        .tolerance = {},
                        .because = {},
                        .check = {}}};
    for (std::size_t start = 0; start < 3; ++start) {
        for (std::size_t stop = 0; stop < 3; ++stop) {
            TriedChoice choice;
            choice.values = {start, stop};
            choice.in_set =
                std::find(in_set.begin(), in_set.end(), std::pair(start, stop)) != in_set.end();
            chosen.tried.push_back(choice);
        }
    }
    chosen.winner = 4;
    fill_in_flatness(chosen);
    return chosen;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_sheet_holds_every_setting_with_value_reason_tolerance_and_check) {
    const Chosen chosen = invented_search();
    const std::string page = plain(settings_sheet_html(chosen));
    for (const ChosenSetting& setting : chosen.settings) {
        for (const std::string& text : {setting.name, setting.tolerance, setting.because}) {
            BOOST_TEST(has(page, escaped(text)), text);
        }
        BOOST_TEST(has(page, ">" + setting.value + "</span>"), setting.value);
    }
    BOOST_TEST(has(page, "Warm the collector sensor by hand: the pump starts 7 K above the store"));
    BOOST_TEST(has(page, "<b>change</b>, was 8 K</span>"));
    BOOST_TEST(has(page, "1478 kWh"));
    BOOST_TEST(has(page, "(81 to 105)"));
    BOOST_TEST(has(page, "18.2 h"));
    BOOST_TEST(has(page, "✓ margin 1.8 h; kept in 92 %"));
    BOOST_TEST(has(page, "kept in 92 % of the fresh worlds"));
    BOOST_TEST(has(page, chosen.repeat));
    for (const Caution& caution : chosen.cautions) BOOST_TEST(has(page, caution.about));
    for (const char* blank : {"set by, name", "date", "signature", "cold pressure, bar"})
        BOOST_TEST(has(page, blank), blank);
    BOOST_TEST((plain(settings_sheet_html(chosen)) == page));
    BOOST_TEST(has(settings_sheet_html(chosen), "was 75\u00a0°C</span>"));
}

BOOST_AUTO_TEST_CASE(what_stays_and_what_is_broken_is_said_in_words) {
    Chosen chosen = invented_search();
    chosen.settings[0].as_delivered = chosen.settings[0].value;
    chosen.limits[0].margin = -2.5;
    const std::string page = settings_sheet_html(chosen);
    BOOST_TEST(has(page, "<span class=\"was\">as delivered</span>"));
    BOOST_TEST(has(page, "✗ broken by 2.5"));
}

BOOST_AUTO_TEST_CASE(the_sheet_is_well_formed_and_asks_for_nothing_outside_itself) {
    for (const std::size_t settings : {0U, 1U, 5U, 12U}) {
        const std::string page = settings_sheet_html(with_settings(settings));
        BOOST_TEST(first_fault_of_page(page) == "");
        for (const char* part : {"http", "src=", "<link", "@import", "url(", "<img", "<script"})
            BOOST_TEST(!has(page, part), part);
        BOOST_TEST(!has(page, "{{"));
    }
    BOOST_TEST(first_fault_of_page(settings_sheet_html(Chosen{})) == "");
}

BOOST_AUTO_TEST_CASE(texts_are_never_markup) {
    const std::string bad = "<script>alert('1')</script><b id=\"x\">&{{size}}";
    const std::string page = settings_sheet_html(with_text_everywhere(invented_search(), bad));
    BOOST_TEST(!has(page, "<script"));
    BOOST_TEST(!has(page, "<b id"));
    BOOST_TEST(has(page, "&lt;script&gt;alert(&#39;1&#39;)"));
    BOOST_TEST(has(page, "&amp;{{size}}"));  // values are not filled in again
    BOOST_TEST(first_fault_of_page(page) == "");
}

BOOST_AUTO_TEST_CASE(paper_is_one_side_of_a4_always_light_with_type_by_how_much_there_is) {
    const auto size = [](std::size_t settings) {
        const std::string page = settings_sheet_html(with_settings(settings));
        const std::size_t at = page.find("<body class=\"") + 13;
        return page.substr(at, page.find('"', at) - at);
    };
    BOOST_TEST(size(5) == "roomy");
    BOOST_TEST(size(8) == "usual");
    BOOST_TEST(size(12) == "dense");
    const std::string page = settings_sheet_html(invented_search());
    const std::string print = page.substr(page.rfind("@media print"));
    BOOST_TEST(has(print, "size: A4 portrait"));
    BOOST_TEST(has(print, "color-scheme: light;"));
}

BOOST_AUTO_TEST_CASE(the_page_check_finds_what_is_wrong) {
    const std::string head = "<!DOCTYPE html>\n";
    BOOST_TEST(first_fault_of_page(head + "<p>a<br>b</p><svg><path d=\"M0\"/></svg>") == "");
    BOOST_TEST(first_fault_of_page(head + "<p><b>a</p></b>") != "");
    BOOST_TEST(first_fault_of_page(head + "<p>a") != "");
    BOOST_TEST(first_fault_of_page(head + "<p id=\"a\"></p><p id=\"a\"></p>") != "");
    BOOST_TEST(first_fault_of_page(head + "<label for=\"a\"></label>") != "");
    BOOST_TEST(first_fault_of_page(head + "<p>1 < 2</p>") != "");
}

BOOST_AUTO_TEST_CASE(a_flat_optimum_is_said_to_be_flat) {
    // Start 5 and 7 K with stop 3 and 4 K, all four of them.
    Chosen box = small_grid({{0, 0}, {0, 1}, {1, 0}, {1, 1}});
    BOOST_TEST(
        box.flat_sentence ==
        "Everything tried with start difference 5 K to 7 K, stop difference 3 K to 4 K is as "
        "good as the best, within 0.4 %; the settings as delivered are not.");
    BOOST_TEST(box.settings[0].tolerance == "5 K to 7 K");
    box.delivered = 1;
    fill_in_flatness(box);
    BOOST_TEST(has(box.flat_sentence,
                   ", the settings as delivered among them: keep what the customer knows."));
    box.gain_kwh = {26.0, 7.0, 44.0};  // nobody is told of a gain and to leave it as it was
    fill_in_flatness(box);
    BOOST_TEST(!has(box.flat_sentence, "keep what the customer knows"));
    BOOST_TEST(has(box.flat_sentence, "until the fresh worlds told them apart"));
    box.tried[0].starts_a_day = 6.0;
    box.tried[4].starts_a_day = 31.0;
    for (const std::size_t i : {1U, 3U}) box.tried[i].starts_a_day = 10.0;
    box.tried[8].starts_a_day = 99.0;  // not in the set
    fill_in_flatness(box);
    BOOST_TEST(has(box.flat_sentence, " What differs is the clicking, 6 to 31 starts a day."),
               box.flat_sentence);
}

BOOST_AUTO_TEST_CASE(a_set_with_a_hole_is_not_called_everything_between) {
    const Chosen hole = small_grid({{0, 0}, {1, 1}});
    BOOST_TEST(has(hole.flat_sentence, "2 of the 9 choices tried are as good as the best"));
    BOOST_TEST(has(hole.flat_sentence, "not in every combination"));
    const Chosen ends = small_grid({{0, 0}, {2, 0}});
    BOOST_TEST(ends.settings[0].tolerance == "5 K, 9 K");
    BOOST_TEST(has(ends.flat_sentence, "2 of the 9"), ends.flat_sentence);
    const Chosen row = small_grid({{0, 1}, {1, 1}, {2, 1}});
    BOOST_TEST(has(row.flat_sentence,
                   "Everything tried with any start difference, the rest as chosen is as good"),
               row.flat_sentence);
    const Chosen one = small_grid({{1, 1}});
    BOOST_TEST(one.flat_sentence ==
               "None of the other choices tried comes within 0.4 % of the best.");
    BOOST_TEST(one.settings[0].tolerance == "7 K");
    const Chosen all =
        small_grid({{0, 0}, {0, 1}, {0, 2}, {1, 0}, {1, 1}, {1, 2}, {2, 0}, {2, 1}, {2, 2}});
    BOOST_TEST(has(all.flat_sentence, "Everything that was tried is as good as the best"));
    BOOST_TEST(all.settings[0].tolerance == "5 K to 9 K (all that was tried)");
    BOOST_TEST(small_grid({}).settings[0].tolerance == "not known");
}

BOOST_AUTO_TEST_CASE(values_that_are_not_more_and_less_are_named_one_by_one) {
    Chosen chosen = small_grid({{0, 0}, {1, 1}});
    chosen.searched[0] = {"backup windows", {"05:30 – 22:30", "06:00 – 22:00", "never"}, false, {}};
    chosen.settings[0].name = "backup windows";
    const auto tolerance = [&](std::initializer_list<std::size_t> values) {
        for (TriedChoice& choice : chosen.tried)
            choice.in_set =
                std::find(values.begin(), values.end(), choice.values[0]) != values.end();
        fill_in_flatness(chosen);
        return chosen.settings[0].tolerance;
    };
    BOOST_TEST(tolerance({0, 1}) == "05:30 – 22:30 or 06:00 – 22:00");
    BOOST_TEST(tolerance({2}) == "never");
    BOOST_TEST(tolerance({0, 1, 2}) == "any that was tried");
    chosen.searched[0].values = {"off", "60 min", "120 min", "240 min", "480 min"};
    for (std::size_t i = 0; i < 5; ++i) chosen.tried[i].values[0] = i;
    BOOST_TEST(tolerance({1, 2, 3, 4}) == "any but off");
    chosen.searched[0].values = {
        "off", "for up to 60 min", "for up to 120 min", "for up to 240 min", "for up to 480 min",
        "on"};
    BOOST_TEST(tolerance({0, 1, 3}) == "off, for up to 60 min or 240 min");
}

BOOST_AUTO_TEST_CASE(a_gain_within_its_interval_of_zero_is_called_none) {
    Chosen chosen = invented_search();
    BOOST_TEST(
        gain_sentence(chosen) ==
        "92 kWh a year better than as delivered (81 to 105 kWh with 95 % confidence, 24 fresh "
        "worlds).");
    chosen.gain_kwh = {2.0, -6.0, 10.0};
    BOOST_TEST(has(gain_sentence(chosen), "No gain over the settings as delivered can be told: 2"));
    BOOST_TEST(has(gain_sentence(chosen), "−6 to 10 kWh"));
    chosen.gain_kwh = {-20.0, -30.0, -10.0};
    BOOST_TEST(has(gain_sentence(chosen), "20 kWh a year WORSE"));
    chosen.delivered = chosen.winner;
    BOOST_TEST(has(gain_sentence(chosen), "Nothing tried did better"));
    chosen.delivered.reset();
    BOOST_TEST(has(gain_sentence(chosen), "were not tried"));
}

BOOST_AUTO_TEST_CASE(what_cannot_be_drawn_is_refused_with_the_reason) {
    const auto refused = [](const auto& spoil) {
        Chosen chosen = invented_search();
        spoil(chosen);
        try {
            check_chosen(chosen);
        } catch (const std::invalid_argument& e) {
            return std::string(e.what());
        }
        return std::string("accepted");
    };
    BOOST_TEST(refused([](Chosen&) {}) == "accepted");
    BOOST_TEST(has(refused([](Chosen& c) { c.tried[3].values.pop_back(); }), "choice 3 has 2"));
    BOOST_TEST(has(refused([](Chosen& c) { c.tried[3].values[1] = 99; }), "no such stop"));
    BOOST_TEST(has(refused([](Chosen& c) {
                       c.tried[0].saving_kwh = std::numeric_limits<double>::quiet_NaN();
                   }),
                   "not finite"));
    BOOST_TEST(has(refused([](Chosen& c) { c.winner = 9999; }), "winner"));
    BOOST_TEST(has(refused([](Chosen& c) { c.gain_kwh = {1.0, 2.0, 3.0}; }), "interval"));
    BOOST_TEST(
        has(refused([](Chosen& c) { c.limits[0].limit = std::numeric_limits<double>::infinity(); }),
            "starts a day"));
}

BOOST_AUTO_TEST_SUITE_END()
