// SPDX-License-Identifier: MIT
// A run that is played by hand leaves what a scenario with the same moves leaves, however it was
// watched, wound back or forked.
#include "harness/live/live_bench.hpp"
#include "harness/bench/run.hpp"
#include "harness/live/saved.hpp"
#include "harness/live/session.hpp"
#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstring>
#include <map>
#include <string>
#include <utility>
#include <vector>

BOOST_AUTO_TEST_SUITE(live_bench)

using namespace noonbench;
using namespace noonbench::harness;

namespace {

const std::filesystem::path shelf_folder =
    std::filesystem::path(NOONBENCH_SOURCE_DIR) / "scenarios";

std::filesystem::path day(const std::string& name) {
    return shelf_folder / "days" / (name + ".yaml");
}

LiveBench live(const std::string& name) {
    return LiveBench(Bench(read_scenario(day(name))));
}

Move lever(const std::string& name, double to, CivilSeconds at_s = 0) {
    Move move;
    move.at_s = at_s;
    move.what = LeverMove{name, to};
    move.name = name;
    return move;
}

Move setting(firmware::Setting which, std::int16_t to) {
    Move move;
    move.what = SettingMove{which, to};
    move.name = firmware::setting_table()[static_cast<std::size_t>(which)].name;
    return move;
}

using Shown = std::map<CivilSeconds, std::vector<float>>;

/// Every tick of the scenario as it runs, unrounded.
Shown ticks_of(const Scenario& scenario) {
    const std::vector<Column> columns = columns_of(scenario);
    Shown all;
    run_watched(scenario, [&](const Bench& bench) {
        std::vector<float>& values = all[bench.now()];
        values.reserve(columns.size());
        for (const Column& column : columns) {
            values.push_back(static_cast<float>(column.value(bench)));
        }
    });
    return all;
}

/// Ticks that were shown otherwise than they ran, in any bit.
std::size_t unlike_ticks(const Shown& shown, const Shown& ran) {
    std::size_t unlike = 0;
    for (const auto& [at_s, values] : shown) {
        const auto run = ran.find(at_s);
        const bool same =
            run != ran.end() && run->second.size() == values.size() &&
            std::memcmp(run->second.data(), values.data(), values.size() * sizeof(float)) == 0;
        if (!same) ++unlike;
    }
    return unlike;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_played_day_is_the_day_that_runs) {
    const Scenario scenario = read_scenario(day("passing_clouds"));
    LiveBench bench{Bench(scenario)};
    Shown shown;
    bench.play(bench.last_s(), [&](const SeenTick& tick) { shown[tick.at_s] = tick.values; });
    BOOST_TEST(shown.size() == static_cast<std::size_t>(scenario.length_s - 1));
    BOOST_TEST(unlike_ticks(shown, ticks_of(scenario)) == 0U);
}

BOOST_AUTO_TEST_CASE(moves_by_hand_leave_the_bytes_of_a_scenario_with_these_moves) {
    LiveBench bench = live("clear_spring_day");
    const CivilSeconds start = bench.scenario().start_s;
    Scenario written = bench.scenario();
    // Moments that fall into the middle of strides, at night, in the morning, at noon.
    const std::vector<std::pair<int, Move>> hands{
        {3 * 3600 + 17, setting(firmware::Setting::start_difference, 500)},
        {9 * 3600 + 1234, lever("passing_cloud", 0.9)},
        {9 * 3600 + 1500, lever("passing_cloud", 0.0)},
        {12 * 3600 + 7, lever("open_tap", 8.0)},
        {12 * 3600 + 308, lever("open_tap", 0.0)},
        {13 * 3600 + 59, lever("isolator_closed", 0.0)}};
    for (const auto& [at_s, hand] : hands) {
        bench.play(start + at_s);
        bench.make(hand);
        Move move = hand;
        move.at_s = start + at_s + 1;
        written.moves.push_back(move);
    }
    bench.play(bench.last_s());
    const Shown ran = ticks_of(written);
    Shown again;
    bench.tell_again(1, [&](const SeenTick& tick) { again[tick.at_s] = tick.values; });
    BOOST_TEST(again.size() == static_cast<std::size_t>(written.length_s));
    BOOST_TEST(unlike_ticks(again, ran) == 0U);
    BOOST_TEST(unlike_ticks({{bench.seen().at_s, bench.seen().values}}, ran) == 0U);
}

BOOST_AUTO_TEST_CASE(winding_back_forgets_what_was_done_later) {
    LiveBench bench = live("clear_spring_day");
    const CivilSeconds start = bench.scenario().start_s;
    LiveBench untouched = bench;
    bench.play(start + 10 * 3600);
    bench.make(lever("isolator_closed", 0.0));
    bench.play(start + 12 * 3600);
    BOOST_TEST(bench.bench().plant().last.pump.turning == false);
    bench.rewind(start + 10 * 3600 - 100, LiveBench::Later::forgotten);
    BOOST_TEST(bench.seen().at_s == start + 10 * 3600 - 100);
    bench.play(start + 12 * 3600);
    untouched.play(start + 12 * 3600);
    BOOST_TEST(bench.seen().values.size() == untouched.seen().values.size());
    for (std::size_t i = 0; i < bench.seen().values.size(); ++i) {
        const float a = bench.seen().values[i];
        const float b = untouched.seen().values[i];
        BOOST_TEST((a == b || (std::isnan(a) && std::isnan(b))),
                   bench.columns()[i].signal.name << ": " << a << " and " << b);
    }
}

BOOST_AUTO_TEST_CASE(winding_back_may_keep_what_was_done_later) {
    LiveBench bench = live("clear_spring_day");
    const CivilSeconds start = bench.scenario().start_s;
    bench.play(start + 10 * 3600);
    bench.make(lever("isolator_closed", 0.0));
    bench.play(start + 11 * 3600);
    const std::vector<float> before = bench.seen().values;
    bench.rewind(start + 8 * 3600, LiveBench::Later::kept);
    BOOST_TEST(bench.bench().plant().last.pump.turning == true);
    bench.play(start + 11 * 3600);
    BOOST_TEST(
        std::memcmp(before.data(), bench.seen().values.data(), before.size() * sizeof(float)) == 0);
}

BOOST_AUTO_TEST_CASE(events_are_those_of_the_run) {
    const Scenario scenario = read_scenario(day("clear_spring_day"));
    LiveBench bench{Bench(scenario)};
    std::vector<traces::Event> events = bench.seen().events;
    bench.play(bench.last_s(), [&](const SeenTick& tick) {
        events.insert(events.end(), tick.events.begin(), tick.events.end());
    });
    const std::vector<traces::Event> written = run(scenario).events;
    BOOST_TEST_REQUIRE(events.size() == written.size());
    for (std::size_t i = 0; i < events.size(); ++i) {
        BOOST_TEST(events[i].at_s == written[i].at_s);
        BOOST_TEST(events[i].name == written[i].name);
        BOOST_TEST(events[i].because == written[i].because);
    }
}

BOOST_AUTO_TEST_CASE(a_saved_run_is_a_scenario_with_these_moves) {
    const std::vector<HandMoveText> by_hand{
        {civil_seconds(2026, 4, 15) + 36001, "setting", "start_difference", "6 K", 0},
        {civil_seconds(2026, 4, 15) + 40000, "lever", "passing_cloud", "90 %", 30},
        {civil_seconds(2026, 4, 15) + 41000, "wire", "collector.state", "open", 0},
        {civil_seconds(2026, 4, 15) + 42000, "hand", "pump", "on", 0}};
    const Scenario before = read_scenario(day("clear_spring_day"));
    const Scenario saved =
        read_scenario_text(saved_scenario(day("clear_spring_day"), {}, by_hand), "saved.yaml");
    BOOST_TEST_REQUIRE(saved.moves.size() == before.moves.size() + 4);
    BOOST_TEST(saved.start_s == before.start_s);
    BOOST_TEST(saved.moves[before.moves.size()].at_s == by_hand[0].at_s);
    BOOST_TEST(saved.moves[before.moves.size() + 1].over_s == 30);
}

BOOST_AUTO_TEST_SUITE_END()
