// SPDX-License-Identifier: MIT
// A sealed run tells nothing that a fault moves, in no file; and runs as the open one does.
#include "program.hpp"

#include "traces/csv.hpp"

#include <boost/test/unit_test.hpp>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(sealed)

using namespace noonbench;
using namespace noonbench::harness::testing;

namespace {

/// Words that stand nowhere else: what is told of the fault, what it moves, and how it is called.
const std::vector<std::string> secrets = {
    "zinnia",           "marigold",          "foxglove",         "larkspur",    "primrose",
    "bluebell",         "daffodil",          "buttercup",        "petunia",     "hyacinth",
    "crocus",           "rosemary",          "check_valve_leak", "flow_factor", "glass_clearness",
    "store_top.offset", "collector.leakage", "sliding",          "fouled",
};

constexpr const char* secret_day = R"(title: The zinnia day
about: A marigold about.
start: 2026-04-15 08:00
length: 4 h
record: {every: 1 s, vcd: yes, netcdf: yes}
faults:
  - name: foxglove
    moves:
      - {lever: check_valve_leak, to: 0.4}
      - {lever: flow_factor, to: 0.5, at: "08:30", over: 20 min}
      - {wire: store_top.offset, to: 3 K, at: "09:00"}
      - {wire: collector.leakage, to: 50 kohm, at: "09:10", over: 10 min}
      - {setting: start_difference, to: 10 K, at: "09:30"}
      - {hand: backup, to: off, at: "09:40"}
moves:
  - {lever: glass_clearness, to: 90 %, at: "10:00"}
  - {hand: pump, to: on, at: "10:30"}
fault:
  customer_says: larkspur
  log_shows: primrose
  on_site: bluebell
  measure_first: daffodil
  remedy: buttercup
  caution: petunia
  onset: sudden
  bench_differs: hyacinth
  ranges: [{lever: flow_factor, least: 0.1, most: 0.6}]
  looks_like: [crocus]
require:
  - name: rosemary grows
    that: never pump_relay is off
    look_at: rosemary
)";

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::vector<traces::Event> events_in(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return traces::read_events_csv(in);
}

}  // namespace

BOOST_AUTO_TEST_CASE(no_file_of_a_sealed_run_tells_the_fault) {
    const Bay bay;
    bay.write("fouled_coil.yaml", secret_day);
    const Finished open = noonbench_in(bay, {"run", "fouled_coil.yaml", "--into", "open"});
    BOOST_TEST(open.exit_code == 1, open.err);  // its requirement does not hold
    const Finished f = noonbench_in(bay, {"run", "fouled_coil.yaml", "--sealed"});
    BOOST_TEST(f.exit_code == 0, f.err);  // and that tells, so it is not judged
    const std::vector<std::string> left = {"out/sealed/events.csv",   "out/sealed/report.html",
                                           "out/sealed/summary.json", "out/sealed/trace.csv",
                                           "out/sealed/trace.nc",     "out/sealed/trace.vcd"};
    std::vector<std::string> files = bay.files();
    std::erase_if(files, [](const std::string& name) { return !name.starts_with("out/"); });
    BOOST_TEST(files == left, boost::test_tools::per_element());
    for (const std::string& secret : secrets) {
        BOOST_TEST_CONTEXT(secret) {
            BOOST_TEST(!has(f.out, secret));
            for (const std::string& name : left)
                BOOST_TEST(!has(content_of(bay / name), secret), name);
        }
    }
    BOOST_TEST(has(content_of(bay / "out/sealed/report.html"), "Sealed: find the fault"));
}

BOOST_AUTO_TEST_CASE(the_open_run_tells_all_of_it) {
    const Bay bay;
    bay.write("fouled_coil.yaml", secret_day);
    const Finished f = noonbench_in(bay, {"run", "fouled_coil.yaml"});
    std::string all = f.out;
    for (const std::string& name : bay.files())
        if (name.starts_with("out/")) all += content_of(bay / name);
    for (const std::string& secret : secrets) {
        if (secret != "fouled") BOOST_TEST(has(all, secret), secret);
    }
}

BOOST_AUTO_TEST_CASE(sealed_and_open_leave_the_same_trace_and_the_same_other_events) {
    const Bay bay;
    bay.write("day.yaml", secret_day);
    static_cast<void>(noonbench_in(bay, {"run", "day.yaml", "--into", "open"}));
    static_cast<void>(noonbench_in(bay, {"run", "day.yaml", "--sealed", "--into", "shut"}));
    BOOST_TEST((content_of(bay / "open/trace.csv") == content_of(bay / "shut/trace.csv")));
    const auto open = events_in(bay / "open/events.csv");
    const auto shut = events_in(bay / "shut/events.csv");
    // one lever at once, three slides with both ends, two wires, a setting, a hand; a plain lever
    BOOST_TEST(open.size() - shut.size() == 9U);
    const auto hand = [](const std::vector<traces::Event>& events) {
        return std::count_if(events.begin(), events.end(), [](const traces::Event& e) {
            return e.what == "hand" && e.name == "pump" && e.because.empty();
        });
    };
    BOOST_TEST(hand(shut) == 1);  // a plain move stays
}

BOOST_AUTO_TEST_CASE(a_slide_stands_in_the_events_with_both_its_ends) {
    const Bay bay;
    bay.write("day.yaml", secret_day);
    static_cast<void>(noonbench_in(bay, {"run", "day.yaml", "--into", "open"}));
    std::vector<traces::Event> slide;
    for (const traces::Event& e : events_in(bay / "open/events.csv"))
        if (e.name == "flow_factor") slide.push_back(e);
    BOOST_TEST_REQUIRE(slide.size() == 2U);
    BOOST_TEST(slide[0].to == "sliding to 0.5 over 20 min");
    BOOST_TEST(slide[1].from == "sliding");
    BOOST_TEST(slide[1].to == "0.5");
    BOOST_TEST(slide[1].at_s - slide[0].at_s == 20 * 60);
    BOOST_TEST(slide[0].because == "foxglove");
    BOOST_TEST(slide[1].because == "foxglove");
}

BOOST_AUTO_TEST_CASE(several_sealed_runs_are_numbered) {
    const Bay bay;
    bay.write("a.yaml", "length: 1 h\n");
    bay.write("b.yaml", "length: 1 h\n");
    const Finished f = noonbench_in(bay, {"run", "a.yaml", "b.yaml", "--sealed", "--quiet"});
    BOOST_TEST(f.exit_code == 0, f.err);
    BOOST_TEST(std::filesystem::exists(bay / "out/sealed_1/trace.csv"));
    BOOST_TEST(std::filesystem::exists(bay / "out/sealed_2/trace.csv"));
}

BOOST_AUTO_TEST_CASE(a_check_of_ones_own_is_judged_in_a_sealed_run) {
    const Bay bay;
    bay.write("day.yaml", secret_day);
    bay.write("check.yaml", "require: [{name: mine, that: never pump_relay is on}]\n");
    const Finished f = noonbench_in(bay, {"run", "day.yaml", "--sealed", "--check", "check.yaml"});
    BOOST_TEST(f.exit_code == 1, f.err);
    BOOST_TEST(has(f.out, "mine"), f.out);
    for (const std::string& secret : secrets)
        BOOST_TEST(!has(content_of(bay / "out/sealed/summary.json"), secret), secret);
}

BOOST_AUTO_TEST_CASE(why_names_what_a_fault_moves_only_when_asked) {
    const Bay bay;
    bay.write("day.yaml", secret_day);
    static_cast<void>(noonbench_in(bay, {"run", "day.yaml", "--into", "open"}));
    const std::vector<std::string> ask = {"why", "open", "--at", "10:40", "--links", "100"};
    const Finished shut = noonbench_in(bay, ask);
    for (const std::string& secret : secrets) BOOST_TEST(!has(shut.out, secret), secret);
    BOOST_TEST(has(shut.out, "hand pump -> on"), shut.out);
    auto reveal = ask;
    reveal.emplace_back("--reveal");
    const Finished open = noonbench_in(bay, reveal);
    for (const char* told : {"check_valve_leak", "store_top.offset", "glass_clearness", "foxglove"})
        BOOST_TEST(has(open.out, told), open.out);
}

BOOST_AUTO_TEST_SUITE_END()
