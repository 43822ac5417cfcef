// SPDX-License-Identifier: MIT
// Every kind of bad input and the exact text that answers it.
#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(bad_input)

namespace {

using namespace noonbench::harness;

/// The text of the refusal; "" if there is none.
std::string refusal(std::string_view yaml, const std::vector<std::string>& sets = {}) {
    try {
        (void)read_scenario_text(yaml, "bad.yaml", sets);
    } catch (const InputRefused& refused) {
        return refused.what();
    }
    return {};
}

std::string refusal_of_file(const std::filesystem::path& file) {
    try {
        (void)read_scenario(file);
    } catch (const InputRefused& refused) {
        return refused.what();
    }
    return {};
}

bool begins(const std::string& text, const std::string& with) {
    BOOST_TEST_MESSAGE(text.substr(0, 300));
    return text.compare(0, with.size(), with) == 0;
}

std::size_t lines(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

struct Folder {
    std::filesystem::path path =
        std::filesystem::temp_directory_path() /
        ("noonbench_bad_" + boost::unit_test::framework::current_test_case().p_name.get());
    Folder() {
        std::filesystem::remove_all(path);
        std::filesystem::create_directories(path);
    }
    ~Folder() { std::filesystem::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string write(const std::string& name, const std::string& text) const {
        std::ofstream(path / name, std::ios::binary) << text;
        return (path / name).string();
    }
    std::string name(const std::string& of) const { return (path / of).string(); }
};

std::string repeated(const std::string& text, std::size_t times) {
    std::string all;
    all.reserve(text.size() * times);
    for (std::size_t i = 0; i < times; ++i) all += text;
    return all;
}

}  // namespace

BOOST_AUTO_TEST_CASE(an_unknown_key_is_named_with_its_neighbour) {
    BOOST_TEST(refusal("store:\n  volum: 300 l\n") ==
               "bad.yaml:2:3: \"volum\" is not a key of store (did you mean volume?); allowed: "
               "volume, height, heat_loss, connection_heat_loss, conductivity, inlet_mixing, room, "
               "solar_coil, high_limit, safety_valve, bottom_sensor_height, top_sensor_height, "
               "start_top, start_bottom, layers\n");
    BOOST_TEST(begins(refusal("controller: {start_diference: 7 K}"),
                      "bad.yaml:1:14: \"start_diference\" is not a key of controller (did you mean "
                      "start_difference?); allowed: start_difference, stop_difference, "));
}

BOOST_AUTO_TEST_CASE(a_key_that_stands_in_another_section_is_pointed_to) {
    BOOST_TEST(begins(refusal("volume: 300 l\n"),
                      "bad.yaml:1:1: \"volume\" is not a key of a scenario (did you mean "
                      "store.volume?); allowed: title, about, start, "));
}

BOOST_AUTO_TEST_CASE(what_is_not_built_is_not_accepted) {
    BOOST_TEST(begins(refusal("lessons:\n  - first\n"),
                      "bad.yaml:1:1: \"lessons\" is not a key of a scenario; allowed: title, "));
}

BOOST_AUTO_TEST_CASE(units_and_ranges_carry_the_place_and_the_key) {
    BOOST_TEST(refusal("store: {volume: 300}") ==
               "bad.yaml:1:17: store.volume: \"300\" has no unit; allowed: 50 l to 2000 l (units: "
               "l, ml, m3)\n");
    BOOST_TEST(refusal("store:\n  volume: 9 m3\n") ==
               "bad.yaml:2:11: store.volume: 9 m3 is out of range; allowed: 0.05 m3 to 2 m3\n");
    BOOST_TEST(refusal("controller:\n  start_difference: 7,5 K\n") ==
               "bad.yaml:2:21: controller.start_difference: \"7,5 K\" has a decimal comma; write a "
               "decimal point; allowed: 2 K to 20 K (units: K)\n");
    BOOST_TEST(refusal("loop: {height: .nan}") ==
               "bad.yaml:1:16: loop.height: \".nan\" is not a number; allowed: 0 m to 40 m (units: "
               "mm, cm, m)\n");
    BOOST_TEST(refusal("collectors: {number: 2.5}") ==
               "bad.yaml:1:22: collectors.number: \"2.5\" is not a whole number; allowed: 1 to "
               "10\n");
    BOOST_TEST(refusal("length: 90.5 s") ==
               "bad.yaml:1:9: length: \"90.5 s\" is not a whole number of seconds; allowed: "
               "0.001 day to 3650 day (units: s, min, h, day, days, year)\n");
    BOOST_TEST(refusal("record: {vcd: perhaps}") ==
               "bad.yaml:1:15: record.vcd: \"perhaps\" is neither yes nor no; allowed: yes, no\n");
    BOOST_TEST(refusal("backup: {kind: boyler}") ==
               "bad.yaml:1:16: backup.kind: \"boyler\" is not one of the words (did you mean "
               "boiler?); allowed: none, boiler, immersion\n");
    BOOST_TEST(
        refusal("start: yesterday") ==
        "bad.yaml:1:8: start: \"yesterday\" is not a date; allowed: a date with or without a "
        "time, 1900-01-01 to 2199-12-31, such as 2026-04-15 06:30\n");
}

BOOST_AUTO_TEST_CASE(all_problems_of_a_file_are_told_at_once) {
    const std::string text = refusal("store: {volume: 300, heigt: 1 m}\nlength: 1\nfoo: 1\n");
    BOOST_TEST(lines(text) == 4U);
    BOOST_TEST(text.find("bad.yaml:1:17: store.volume") != std::string::npos);
    BOOST_TEST(text.find("bad.yaml:1:22: \"heigt\"") != std::string::npos);
    BOOST_TEST(text.find("bad.yaml:2:9: length") != std::string::npos);
    BOOST_TEST(text.find("bad.yaml:3:1: \"foo\"") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_flood_of_problems_is_cut) {
    std::string yaml;
    for (int i = 0; i < 400; ++i) yaml += "key_" + std::to_string(i) + ": 1\n";
    const std::string text = refusal(yaml);
    BOOST_TEST(lines(text) == 51U);
    BOOST_TEST(text.ends_with("bad.yaml: 350 more problems are not shown\n"));
}

BOOST_AUTO_TEST_CASE(a_key_twice_is_refused) {
    BOOST_TEST(refusal("store:\n  volume: 200 l\n  height: 1 m\n  volume: 300 l\n") ==
               "bad.yaml:4:3: the key \"volume\" stands here a second time (first in line 2); "
               "allowed: each key once\n");
}

BOOST_AUTO_TEST_CASE(the_wrong_kind_of_node_is_refused) {
    BOOST_TEST(refusal("store: 300 l") ==
               "bad.yaml:1:8: store: a single value stands where a map (keys with values) is "
               "wanted; allowed: the keys volume, height, heat_loss, connection_heat_loss, "
               "conductivity, inlet_mixing, room, solar_coil, high_limit, safety_valve, "
               "bottom_sensor_height, top_sensor_height, start_top, start_bottom, layers\n");
    BOOST_TEST(
        refusal("store: {volume: [300 l]}") ==
        "bad.yaml:1:17: store.volume: a list stands where a single value is wanted; allowed: "
        "50 l to 2000 l (units: l, ml, m3)\n");
    BOOST_TEST(
        refusal("store:\n  volume:\n  height: 1 m\n") ==
        "bad.yaml:2:3: store.volume: nothing stands where a single value is wanted; allowed: "
        "50 l to 2000 l (units: l, ml, m3)\n");
    BOOST_TEST(refusal("moves: soon") ==
               "bad.yaml:1:8: moves: a single value stands where a list is wanted; allowed: 0 to "
               "10000 maps (keys with values), each begun by a dash\n");
    BOOST_TEST(refusal("moves: [soon]") ==
               "bad.yaml:1:9: moves: a single value stands where a map (keys with values) is "
               "wanted; allowed: the keys at, setting, lever, hand, wire, to, over\n");
    BOOST_TEST(refusal("wiring: {swapped: collector}") ==
               "bad.yaml:1:19: wiring.swapped: a single value stands where a list is wanted; "
               "allowed: a list of words of collector, store_bottom, store_top, station_return, "
               "second_collector\n");
    BOOST_TEST(refusal("{[a, b]: 1}") == "bad.yaml:1:2: a list cannot be a key; allowed: a word\n");
    BOOST_TEST(
        refusal("- a\n- b\n") ==
        "bad.yaml:1:1: a list stands where a scenario is wanted; allowed: keys and values as "
        "`key: value`\n");
    BOOST_TEST(refusal("just words") ==
               "bad.yaml:1:1: a single value stands where a scenario is wanted; allowed: keys and "
               "values as `key: value`\n");
}

BOOST_AUTO_TEST_CASE(two_skies_or_two_households_are_refused) {
    BOOST_TEST(refusal("sky:\n  clear_day: {}\n  seeded_year: {}\n") ==
               "bad.yaml:3:3: sky.seeded_year cannot stand beside clear_day; allowed: one of "
               "clear_day, seeded_year, weather\n");
    BOOST_TEST(refusal("household: {people: 3, profile: M}") ==
               "bad.yaml:1:24: household.profile cannot stand beside people; allowed: one of "
               "people, profile, draws\n");
}

BOOST_AUTO_TEST_CASE(collectors_are_at_least_one_row_and_at_most_five) {
    BOOST_TEST(refusal("collectors: []") ==
               "bad.yaml:1:13: collectors: 0 items stand here; allowed: 1 to 5 maps (keys with "
               "values), each begun by a dash\n");
    BOOST_TEST(refusal("collectors: [{}, {}, {}, {}, {}, {}]") ==
               "bad.yaml:1:13: collectors: 6 items stand here; allowed: 1 to 5 maps (keys with "
               "values), each begun by a dash\n");
    BOOST_TEST(
        refusal("wiring: {second_collector: {contact: 50 %}}") ==
        "bad.yaml:1:38: wiring.second_collector.contact: there is only one row of collectors; "
        "allowed: this key with two rows or more under collectors\n");
    BOOST_TEST(
        refusal("collectors: {incidence_along: [1, 2, 3]}") ==
        "bad.yaml:1:31: collectors.incidence_along: 3 numbers stand here; allowed: ten plain "
        "numbers from 0 to 2, as [1, 0.99, ...]\n");
    BOOST_TEST(refusal("collectors: {incidence_along: [1, 1, 1, 1, 1, 1, 1, 1, 1, 0]}") ==
               "bad.yaml:1:13: collectors: incidence_b0 is 0 but a table of modifiers begins with "
               "0; allowed: incidence_along and incidence_across, ten numbers each\n");
}

BOOST_AUTO_TEST_CASE(keys_that_must_agree) {
    BOOST_TEST(refusal("store: {solar_coil: {from_height: 50 %}}") ==
               "bad.yaml:1:35: store.solar_coil.from_height is above store.solar_coil.to_height; "
               "allowed: store.solar_coil.from_height at most store.solar_coil.to_height\n");
    BOOST_TEST(refusal("sky: {clear_day: {air_least: 20 degC, air_most: 10 degC}}") ==
               "bad.yaml:1:30: sky.clear_day.air_least is above sky.clear_day.air_most; allowed: "
               "sky.clear_day.air_least at most sky.clear_day.air_most\n");
    BOOST_TEST(refusal("length: 1 year\nrecord: {every: 1 s}\n") ==
               "bad.yaml:2:17: the trace would have 31536000 rows; allowed: record.every of 8 s or "
               "more for this length\n");
    BOOST_TEST(refusal("site: {horizon: [{azimuth: 90 deg}, {azimuth: 20 deg}]}") ==
               "bad.yaml:1:37: site.horizon: this point does not lie clockwise of the one before; "
               "allowed: points sorted by azimuth\n");
    BOOST_TEST(refusal("household: {absent: [{from: 2026-08-10, until: 2026-08-01}]}") ==
               "bad.yaml:1:22: household.absent: an absence ends before it begins; allowed: until: "
               "a date after from:\n");
    BOOST_TEST(refusal("wiring: {swapped: [collector]}") ==
               "bad.yaml:1:19: wiring.swapped: not two different sensors; allowed: [collector, "
               "store_bottom], or any other pair\n");
    BOOST_TEST(begins(refusal("collectors: {heat_capacity: 1 kJ/(m2 K), content: 20 l}"),
                      "bad.yaml: this makes no plant: collector content holds more heat"));
}

BOOST_AUTO_TEST_CASE(items_of_lists_say_what_they_lack) {
    BOOST_TEST(refusal("household: {draws: [{at: 07:00}]}") ==
               "bad.yaml:1:21: household.draws.energy is missing; allowed: 0.001 kWh to 50 kWh "
               "(units: kWh, Wh, MJ, kJ)\n");
    BOOST_TEST(refusal("sky: {weather: {}}") ==
               "bad.yaml:1:16: sky.weather.file is missing; allowed: text\n");
    BOOST_TEST(refusal("sky: {weather: {file: no_such.epw}}") ==
               "bad.yaml:1:23: sky.weather.file: there is no weather file no_such.epw; allowed: a "
               "path seen from the file that names it\n");
}

BOOST_AUTO_TEST_CASE(moves_name_one_known_thing_and_a_value_that_it_takes) {
    BOOST_TEST(refusal("moves: [{to: on}]") ==
               "bad.yaml:1:9: moves: a move names 0 things to move; allowed: exactly one of "
               "setting, lever, hand, wire\n");
    BOOST_TEST(begins(refusal("moves: [{lever: coil_foulin, to: 0.3}]"),
                      "bad.yaml:1:17: moves: there is no lever \"coil_foulin\" (did you mean "
                      "coil_fouling?); allowed: coil_fouling, flow_factor, "));
    BOOST_TEST(refusal("moves: [{lever: coil_fouling, to: 300 %}]") ==
               "bad.yaml:1:35: moves: 300 % is out of range; allowed: 2 % to 100 %\n");
    BOOST_TEST(refusal("moves: [{lever: pump_healthy, to: 0.5}]") ==
               "bad.yaml:1:35: moves: \"0.5\" is neither yes nor no; allowed: yes, no\n");
    BOOST_TEST(refusal("moves: [{setting: start_difference, to: 7}]") ==
               "bad.yaml:1:41: moves: \"7\" has no unit; allowed: 2 K to 20 K (units: K)\n");
    BOOST_TEST(refusal("moves: [{hand: pump, to: faster}]") ==
               "bad.yaml:1:26: moves: \"faster\" is not one of the words; allowed: automatic, on, "
               "off\n");
    BOOST_TEST(
        begins(refusal("moves: [{wire: colector.state, to: open}]"),
               "bad.yaml:1:16: moves: there is no wire \"colector.state\" (did you mean "
               "collector.state?); allowed: mains_power, speed_wire, pulse_meter, pump_bridge, "
               "SENSOR.state, "));
    BOOST_TEST(refusal("moves: [{hand: pump, to: on, over: 5 min}]") ==
               "bad.yaml:1:26: moves: \"pump\" cannot slide (over:); allowed: over: for levers and "
               "numbers on wires only\n");
    BOOST_TEST(refusal("moves: [{hand: pump, to: on, at: 2026-04-20 12:00}]") ==
               "bad.yaml:1:26: moves: the move at 2026-04-20 12:00 lies outside the run; allowed: "
               "2026-04-15 00:00 to 2026-04-15 23:59:59\n");
    BOOST_TEST(refusal("moves: [{hand: pump, to: on, at: noon}]") ==
               "bad.yaml:1:34: moves.at: \"noon\" is not a moment; allowed: start, a time of day "
               "(06:30), or a date with a time\n");
    BOOST_TEST(refusal("faults: [{moves: []}]") ==
               "bad.yaml:1:10: faults.name is missing; allowed: text\n");
}

BOOST_AUTO_TEST_CASE(a_cloud_that_nobody_sees_is_refused) {
    BOOST_TEST(refusal("sky: {clear_day: {clouds: [{from: 2026-05-01 12:00}]}}") ==
               "bad.yaml:1:27: a cloud passes outside the run; allowed: a moment within the run\n");
}

BOOST_AUTO_TEST_CASE(what_is_not_yaml_is_one_error_with_its_place) {
    const std::string text = refusal("store: {volume: 300 l\nloop: ]\n");
    BOOST_TEST(begins(text, "bad.yaml:2:"));
    BOOST_TEST(text.find(": not YAML: ") != std::string::npos);
    BOOST_TEST(lines(text) == 1U);
    BOOST_TEST(begins(refusal("a: b: c\n"), "bad.yaml:1:5: not YAML: "));
    BOOST_TEST(refusal("store:\n\tvolume: 300 l\n") ==
               "bad.yaml:2:1: a tab indents this line; allowed: blanks\n");
}

BOOST_AUTO_TEST_CASE(two_documents_are_refused) {
    BOOST_TEST(begins(refusal("title: a\n---\ntitle: b\n"),
                      "bad.yaml:2:1: a second document begins; allowed: one document"));
}

BOOST_AUTO_TEST_CASE(anchors_aliases_and_tags_are_refused) {
    const std::string anchors =
        "anchors and aliases (& and *) are not taken here; allowed: values written out, or "
        "based_on: FILE\n";
    BOOST_TEST(refusal("title: &a x\n") == "bad.yaml:1:8: " + anchors);
    BOOST_TEST(refusal("a: &a [x,x]\nb: &b [*a,*a]\nc: [*b,*b]\n") == "bad.yaml:1:4: " + anchors);
    BOOST_TEST(begins(refusal("title: *a\n"), "bad.yaml:1:"));
    BOOST_TEST(refusal("title: !!str x\n") ==
               "bad.yaml:1:8: tags (\"tag:yaml.org,2002:str\") are not taken here; allowed: plain "
               "values with their unit\n");
}

BOOST_AUTO_TEST_CASE(depth_is_bounded_whatever_the_brackets) {
    const auto begin = std::chrono::steady_clock::now();
    const std::string text = ": nested more than 32 levels deep; allowed: a flatter file\n";
    const std::string flow = refusal(repeated("[", 100'000));
    // Each bracket may begin a key, so that the reader of events opens a map and a list for it.
    BOOST_TEST(begins(flow, "bad.yaml:1:17" + text));
    BOOST_TEST(begins(refusal(repeated("{a: ", 50'000)), "bad.yaml:1:125" + text));
    BOOST_TEST(begins(refusal(repeated("- ", 100'000)), "bad.yaml:1:65" + text));
    std::string block;
    for (std::size_t i = 0; i < 600; ++i) block += std::string(i, ' ') + "a:\n";
    BOOST_TEST(begins(refusal(block), "bad.yaml:33:33" + text));
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
    BOOST_TEST(took.count() < 5.0);  // linear work on 0.5 MB; a minute would mean quadratic
}

BOOST_AUTO_TEST_CASE(missing_files_directories_and_empty_files) {
    const Folder folder;
    BOOST_TEST(refusal_of_file(folder.name("no.yaml")) ==
               folder.name("no.yaml") + ": there is no such file; allowed: a YAML file\n");
    BOOST_TEST(refusal_of_file(folder.path) ==
               folder.path.string() + ": this is a directory; allowed: a YAML file\n");
    const std::string empty = folder.write("empty.yaml", "\n \n");
    BOOST_TEST(refusal_of_file(empty) ==
               empty +
                   ": the file is empty; allowed: a scenario; `noonbench init` writes a "
                   "starter\n");
    const std::string comment = folder.write("comment.yaml", "# nothing else\n");
    BOOST_TEST(begins(refusal_of_file(comment), comment + ":"));
}

BOOST_AUTO_TEST_CASE(a_hundred_megabytes_are_not_read) {
    const Folder folder;
    const std::string file = folder.write("large.yaml", "title: x\n");
    std::filesystem::resize_file(file, 100'000'000);
    BOOST_TEST(refusal_of_file(file) ==
               file + ": the file is too large; allowed: a scenario file of at most 256 KiB\n");
}

BOOST_AUTO_TEST_CASE(bytes_that_are_no_text) {
    BOOST_TEST(refusal(std::string_view("title: a\nabout: \0x\n", 18)) ==
               "bad.yaml:2:8: not text: a control character (code 0); allowed: YAML in UTF-8\n");
    BOOST_TEST(refusal("title: a\x1b[2J") ==
               "bad.yaml:1:9: not text: a control character (code 27); allowed: YAML in UTF-8\n");
    for (const char* bytes : {"title: \xff", "title: \xc0\xaf", "title: \xed\xa0\x80",
                              "title: \xf4\x90\x80\x80", "title: \xe2\x82", "title: \x80"})
        BOOST_TEST(refusal(bytes) == "bad.yaml:1:8: not UTF-8 text; allowed: YAML in UTF-8\n");
    BOOST_TEST(refusal("title: \u00e9\u20ac\U0001F31E") == "");
}

BOOST_AUTO_TEST_CASE(based_on_itself_or_in_a_circle) {
    const Folder folder;
    const std::string self = folder.write("self.yaml", "based_on: self.yaml\n");
    BOOST_TEST(refusal_of_file(self) ==
               self + ":1:11: based_on goes in a circle: " + self +
                   " is being read already; allowed: a file that does not lead back here\n");
    const std::string a = folder.write("a.yaml", "based_on: b.yaml\n");
    const std::string b = folder.write("b.yaml", "title: b\nbased_on: ./c.yaml\n");
    const std::string c = folder.write("c.yaml", "store: {based_on: a.yaml}\n");
    BOOST_TEST(refusal_of_file(a) ==
               c + ":1:19: based_on goes in a circle: " + a +
                   " is being read already; allowed: a file that does not lead back here\n");
}

BOOST_AUTO_TEST_CASE(based_on_too_long_too_many_or_nowhere) {
    const Folder folder;
    for (int i = 0; i < 20; ++i)
        folder.write(std::to_string(i) + ".yaml", "based_on: " + std::to_string(i + 1) + ".yaml\n");
    BOOST_TEST(refusal_of_file(folder.name("0.yaml")) ==
               folder.name("7.yaml") +
                   ":1:11: the chain of based_on is too long; allowed: at most 8 files, one upon "
                   "the other\n");
    folder.write("leaf.yaml", "volume: 300 l\n");
    const std::string many =
        folder.write("many.yaml", "moves:\n" + repeated("  - {based_on: leaf.yaml}\n", 200));
    BOOST_TEST(refusal_of_file(many) == folder.name("leaf.yaml") +
                                            ": too many files are based on each other; allowed: at "
                                            "most 64 in all\n");
    const std::string lost = folder.write("lost.yaml", "title: a\nbased_on: nowhere.yaml\n");
    BOOST_TEST(refusal_of_file(lost) ==
               lost + ":2:11: based_on: there is no file " + folder.name("nowhere.yaml") +
                   "; allowed: the path of one file, seen from this one\n");
    const std::string list = folder.write("list.yaml", "based_on: [a, b]\n");
    BOOST_TEST(refusal_of_file(list) ==
               list +
                   ":1:11: based_on is a list; allowed: the path of one file, seen from this "
                   "one\n");
}

BOOST_AUTO_TEST_CASE(a_problem_points_into_the_file_where_the_value_stands) {
    const Folder folder;
    const std::string site = folder.write("site.yaml", "# a site\nstore:\n  volume: 300 kg\n");
    const std::string run = folder.write("run.yaml", "based_on: site.yaml\ntitle: t\n");
    BOOST_TEST(refusal_of_file(run) ==
               site +
                   ":3:11: store.volume: \"kg\" is not a unit of volume; allowed: 50 l to 2000 l "
                   "(units: l, ml, m3)\n");
}

BOOST_AUTO_TEST_CASE(overrides_say_that_they_are_overrides) {
    BOOST_TEST(refusal("title: t", {"store.volume=300"}) ==
               "--set store.volume=300: store.volume: \"300\" has no unit; allowed: 50 l to 2000 l "
               "(units: l, ml, m3)\n");
    BOOST_TEST(begins(refusal("title: t", {"store.volum=300 l"}),
                      "--set store.volum=300 l: \"volum\" is not a key of store (did you mean "
                      "volume?); allowed: volume, "));
    BOOST_TEST(refusal("title: t", {"store.volume"}) ==
               "--set store.volume: there is no key or no =; allowed: --set path.to.key=VALUE\n");
    BOOST_TEST(refusal("title: t", {"store..volume=1 l"}) ==
               "--set store..volume=1 l: a word of the path is empty; allowed: --set "
               "path.to.key=VALUE\n");
    BOOST_TEST(
        refusal("collectors: [{}, {}]", {"collectors.2.number=1"}) ==
        "--set collectors.2.number=1: \"2\" picks no item of a list of 2; allowed: 0 to 1\n");
    BOOST_TEST(refusal("title: t", {"title.more=1"}) ==
               "--set title.more=1: title is a single value and has no key \"more\"; allowed: a "
               "path to one value\n");
    BOOST_TEST(refusal("title: t", {"store.volume="}) ==
               "--set store.volume=: store.volume: nothing stands where a single value is wanted; "
               "allowed: 50 l to 2000 l (units: l, ml, m3)\n");
    BOOST_TEST(lines(refusal("title: t", {"a", "b"})) == 2U);
    BOOST_TEST(begins(refusal("title: t", {"title=[a"}), "--set title=[a: not YAML: "));
}

BOOST_AUTO_TEST_SUITE_END()
