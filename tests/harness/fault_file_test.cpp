// SPDX-License-Identifier: MIT
// Fault files: what is refused, what the healthy twin leaves out, what the shelf holds.
#include "bench_days.hpp"

#include "harness/scenario/read.hpp"
#include "harness/scenario/twin.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <variant>
#include <vector>

BOOST_AUTO_TEST_SUITE(fault_file)

using namespace noonbench;
using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

/// A fault section with everything that must be given; `more` comes last, indented by two blanks.
std::string section(const std::string& more = {}) {
    return "fault:\n"
           "  customer_says: Cold.\n"
           "  log_shows: Flat.\n"
           "  on_site: Still.\n"
           "  measure_first: Look.\n"
           "  remedy: Renew.\n"
           "  caution: Hot.\n"
           "  onset: gradual\n" +
           more;
}
constexpr int next_line = 9;  // of `more`, where the section begins the file

std::string refusal(const std::string& yaml) {
    try {
        static_cast<void>(read_scenario_text(yaml, "f.yaml"));
    } catch (const InputRefused& refused) {
        return refused.what();
    }
    return {};
}

bool begins(const std::string& text, const std::string& with) {
    return text.compare(0, with.size(), with) == 0;
}

std::string range(const std::string& item) {
    return refusal(section("  ranges:\n    - {" + item + "}\n"));
}

struct File {
    std::filesystem::path path =
        std::filesystem::temp_directory_path() /
        ("noonbench_" + boost::unit_test::framework::current_test_case().p_name.get() + ".yaml");
    explicit File(const std::string& yaml) { std::ofstream(path, std::ios::binary) << yaml; }
    ~File() { std::filesystem::remove(path); }
    File(const File&) = delete;
    File& operator=(const File&) = delete;
};

constexpr const char* two_moves = R"(title: Leak
about: It leaks.
controller: {start_difference: 3 K, stop_difference: 2 K}
faults:
  - name: leak
    moves: [{lever: check_valve_leak, to: 0.3}]
moves:
  - {hand: pump, to: off, at: "14:00"}
  - {lever: glass_clearness, to: 90 %}
)";

}  // namespace

namespace {

// A hand left on has no range.
bool moves_a_hand(const Scenario& s) {
    return std::any_of(s.moves.begin(), s.moves.end(), [](const Move& move) {
        return !move.fault.empty() && std::holds_alternative<HandMove>(move.what);
    });
}

}  // namespace

BOOST_AUTO_TEST_CASE(what_is_told_stands_in_the_scenario) {
    const Scenario s =
        read_scenario_text(section("  nothing_wrong: yes\n"
                                   "  bench_differs: No.\n"
                                   "  looks_like: [a_leak, b_2]\n"
                                   "  ranges:\n"
                                   "    - {lever: check_valve_leak, least: 5 %, most: 60 %}\n"
                                   "    - {wire: collector.state, to: open}\n"
                                   "    - {setting: start_difference, least: 2 K, most: 4 K}\n"
                                   "    - {key: loop.glycol_share, least: 10 %, most: 25 %}\n"
                                   "  twin: [roof.slope=40 deg]\n"),
                           "f.yaml");
    BOOST_TEST_REQUIRE(s.fault.has_value());
    const FaultText& f = *s.fault;
    BOOST_TEST(f.customer_says == "Cold.");
    BOOST_TEST(f.log_shows == "Flat.");
    BOOST_TEST(f.on_site == "Still.");
    BOOST_TEST(f.measure_first == "Look.");
    BOOST_TEST(f.remedy == "Renew.");
    BOOST_TEST(f.caution == "Hot.");
    BOOST_TEST((f.onset == Onset::gradual));
    BOOST_TEST(f.nothing_wrong);
    BOOST_TEST(f.bench_differs == "No.");
    BOOST_TEST(f.looks_like == (std::vector<std::string>{"a_leak", "b_2"}),
               boost::test_tools::per_element());
    BOOST_TEST_REQUIRE(f.ranges.size() == 4U);
    BOOST_TEST((f.ranges[0].kind == RangeKind::lever));
    BOOST_TEST(f.ranges[0].least == "5 %");
    BOOST_TEST(f.ranges[0].most == "60 %");
    BOOST_TEST(f.ranges[0].place.line == next_line + 4);
    BOOST_TEST((f.ranges[1].kind == RangeKind::wire));
    BOOST_TEST(f.ranges[1].to == "open");
    BOOST_TEST((f.ranges[2].kind == RangeKind::setting));
    BOOST_TEST((f.ranges[3].kind == RangeKind::key));
    BOOST_TEST(f.ranges[3].name == "loop.glycol_share");
    BOOST_TEST_REQUIRE(f.twin.size() == 1U);
    BOOST_TEST(f.twin[0].set == "roof.slope=40 deg");
    BOOST_TEST(f.twin[0].place.column == 10);
}

BOOST_AUTO_TEST_CASE(a_scenario_without_the_section_tells_no_fault) {
    BOOST_TEST(!read_scenario_text("title: A day\n", "f.yaml").fault.has_value());
}

BOOST_AUTO_TEST_CASE(texts_must_be_given_and_say_something) {
    const std::string bare = refusal("fault:\n  onset: sudden\n");
    for (const char* key :
         {"customer_says", "log_shows", "on_site", "measure_first", "remedy", "caution"}) {
        BOOST_TEST(
            bare.find(std::string("f.yaml:2:3: fault.") + key + " is missing") != std::string::npos,
            bare);
    }
    std::string silent = section();
    silent.replace(silent.find("Cold."), 5, "\" \"");
    BOOST_TEST(refusal(silent) ==
               "f.yaml:2:18: fault.customer_says: nothing is said; allowed: a sentence or two\n");
    std::string harmless = section();
    harmless.replace(harmless.find("Hot."), 4, "\"\"");
    BOOST_TEST(refusal(harmless) == "");
}

BOOST_AUTO_TEST_CASE(a_wrong_onset_is_answered_with_the_words) {
    std::string yaml = section();
    yaml.replace(yaml.find("gradual"), 7, "slowly");
    BOOST_TEST(refusal(yaml) ==
               "f.yaml:8:10: fault.onset: \"slowly\" is not one of the words; allowed: sudden, "
               "gradual, after_service, with_weather, from_the_start\n");
}

BOOST_AUTO_TEST_CASE(a_range_names_one_thing_that_is_known) {
    BOOST_TEST(begins(range("lever: check_valve_leek, least: 0.1, most: 0.2"),
                      "f.yaml:10:15: fault.ranges: there is no lever \"check_valve_leek\" (did you "
                      "mean check_valve_leak?); allowed: "));
    BOOST_TEST(begins(range("wire: collector.offst, least: 1 K, most: 2 K"),
                      "f.yaml:10:14: fault.ranges: there is no wire \"collector.offst\" (did you "
                      "mean collector.offset?); allowed: "));
    BOOST_TEST(begins(range("setting: start_diference, least: 2 K, most: 4 K"),
                      "f.yaml:10:17: fault.ranges: there is no setting \"start_diference\" (did "
                      "you mean start_difference?); allowed: "));
    BOOST_TEST(range("key: roof.slop, least: 1 deg, most: 2 deg") ==
               "f.yaml:10:13: fault.ranges: there is no key \"roof.slop\" (did you mean "
               "roof.slope?); allowed: a path of `noonbench list keys`, items of lists by "
               "number\n");
    BOOST_TEST(range("least: 1, most: 2") ==
               "f.yaml:10:7: fault.ranges: a range names 0 things that the fault moves; allowed: "
               "exactly one of lever, wire, setting, key\n");
    BOOST_TEST(begins(range("lever: flow_factor, wire: speed_wire, to: no"),
                      "f.yaml:10:7: fault.ranges: a range names 2 things"));
}

BOOST_AUTO_TEST_CASE(a_range_lies_within_what_its_thing_takes_in_its_unit) {
    BOOST_TEST(range("lever: check_valve_leak, least: 0.1, most: 2") ==
               "f.yaml:10:51: fault.ranges: 2 is out of range; allowed: 0 to 1\n");
    BOOST_TEST(begins(range("wire: collector.offset, least: 1 ohm, most: 2 K"),
                      "f.yaml:10:39: fault.ranges: "));
    BOOST_TEST(begins(range("setting: start_difference, least: 2 K, most: 99 K"),
                      "f.yaml:10:53: fault.ranges: "));
    BOOST_TEST(
        begins(range("key: roof.slope, least: 1 deg, most: 2 m"), "f.yaml:10:45: fault.ranges: "));
    BOOST_TEST(begins(range("wire: collector.state, to: torn"), "f.yaml:10:35: fault.ranges: "));
    BOOST_TEST(begins(range("key: backup.kind, to: sun"), "f.yaml:10:30: fault.ranges: "));
}

BOOST_AUTO_TEST_CASE(a_lever_is_moved_in_the_unit_of_its_table) {
    const Scenario s = read_scenario_text(
        "moves: [{lever: loop_leak, to: 5 l/day}, {lever: lost_fluid_m3, to: 2 l}]\n" +
            section("  ranges: [{lever: loop_leak, least: 0.2 l/day, most: 20 l/day}]\n"),
        "f.yaml");
    BOOST_CHECK_CLOSE(std::get<LeverMove>(s.moves[0].what).to, 5.0, 1e-9);
    BOOST_CHECK_CLOSE(std::get<LeverMove>(s.moves[1].what).to, 0.002, 1e-9);
    BOOST_TEST(s.fault->ranges.size() == 1U);
    BOOST_TEST(begins(range("lever: loop_leak, least: 1 l/day, most: 300 l/day"),
                      "f.yaml:10:48: fault.ranges: "));
}

BOOST_AUTO_TEST_CASE(least_lies_below_most_whatever_is_moved) {
    BOOST_TEST(range("lever: check_valve_leak, least: 0.6, most: 0.1") ==
               "f.yaml:10:51: fault.ranges: \"0.1\" is not above least; allowed: more than 0.6\n");
    BOOST_TEST(
        range("wire: collector.lead_resistance, least: 1 kohm, most: 40 ohm") ==
        "f.yaml:10:62: fault.ranges: \"40 ohm\" is not above least; allowed: more than 1 kohm\n");
    BOOST_TEST(range("setting: start_difference, least: 4 K, most: 4 K") ==
               "f.yaml:10:53: fault.ranges: \"4 K\" is not above least; allowed: more than 4 K\n");
    BOOST_TEST(range("key: loop.glycol_share, least: 30 %, most: 20 %") ==
               "f.yaml:10:51: fault.ranges: \"20 %\" is not above least; allowed: more than 30 "
               "%\n");
    BOOST_TEST(begins(range("lever: check_valve_leak, least: 0.6"),
                      "f.yaml:10:15: fault.ranges: \"check_valve_leak\" has no range; allowed: "
                      "least and most, or `to` alone"));
    BOOST_TEST(begins(range("lever: check_valve_leak, least: 0.1, most: 0.6, to: 0.2"),
                      "f.yaml:10:15: fault.ranges: "));
}

BOOST_AUTO_TEST_CASE(a_twin_is_made_of_overrides_that_the_scenario_takes) {
    const auto twin = [](const std::string& set) {
        return refusal(section("  twin: [roof.slope=40 deg, \"" + set + "\"]\n"));
    };
    BOOST_TEST(twin("roof.azimuth=180 deg") == "");
    BOOST_TEST(twin("moves=[]") == "");
    BOOST_TEST(twin("roof.azimuth") ==
               "f.yaml:9:29: there is no key or no =; allowed: path.to.key=VALUE\n");
    BOOST_TEST(begins(twin("roof.azimut=180 deg"),
                      "f.yaml:9:29: \"azimut\" is not a key of roof (did you mean azimuth?)"));
    BOOST_TEST(begins(twin("roof.azimuth=180 K"), "f.yaml:9:29: roof.azimuth: "));
}

BOOST_AUTO_TEST_CASE(a_fault_has_a_name_else_its_moves_would_pass_for_plain_ones) {
    BOOST_TEST(refusal("faults: {name: \"\", moves: [{lever: flow_factor, to: 0}]}\n") ==
               "f.yaml:1:16: faults.name: the fault has no name; allowed: a few words\n");
}

BOOST_AUTO_TEST_CASE(looks_like_wants_names_of_files) {
    BOOST_TEST(refusal(section("  looks_like: [good, ../bad.yaml]\n")) ==
               "f.yaml:9:22: fault.looks_like: \"../bad.yaml\" is not the name of a fault file; "
               "allowed: the file's name without folder and .yaml\n");
}

BOOST_AUTO_TEST_CASE(healthy_stands_alone_and_where_there_is_a_twin) {
    const std::string asked = "require:\n  - {name: a, that: never pump_relay is on, fails_with: ";
    const std::string fault = "faults: {name: f, moves: [{lever: flow_factor, to: 0}]}\n";
    BOOST_TEST(refusal(fault + asked + "[healthy]}\n") == "");
    BOOST_TEST(begins(refusal(asked + "[healthy]}\n"),
                      "f.yaml:2:58: this scenario has no healthy twin in which something could "
                      "fail; allowed: "));
    BOOST_TEST(refusal(fault + asked + "[seed=3, healthy]}\n") ==
               "f.yaml:3:66: require.fails_with: healthy stands beside other changes; allowed: "
               "healthy alone, or overrides\n");
}

BOOST_AUTO_TEST_CASE(the_twin_leaves_out_just_what_the_faults_move) {
    const File file(two_moves + section("  twin: [controller.start_difference=8 K, "
                                        "controller.stop_difference=4 K]\n"));
    const Scenario sick = read_scenario(file.path);
    const Scenario twin = healthy_twin(file.path);
    BOOST_TEST(sick.moves.size() == 3U);
    BOOST_TEST_REQUIRE(twin.moves.size() == 2U);
    BOOST_TEST(std::get<LeverMove>(twin.moves[0].what).lever == "glass_clearness");
    BOOST_TEST(std::holds_alternative<HandMove>(twin.moves[1].what));
    BOOST_TEST(sick.controller.settings[firmware::Setting::start_difference] == 300);
    BOOST_TEST(twin.controller.settings[firmware::Setting::start_difference] == 800);
    BOOST_TEST(!twin.fault.has_value());
    BOOST_TEST(twin.name == sick.name + "_healthy");
    BOOST_TEST(twin.about.find("leaks") == std::string::npos);
    BOOST_TEST(twin.seed == sick.seed);
    BOOST_TEST(twin.start_s == sick.start_s);
}

BOOST_AUTO_TEST_CASE(what_the_twin_says_comes_after_the_command_line) {
    const File file(section("  twin: [roof.slope=40 deg]\n"));
    const std::vector<std::string> sets{"roof.slope=10 deg", "roof.azimuth=90 deg"};
    const plant::Row row = healthy_twin(file.path, sets).plant.rows[0];
    BOOST_CHECK_CLOSE(row.slope_rad * 180.0 / 3.14159265358979, 40.0, 1e-9);
    BOOST_CHECK_CLOSE(row.azimuth_rad * 180.0 / 3.14159265358979, 90.0, 1e-9);
}

BOOST_AUTO_TEST_CASE(a_scenario_without_a_fault_has_no_twin) {
    const auto answer = [](const std::string& yaml) -> std::string {
        const File file(yaml);
        try {
            static_cast<void>(healthy_twin(file.path));
        } catch (const InputRefused& refused) {
            return refused.what();
        }
        return {};
    };
    BOOST_TEST(answer("title: A day\n").find("has no healthy twin: it shows no fault") !=
               std::string::npos);
    BOOST_TEST(answer(section()).find("has no healthy twin: its fault changes nothing") !=
               std::string::npos);
}

BOOST_AUTO_TEST_CASE(every_fault_file_on_the_shelf_tells_a_whole_story) {
    int files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(shelf() / "faults")) {
        if (entry.path().extension() != ".yaml") continue;
        ++files;
        BOOST_TEST_CONTEXT(entry.path().filename().string()) {
            const Scenario s = read_scenario(entry.path());
            BOOST_TEST_REQUIRE(s.fault.has_value());
            BOOST_TEST(!s.title.empty());
            BOOST_TEST(s.require.size() >= 1U);
            BOOST_TEST((s.fault->nothing_wrong || has_twin(s)));
            BOOST_TEST((s.fault->nothing_wrong || moves_a_hand(s) || !s.fault->ranges.empty()));
            for (const std::string& other : s.fault->looks_like) {
                BOOST_TEST(other != s.name);
                BOOST_TEST(std::filesystem::exists(shelf() / "faults" / (other + ".yaml")),
                           "looks_like: there is no " + other + ".yaml");
            }
        }
    }
    BOOST_TEST(files > 0);
}

BOOST_AUTO_TEST_SUITE_END()
