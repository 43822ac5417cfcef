// SPDX-License-Identifier: MIT
// Fault files from outside: their twins, what proves that they show something, their list.
#include "program.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <sstream>
#include <string>

BOOST_AUTO_TEST_SUITE(fault_cli)

using namespace noonbench::harness::testing;

namespace {

constexpr const char* leaking = R"(title: A leaking check valve
start: 2026-04-15 00:00
length: 2 h
store: {start_top: 60 degC, start_bottom: 55 degC}
faults:
  - name: leak
    moves: [{lever: check_valve_leak, to: 0.5}]
fault:
  customer_says: >
    The store is cool in the morning although nobody has drawn any water, and somebody who goes by
    at night feels a warm pipe.
  log_shows: The collector stands far above the air at night.
  on_site: The pipe is warm.
  measure_first: Feel the pipe.
  remedy: Clean the valve.
  caution: The pipe may scald.
  onset: gradual
  looks_like: [other_leak]
  ranges: [{lever: check_valve_leak, least: 0.05, most: 0.6}]
require:
  - name: the collector is warmer than the air at night
    that: at 01:30, collector_reading_c > air_c + 3 K
    fails_with: [healthy]
)";

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

BOOST_AUTO_TEST_CASE(what_shows_the_fault_fails_in_the_healthy_twin) {
    const Bay bay;
    bay.write("check_valve_leak.yaml", leaking);
    const Finished f = noonbench_in(bay, {"judge", "check_valve_leak.yaml", "--could-fail"});
    BOOST_TEST(f.exit_code == 0, f.out + f.err);
    BOOST_TEST(has(f.out, "check_valve_leak.yaml, the healthy twin, where it must fail"), f.out);
    BOOST_TEST(has(f.out, "2 runs, 1 held, 1 failed where they must"), f.out);
}

BOOST_AUTO_TEST_CASE(what_also_holds_in_the_twin_shows_nothing) {
    const Bay bay;
    bay.write("check_valve_leak.yaml", leaking);
    const Finished f = noonbench_in(bay, {"judge", "check_valve_leak.yaml", "--could-fail", "--set",
                                          "require.0.that=never pump_relay is on"});
    BOOST_TEST(f.exit_code == 1, f.out + f.err);
    BOOST_TEST(has(f.out, "1 DID NOT FAIL where they must"), f.out);
}

BOOST_AUTO_TEST_CASE(judge_and_run_take_the_twin_when_asked) {
    const Bay bay;
    bay.write("check_valve_leak.yaml", leaking);
    const Finished judged = noonbench_in(bay, {"judge", "check_valve_leak.yaml", "--healthy"});
    BOOST_TEST(judged.exit_code == 1, judged.out + judged.err);
    BOOST_TEST(has(judged.out, "1 run, 0 held, 1 not held"), judged.out);
    const Finished run = noonbench_in(bay, {"run", "check_valve_leak.yaml", "--healthy"});
    BOOST_TEST(run.exit_code == 1, run.err);
    BOOST_TEST(has(run.out, "A leaking check valve, the healthy twin"), run.out);
    const std::string events = content_of(bay / "out/check_valve_leak_healthy/events.csv");
    BOOST_TEST(!events.empty());
    BOOST_TEST(!has(events, "check_valve_leak"));
}

BOOST_AUTO_TEST_CASE(a_plain_day_has_no_twin) {
    const Bay bay;
    bay.write("day.yaml", "length: 1 h\n");
    for (const char* command : {"run", "judge"}) {
        const Finished f = noonbench_in(bay, {command, "day.yaml", "--healthy"});
        BOOST_TEST(f.exit_code == 2);
        BOOST_TEST(has(f.err, "day.yaml: has no healthy twin: it shows no fault"), f.err);
    }
    BOOST_TEST(noonbench_in(bay, {"judge", "day.yaml", "--healthy", "--could-fail"}).exit_code ==
               2);
}

BOOST_AUTO_TEST_CASE(the_report_and_the_terminal_tell_the_fault) {
    const Bay bay;
    bay.write("check_valve_leak.yaml", leaking);
    const Finished f = noonbench_in(bay, {"run", "check_valve_leak.yaml"});
    const std::string page = content_of(bay / "out/check_valve_leak/report.html");
    for (const char* text : {"The customer says", "feels a warm pipe", "Feel the pipe.",
                             "Clean the valve.", "The pipe may scald.", "other leak"}) {
        BOOST_TEST(has(f.out, text), f.out);
        BOOST_TEST(has(page, text), text);
    }
    BOOST_TEST(has(page, "id=\"fault\""));
    bay.write("day.yaml", "length: 1 h\n");
    static_cast<void>(noonbench_in(bay, {"run", "day.yaml"}));
    BOOST_TEST(!has(content_of(bay / "out/day/report.html"), "id=\"fault\""));
}

BOOST_AUTO_TEST_CASE(the_list_has_name_title_and_the_customers_words_in_100_columns) {
    const Bay bay;
    bay.write("shelf/faults/check_valve_leak.yaml", leaking);
    const Finished f = noonbench_in(bay, {"list", "faults", "--shelf", "shelf"});
    BOOST_TEST(f.exit_code == 0, f.err);
    BOOST_TEST(has(f.out, "check_valve_leak\n    A leaking check valve\n    Says: The store"),
               f.out);
    std::istringstream lines(f.out);
    for (std::string line; std::getline(lines, line);) BOOST_TEST(line.size() <= 100U, line);
    const Finished all = noonbench_in(bay, {"list", "scenarios", "--shelf", "shelf"});
    BOOST_TEST(has(all.out, "check_valve_leak.yaml"), all.out);
    BOOST_TEST(noonbench_in(bay, {"list", "faults", "--shelf", "nowhere"}).exit_code == 2);
}

BOOST_AUTO_TEST_SUITE_END()
