// SPDX-License-Identifier: MIT
#include "harness/choose/trade_off.hpp"
#include "harness/choose/trade_off_picture.hpp"
#include "harness/report/text.hpp"
#include "tests/harness/choose_settings_sheet_demo.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <cmath>
#include <set>
#include <string>

BOOST_AUTO_TEST_SUITE(choose_trade_off)

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

boost::json::value data_of(const std::string& page) {
    const std::string open = "id=\"choices-data\">";
    const auto from = page.find(open) + open.size();
    return boost::json::parse(page.substr(from, page.find("</script>", from) - from));
}

/// What stands between the element of a choice in the picture and its end.
std::string point_of(const std::string& picture, std::size_t index) {
    const auto at = picture.find("data-choice=\"" + std::to_string(index) + "\"");
    return at == std::string::npos ? std::string()
                                   : picture.substr(at, picture.find("</g>", at) - at);
}

double place_of(const std::string& point, bool across) {
    const auto at = point.find("translate(") + 10;
    const std::string both = point.substr(at, point.find(')', at) - at);
    return std::stod(across ? both : both.substr(both.find(' ') + 1));
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_choice_is_a_point_a_row_and_a_record) {
    const Chosen chosen = invented_search();
    const std::string page = trade_off_html(chosen);
    const auto data = data_of(page);
    const auto& choices = data.at("choices").as_array();
    BOOST_TEST(choices.size() == chosen.tried.size());
    BOOST_TEST(count_of(page, "class=\"point\"") == chosen.tried.size());
    BOOST_TEST(count_of(page, "<tr data-choice=") == chosen.tried.size());
    for (std::size_t i = 0; i < chosen.tried.size(); ++i) {
        const TriedChoice& choice = chosen.tried[i];
        BOOST_TEST(has(point_of(page, i), choice_text(chosen, choice)), i);
        for (std::size_t f = 0; f < figure_axes.size(); ++f) {
            const double shown = choices[i].at("figures").as_array()[f].to_number<double>();
            BOOST_TEST(std::abs(shown - choice.*figure_axes[f].figure) <= 5.1e-4);
        }
        BOOST_TEST(choices[i].at("holds").as_bool() == choice.holds);
        BOOST_TEST(choices[i].at("set").as_bool() == choice.in_set);
    }
    BOOST_TEST(data.at("winner").to_number<std::size_t>() == *chosen.winner);
    BOOST_TEST(data.at("delivered").to_number<std::size_t>() == *chosen.delivered);
    BOOST_TEST((trade_off_html(chosen) == page));
}

BOOST_AUTO_TEST_CASE(all_settings_can_be_filtered_and_all_figures_drawn) {
    const Chosen chosen = invented_search();
    const std::string page = trade_off_html(chosen);
    for (const SearchedSetting& setting : chosen.searched) {
        BOOST_TEST(has(page, ">" + setting.name + "</label>"));
        for (const std::string& value : setting.values)
            BOOST_TEST(has(page, ">" + value + "</option>"), value);
    }
    for (const FigureAxis& axis : figure_axes)
        BOOST_TEST(count_of(page, std::string(">") + axis.name + ", " + axis.unit + "</option>") ==
                   2U);  // up the side and along the bottom
}

BOOST_AUTO_TEST_CASE(set_winner_and_delivered_differ_by_shape_and_word) {
    const Chosen chosen = invented_search();
    std::set<std::string> shapes{delivered_path};
    std::set<std::string> words;
    for (const Mark mark : {Mark::tried, Mark::breaks_limit, Mark::in_set, Mark::winner}) {
        BOOST_TEST(shapes.insert(path_of(mark)).second);
        BOOST_TEST(words.insert(words_of(mark)).second);
    }
    const std::string picture = trade_off_picture(chosen);
    BOOST_TEST(has(point_of(picture, *chosen.winner), path_of(Mark::winner)));
    BOOST_TEST(has(point_of(picture, *chosen.winner), "chosen: start difference 7 K"));
    BOOST_TEST(has(point_of(picture, *chosen.delivered), delivered_path));
    BOOST_TEST(has(point_of(picture, *chosen.delivered), "as delivered: start difference 8 K"));
    BOOST_TEST(count_of(picture, delivered_path) == 1U);
    for (std::size_t i = 0; i < chosen.tried.size(); ++i) {
        if (i == *chosen.winner) continue;
        BOOST_TEST(has(point_of(picture, i), path_of(Mark::in_set)) == chosen.tried[i].in_set);
    }
    // The one as delivered may itself be the one chosen.
    Chosen same = chosen;
    same.delivered = same.winner;
    BOOST_TEST(standing_text(same, *same.winner) == "chosen, as delivered");
}

BOOST_AUTO_TEST_CASE(the_first_picture_stands_without_scripts_and_to_scale) {
    const Chosen chosen = invented_search();
    const std::string picture = trade_off_picture(chosen);
    // Three choices: places along each axis are in proportion to the figures.
    const std::size_t a = *chosen.winner;
    const std::size_t b = *chosen.delivered;
    const std::size_t c = 0;
    for (const bool across : {true, false}) {
        const auto figure = figure_axes[across ? first_x : first_y].figure;
        const auto place = [&](std::size_t i) { return place_of(point_of(picture, i), across); };
        const double drawn = (place(c) - place(a)) / (place(b) - place(a));
        const double meant = (chosen.tried[c].*figure - chosen.tried[a].*figure) /
                             (chosen.tried[b].*figure - chosen.tried[a].*figure);
        BOOST_TEST(std::abs(drawn - meant) < 0.01, "drawn " << drawn << ", meant " << meant);
    }
    BOOST_TEST(place_of(point_of(picture, a), false) < place_of(point_of(picture, b), false),
               "more objective is higher up");
    BOOST_TEST(has(picture, "pump starts, a day (less is better)"));
    BOOST_TEST(has(picture, "objective, kWh a year (more is better)"));
}

BOOST_AUTO_TEST_CASE(the_page_is_well_formed_and_asks_for_nothing_outside_itself) {
    Chosen single = invented_search();
    single.tried.resize(1);
    single.winner = 0;
    single.delivered.reset();
    for (const Chosen& chosen : {invented_search(), single, Chosen{}}) {
        const std::string page = trade_off_html(chosen);
        BOOST_TEST(first_fault_of_page(page) == "");
        for (const char* part : {"http", "src=", "<link", "@import", "url(", "<img", "fetch(",
                                 "XMLHttpRequest", "WebSocket", "import("})
            BOOST_TEST(!has(page, part), part);
        BOOST_TEST(!has(page, "{{"));
        BOOST_TEST(!has(page, "nan"));
    }
}

BOOST_AUTO_TEST_CASE(every_element_that_the_script_asks_for_is_there) {
    const std::string page = trade_off_html(invented_search());
    const std::string script = page.substr(page.rfind("<script>"));
    std::size_t asked = 0;
    for (auto at = script.find("byId('"); at != std::string::npos;
         at = script.find("byId('", at + 1)) {
        const std::string id = script.substr(at + 6, script.find('\'', at + 6) - at - 6);
        if (id.ends_with('-')) continue;  // the filters, by number
        BOOST_TEST(has(page, "id=\"" + id + "\""), id);
        ++asked;
    }
    BOOST_TEST(asked > 8U);
    for (const char* id : {"filter-0", "filter-1", "filter-2"})
        BOOST_TEST(has(page, std::string("<select id=\"") + id + "\""), id);
}

BOOST_AUTO_TEST_CASE(texts_are_never_markup) {
    const std::string bad = "</script><script>alert('1')</script><b id=\"x\">&{{data}}";
    const std::string page = trade_off_html(with_text_everywhere(invented_search(), bad));
    BOOST_TEST(!has(page, "<script>alert"));
    BOOST_TEST(!has(page, "<b id"));
    BOOST_TEST(count_of(page, "</script>") == 2U);
    BOOST_TEST(has(page, "&amp;{{data}}"));
    BOOST_TEST(first_fault_of_page(page) == "");
    const auto data = data_of(page);
    BOOST_TEST(data.at("settings").as_array()[0].at("values").as_array()[0].as_string() ==
               "4 K" + bad);
}

BOOST_AUTO_TEST_CASE(theory_stands_beside_the_bench_with_its_source) {
    const Chosen chosen = invented_search();
    const std::string page = trade_off_html(chosen);
    for (const TheoryLine& line : chosen.theory) {
        for (const std::string& text :
             {line.rule, line.theory, line.simulated, line.source, line.why})
            BOOST_TEST(has(page, escaped(text)), text);
    }
}

BOOST_AUTO_TEST_SUITE_END()
