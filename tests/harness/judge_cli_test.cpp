// SPDX-License-Identifier: MIT
// `noonbench judge` from outside.
#include "program.hpp"

#include <boost/json.hpp>
#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>
#include <boost/test/unit_test.hpp>

#include <sstream>
#include <string>

BOOST_AUTO_TEST_SUITE(judge_cli)

using namespace noonbench::harness::testing;

namespace {

constexpr const char* short_morning = R"(title: An hour
start: 2026-04-15 10:00
length: 1 h
require:
  - name: the pump runs
    that: always from 10 min to 50 min pump_relay is on
    fails_with: ["moves=[{hand: pump, to: off, at: start}]"]
  - name: the collector stays cool
    that: never collector_reading_c > 40 degC
    scale: 5 K
    look_at: the collector
    fails_with: [wiring.collector.offset=40 K]
)";

constexpr const char* good_morning = R"(title: An hour
start: 2026-04-15 10:00
length: 1 h
require:
  - name: no steam
    that: never collector_reading_c > 120 degC
)";

boost::json::array parsed(const std::string& text) {
    return boost::json::parse(text).as_array();
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_table_says_what_did_not_hold_when_why_and_where_to_look) {
    const Bay bay;
    bay.write("hour.yaml", short_morning);
    const Finished f = noonbench_in(bay, {"judge", "hour.yaml"});
    BOOST_TEST(f.exit_code == 1, f.err);
    BOOST_TEST(contains(f.out, "the pump runs"), f.out);
    BOOST_TEST(contains(f.out, "not held, by"), f.out);
    BOOST_TEST(contains(f.out, "tightest at 2026-04-15 10:"), f.out);
    BOOST_TEST(contains(f.out, "look at: the collector"), f.out);
    BOOST_TEST(contains(f.out, "1 run, 1 held, 1 not held"), f.out);
    BOOST_TEST(f.err == "");
}

BOOST_AUTO_TEST_CASE(all_held_is_exit_code_0) {
    const Bay bay;
    bay.write("good.yaml", good_morning);
    const Finished f = noonbench_in(bay, {"judge", "good.yaml"});
    BOOST_TEST(f.exit_code == 0, f.out + f.err);
    BOOST_TEST(contains(f.out, "held, by "), f.out);
}

BOOST_AUTO_TEST_CASE(json_and_junit_tell_the_same_story) {
    const Bay bay;
    bay.write("hour.yaml", short_morning);
    bay.write("good.yaml", good_morning);
    const Finished f =
        noonbench_in(bay, {"judge", "hour.yaml", "good.yaml", "--json", "--junit", "j.xml"});
    BOOST_TEST(f.exit_code == 1, f.err);
    const auto all = parsed(f.out);
    BOOST_TEST_REQUIRE(all.size() == 2U);
    const auto& verdicts = all[0].at("requirements").as_array();
    BOOST_TEST_REQUIRE(verdicts.size() == 2U);
    BOOST_TEST(verdicts[0].at("verdict").as_string() == "held");
    BOOST_TEST(verdicts[1].at("verdict").as_string() == "not_held");
    BOOST_TEST(verdicts[1].at("margins").at(0).at("unit").as_string() == "K");
    BOOST_TEST(verdicts[1].at("margins").at(0).at("least").as_double() < 0.0);
    boost::property_tree::ptree xml;
    std::istringstream in(content_of(bay / "j.xml"));
    read_xml(in, xml);
    BOOST_TEST(xml.get<int>("testsuites.<xmlattr>.tests") == 3);
    BOOST_TEST(xml.get<int>("testsuites.<xmlattr>.failures") == 1);
    BOOST_TEST(xml.get<int>("testsuites.<xmlattr>.errors") == 0);
    BOOST_TEST(xml.get<std::string>("testsuites.testsuite.<xmlattr>.name") == "hour");
}

BOOST_AUTO_TEST_CASE(the_same_bytes_whatever_the_number_of_jobs) {
    const Bay bay;
    bay.write("hour.yaml", short_morning);
    bay.write("good.yaml", good_morning);
    const auto with = [&](const char* jobs) {
        return noonbench_in(
                   bay, {"judge", "hour.yaml", "good.yaml", "hour.yaml", "--json", "--jobs", jobs})
            .out;
    };
    BOOST_TEST((with("1") == with("8")));
}

BOOST_AUTO_TEST_CASE(a_scenario_that_cannot_be_run_is_one_row_and_the_others_go_on) {
    const Bay bay;
    bay.write("good.yaml", good_morning);
    bay.write("broken.epw", "LOCATION,nowhere\n");
    bay.write("bad.yaml", std::string(good_morning) + "sky: {weather: {file: broken.epw}}\n");
    const Finished f = noonbench_in(bay, {"judge", "bad.yaml", "good.yaml", "--junit", "j.xml"});
    BOOST_TEST(f.exit_code == 1, f.err);
    BOOST_TEST(contains(f.out, "NOT RUN   "), f.out);
    BOOST_TEST(contains(f.out, "2 runs, 1 held, 1 NOT RUN"), f.out);
    BOOST_TEST(contains(content_of(bay / "j.xml"), "errors=\"1\""));
}

BOOST_AUTO_TEST_CASE(wrong_units_are_an_input_error_with_their_place) {
    const Bay bay;
    bay.write("wrong.yaml",
              "title: Wrong\nlength: 1 h\nrequire:\n  - name: nonsense\n"
              "    that: always difference_k < 3 kW\n"
              "  - name: more nonsense\n    that: never pump_rely is on\n");
    for (const char* command : {"judge", "run"}) {
        const Finished f = noonbench_in(bay, {command, "wrong.yaml"});
        BOOST_TEST(f.exit_code == 2);
        BOOST_TEST(contains(f.err, "wrong.yaml:5:"), f.err);
        BOOST_TEST(contains(f.err, "K"), f.err);
        BOOST_TEST(contains(f.err, "wrong.yaml:7:"), f.err);
        BOOST_TEST(contains(f.err, "pump_relay"), f.err);
        BOOST_TEST(f.out == "");
    }
}

BOOST_AUTO_TEST_CASE(checks_are_laid_over_any_scenario) {
    const Bay bay;
    bay.write("good.yaml", good_morning);
    bay.write("more.yaml",
              "title: More\nrequire:\n  - name: dry\n    that: never tap_c > 1 degC\n");
    const Finished f = noonbench_in(bay, {"judge", "good.yaml", "--check", "more.yaml"});
    BOOST_TEST(contains(f.out, "  dry  "), f.out);
    bay.write("wrong.yaml", "title: More\nstore: {volume: 3 l}\n");
    const Finished wrong = noonbench_in(bay, {"judge", "good.yaml", "--check", "wrong.yaml"});
    BOOST_TEST(wrong.exit_code == 2);
    BOOST_TEST(contains(wrong.err, "wrong.yaml:2:1"), wrong.err);
}

BOOST_AUTO_TEST_CASE(requirements_can_be_shown_to_fail) {
    const Bay bay;
    bay.write("hour.yaml", short_morning);
    const Finished f = noonbench_in(bay, {"judge", "hour.yaml", "--could-fail", "--set",
                                          "require.1.that=never collector_reading_c > 80 degC"});
    BOOST_TEST(f.exit_code == 0, f.out + f.err);
    BOOST_TEST(contains(f.out, "2 failed where they must"), f.out);
    const Finished tame = noonbench_in(bay, {"judge", "hour.yaml", "--could-fail", "--set",
                                             "require.1.that=never collector_reading_c > 80 degC",
                                             "--set", "require.0.fails_with=[seed=3]"});
    BOOST_TEST(tame.exit_code == 1);
    BOOST_TEST(contains(tame.out, "1 failed where they must, 1 DID NOT FAIL where they must"),
               tame.out);
}

BOOST_AUTO_TEST_CASE(a_folder_stands_for_the_scenarios_in_it) {
    const Bay bay;
    bay.write("shelf/b.yaml", good_morning);
    bay.write("shelf/a.yaml", good_morning);
    const auto all = parsed(noonbench_in(bay, {"judge", "shelf", "--json"}).out);
    BOOST_TEST_REQUIRE(all.size() == 2U);
    BOOST_TEST(all[0].at("scenario").as_string() == "a");
    std::filesystem::create_directories(bay / "empty");
    const Finished f = noonbench_in(bay, {"judge", "empty"});
    BOOST_TEST(f.exit_code == 2);
    BOOST_TEST(contains(f.err, "empty: holds no scenario"), f.err);
}

BOOST_AUTO_TEST_CASE(a_hunt_leaves_a_scenario_that_shows_the_worst_day_found) {
    const Bay bay;
    const std::string weakness =
        std::string(NOONBENCH_SOURCE_DIR) + "/tests/harness/weakness/cloud_rhythm.yaml";
    const Finished calm = noonbench_in(bay, {"judge", weakness});
    BOOST_TEST(calm.exit_code == 0, calm.out + calm.err);
    const Finished hunt = noonbench_in(bay, {"judge", weakness, "--hunt", "each start is worth it",
                                             "--budget", "120", "--into", "found"});
    BOOST_TEST(hunt.exit_code == 1, hunt.out + hunt.err);
    BOOST_TEST(contains(hunt.out, "broken at run "), hunt.out);
    const auto shown =
        parsed(noonbench_in(bay, {"judge", "found/cloud_rhythm_worst_day.yaml", "--json"}).out);
    const auto& verdict = shown.at(0).at("requirements").at(0);
    BOOST_TEST(verdict.at("verdict").as_string() == "not_held");
    BOOST_TEST(contains(hunt.out, std::string(verdict.at("in_words").as_string())), hunt.out);
}

BOOST_AUTO_TEST_CASE(a_hunt_wants_one_scenario_and_a_requirement_that_it_has) {
    const Bay bay;
    bay.write("good.yaml", good_morning);
    const Finished two =
        noonbench_in(bay, {"judge", "good.yaml", "good.yaml", "--hunt", "no steam"});
    BOOST_TEST(two.exit_code == 2);
    BOOST_TEST(contains(two.err, "one scenario at a time"), two.err);
    const Finished wrong = noonbench_in(bay, {"judge", "good.yaml", "--hunt", "no steem"});
    BOOST_TEST(wrong.exit_code == 2);
    BOOST_TEST(contains(wrong.err, "no steam"), wrong.err);
}

BOOST_AUTO_TEST_CASE(a_run_shows_its_requirements_on_every_output) {
    const Bay bay;
    bay.write("hour.yaml", short_morning);
    const Finished f = noonbench_in(bay, {"run", "hour.yaml", "--into", "out"});
    BOOST_TEST(f.exit_code == 1);
    BOOST_TEST(contains(f.out, "the collector stays cool: not held"), f.out);
    BOOST_TEST(contains(f.out, "1 of 2 held"), f.out);
    const auto summary = boost::json::parse(content_of(bay / "out/summary.json"));
    BOOST_TEST(summary.at("requirements").as_array().size() == 2U);
    const std::string page = content_of(bay / "out/report.html");
    BOOST_TEST(contains(page, "✗ not held"));
    BOOST_TEST(contains(page, "the collector stays cool"));
}

BOOST_AUTO_TEST_SUITE_END()
