// SPDX-License-Identifier: MIT
// The gauge on the bench: columns, requirements, sums and what must be said beside them.
#include "bench_days.hpp"

#include "harness/bench/run.hpp"
#include "harness/judge/judge.hpp"
#include "harness/report/summary.hpp"

#include <boost/json.hpp>
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <string>

BOOST_AUTO_TEST_SUITE(pressure)

using namespace noonbench;
using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

/// A clear April day's hours before two o'clock in the afternoon, with a lever moved at four.
RunResult run_with(const std::string& lever_move) {
    return run(april("record: {every: 1 min}\nmoves:\n  - {" + lever_move + ", at: \"04:00\"}\n",
                     "2026-04-15 00:00", 14));
}

bool is_warned_of(const RunResult& r, const char* beginning) {
    return std::any_of(r.cautions.begin(), r.cautions.end(),
                       [&](const std::string& text) { return text.starts_with(beginning); });
}

/// Column at a minute of the run.
double at_minute(const RunResult& r, const char* column, std::size_t minute) {
    return r.trace.value(minute, r.trace.column(column));
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_requirement_on_the_gauge_has_its_margin_in_bar) {
    Scenario scenario = april("", "2026-04-15 11:00", 1);
    RequirementText text;
    text.name = "below the valve";
    text.that = "never gauge_bar > 600 kPa";
    scenario.require = {text};
    const Judged judged = harness::judge(scenario, requirements_of(scenario));
    const Outcome& outcome = judged.verdicts.at(0).outcome;
    const double highest_bar = highest(judged.result.trace, "gauge_bar", [](auto) { return true; });
    BOOST_TEST((outcome.truth == Truth::held));
    // The trace keeps hundredths of a bar.
    BOOST_CHECK_SMALL(outcome.margins.at(0).lo - (6.0 - highest_bar), 0.0051);
    BOOST_TEST(verdict_words(outcome).ends_with(" bar"), verdict_words(outcome));
}

BOOST_AUTO_TEST_CASE(gauge_and_top_differ_by_the_weight_of_the_fluid) {
    // 1030 kg/m3 x 9.81 m/s2 x 8 m, 40 % by mass at 20 degC; hundredths of a bar are kept.
    const RunResult r = run(april("record: {every: 1 min}", "2026-04-15 11:00", 1));
    for (std::size_t minute = 0; minute < 60; ++minute) {
        const double column_bar =
            at_minute(r, "gauge_bar", minute) - at_minute(r, "top_bar", minute);
        BOOST_CHECK_SMALL(column_bar - 0.808, 0.013);
    }
}

BOOST_AUTO_TEST_CASE(the_sums_hold_the_least_and_the_greatest_of_the_gauge) {
    const RunResult r = run(april("record: {every: 1 min}", "2026-04-15 00:00", 24));
    const double most = highest(r.trace, "gauge_bar", [](auto) { return true; });
    double least = 1e9;
    for (std::size_t row = 0; row < r.trace.row_count(); ++row) {
        least = std::min(least, at_minute(r, "gauge_bar", row));
    }
    BOOST_CHECK_SMALL(r.total.gauge_highest_bar - most, 0.0051);
    BOOST_CHECK_SMALL(r.total.gauge_least_bar - least, 0.0051);
    const auto total = boost::json::parse(summary_json(r, {})).at("total");
    BOOST_CHECK_SMALL(total.at("gauge_highest_bar").to_number<double>() - most, 0.0051);
    BOOST_CHECK_SMALL(total.at("gauge_least_bar").to_number<double>() - least, 0.0051);
    BOOST_TEST(!is_warned_of(r, "Relief valve:"));
    BOOST_TEST(!is_warned_of(r, "Low pressure:"));
}

BOOST_AUTO_TEST_CASE(a_shut_vessel_passes_the_relief_valve_and_the_report_says_so) {
    const RunResult r = run_with("lever: vessel_cap_closed, to: 1");
    BOOST_TEST(r.total.gauge_highest_bar > 6.0);
    BOOST_TEST(is_warned_of(r, "Relief valve:"));
}

BOOST_AUTO_TEST_CASE(fluid_that_weeps_away_lowers_the_gauge_until_the_column_breaks) {
    const RunResult r = run_with("lever: lost_fluid_m3, to: 8 l, over: 4 h");
    double before = at_minute(r, "gauge_bar", 240);
    for (std::size_t minute = 250; minute <= 360; minute += 10) {
        const double now = at_minute(r, "gauge_bar", minute);
        BOOST_TEST(now <= before);
        before = now;
    }
    BOOST_TEST(is_warned_of(r, "Low pressure:"));
    BOOST_TEST(!is_warned_of(r, "Relief valve:"));
    // Vacuum at the top and no further: 0.1 bar absolute.
    BOOST_TEST(at_minute(r, "top_bar", 540) > -0.95);
}

BOOST_AUTO_TEST_CASE(the_boiling_point_is_that_of_the_pressure_at_the_top_when_the_run_begins) {
    const RunResult full = run(april("record: {every: 1 min}", "2026-04-15 00:00", 1));
    const RunResult low =
        run(april("record: {every: 1 min}\nloop: {pressure: 1 bar}", "2026-04-15 00:00", 1));
    // Raoult's law, 40 % by volume: 124.77 degC at 2 bar absolute; the top stands at 2.17 bar here.
    BOOST_CHECK_SMALL(full.boiling_point_c - 127.3, 1.0);
    // A bar less at the gauge is a bar less at the top: 1.17 bar, between 104.06 and 115.70 degC.
    BOOST_TEST((low.boiling_point_c > 104.06 && low.boiling_point_c < 115.70),
               low.boiling_point_c << " degC");
}

BOOST_AUTO_TEST_CASE(vessel_and_valve_are_read_from_the_scenario) {
    const Scenario s = april(
        "loop:\n  fill_temperature: 25 degC\n  vessel: {volume: 12 l, precharge: 0.8 bar}\n"
        "  relief_valve: {opening: 4 bar}\n");
    BOOST_CHECK_CLOSE(s.plant.loop.vessel_volume_m3.value(), 0.012, 1e-9);
    BOOST_CHECK_CLOSE(s.plant.loop.vessel_precharge_pa.value(), 0.8e5, 1e-9);
    BOOST_CHECK_CLOSE(s.plant.loop.relief_valve_pa, 4e5, 1e-9);
    BOOST_TEST(s.plant.loop.fill_temperature_c == 25.0);
    BOOST_TEST(!april().plant.loop.vessel_volume_m3.has_value());
}

BOOST_AUTO_TEST_SUITE_END()
