// SPDX-License-Identifier: MIT
#include "counts.hpp"
#include "decisions.hpp"

#include "firmware-model/calendar.hpp"
#include "firmware-model/controller.hpp"

#include <boost/test/unit_test.hpp>

#include <cstdlib>
#include <cstring>

BOOST_AUTO_TEST_SUITE(controller)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

namespace {

constexpr std::uint32_t noon_s = 8901 * seconds_per_day + 12 * 3600;  // 2024-05-15

struct Board {
    Settings settings = default_settings();
    Inputs inputs{};
    State state{};
    Outputs out{};

    Board() {
        settings[Setting::sanitise] = 0;
        inputs.clock_s = noon_s;
        warm(3000, 3000, 5000);
        power_on(delivered());
    }
    void power_on(const Persistent& saved) { state = start(saved, inputs); }
    /// Temperatures in hundredths of a degree.
    void warm(int collector, int bottom, int top) {
        set(Sensor::collector, counts_at(collector));
        set(Sensor::store_bottom, counts_at(bottom));
        set(Sensor::store_top, counts_at(top));
    }
    void set(Sensor sensor, std::uint16_t counts) {
        inputs.counts[static_cast<std::size_t>(sensor)] = counts;
    }
    void run(int seconds) {
        for (int i = 0; i < seconds; ++i) {
            out = tick(settings, inputs, state);
            ++inputs.clock_s;
            inputs.pump_hand = HandRequest::none;
            inputs.backup_hand = HandRequest::none;
        }
    }
    [[nodiscard]] Event event(int age) const {
        return event_at(state.ring, static_cast<std::uint8_t>(age));
    }
};

}  // namespace

BOOST_FIXTURE_TEST_CASE(a_first_start_waits_for_its_sensors_and_then_the_least_rest, Board) {
    settings[Setting::least_rest_time] = 60;
    warm(5000, 3000, 5000);
    run(static_cast<int>(filter_samples) - 1);
    BOOST_TEST(out.pump_reason == PumpReason::waiting_for_sun);
    run(1);
    BOOST_TEST(out.pump_reason == PumpReason::resting);
    run(60 - static_cast<int>(filter_samples));
    BOOST_TEST(out.pump_reason == PumpReason::resting);
    BOOST_TEST(int{out.pump_relay} == 0);
    run(1);
    BOOST_TEST(out.pump_reason == PumpReason::collecting);
    BOOST_TEST(int{out.pump_relay} == 1);
    BOOST_TEST(out.pump_starts == 1U);
}

BOOST_FIXTURE_TEST_CASE(level_and_speed_signal_follow_the_pump, Board) {
    settings[Setting::speed_signal] = 1;  // more is slower
    warm(5000, 3000, 5000);
    run(59);
    BOOST_TEST(int{out.drive_level_pct} == 0);
    BOOST_TEST(int{out.speed_signal_pct} == 100);
    run(10);
    BOOST_TEST(int{out.drive_level_pct} == 100);  // start boost
    BOOST_TEST(int{out.speed_signal_pct} == 0);
}

BOOST_FIXTURE_TEST_CASE(the_run_is_counted_while_it_lasts, Board) {
    warm(5000, 3000, 5000);
    run(100);
    const std::uint32_t before = out.pump_run_s;
    run(25);
    BOOST_TEST(out.pump_run_s == before + 25);
    const std::uint32_t heat = out.tally_wh;
    run(600);
    BOOST_TEST(out.tally_wh > heat);
}

BOOST_FIXTURE_TEST_CASE(a_hand_stays_until_automatic_is_asked_for, Board) {
    run(20);
    inputs.pump_hand = HandRequest::on;
    inputs.backup_hand = HandRequest::on;
    run(1);
    BOOST_TEST(out.pump_reason == PumpReason::hand_on);
    BOOST_TEST(out.backup_reason == BackupReason::hand_on);
    BOOST_TEST(int(event(1).kind) == int(EventKind::pump_hand_changed));
    BOOST_TEST(event(1).value == int(HandRequest::on));
    BOOST_TEST(int(event(0).kind) == int(EventKind::backup_hand_changed));
    const int events = state.ring.count;
    inputs.pump_hand = HandRequest::on;
    inputs.backup_hand = HandRequest::on;
    run(100);
    BOOST_TEST(out.pump_reason == PumpReason::hand_on);
    BOOST_TEST(int{state.ring.count} == events);  // asking again is no event
    inputs.pump_hand = HandRequest::automatic;
    inputs.backup_hand = HandRequest::off;
    run(1);
    BOOST_TEST(out.pump_reason == PumpReason::waiting_for_sun);
    BOOST_TEST(out.backup_reason == BackupReason::hand_off);
}

BOOST_FIXTURE_TEST_CASE(a_broken_store_sensor_counts_as_above_the_ceiling, Board) {
    inputs.pump_hand = HandRequest::on;
    inputs.backup_hand = HandRequest::on;
    run(20);
    BOOST_TEST(int{out.pump_relay} == 1);
    set(Sensor::store_top, 65535);
    run(samples_to_fault);
    BOOST_TEST(int{out.pump_relay} == 0);
    BOOST_TEST(int{out.backup_relay} == 0);
    BOOST_TEST(out.pump_reason == PumpReason::sensor_lost);
    BOOST_TEST(out.backup_reason == BackupReason::sensor_lost);
    BOOST_TEST(out.advice.has(AdviceKind::sensor_broken));
}

BOOST_FIXTURE_TEST_CASE(the_ceiling_stops_both_hands_and_is_noted_once, Board) {
    inputs.pump_hand = HandRequest::on;
    inputs.backup_hand = HandRequest::on;
    run(20);
    warm(3000, 3000, 9050);
    run(static_cast<int>(filter_samples));
    BOOST_TEST(out.pump_reason == PumpReason::ceiling_reached);
    BOOST_TEST(out.backup_reason == BackupReason::ceiling_reached);
    BOOST_TEST(int{out.pump_relay} + int{out.backup_relay} == 0);
    const std::uint8_t place = state.ring.next;
    BOOST_TEST(int(event(0).kind) == int(EventKind::store_at_ceiling));
    BOOST_TEST(event(0).value >= 9000);
    run(100);
    BOOST_TEST(int{state.ring.next} == int{place});
}

BOOST_FIXTURE_TEST_CASE(advice_that_comes_and_goes_is_noted, Board) {
    run(20);
    inputs.clock_is_set = 0;
    run(1);
    BOOST_TEST(int(event(0).kind) == int(EventKind::advice_came));
    BOOST_TEST(event(0).value == int(AdviceKind::clock_unset));
    run(10);
    inputs.clock_is_set = 1;
    run(1);
    BOOST_TEST(int(event(0).kind) == int(EventKind::advice_went));
    BOOST_TEST(event(0).value == int(AdviceKind::clock_unset));
    BOOST_TEST(out.advice.bits == 0U);
}

BOOST_FIXTURE_TEST_CASE(a_sanitise_success_is_noted_and_saved, Board) {
    settings[Setting::sanitise] = 1;
    settings[Setting::sanitise_hold] = 1;
    warm(3000, 3000, 6500);
    run(100);
    BOOST_TEST(int(event(0).kind) == int(EventKind::sanitised));
    BOOST_TEST(std::abs(event(0).value - 6500) <= 3);  // a count is 0.017 K
    const Persistent saved = to_save(settings, state, inputs);
    BOOST_TEST(saved.sanitised_on == 8901);
    power_on(saved);
    BOOST_TEST(state.backup.sanitised_on == 8901);
}

BOOST_FIXTURE_TEST_CASE(a_power_cut_keeps_counters_and_settings_and_loses_the_rest, Board) {
    inputs.pump_hand = HandRequest::on;
    settings[Setting::store_limit] = 6500;
    run(500);
    const Persistent saved = to_save(settings, state, inputs);
    BOOST_TEST(saved.settings[Setting::store_limit] == 6500);
    BOOST_TEST(saved.counters.pump_starts == 1U);
    const std::uint32_t run_s = out.pump_run_s;
    inputs.clock_s += 3 * 3600 + 100;
    power_on(saved);
    BOOST_TEST(state.now.count == 0U);
    BOOST_TEST(bool(state.pump.hand == HandRequest::automatic));
    BOOST_TEST(int(event(0).kind) == int(EventKind::power_came_back));
    BOOST_TEST(event(0).value == 3);
    run(1);
    BOOST_TEST(out.pump_starts == 1U);
    BOOST_TEST(out.pump_run_s >= run_s);
    BOOST_TEST(out.pump_run_s <= run_s + 1);
    BOOST_TEST(out.pump_reason == PumpReason::waiting_for_sun);
}

BOOST_FIXTURE_TEST_CASE(the_length_of_a_cut_needs_both_clocks, Board) {
    run(1);
    constexpr int unknown = 32767;
    BOOST_TEST(event(0).value == unknown);  // delivered, never saved
    Persistent saved = to_save(settings, state, inputs);
    inputs.clock_is_set = 0;
    BOOST_TEST(to_save(settings, state, inputs).saved_clock_s == 0U);
    power_on(saved);
    BOOST_TEST(event(0).value == unknown);
    inputs.clock_is_set = 1;
    inputs.clock_s = saved.saved_clock_s - 1;
    power_on(saved);
    BOOST_TEST(event(0).value == unknown);
    inputs.clock_s = saved.saved_clock_s;
    power_on(saved);
    BOOST_TEST(event(0).value == 0);
    inputs.clock_s = saved.saved_clock_s + 40'000U * 3600U;
    power_on(saved);
    BOOST_TEST(event(0).value == unknown - 1);  // at least so long
}

BOOST_FIXTURE_TEST_CASE(a_second_collector_counts_where_it_is_fitted, Board) {
    set(Sensor::second_collector, counts_at(6000));
    run(100);
    BOOST_TEST(out.pump_reason == PumpReason::waiting_for_sun);
    settings[Setting::second_collector_fitted] = 1;
    run(100);
    BOOST_TEST(out.pump_reason == PumpReason::collecting);
    set(Sensor::second_collector, 0);
    run(samples_to_fault);
    BOOST_TEST(out.pump_reason == PumpReason::sensor_lost);
}

BOOST_FIXTURE_TEST_CASE(the_same_inputs_give_the_same_bytes, Board) {
    Board twin;
    for (int i = 0; i < 3000; ++i) {
        warm(3000 + i, 3000 + i / 4, 5000);
        twin.inputs = inputs;
        run(1);
        twin.run(1);
        BOOST_REQUIRE(std::memcmp(&state, &twin.state, sizeof(State)) == 0);
    }
}

BOOST_FIXTURE_TEST_CASE(a_quiet_tick_changes_nothing_but_the_tick_counter_and_the_filter, Board) {
    run(1201);
    State before = state;
    for (int i = 0; i < 500; ++i) {  // no mark of the advice in between
        run(1);
        State after = state;
        after.now = before.now;
        after.sensors = before.sensors;
        BOOST_REQUIRE(std::memcmp(&after, &before, sizeof(State)) == 0);
    }
}

BOOST_AUTO_TEST_SUITE_END()
