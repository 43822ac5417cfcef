// SPDX-License-Identifier: MIT
// A check that cannot fail would be worth nothing. Each of those on the shelf meets a log of a few
// rows in which what it forbids happens.
#include "bench_days.hpp"

#include "harness/judge/log.hpp"
#include "harness/scenario/read_checks.hpp"

#include <boost/test/unit_test.hpp>

#include <filesystem>
#include <set>
#include <span>
#include <string>
#include <utility>
#include <vector>

BOOST_AUTO_TEST_SUITE(checks)

using namespace noonbench;
using namespace noonbench::harness;
using namespace noonbench::harness::testing;

namespace {

struct Culprit {
    const char* check;
    const char* requirement;
    std::vector<traces::Signal> columns;
    std::vector<std::vector<double>> rows;  // seconds after midnight, then the columns
};

traces::Signal number(const char* name) {
    return {name, "", traces::SignalKind::number, {}, {}, 2, ""};
}

traces::Signal reason() {
    return {"pump_reason",
            "",
            traces::SignalKind::choice,
            {"waiting_for_sun", "collecting", "guarding_frost"},
            {},
            0,
            ""};
}

/// The pump off and on for so many seconds, again and again, then off for the rest of the day.
std::vector<std::vector<double>> strokes(int times, double off_s, double on_s) {
    std::vector<std::vector<double>> rows;
    for (int i = 0; i < times; ++i) {
        rows.push_back({i * (off_s + on_s), 0.0});
        rows.push_back({i * (off_s + on_s) + off_s, 1.0});
    }
    rows.push_back({times * (off_s + on_s), 0.0});
    rows.push_back({86400.0, 0.0});
    return rows;
}

/// One column more, the same in all rows.
std::vector<std::vector<double>> with(std::vector<std::vector<double>> rows, double value) {
    for (std::vector<double>& row : rows) row.push_back(value);
    return rows;
}

std::vector<std::vector<double>> all_day(std::vector<double> values) {
    std::vector<std::vector<double>> rows(2, {0.0});
    for (std::vector<double>& row : rows) row.insert(row.end(), values.begin(), values.end());
    rows[1][0] = 8.0 * 86400.0;
    return rows;
}

std::vector<Culprit> switching_culprits() {
    const auto relay = number("pump_relay");
    return {
        {"calm_switching", "no more than six starts in any hour", {relay}, strokes(9, 100, 100)},
        {"calm_switching", "no more than twenty starts a day", {relay}, strokes(22, 900, 900)},
        {"calm_switching", "the pump rests a minute between two runs", {relay}, strokes(3, 50, 90)},
        {"calm_switching",
         "the pump runs at least a minute",
         {relay, reason()},
         with(strokes(3, 90, 50), 1.0)},
        {"controller_manners",
         "a run that collects begins with a warmer collector",
         {reason(), number("difference_k")},
         {{0, 0, -1}, {10, 1, -1}, {20, 1, -1}}},
        {"controller_manners", "waiting means standing still", {reason(), relay}, {{0, 0, 1}}},
        {"controller_manners", "collecting means running", {reason(), relay}, {{0, 1, 0}}},
        {"controller_manners",
         "no collecting into a collector that may hold steam",
         {reason(), number("collector_reading_c")},
         {{0, 1, 140}}},
        {"controller_manners",
         "no collecting into a full store",
         {reason(), number("store_bottom_reading_c")},
         {{0, 1, 96}}},
    };
}

std::vector<Culprit> temperature_culprits() {
    const auto top = number("store_top_reading_c");
    const auto bottom = number("store_bottom_reading_c");
    return {
        {"frost", "the collector stays above freezing", {number("row_1_outlet_c")}, all_day({-1})},
        {"frost", "the guard leaves the store its floor", {reason(), bottom}, {{0, 2, 3}}},
        {"household_comfort", "few litres run cool", {number("tap_c")}, all_day({30})},
        {"household_comfort", "the store top is warm in the evening", {top}, all_day({40})},
        {"legionella", "the store is heated through once a week", {top, bottom}, all_day({62, 50})},
        {"legionella", "the top is kept hot", {top}, all_day({50})},
        {"overheating", "the store stays below 90 degC", {top}, all_day({91})},
        {"overheating", "no tap runs above 60 degC", {number("tap_c")}, all_day({61})},
        {"overheating",
         "a full store is not heated on by the sun",
         {number("pump_relay"), top},
         all_day({1, 92})},
        {"overheating",
         "the collector is cool again at night",
         {number("collector_reading_c")},
         all_day({80})},
    };
}

Outcome judged(const Culprit& culprit) {
    traces::Table log(culprit.columns, 0);
    for (const std::vector<double>& row : culprit.rows) {
        log.append(static_cast<std::int64_t>(row.front()), std::span(row).subspan(1));
    }
    const traces::Table known = with_known_signals(log);
    std::vector<RequirementText> texts =
        read_checks(shelf() / "checks" / (std::string(culprit.check) + ".yaml")).require;
    std::erase_if(texts, [&](const auto& text) { return text.name != culprit.requirement; });
    const auto requirements = understood_requirements(texts, known.signals());
    return judge_log(known, {}, requirements).at(0).outcome;
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_check_on_the_shelf_can_fail) {
    std::set<std::string> shown;
    for (const auto& culprits : {switching_culprits(), temperature_culprits()}) {
        for (const Culprit& culprit : culprits) {
            BOOST_TEST_CONTEXT(culprit.check << ": " << culprit.requirement) {
                const Outcome outcome = judged(culprit);
                BOOST_TEST((outcome.truth == Truth::not_held), verdict_words(outcome));
            }
            shown.insert(std::string(culprit.check) + ": " + culprit.requirement);
        }
    }
    for (const auto& entry : std::filesystem::directory_iterator(shelf() / "checks")) {
        for (const RequirementText& text : read_checks(entry.path()).require) {
            const std::string name = entry.path().stem().string() + ": " + text.name;
            BOOST_TEST(shown.contains(name), name << " is not shown to fail");
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
