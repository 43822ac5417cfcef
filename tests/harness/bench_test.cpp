// SPDX-License-Identifier: MIT
#include "bench_days.hpp"
#include "unprinted.hpp"

#include "harness/bench/clock.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <thread>
#include <vector>

BOOST_AUTO_TEST_SUITE(bench)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
namespace firmware = noonbench::firmware;
namespace plant = noonbench::plant;
using firmware::PumpReason;
using firmware::Sensor;
using firmware::SensorStatus;
using firmware::Setting;

const firmware::Reading& reading(const Bench& bench, Sensor sensor) {
    return bench.outputs().readings[static_cast<std::size_t>(sensor)];
}

double reading_c(const Bench& bench, Sensor sensor) {
    return reading(bench, sensor).temperature.centicelsius / 100.0;
}

/// One move of a scenario in YAML.
std::string move(const std::string& text) {
    return "  - {" + text + "}\n";
}

constexpr auto quiet_house = "household:\n  profile: none\n";

}  // namespace

// ------------------------------------------------------------------ the order of a tick

BOOST_AUTO_TEST_CASE(a_decision_acts_on_the_second_that_begins_with_it) {
    Bench bench(
        april(std::string(quiet_house) + "moves:\n" + move("at: \"00:01:00\", hand: pump, to: on"),
              "2026-04-15 00:00", 1));
    run_until(bench, bench.scenario().start_s + 60);
    BOOST_TEST(bench.outputs().pump_relay == 0);
    bench.decide();
    BOOST_TEST(bench.now() == bench.scenario().start_s + 60);
    BOOST_TEST(bench.outputs().pump_relay == 1);      // decided at the instant itself
    BOOST_TEST(bench.plant().last.flow_m3_s == 0.0);  // nothing has moved yet
    BOOST_TEST(bench.moved().size() == 1U);
    bench.advance();
    BOOST_TEST(bench.now() == bench.scenario().start_s + 61);
    BOOST_TEST(bench.plant().last.flow_m3_s > 0.0);  // and this second it runs
    bench.tick();
    BOOST_TEST(bench.moved().empty());
}

BOOST_AUTO_TEST_CASE(a_move_on_a_wire_reaches_the_controller_in_the_same_tick) {
    Bench bench(april("wiring:\n  collector: {noise: 0 K}\nmoves:\n" +
                          move("at: \"00:05:00\", wire: collector.state, to: open"),
                      "2026-04-15 00:00", 1));
    run_until(bench, bench.scenario().start_s + 300);
    BOOST_CHECK(reading(bench, Sensor::collector).status == SensorStatus::good);
    // samples_to_fault bad samples, the first at 00:05:00 itself
    for (int i = 0; i < firmware::samples_to_fault - 1; ++i) bench.tick();
    BOOST_CHECK(reading(bench, Sensor::collector).status == SensorStatus::good);
    bench.tick();
    BOOST_CHECK(reading(bench, Sensor::collector).status == SensorStatus::open);
}

BOOST_AUTO_TEST_CASE(draws_before_the_switching_on_do_not_come_up) {
    const std::string morning =
        "household:\n  draws:\n    - {at: \"06:00\", energy: 1 kWh, flow: 6 l/min}\n"
        "    - {at: \"12:00\", energy: 0.2 kWh, flow: 6 l/min}\n";
    Bench bench(april(morning, "2026-04-15 11:00", 2));
    run_for(bench, 3599);
    BOOST_TEST(bench.household().totals.draws_started == 0);
    run_for(bench, 2);
    BOOST_TEST(bench.household().totals.draws_started == 1);
    BOOST_TEST(bench.tap_flow_kg_s() > 0.0);
}

BOOST_AUTO_TEST_CASE(a_draw_that_runs_over_midnight_goes_on) {
    const std::string late =
        "household:\n  draws:\n    - {at: \"23:59\", energy: 1 kWh, flow: 4 l/min}\n"
        "store: {start_top: 55 degC, start_bottom: 50 degC}\n";
    Bench bench(april(late, "2026-04-15 23:00", 3));
    run_until(bench, day_start(bench.now()) + 86400 + 30);
    BOOST_TEST(bench.tap_flow_kg_s() > 0.0);
    run_for(bench, 3600);
    const auto& totals = bench.household().totals;
    BOOST_TEST(totals.draws_started == 1);
    BOOST_CHECK_CLOSE(totals.delivered_j, 3.6e6, 0.2);  // partial_within of the household, 0.1 %
}

// ------------------------------------------------------------------ moves

BOOST_AUTO_TEST_CASE(a_setting_moves_at_its_second_and_stays) {
    Bench bench(april("moves:\n" + move("at: \"00:00:30\", setting: start_difference, to: 12 K"),
                      "2026-04-15 00:00", 1));
    run_for(bench, 30);
    BOOST_TEST(bench.settings()[Setting::start_difference] ==
               firmware::default_settings()[Setting::start_difference]);
    bench.tick();
    BOOST_TEST(bench.settings()[Setting::start_difference] == 1200);
    run_for(bench, 60);
    BOOST_TEST(bench.settings()[Setting::start_difference] == 1200);
}

BOOST_AUTO_TEST_CASE(moves_at_the_very_start_are_made_on_the_first_tick) {
    Bench bench(april("moves:\n" + move("lever: coil_fouling, to: 0.4"), "2026-04-15 00:00", 1));
    bench.decide();
    BOOST_TEST(bench.plant().levers.coil_fouling == 0.4);
    BOOST_TEST(bench.moved().size() == 1U);
}

BOOST_AUTO_TEST_CASE(of_two_moves_in_one_second_the_later_written_stands) {
    Bench bench(april("moves:\n" + move("at: \"00:01:00\", lever: flow_factor, to: 0.5") +
                          move("at: \"00:01:00\", lever: flow_factor, to: 0.25"),
                      "2026-04-15 00:00", 1));
    run_for(bench, 61);
    BOOST_TEST(bench.plant().levers.flow_factor == 0.25);
}

BOOST_AUTO_TEST_CASE(a_slide_is_a_straight_line_that_ends_exactly_on_its_target) {
    Bench bench(april("moves:\n" +
                          move("at: \"00:01:00\", over: 10 min, lever: flow_factor, to: 0.3") +
                          move("at: \"00:20:00\", over: 7 min, lever: flow_factor, to: 0.7") +
                          move("at: \"00:30:00\", over: 11 min, lever: flow_factor, to: 0.1"),
                      "2026-04-15 00:00", 1));
    const auto& lever = bench.plant().levers.flow_factor;
    run_for(bench, 61);
    BOOST_TEST(lever == 1.0);  // the straight line begins at the old value
    run_for(bench, 300);
    BOOST_CHECK_CLOSE(lever, 0.65, 1e-10);
    run_for(bench, 299);
    BOOST_TEST(lever > 0.3);
    run_for(bench, 1);
    BOOST_TEST(lever == 0.3);
    run_for(bench, 120);
    BOOST_TEST(lever == 0.3);
    run_until(bench, bench.scenario().start_s + 1621);
    BOOST_TEST(lever == 0.7);
    run_until(bench, bench.scenario().start_s + 2461);
    BOOST_TEST(lever == 0.1);
}

BOOST_AUTO_TEST_CASE(a_drifting_sensor_slides_on_its_wire) {
    Bench bench(
        april("wiring:\n  store_bottom: {noise: 0 K}\nmoves:\n" +
                  move("at: \"00:10:00\", over: 20 min, wire: store_bottom.offset, to: 6 K"),
              "2026-04-15 00:00", 1));
    run_for(bench, 590);
    const double before = reading_c(bench, Sensor::store_bottom);
    run_until(bench, bench.scenario().start_s + 1200);
    // half of 6 K; the mean of 8 s lags by 3.5 s x 5 mK/s, the sensor moves by less than 0.1 K
    BOOST_CHECK_SMALL(reading_c(bench, Sensor::store_bottom) - before - 3.0, 0.15);
    run_until(bench, bench.scenario().start_s + 1900);
    BOOST_CHECK_SMALL(reading_c(bench, Sensor::store_bottom) - before - 6.0, 0.15);
}

// What is moved at once while a slide is under way has been moved: a lesson that repairs a fault
// half-way must not see it come back a second later.
BOOST_AUTO_TEST_CASE(a_move_at_once_ends_a_slide_of_the_same_thing) {
    Bench bench(april("moves:\n" +
                          move("at: \"00:01:00\", over: 20 min, lever: flow_factor, to: 0") +
                          move("at: \"00:05:00\", lever: flow_factor, to: 1") +
                          move("at: \"00:01:00\", over: 20 min, wire: collector.offset, to: 9 K") +
                          move("at: \"00:05:00\", wire: collector.offset, to: 0 K"),
                      "2026-04-15 00:00", 1));
    run_for(bench, 301);
    BOOST_TEST(bench.plant().levers.flow_factor == 1.0);
    run_for(bench, 1200);
    BOOST_TEST(bench.plant().levers.flow_factor == 1.0);
}

BOOST_AUTO_TEST_CASE(a_hand_holds_until_the_next_hand) {
    Bench bench(april("moves:\n" + move("at: \"00:10:00\", hand: pump, to: on") +
                          move("at: \"00:20:00\", hand: pump, to: off") +
                          move("at: \"00:30:00\", hand: pump, to: automatic"),
                      "2026-04-15 00:00", 1));
    run_for(bench, 601);
    BOOST_CHECK(bench.outputs().pump_reason == PumpReason::hand_on);
    run_for(bench, 500);
    BOOST_CHECK(bench.outputs().pump_reason == PumpReason::hand_on);
    run_for(bench, 200);
    BOOST_CHECK(bench.outputs().pump_reason == PumpReason::hand_off);
    run_for(bench, 600);
    BOOST_CHECK(bench.outputs().pump_reason == PumpReason::waiting_for_sun);
}

// ------------------------------------------------------------------ wires

BOOST_AUTO_TEST_CASE(swapped_sensors_show_each_others_temperature) {
    const std::string swapped =
        "store: {start_top: 60 degC, start_bottom: 20 degC}\nmoves:\n" +
        move("at: \"00:10:00\", wire: store_bottom.plugged_into, to: store_top") +
        move("at: \"00:10:00\", wire: store_top.plugged_into, to: store_bottom");
    Bench bench(april(swapped, "2026-04-15 00:00", 1));
    run_for(bench, 590);
    const double bottom = reading_c(bench, Sensor::store_bottom);
    const double top = reading_c(bench, Sensor::store_top);
    BOOST_TEST(top - bottom > 15.0);
    run_for(bench, 60);
    BOOST_CHECK_SMALL(reading_c(bench, Sensor::store_bottom) - top, 0.5);
    BOOST_CHECK_SMALL(reading_c(bench, Sensor::store_top) - bottom, 0.5);
}

BOOST_AUTO_TEST_CASE(a_socket_that_nobody_is_plugged_into_is_open) {
    Bench bench(april("moves:\n  - {wire: store_top.plugged_into, to: store_bottom}\n",
                      "2026-04-15 00:00", 1));
    run_for(bench, 30);
    BOOST_CHECK(reading(bench, Sensor::store_top).status == SensorStatus::open);
    BOOST_CHECK(reading(bench, Sensor::store_bottom).status == SensorStatus::good);
}

BOOST_AUTO_TEST_CASE(a_sensor_that_is_not_fitted_disturbs_no_other) {
    Bench bench(april("", "2026-04-15 00:00", 1));
    run_for(bench, 30);
    BOOST_CHECK(reading(bench, Sensor::station_return).status == SensorStatus::not_fitted);
    BOOST_CHECK(reading(bench, Sensor::collector).status == SensorStatus::good);
}

// The meter sends whole pulses of the true volume: after a run the pulses that the controller has
// been given make its heat counter what the true flow, rise and content say.
BOOST_AUTO_TEST_CASE(the_pulse_meter_counts_the_true_volume) {
    const std::string metered =
        "controller:\n  tally_source: pulse_meter\n  pulses_per_litre: 10 pulses/l\n"
        "wiring:\n  pulse_meter: {fitted: yes, pulses: 10 pulses/l}\n";
    const auto counted_kwh = [&](const std::string& sets) {
        Bench bench(april(metered + sets, "2026-04-15 10:00", 3));
        run_for(bench, 3 * 3600);
        return bench.outputs().tally_wh / 1000.0;
    };
    const double whole = counted_kwh("");
    BOOST_TEST(whole > 1.0);
    // half the true flow from the start halves the litres, so the counter must not stay
    const double half = counted_kwh("moves:\n" + move("lever: flow_factor, to: 0.5"));
    BOOST_TEST(half > 0.5);
    const double lost = counted_kwh("moves:\n" + move("wire: pulse_meter, to: no"));
    BOOST_TEST(lost == 0.0);
}

BOOST_AUTO_TEST_CASE(a_cut_speed_wire_does_not_reach_the_pump) {
    const std::string speed =
        "loop:\n  pump: {takes_speed_signal: yes}\ncontroller:\n  pump_drive: target_difference\n"
        "moves:\n" +
        move("at: \"10:30:00\", wire: speed_wire, to: no");
    Bench bench(april(speed, "2026-04-15 10:00", 1));
    run_for(bench, 1799);
    BOOST_TEST(bench.outputs().pump_relay == 1);
    const double before = bench.plant().last.flow_m3_s;
    run_for(bench, 10);
    BOOST_TEST(bench.plant().last.flow_m3_s != before);
}

// ------------------------------------------------------------------ the same again

BOOST_AUTO_TEST_CASE(two_runs_leave_the_same_bytes_and_so_do_runs_in_threads) {
    const std::string busy = "moves:\n" +
                             move("at: \"09:30:00\", wire: collector.noise, to: 0.5 K") +
                             move("at: \"10:00:00\", lever: flow_factor, to: 0.3, over: 30 min");
    const Scenario scenario = april(busy, "2026-04-15 07:00", 5);
    const std::string alone = bytes_of(run(scenario));
    BOOST_TEST(alone.size() > 1'000'000U);
    std::vector<std::string> found(3);
    std::vector<std::jthread> threads;
    for (std::string& text : found) {
        threads.emplace_back([&text, &scenario] { text = bytes_of(run(scenario)); });
    }
    threads.clear();
    for (const std::string& text : found) BOOST_TEST((text == alone));
}

BOOST_AUTO_TEST_CASE(another_seed_gives_another_trace) {
    const std::string noisy = "wiring:\n  collector: {noise: 0.1 K}\n";
    BOOST_TEST((bytes_of(run(april("seed: 1\n" + noisy, "2026-04-15 07:00", 1))) !=
                bytes_of(run(april("seed: 2\n" + noisy, "2026-04-15 07:00", 1)))));
}

BOOST_AUTO_TEST_CASE(copying_a_bench_forks_the_world) {
    const Scenario scenario =
        april("moves:\n" + move("at: \"10:30:00\", over: 20 min, lever: coil_fouling, "
                                "to: 0.2"),
              "2026-04-15 10:00", 2);
    auto original = std::make_unique<Bench>(scenario);
    run_for(*original, 2000);  // in the middle of the slide
    Bench fork = *original;
    run_for(*original, 3000);
    const auto end_c = plant::view(original->plant()).layer_c;
    const auto levers = original->plant().levers.coil_fouling;
    BOOST_TEST(fork.now() == scenario.start_s + 2000);  // the fork has stood still
    original.reset();                                   // and does not lean on the original
    run_for(fork, 3000);
    BOOST_TEST(fork.plant().levers.coil_fouling == levers);
    const auto fork_c = plant::view(fork.plant()).layer_c;
    for (std::size_t i = 0; i < end_c.size(); ++i) BOOST_TEST(fork_c[i] == end_c[i]);
}

BOOST_AUTO_TEST_CASE(a_scenario_that_goes_away_leaves_the_bench_alone) {
    auto scenario = std::make_unique<Scenario>(april("", "2026-04-15 00:00", 1));
    Bench bench(*scenario);
    scenario.reset();
    run_for(bench, 60);
    BOOST_TEST(bench.scenario().title == "A test");
}

BOOST_AUTO_TEST_CASE(a_pump_too_weak_for_the_flow_asked_for_is_said) {
    const std::string solved = "loop: {hydraulics: solved, pump: {full_flow: 6 l/min, ";
    const auto said = [&](const std::string& pump) {
        const Bench bench(april(solved + pump + "}}\n"));
        return std::any_of(bench.messages().begin(), bench.messages().end(),
                           [](const auto& m) { return m.find("too weak") != std::string::npos; });
    };
    BOOST_TEST(said("shut_off_head: 0.5 m, free_flow: 6.5 l/min"));
    BOOST_TEST(!said("shut_off_head: 6 m, free_flow: 40 l/min"));
}

BOOST_AUTO_TEST_SUITE_END()
