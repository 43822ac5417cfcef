// SPDX-License-Identifier: MIT
// The controller without its mains, and with a clock that is not right.
#include "bench_days.hpp"
#include "unprinted.hpp"

#include <boost/test/unit_test.hpp>

#include <string>

BOOST_AUTO_TEST_SUITE(power)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
namespace firmware = noonbench::firmware;
using firmware::PumpReason;
using firmware::Sensor;
using firmware::SensorStatus;
using firmware::Setting;

const firmware::Reading& reading(const Bench& bench, Sensor sensor) {
    return bench.outputs().readings[static_cast<std::size_t>(sensor)];
}

/// One move of a scenario in YAML.
std::string move(const std::string& text) {
    return "  - {" + text + "}\n";
}

}  // namespace

BOOST_AUTO_TEST_CASE(without_power_nothing_is_driven_and_nothing_is_claimed) {
    Bench bench(april("moves:\n" + move("at: \"10:30:00\", wire: mains_power, to: no"),
                      "2026-04-15 10:00", 1));
    run_for(bench, 1800);
    BOOST_TEST(bench.outputs().pump_relay == 1);
    bench.tick();
    BOOST_TEST(!bench.controller_powered());
    BOOST_TEST(bench.outputs().pump_relay == 0);
    BOOST_TEST(bench.outputs().drive_level_pct == 0);
    run_for(bench, 60);
    BOOST_TEST(bench.plant().last.pump.power_w == 0.0);
    BOOST_TEST(bench.plant().last.flow_m3_s == 0.0);
    for (const auto& r : bench.outputs().readings) {
        BOOST_CHECK(r.status != SensorStatus::good);  // a dark display shows no temperature
    }
}

BOOST_AUTO_TEST_CASE(a_dark_display_shows_nothing_whether_the_pump_ran_or_not) {
    Bench bench(april("moves:\n" + move("at: \"00:30:00\", wire: mains_power, to: no"),
                      "2026-04-15 00:00", 1));
    run_for(bench, 1800);
    BOOST_TEST(bench.outputs().pump_relay == 0);
    run_for(bench, 60);
    for (const auto& r : bench.outputs().readings) {
        BOOST_CHECK(r.status != SensorStatus::good);
    }
}

BOOST_AUTO_TEST_CASE(power_that_returns_finds_settings_and_counters_but_no_hand_and_no_filter) {
    const std::string cut = "moves:\n" +
                            move("at: \"10:10:00\", setting: start_difference, to: 9 K") +
                            move("at: \"11:20:00\", hand: pump, to: on") +
                            move("at: \"11:30:00\", wire: mains_power, to: no") +
                            move("at: \"11:31:00\", wire: mains_power, to: yes");
    Bench bench(april(cut, "2026-04-15 10:00", 2));
    run_for(bench, 3601);  // the hourly saving at 11:00
    const auto saved_wh = bench.outputs().tally_wh;
    const auto saved_starts = bench.outputs().pump_starts;
    run_for(bench, 29 * 60);
    BOOST_CHECK(bench.outputs().pump_reason == PumpReason::hand_on);
    BOOST_TEST(bench.outputs().tally_wh > saved_wh);
    run_until(bench, bench.scenario().start_s + 5461);  // the tick of 11:31:00 is done
    BOOST_TEST(bench.controller_powered());
    BOOST_TEST(bench.settings()[Setting::start_difference] == 900);
    BOOST_CHECK(bench.outputs().pump_reason != PumpReason::hand_on);
    BOOST_CHECK(reading(bench, Sensor::collector).status == SensorStatus::settling);
    BOOST_TEST(bench.outputs().pump_relay == 0);
    BOOST_TEST(bench.outputs().tally_wh == saved_wh);  // what was counted since 11:00 is lost
    BOOST_TEST(bench.outputs().pump_starts == saved_starts);
    run_for(bench, 20);
    BOOST_CHECK(reading(bench, Sensor::collector).status == SensorStatus::good);
}

BOOST_AUTO_TEST_CASE(a_button_pressed_in_the_dark_is_not_remembered) {
    Bench bench(april("moves:\n" + move("at: \"00:10:00\", wire: mains_power, to: no") +
                          move("at: \"00:11:00\", hand: pump, to: on") +
                          move("at: \"00:12:00\", wire: mains_power, to: yes"),
                      "2026-04-15 00:00", 1));
    run_for(bench, 900);
    BOOST_CHECK(bench.outputs().pump_reason == PumpReason::waiting_for_sun);
}

// The window opens when the controller's clock says so: ten minutes late by the true time for a
// clock that is ten minutes slow, and by what it has drifted since the start.
BOOST_AUTO_TEST_CASE(windows_follow_the_controllers_own_clock) {
    const auto opens_at = [](const std::string& clock) {
        Bench bench(
            april("store: {start_top: 20 degC, start_bottom: 15 degC}\n"
                  "controller:\n  sanitise: off\n  solar_first: off\n  summer_time: none\n"
                  "  window_1_from: \"02:00\"\n  window_1_until: \"04:00\"\n" +
                      clock,
                  "2026-04-15 00:00", 3));
        while (bench.now() < bench.scenario().start_s + 3 * 3600) {
            bench.decide();
            if (bench.outputs().backup_relay != 0) break;
            bench.advance();
        }
        return bench.now() - bench.scenario().start_s;
    };
    BOOST_TEST(opens_at("") == 7200);
    BOOST_TEST(opens_at("  clock: {offset: -10 min}\n") == 7800);
    BOOST_TEST(opens_at("  clock: {offset: 10 min}\n") == 6600);
    // loses 60 s a day: after 7205 s it is 5.003 s behind, so floor() shows 02:00:00 at 7206
    const auto slow = opens_at("  clock: {drift: -60 s/day}\n");
    BOOST_TEST(slow >= 7205);
    BOOST_TEST(slow <= 7206);
}

BOOST_AUTO_TEST_SUITE_END()
