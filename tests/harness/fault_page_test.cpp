// SPDX-License-Identifier: MIT
// The page of all faults: its groups, its cards, and the command that makes it.
#include "program.hpp"

#include "harness/report/fault_page.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

BOOST_AUTO_TEST_SUITE(fault_page)

using namespace noonbench;
using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

/// Two hours of night in which heat climbs to the roof.
std::string leaking(const std::string& title, const std::string& looks_like) {
    return "title: '" + title +
           "'\n"
           "start: 2026-04-15 00:00\n"
           "length: 2 h\n"
           "store: {start_top: 60 degC, start_bottom: 55 degC}\n"
           "faults:\n"
           "  - name: leak\n"
           "    moves: [{lever: check_valve_leak, to: 0.5}]\n"
           "fault:\n"
           "  customer_says: The <i>pipe</i> is warm.\n"
           "  log_shows: Far above the air.\n"
           "  on_site: Feel it.\n"
           "  measure_first: Shut the valve.\n"
           "  remedy: Clean the seat.\n"
           "  caution: It may scald.\n"
           "  onset: gradual\n"
           "  looks_like: [" +
           looks_like +
           "]\n"
           "  ranges: [{lever: check_valve_leak, least: 0.05, most: 0.6}]\n"
           "require:\n"
           "  - name: warmer than the air\n"
           "    that: at 01:30, collector_reading_c > air_c + 3 K\n"
           "    fails_with: [healthy]\n";
}

constexpr const char* drained = R"(title: Pressure lost
start: 2026-04-15 00:00
length: 1 h
loop: {hydraulics: solved}
faults:
  - name: fluid lost
    moves: [{lever: lost_fluid_m3, to: 3 l}]
fault:
  customer_says: It gurgles.
  log_shows: Nothing.
  on_site: Low.
  measure_first: The gauge.
  remedy: Fill.
  caution: Hot.
  onset: gradual
  ranges: [{lever: lost_fluid_m3, least: 2 l, most: 4 l}]
require:
  - name: the gauge is low
    that: at 00:30, gauge_bar < 1.8 bar
    fails_with: [healthy]
)";

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

std::size_t count(const std::string& text, std::string_view part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++found;
    return found;
}

/// From the card of this fault to the end of it.
std::string card_of(const std::string& page, const std::string& name) {
    const std::size_t from = page.find("<article class=\"fault-card\" id=\"fault-" + name + "\"");
    BOOST_TEST_REQUIRE(from != std::string::npos, name);
    return page.substr(from, page.find("</article>", from) - from);
}

struct Shelf {
    Bay bay;
    Shelf() {
        bay.write("shelf/faults/leak.yaml",
                  leaking("A <b>leaking</b> valve & more", "grain, gone"));
        bay.write("shelf/faults/grain.yaml", leaking("A grain in the valve", ""));
        bay.write("shelf/faults/drained.yaml", drained);
    }
    [[nodiscard]] Finished faults(std::vector<std::string> more = {}) const {
        std::vector<std::string> arguments{"faults", "--shelf", "shelf"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return noonbench_in(bay, arguments);
    }
    [[nodiscard]] std::string page(const std::string& folder = "out/faults") const {
        return content_of(bay / (folder + "/index.html"));
    }
};

FaultEntry entry(const std::string& name, std::vector<std::string> looks_like = {}) {
    return {name, "", std::move(looks_like), "<article>" + name + "</article>", true};
}

}  // namespace

BOOST_AUTO_TEST_CASE(look_alikes_are_what_is_connected_whichever_says_so) {
    const std::vector<FaultEntry> faults{entry("a", {"c"}), entry("b"), entry("c"),
                                         entry("d", {"c", "nowhere"}), entry("e", {"b"})};
    const std::vector<std::vector<std::size_t>> groups = look_alikes(faults);
    BOOST_TEST_REQUIRE(groups.size() == 2U);
    BOOST_TEST(groups[0] == (std::vector<std::size_t>{0, 2, 3}), boost::test_tools::per_element());
    BOOST_TEST(groups[1] == (std::vector<std::size_t>{1, 4}), boost::test_tools::per_element());
    BOOST_TEST(look_alikes(std::vector{entry("a", {"nowhere"}), entry("b")}).empty());
}

BOOST_AUTO_TEST_CASE(a_page_of_nothing_but_loners_has_no_groups) {
    const std::string page = fault_page_html(std::vector{entry("a"), entry("b")});
    BOOST_TEST(!has(page, "Look-alikes"));
    BOOST_TEST(has(page, "<h3>Each with a picture of its own</h3>"));
    BOOST_TEST(has(page, "<li><a href=\"#fault-b\">b</a></li>"));
    BOOST_TEST(page.find("<article>a") < page.find("<article>b"));
}

BOOST_AUTO_TEST_CASE(each_card_tells_the_whole_fault) {
    const Shelf shelf;
    const Finished f = shelf.faults({"--jobs", "2"});
    BOOST_TEST(f.exit_code == 0, f.out + f.err);
    BOOST_TEST(f.out == "3 faults: out/faults/index.html\n");
    const std::string page = shelf.page();
    BOOST_TEST(count(page, "<article") == 3U);
    const std::string card = card_of(page, "leak");
    for (const char* text :
         {"Far above the air.", "Feel it.", "Shut the valve.", "Clean the seat.", "It may scald.",
          "little by little", "<svg class=\"fault-picture\"", "class=\"line collector twin\"",
          "opening of the check valve against reverse flow while the pump rests",
          "from 0.05 to 0.6; healthy: 0", "(in this run: 0.5)", "heat to the store", "pump starts",
          "warmer than the air", "✓ held", "✗ not held", "<a href=\"#fault-grain\">"})
        BOOST_TEST(has(card, text), text << " in " << card);
    BOOST_TEST(has(card, "<div class=\"check-this\"><dt>Caution</dt>"), card);
    BOOST_TEST(!has(card, "gauge, bar"), "nothing happens at the gauge");
    BOOST_TEST(has(card_of(page, "drained"), ">gauge, bar</text>"));
    BOOST_TEST(has(card_of(page, "drained"), "read on site"));
}

BOOST_AUTO_TEST_CASE(the_contents_put_look_alikes_together) {
    const Shelf shelf;
    static_cast<void>(shelf.faults());
    const std::string page = shelf.page();
    const std::string contents = page.substr(page.find("<nav"), page.find("</nav>"));
    const auto alike = contents.find("Look-alikes 1");
    const auto others = contents.find("each with a picture of its own");
    BOOST_TEST(alike < contents.find("#fault-grain"));
    BOOST_TEST(contents.find("#fault-leak") < others);
    BOOST_TEST(others < contents.find("#fault-drained"));
    BOOST_TEST(!has(page, "#fault-gone"), "a link to nowhere");
    BOOST_TEST(has(page, "<code>gone</code>"));
}

BOOST_AUTO_TEST_CASE(texts_of_a_file_are_never_markup) {
    const Shelf shelf;
    static_cast<void>(shelf.faults());
    const std::string page = shelf.page();
    BOOST_TEST(!has(page, "<b>leaking"));
    BOOST_TEST(!has(page, "<i>pipe"));
    BOOST_TEST(has(page, "A &lt;b&gt;leaking&lt;/b&gt; valve &amp; more"));
    BOOST_TEST(has(page, "collector_reading_c &gt; air_c + 3 K"));
}

BOOST_AUTO_TEST_CASE(the_page_is_one_file_without_scripts_and_without_a_network) {
    const Shelf shelf;
    static_cast<void>(shelf.faults());
    for (const char* forbidden : {"http", "src=", "<script", "<link", "@import", "url(\"", "<img"})
        BOOST_TEST(!has(shelf.page(), forbidden), forbidden);
}

BOOST_AUTO_TEST_CASE(no_line_has_more_than_300_points) {
    const Shelf shelf;
    static_cast<void>(shelf.faults());
    const std::string page = shelf.page();
    std::size_t most = 0;
    for (std::size_t at = page.find("<path class=\"line"); at != std::string::npos;
         at = page.find("<path class=\"line", at + 1)) {
        const std::string path = page.substr(at, page.find("/>", at) - at);
        const auto is_point = [](char c) { return c == 'M' || c == 'L'; };
        most = std::max(
            most, static_cast<std::size_t>(std::count_if(path.begin(), path.end(), is_point)));
    }
    BOOST_TEST(most <= 300U);
    BOOST_TEST(most > 250U, "two hours to the second fill the drawing");
}

BOOST_AUTO_TEST_CASE(one_or_two_at_a_time_give_the_same_bytes) {
    const Shelf shelf;
    static_cast<void>(shelf.faults({"--jobs", "1", "--into", "one"}));
    static_cast<void>(shelf.faults({"--jobs", "2", "--into", "two"}));
    BOOST_TEST(shelf.page("one").size() > 10000U);
    BOOST_TEST((shelf.page("one") == shelf.page("two")));
}

BOOST_AUTO_TEST_CASE(a_requirement_that_fails_is_said_and_the_page_is_there) {
    const Shelf shelf;
    std::string yaml = leaking("A valve", "");
    yaml.replace(yaml.find("3 K"), 3, "90 K");
    shelf.bay.write("mild.yaml", yaml);
    const Finished f = noonbench_in(shelf.bay, {"faults", "mild.yaml", "shelf/faults/leak.yaml"});
    BOOST_TEST(f.exit_code == 1, f.out + f.err);
    BOOST_TEST(has(f.out, "!!  mild.yaml: \"warmer than the air\": not held, by "), f.out);
    BOOST_TEST(count(f.out, "!!") == 1U, f.out);
    BOOST_TEST(has(card_of(shelf.page(), "mild"), "does not show what the file claims"));
    BOOST_TEST(!has(card_of(shelf.page(), "leak"), "does not show what the file claims"));
    BOOST_TEST(has(shelf.page(), "✗ not as claimed"));
}

BOOST_AUTO_TEST_CASE(what_also_holds_in_the_twin_is_said) {
    const Bay bay;
    std::string yaml = leaking("A valve", "");
    yaml.replace(yaml.find("at 01:30"),
                 std::string_view("at 01:30, collector_reading_c > air_c + 3 K").size(),
                 "never pump_relay is on");
    bay.write("idle.yaml", yaml);
    const Finished f = noonbench_in(bay, {"faults", "idle.yaml"});
    BOOST_TEST(f.exit_code == 1, f.out + f.err);
    BOOST_TEST(has(f.out, "\"warmer than the air\" must fail in the healthy twin, and is held"),
               f.out);
    BOOST_TEST(has(card_of(content_of(bay / "out/faults/index.html"), "idle"), "must fail there"));
}

BOOST_AUTO_TEST_CASE(a_bad_file_stops_all_before_the_first_run) {
    const Shelf shelf;
    shelf.bay.write("day.yaml", "length: 1 h\n");
    shelf.bay.write("bad.yaml", leaking("A valve", "") + "lenght: 2 h\n");
    const Finished f =
        noonbench_in(shelf.bay, {"faults", "shelf/faults", "day.yaml", "bad.yaml", "none.yaml"});
    BOOST_TEST(f.exit_code == 2);
    BOOST_TEST(has(f.err, "day.yaml: tells of no fault; allowed: a scenario with a section fault:"),
               f.err);
    BOOST_TEST(has(f.err, "bad.yaml:22:1: "), f.err);
    BOOST_TEST(has(f.err, "none.yaml"), f.err);
    BOOST_TEST(shelf.bay.files().size() == 5U, "nothing is left behind");
}

BOOST_AUTO_TEST_CASE(two_files_of_one_name_are_refused_and_so_is_a_shelf_that_is_none) {
    const Shelf shelf;
    shelf.bay.write("leak.yaml", leaking("Another", ""));
    const Finished f = noonbench_in(shelf.bay, {"faults", "shelf/faults", "leak.yaml"});
    BOOST_TEST(f.exit_code == 2);
    BOOST_TEST(has(f.err, "leak.yaml: has the name of shelf/faults/leak.yaml"), f.err);
    const Finished nowhere = noonbench_in(shelf.bay, {"faults", "--shelf", "nowhere"});
    BOOST_TEST(nowhere.exit_code == 2);
    BOOST_TEST(has(nowhere.err, "nowhere/faults: is no folder"), nowhere.err);
}

BOOST_AUTO_TEST_SUITE_END()
