// SPDX-License-Identifier: MIT
// Scenarios judged: while they run, afterwards, and from a log.
#include "bench_days.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/signals.hpp"
#include "harness/judge/judge.hpp"
#include "harness/judge/log.hpp"
#include "harness/scenario/read_checks.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(judge)

using namespace noonbench;
using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

RequirementText text_of(const char* name, const char* that, const char* look_at = "") {
    RequirementText text;
    text.name = name;
    text.that = that;
    text.look_at = look_at;
    return text;
}

Scenario with_fifty(Scenario scenario) {
    scenario.require = read_checks(std::filesystem::path(NOONBENCH_SOURCE_DIR) /
                                   "tests/benchmarks/fifty_requirements.yaml")
                           .require;
    return scenario;
}

void same_outcomes(const std::vector<Outcome>& a, const std::vector<Outcome>& b,
                   const std::vector<Requirement>& requirements) {
    BOOST_TEST_REQUIRE(a.size() == b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        BOOST_TEST_CONTEXT(requirements[i].text) {
            BOOST_TEST((a[i].truth == b[i].truth));
            BOOST_TEST_REQUIRE(a[i].margins.size() == b[i].margins.size());
            for (std::size_t m = 0; m < a[i].margins.size(); ++m) {
                BOOST_TEST(a[i].margins[m].lo == b[i].margins[m].lo);
                BOOST_TEST(a[i].margins[m].hi == b[i].margins[m].hi);
                BOOST_TEST(a[i].margins[m].tightest_at_s == b[i].margins[m].tightest_at_s);
            }
        }
    }
}

std::vector<Outcome> outcomes_in(const std::vector<Verdict>& verdicts) {
    std::vector<Outcome> outcomes;
    for (const Verdict& v : verdicts) outcomes.push_back(v.outcome);
    return outcomes;
}

}  // namespace

BOOST_AUTO_TEST_CASE(live_and_afterwards_give_the_same_verdicts_and_margins) {
    const Scenario scenario =
        with_fifty(day("clear_spring_day", {"start=2026-03-31 22:30", "length=14 h"}));
    const std::vector<Requirement> requirements = requirements_of(scenario);
    BOOST_TEST(requirements.size() == 50U);
    // afterwards: every column of every tick is kept first, then judged
    std::vector<Column> columns = columns_of(scenario);
    for (const Column& column : advice_columns()) columns.push_back(column);
    std::vector<std::vector<double>> kept;
    run_watched(scenario, [&](const Bench& bench) {
        kept.emplace_back();
        for (const Column& column : columns) kept.back().push_back(column.value(bench));
    });
    Monitor monitor(requirements, scenario.start_s);
    for (const std::vector<double>& tick : kept) {
        double* value = monitor.row();
        for (const std::size_t index : monitor.signals()) *value++ = tick[index];
        monitor.tick();
    }
    const std::vector<Outcome> afterwards = monitor.finish();
    same_outcomes(outcomes_of(scenario, requirements), afterwards, requirements);
    same_outcomes(outcomes_in(harness::judge(scenario, requirements).verdicts), afterwards,
                  requirements);
}

BOOST_AUTO_TEST_CASE(a_verdict_names_the_moment_the_reasons_and_where_to_look) {
    Scenario scenario = day("passing_clouds", {});
    scenario.require = {text_of(
        "always on at noon", "always between 11:30 and 12:00, pump_relay is on", "the long cloud")};
    const Judged judged = harness::judge(scenario, requirements_of(scenario));
    const Verdict& v = judged.verdicts.at(0);
    BOOST_TEST((v.outcome.truth == Truth::not_held));
    BOOST_TEST(v.look_at == "the long cloud");
    const std::string clock = clock_text(v.tightest_at_s);
    BOOST_TEST((clock >= "11:30:00" && clock < "12:00:00"), clock);
    BOOST_TEST_REQUIRE(!v.chain.empty());
    BOOST_TEST(v.chain.back().find("pump off") != std::string::npos, v.chain.back());
}

BOOST_AUTO_TEST_CASE(every_check_on_the_shelf_is_understood_for_every_day) {
    int checks = 0;
    for (const auto& entry : std::filesystem::directory_iterator(shelf() / "checks")) {
        const std::string name = entry.path().stem().string();
        for (const char* scenario : {"clear_spring_day", "east_west_roof", "frosty_night_water"}) {
            Scenario s = day(scenario, {});
            s.require = read_checks(entry.path()).require;
            BOOST_TEST_CONTEXT(name << " over " << scenario) {
                BOOST_CHECK_NO_THROW(static_cast<void>(requirements_of(s)));
            }
            ++checks;
        }
    }
    BOOST_TEST(checks >= 18);
}

BOOST_AUTO_TEST_CASE(
    a_log_of_every_second_is_judged_as_the_run_was_to_the_rounding_of_its_columns) {
    const Scenario scenario = with_fifty(day("clear_spring_day", {}));
    const std::vector<Requirement> requirements = requirements_of(scenario);
    const Judged judged = harness::judge(scenario, requirements);
    const traces::Table log = with_known_signals(judged.result.trace);
    const std::vector<Verdict> again = judge_log(log, judged.result.events, requirements);
    for (std::size_t i = 0; i < again.size(); ++i) {
        BOOST_TEST_CONTEXT(again[i].text) {
            BOOST_TEST((again[i].outcome.truth == judged.verdicts[i].outcome.truth));
            for (std::size_t m = 0; m < again[i].outcome.margins.size(); ++m) {
                const Margin& a = again[i].outcome.margins[m];
                const Margin& b = judged.verdicts[i].outcome.margins[m];
                if (std::isinf(b.lo)) {
                    BOOST_TEST(a.lo == b.lo);
                } else {  // half of the last decimal of two columns; powers and their sums: 0.05 W
                    BOOST_TEST(std::abs(a.lo - b.lo) <= 0.011 + 0.001 * std::abs(b.lo),
                               a.lo << " from the log, " << b.lo << " live");
                }
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(between_the_rows_of_a_log_temperatures_go_straight_and_relays_stand) {
    using traces::SignalKind;
    traces::Table log(
        {{"collector_reading_c", "", SignalKind::number, {}, {}, 1, ""},
         {"pump_relay", "", SignalKind::number, {}, {}, 0, ""},
         {"pump_reason", "", SignalKind::choice, {"collecting", "waiting_for_sun"}, {}, 0, ""}},
        0);
    log.append(0, std::vector<double>{20.0, 0.0, 1.0});
    log.append(60, std::vector<double>{50.0, 1.0, 0.0});
    log.append(120, std::vector<double>{50.0, 1.0, 0.0});
    const traces::Table known = with_known_signals(log);
    const std::vector<RequirementText> texts{
        text_of("straight",
                "each time collector_reading_c >= 35 degC, collector_reading_c >= 40 degC follows "
                "within 10 s"),
        text_of("too early", "never within 29 s collector_reading_c >= 35 degC"),
        text_of("relay stands", "never within 59 s pump_relay is on"),
        text_of("word", "always from 60 s to 120 s pump_reason is collecting"),
        text_of("last row", "over the run: time with (pump_relay is on) = 61 s")};
    const auto requirements = understood_requirements(texts, known.signals());
    for (const Verdict& v : judge_log(known, {}, requirements)) {
        BOOST_TEST((v.outcome.truth == Truth::held), v.name << ": " << verdict_words(v.outcome));
    }
}

BOOST_AUTO_TEST_CASE(a_missing_number_is_said_to_be_missing) {
    Scenario scenario = day("clear_spring_day", {"length=1 h"});
    scenario.require = {text_of("from the first second", "always collector_reading_c < 200 degC")};
    const Judged judged = harness::judge(scenario, requirements_of(scenario));
    BOOST_TEST(verdict_words(judged.verdicts.at(0).outcome) ==
               "not held: there was no value to compare");
}

BOOST_AUTO_TEST_SUITE_END()
