// SPDX-License-Identifier: MIT
// Bands of what nobody knows exactly: read, checked, laid over a scenario, and written out again.
#include "program.hpp"

#include "harness/hunt/space.hpp"
#include "harness/scenario/band.hpp"
#include "harness/scenario/compose.hpp"
#include "harness/scenario/key_lookup.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/read_checks.hpp"

#include <boost/test/unit_test.hpp>

#include <filesystem>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace not_known {
BOOST_AUTO_TEST_SUITE(uncertain)

namespace {

using namespace noonbench::harness;
using noonbench::harness::testing::Bay;

const std::filesystem::path shelf = std::filesystem::path(NOONBENCH_SOURCE_DIR) / "scenarios";

constexpr std::string_view two_clouds = R"(start: 2026-04-15 06:00
length: 8 h
loop:
  pump: {full_flow: 3 l/min}
sky:
  clear_day:
    clouds:
      - {from: "10:00", lasts: 5 min}
      - {from: "11:00"}
)";

/// The one band of an item `{key: ..., least: ..., most: ...}`.
Band band_of(const std::string& item) {
    const Scenario scenario = read_scenario_text("uncertain:\n  - " + item + "\n", "test.yaml");
    std::vector<Objection> objections;
    return understood_band(scenario.uncertain.at(0), objections).value();
}

std::string complaint(const std::string& yaml) {
    try {
        (void)read_scenario_text(yaml, "test.yaml");
    } catch (const InputRefused& refused) {
        return refused.what();
    }
    return "no complaint";
}

std::string item_complaint(const std::string& item) {
    return complaint("uncertain:\n  - " + item + "\n");
}

bool has(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

/// Same kinds, texts and order; places aside.
bool same(const Node& a, const Node& b) {
    if (a.kind != b.kind || a.text != b.text || a.items.size() != b.items.size() ||
        a.entries.size() != b.entries.size())
        return false;
    for (std::size_t i = 0; i < a.items.size(); ++i)
        if (!same(a.items[i], b.items[i])) return false;
    for (std::size_t i = 0; i < a.entries.size(); ++i)
        if (a.entries[i].key != b.entries[i].key || !same(a.entries[i].value, b.entries[i].value))
            return false;
    return true;
}

struct Space {
    Node root;
    Scenario scenario;
    std::vector<Dimension> dimensions;
    Space(std::string_view yaml, const std::string& items)
        : root(compose_text(std::string(yaml) + "uncertain:\n" + items, "test.yaml")),
          scenario(read_scenario_tree(root, "test.yaml")),
          dimensions(dimensions_of(scenario.uncertain, root, scenario)) {}
    [[nodiscard]] std::vector<std::string> texts(const std::vector<double>& point) const {
        return texts_at(dimensions, snapped(dimensions, point));
    }
};

std::string refusal(std::string_view yaml, const std::string& items) {
    try {
        const Space space(yaml, items);
    } catch (const InputRefused& refused) {
        return refused.what();
    }
    return "no refusal";
}

}  // namespace

BOOST_AUTO_TEST_CASE(values_between_are_written_as_a_person_would) {
    const Band flow = band_of("{key: loop.pump.full_flow, least: 2.2 l/min, most: 3 l/min}");
    BOOST_TEST(written(flow, on_grid(flow, 2.61384)) == "2.614 l/min");
    BOOST_TEST(written(flow, on_grid(flow, 2.5)) == "2.5 l/min");
    BOOST_TEST(written(flow, on_grid(flow, 7.0)) == "3 l/min");
    const Band lasts = band_of("{key: sky.clear_day.clouds.3.lasts, least: 2 min, most: 0.2 h}");
    BOOST_TEST(written(lasts, on_grid(lasts, 200.13847)) == "200 s");
    BOOST_TEST(written(lasts, on_grid(lasts, 240.2)) == "4 min");
    BOOST_TEST(written(lasts, on_grid(lasts, 1e9)) == "0.2 h");
    const Band from =
        band_of(R"({key: sky.clear_day.clouds.0.from, least: "09:30", most: "11:00"})");
    BOOST_TEST(written(from, on_grid(from, 36000.4)) == "10:00");
    BOOST_TEST(written(from, on_grid(from, 36001.4)) == "10:00:01");
    const Band setting = band_of("{key: controller.start_difference, least: 5 K, most: 9 K}");
    BOOST_TEST(written(setting, on_grid(setting, 6.7)) == "6.5 K");
    const Band window =
        band_of(R"({key: controller.window_1_from, least: "05:00", most: "07:00"})");
    BOOST_TEST(written(window, on_grid(window, 6.0 * 3600 + 500)) == "06:15");
    const Band lever = band_of("{lever: coil_fouling, least: 70 %, most: 100 %}");
    BOOST_TEST(written(lever, on_grid(lever, 83.333)) == "83.3 %");
    const Band people = band_of("{key: household.people, least: 2, most: 6}");
    BOOST_TEST(written(people, on_grid(people, 3.4)) == "3");
}

BOOST_AUTO_TEST_CASE(what_is_wrong_is_said_with_its_place) {
    BOOST_TEST(
        has(item_complaint("{key: loop.pump.full_flw, least: 1 l/min, most: 2 l/min}"),
            "test.yaml:2:11: uncertain: there is no key \"loop.pump.full_flw\" (did you mean "
            "loop.pump.full_flow?)"));
    BOOST_TEST(has(item_complaint("{key: full_flow, least: 1 l/min, most: 2 l/min}"),
                   "did you mean loop.pump.full_flow?"));
    BOOST_TEST(has(item_complaint("{lever: coil_foulin, least: 70 %, most: 1}"),
                   "test.yaml:2:13: uncertain: there is no lever \"coil_foulin\" (did you mean "
                   "coil_fouling?)"));
    BOOST_TEST(has(item_complaint("{lever: pump_healthy, least: 0, most: 1}"), "is a switch"));
    BOOST_TEST(has(item_complaint("{key: backup.kind, least: none, most: boiler}"),
                   "neither a number nor a time"));
    BOOST_TEST(has(item_complaint("{key: controller.window_1_days, least: never, most: monday}"),
                   "neither a number nor a time"));
    BOOST_TEST(has(item_complaint("{key: store.volume, least: 300 l, most: 200 l}"),
                   "test.yaml:2:45: uncertain: \"200 l\" is not above least"));
    BOOST_TEST(has(item_complaint("{key: store.volume, least: 300 K, most: 400 l}"),
                   "test.yaml:2:32: uncertain: \"K\" is not a unit of"));
    BOOST_TEST(has(item_complaint("{key: controller.start_difference, least: 5.3 K, most: 9 K}"),
                   "lies between two steps"));
    BOOST_TEST(has(item_complaint("{least: 1, most: 2}"), "exactly one of key, lever"));
    BOOST_TEST(has(item_complaint("{key: seed, lever: coil_fouling, least: 1, most: 2}"),
                   "exactly one of key, lever"));
    BOOST_TEST(has(item_complaint("{key: seed, least: 1}"), "uncertain.most is missing"));
    BOOST_TEST(has(item_complaint("{lever: coil_fouling, least: 70 %, most: 1}"), "two units"));
}

BOOST_AUTO_TEST_CASE(the_usual_point_is_what_the_scenario_says) {
    const Space space(two_clouds, R"(
  - {key: sky.clear_day.clouds.0.from, least: "09:30", most: "11:00"}
  - {key: sky.clear_day.clouds.1.lasts, least: 5 min, most: 20 min}
  - {key: loop.pump.full_flow, least: 2.2 l/min, most: 2.8 l/min}
  - {key: wiring.collector.offset, least: -1 K, most: 1 K}
  - {key: controller.stop_difference, least: 2 K, most: 5 K}
  - {lever: flow_factor, least: 85 %, most: 115 %}
)");
    BOOST_TEST(space.dimensions[0].usual_text == "10:00");
    BOOST_TEST(space.dimensions[1].usual_text == "10 min");  // the cloud's default
    BOOST_TEST(space.dimensions[2].usual_text == "3 l/min");
    BOOST_TEST(space.dimensions[2].nominal_text == "2.8 l/min");  // outside: the nearest end
    BOOST_TEST(space.dimensions[3].usual_text == "0 K");
    BOOST_TEST(space.dimensions[5].usual_text == "100 %");
    const std::vector<double> nominal = nominal_point(space.dimensions);
    BOOST_TEST(nominal[2] == 1.0);
    BOOST_TEST((snapped(space.dimensions, nominal) == nominal));
    for (std::size_t i = 0; i < nominal.size(); ++i)
        BOOST_TEST(space.texts(nominal)[i] == space.dimensions[i].nominal_text);
}

BOOST_AUTO_TEST_CASE(a_point_becomes_values_of_the_scenario) {
    const Space space(two_clouds, R"(
  - {key: sky.clear_day.clouds.1.from, least: "10:30", most: "11:30"}
  - {key: loop.pump.full_flow, least: 2.2 l/min, most: 3.2 l/min}
  - {lever: coil_fouling, least: 70 %, most: 100 %}
)");
    const std::vector<double> point = snapped(space.dimensions, std::vector{0.0, 0.25, 0.5});
    const Scenario there =
        read_scenario_tree(tree_at(space.dimensions, point, space.root), "there.yaml");
    BOOST_TEST(there.sky.clear_day.clouds.at(1).from_s - there.start_s == 4.5 * 3600);
    BOOST_TEST(there.sky.clear_day.clouds.at(0).from_s - there.start_s == 4 * 3600);
    BOOST_TEST(there.plant.loop.pump.full_flow_m3_s == 2.45 / 60000.0);
    BOOST_REQUIRE(there.moves.size() == 1);
    BOOST_TEST(std::get<LeverMove>(there.moves[0].what).to == 0.85);
    BOOST_TEST(there.moves[0].at_s == there.start_s);
}

BOOST_AUTO_TEST_CASE(snapping_twice_changes_nothing) {
    const Space space(two_clouds, R"(
  - {key: sky.clear_day.clouds.1.from, least: "10:30", most: "11:30"}
  - {key: loop.pump.full_flow, least: 2.17 l/min, most: 3.2 l/min}
  - {key: wiring.collector.offset, least: -1 K, most: 1 K}
)");
    for (int i = 0; i <= 1000; ++i) {
        const double u = i / 1000.0;
        const auto once = snapped(space.dimensions, std::vector{u, u, u});
        BOOST_TEST((snapped(space.dimensions, once) == once), "at " << u);
    }
}

BOOST_AUTO_TEST_CASE(bands_that_do_not_fit_the_scenario_are_refused) {
    BOOST_TEST(has(refusal(two_clouds, R"(
  - {key: sky.clear_day.clouds.2.from, least: "10:30", most: "11:30"}
)"),
                   "test.yaml:12:11: \"sky.clear_day.clouds.2.from\" holds no such value"));
    BOOST_TEST(has(refusal("sky: {seeded_year: {climate: average}}\nlength: 1 day\n",
                           "  - {key: sky.clear_day.turbidity, least: 3, most: 5}\n"),
                   "sky.clear_day.turbidity would take the place of sky.seeded_year"));
    BOOST_TEST(has(refusal(two_clouds,
                           "  - {key: store.volume, least: 200 l, most: 300 l}\n"
                           "  - {key: store.volume, least: 200 l, most: 400 l}\n"),
                   "\"store.volume\" is uncertain a second time"));
}

BOOST_AUTO_TEST_CASE(the_scenarios_own_band_lies_over_the_usual_one) {
    const std::vector<Uncertain> usual = read_bands(shelf / "bands" / "usual_site.yaml").uncertain;
    BOOST_TEST(usual.size() == 13);
    const Space own(two_clouds, "  - {lever: flow_factor, least: 50 %, most: 150 %}\n");
    const auto both = laid_over(usual, own.scenario.uncertain);
    BOOST_TEST(both.size() == 13);
    BOOST_TEST(both.back().least == "50 %");
    for (const Uncertain& each : both) BOOST_TEST(each.least != "85 %");
}

BOOST_AUTO_TEST_CASE(the_usual_bands_fit_every_day_on_the_shelf) {
    const std::vector<Uncertain> usual = read_bands(shelf / "bands" / "usual_site.yaml").uncertain;
    for (const auto& entry : std::filesystem::directory_iterator(shelf / "days")) {
        BOOST_TEST_CONTEXT(entry.path().string()) {
            const Node root = composed_tree(entry.path());
            const Scenario scenario = read_scenario_tree(root, entry.path());
            const auto dimensions = dimensions_of(usual, root, scenario);
            for (const double u : {0.0, 1.0}) {
                const std::vector<double> corner(dimensions.size(), u);
                BOOST_CHECK_NO_THROW((void)read_scenario_tree(
                    tree_at(dimensions, snapped(dimensions, corner), root), entry.path()));
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(a_file_of_bands_holds_nothing_else) {
    const Bay bay;
    const auto file = bay.write("bands.yaml", "store: {volume: 300 l}\n");
    BOOST_CHECK_THROW((void)read_bands(file), InputRefused);
}

BOOST_AUTO_TEST_CASE(every_scenario_on_the_shelf_is_written_and_read_back_alike) {
    int count = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(shelf)) {
        if (entry.path().extension() != ".yaml") continue;
        ++count;
        BOOST_TEST_CONTEXT(entry.path().string()) {
            const Node root = composed_tree(entry.path());
            const std::string text = yaml_text(root);
            BOOST_TEST(same(root, parse_yaml(text, "written.yaml")), text);
        }
    }
    BOOST_TEST(count > 20);
}

BOOST_AUTO_TEST_CASE(awkward_texts_are_written_and_read_back_alike) {
    Node list;
    list.kind = Node::Kind::list;
    for (const char* text : {"",
                             "06:30",
                             "null",
                             "~",
                             "yes",
                             "off",
                             "- dash",
                             "# hash",
                             "a: b",
                             "quote \" in it",
                             "it's",
                             " blank before",
                             "blank after ",
                             "two\nlines",
                             "a paragraph\nof two\n",
                             "ends in two\n\n",
                             "\nbegins with one\n",
                             "tab\there",
                             "[1, 2]",
                             "{a: b}",
                             "100 %",
                             "%x",
                             "@at",
                             "`tick",
                             "\xC3\xA9t\xC3\xA9",
                             "1e5",
                             "0x10",
                             "!tag",
                             "&anchor",
                             "*alias",
                             "| bar",
                             "> fold",
                             "trailing: ",
                             "key:",
                             "? q",
                             "a, b",
                             "---",
                             "..."}) {
        Node item;
        item.kind = Node::Kind::scalar;
        item.text = text;
        list.items.push_back(item);
        Node map;
        map.kind = Node::Kind::map;
        for (const char* key : {"key", "other"}) {
            Entry& entry = map.entries.emplace_back();
            entry.key = key;
            entry.value = item;
        }
        list.items.push_back(map);
    }
    Node empty;
    empty.kind = Node::Kind::list;
    list.items.push_back(empty);
    empty.kind = Node::Kind::map;
    list.items.push_back(empty);
    list.items.push_back({});
    const Node back = parse_yaml(yaml_text(list), "written.yaml");
    BOOST_REQUIRE(back.items.size() == list.items.size());
    for (std::size_t i = 0; i < list.items.size(); ++i)
        BOOST_TEST(same(list.items[i], back.items[i]),
                   "item " << i << ": " << list.items[i].text << " became " << back.items[i].text);
}

BOOST_AUTO_TEST_CASE(the_weather_file_is_still_found_from_another_folder) {
    const Bay bay;
    (void)bay.write("weather/year.epw", "not read here\n");
    const auto file = bay.write("a/b/day.yaml", "sky: {weather: {file: ../../weather/year.epw}}\n");
    Node root = composed_tree(file);
    move_to_folder(root, bay / "out");
    const auto moved = bay.write("out/day.yaml", yaml_text(root));
    BOOST_TEST(std::filesystem::equivalent(read_scenario(moved).sky.weather_file.path,
                                           bay / "weather/year.epw"));
    BOOST_TEST(has(noonbench::harness::testing::content_of(moved), "../weather/year.epw"));
}

BOOST_AUTO_TEST_SUITE_END()
}  // namespace not_known
