// SPDX-License-Identifier: MIT
#include "decisions.hpp"

#include "firmware-model/advice.hpp"
#include "firmware-model/boiling.hpp"
#include "firmware-model/setting_values.hpp"

#include <boost/test/unit_test.hpp>

#include <vector>

BOOST_AUTO_TEST_SUITE(advice)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

namespace {

struct Watch {
    Settings settings = default_settings();
    Situation situation = quiet_afternoon();
    Readings readings{};
    State state{};

    Watch() {
        situation.now = {600 * 1000};
        for (Reading& reading : readings) {
            reading = {{4000}, SensorStatus::good, 0};
        }
    }
    bool suspects(AdviceKind kind) {
        return advise(settings, situation, readings, state).has(kind);
    }
    /// The next mark at these temperatures, in hundredths of a degree.
    bool mark(AdviceKind kind, int collector, int bottom, int top = 5000) {
        read(situation, {static_cast<std::int16_t>(collector)}, {static_cast<std::int16_t>(bottom)},
             {static_cast<std::int16_t>(top)});
        situation.now.count += mark_every_s;
        return suspects(kind);
    }
    void run(int level_pct) {
        state.pump.relay_on = level_pct > 0;
        state.drive.level_pct = static_cast<std::uint8_t>(level_pct);
    }
    bool flow_mark(int difference) {
        return mark(AdviceKind::no_flow_although_running, 2000 + difference, 2000);
    }
    bool night_mark(int collector) {
        return mark(AdviceKind::warm_collector_at_night, collector, 3000);
    }
    bool store_mark(int bottom, int top) {
        return mark(AdviceKind::sensors_swapped, 2000, bottom, top);
    }
};

}  // namespace

BOOST_FIXTURE_TEST_CASE(no_flow_is_a_high_difference_that_grows_under_a_full_level, Watch) {
    run(100);
    BOOST_TEST(!flow_mark(4000));  // the first mark of a run compares with nothing
    BOOST_TEST(!flow_mark(4199));
    BOOST_TEST(flow_mark(4399));
    BOOST_TEST(flow_mark(4399));  // stays
    BOOST_TEST(flow_mark(3000));
    BOOST_TEST(!flow_mark(2999));
}

BOOST_FIXTURE_TEST_CASE(a_growing_difference_below_forty_kelvin_is_a_legitimate_row, Watch) {
    run(100);
    flow_mark(1000);
    BOOST_TEST(!flow_mark(3999));
    run(100);
    BOOST_TEST(flow_mark(4199));
}

BOOST_FIXTURE_TEST_CASE(below_full_level_a_difference_proves_nothing, Watch) {
    run(99);
    flow_mark(4000);
    BOOST_TEST(!flow_mark(9000));
    BOOST_TEST(state.advice.ran_at_mark == 0);
    run(100);
    BOOST_TEST(!flow_mark(9500));
    BOOST_TEST(flow_mark(9700));
}

BOOST_FIXTURE_TEST_CASE(a_lost_reading_begins_the_comparison_anew, Watch) {
    run(100);
    flow_mark(4000);
    situation.collector = Trust::lost;
    situation.now.count += mark_every_s;
    suspects(AdviceKind::no_flow_although_running);
    BOOST_TEST(state.advice.ran_at_mark == 0);
    BOOST_TEST(!flow_mark(6000));
}

BOOST_FIXTURE_TEST_CASE(between_two_marks_nothing_is_compared, Watch) {
    run(100);
    flow_mark(4000);
    const AdviceState before = state.advice;
    set_difference(situation, 9000);
    for (std::uint32_t second = 1; second < mark_every_s; ++second) {
        ++situation.now.count;
        BOOST_TEST(!suspects(AdviceKind::no_flow_although_running));
    }
    BOOST_TEST(before.running_mark_ck == state.advice.running_mark_ck);
    ++situation.now.count;
    BOOST_TEST(suspects(AdviceKind::no_flow_although_running));
}

BOOST_FIXTURE_TEST_CASE(the_marked_difference_saturates, Watch) {
    run(100);
    read(situation, {25000}, {-32768}, {5000});
    situation.now.count += mark_every_s;
    suspects(AdviceKind::no_flow_although_running);
    BOOST_TEST(state.advice.running_mark_ck == 32767);
}

BOOST_FIXTURE_TEST_CASE(three_dark_hours_and_a_warm_collector_are_a_suspicion, Watch) {
    night_mark(3000);
    for (int i = 1; i < dark_marks_needed; ++i) {
        BOOST_TEST(!night_mark(3000));
    }
    BOOST_TEST(night_mark(3000));
    for (const int falling : {2950, 2900, 2850, 2800}) {
        BOOST_TEST(night_mark(falling));
    }
    BOOST_TEST(!night_mark(2799));
}

BOOST_FIXTURE_TEST_CASE(a_collector_below_thirty_degrees_is_no_suspicion, Watch) {
    for (int i = 0; i < 2 * dark_marks_needed; ++i) {
        BOOST_TEST(!night_mark(2999));
    }
    BOOST_TEST(int{state.advice.dark_marks} == int{dark_marks_needed});
}

BOOST_FIXTURE_TEST_CASE(sun_and_free_cooling_are_not_dark, Watch) {
    for (const auto& [change, dark] :
         {std::pair{30, true}, {31, false}, {-50, true}, {-51, false}}) {
        BOOST_TEST_CONTEXT("change " << change) {
            night_mark(5000);
            night_mark(5000);
            night_mark(5000 + change);
            BOOST_TEST(bool{state.advice.dark_marks != 0} == dark);
        }
    }
}

BOOST_FIXTURE_TEST_CASE(the_night_rule_needs_no_clock, Watch) {
    situation.clock_is_set = false;
    for (int i = 0; i < dark_marks_needed; ++i) {
        night_mark(3500);
    }
    BOOST_TEST(night_mark(3500));
}

BOOST_FIXTURE_TEST_CASE(a_running_pump_or_a_lost_collector_begins_the_night_anew, Watch) {
    for (int i = 0; i < dark_marks_needed; ++i) {
        night_mark(3500);
    }
    run(100);
    night_mark(3500);
    BOOST_TEST(state.advice.dark_marks == 0);
    BOOST_TEST(state.advice.rested_at_mark == 0);
    run(0);
    night_mark(3500);
    BOOST_TEST(state.advice.dark_marks == 0);
    night_mark(3500);
    BOOST_TEST(state.advice.dark_marks == 1);
    situation.collector = Trust::lost;
    situation.now.count += mark_every_s;
    suspects(AdviceKind::warm_collector_at_night);
    BOOST_TEST(state.advice.dark_marks == 0);
}

BOOST_FIXTURE_TEST_CASE(a_store_upside_down_for_four_marks_has_swapped_sensors, Watch) {
    for (int i = 1; i < inverted_marks_needed; ++i) {
        BOOST_TEST(!store_mark(6000, 5000));
    }
    BOOST_TEST(store_mark(6000, 5000));
    BOOST_TEST(store_mark(6000, 5000));
    BOOST_TEST(store_mark(5001, 5000));
    BOOST_TEST(!store_mark(5000, 5000));
}

BOOST_FIXTURE_TEST_CASE(less_than_ten_kelvin_of_inversion_is_no_swap, Watch) {
    for (int i = 0; i < 2 * inverted_marks_needed; ++i) {
        BOOST_TEST(!store_mark(5999, 5000));
    }
}

BOOST_FIXTURE_TEST_CASE(a_lost_store_sensor_neither_raises_nor_withdraws_a_swap, Watch) {
    for (int i = 0; i < inverted_marks_needed; ++i) {
        store_mark(6000, 5000);
    }
    situation.store = Trust::lost;
    situation.store_bottom = {1000};
    situation.now.count += mark_every_s;
    BOOST_TEST(suspects(AdviceKind::sensors_swapped));
    BOOST_TEST(state.advice.inverted_marks == 0);
}

BOOST_FIXTURE_TEST_CASE(a_broken_sensor_is_told_and_an_unfitted_one_is_not, Watch) {
    const auto expect = [this](SensorStatus status, bool told) {
        for (Reading& reading : readings) {
            BOOST_TEST_CONTEXT("status " << int(status)) {
                reading.status = status;
                BOOST_TEST(suspects(AdviceKind::sensor_broken) == told);
                reading.status = SensorStatus::good;
            }
        }
    };
    expect(SensorStatus::open, true);
    expect(SensorStatus::shorted, true);
    expect(SensorStatus::out_of_range, true);
    expect(SensorStatus::settling, false);
    expect(SensorStatus::not_fitted, false);
}

BOOST_FIXTURE_TEST_CASE(a_good_reading_that_cannot_be_is_implausible, Watch) {
    struct Range {
        Sensor sensor;
        int least;
        int most;
    };
    for (const Range& range :
         {Range{Sensor::collector, -4000, 23000}, Range{Sensor::second_collector, -4000, 23000},
          Range{Sensor::store_bottom, -200, 11000}, Range{Sensor::store_top, -200, 11000}}) {
        BOOST_TEST_CONTEXT("sensor " << int(range.sensor)) {
            Reading& reading = readings[static_cast<std::size_t>(range.sensor)];
            for (const auto& [centicelsius, told] : {std::pair{range.least - 1, true},
                                                     {range.least, false},
                                                     {range.most, false},
                                                     {range.most + 1, true}}) {
                reading.temperature = {static_cast<std::int16_t>(centicelsius)};
                BOOST_TEST(suspects(AdviceKind::sensor_implausible) == told);
            }
            reading.status = SensorStatus::open;
            BOOST_TEST(!suspects(AdviceKind::sensor_implausible));
            reading = {{4000}, SensorStatus::good, 0};
        }
    }
}

BOOST_FIXTURE_TEST_CASE(a_missed_cycle_and_an_unset_clock_are_told, Watch) {
    BOOST_TEST(!suspects(AdviceKind::sanitise_missed));
    state.backup.missed = 1;
    BOOST_TEST(suspects(AdviceKind::sanitise_missed));
    BOOST_TEST(!suspects(AdviceKind::clock_unset));
    situation.clock_is_set = false;
    BOOST_TEST(suspects(AdviceKind::clock_unset));
}

BOOST_FIXTURE_TEST_CASE(settings_as_delivered_give_no_advice, Watch) {
    BOOST_TEST(advise(settings, situation, readings, state).bits == 0U);
}

BOOST_FIXTURE_TEST_CASE(each_contradiction_of_settings_is_told_from_its_threshold_on, Watch) {
    struct Contradiction {
        std::vector<std::pair<Setting, int>> given;
        Setting moved;
        int last_sensible;
        int first_contradicting;
    };
    using S = Setting;
    const std::vector<Contradiction> all = {
        {{{S::start_difference, 800}}, S::stop_difference, 700, 701},
        {{{S::collector_cut_out, 12000}}, S::collector_release, 11900, 11901},
        {{{S::frost_guard, 1}, {S::frost_start, 400}}, S::frost_stop, 500, 499},
        {{{S::store_ceiling, 9000}}, S::store_limit, 8999, 9000},
        {{{S::day_shedding, 1}, {S::collector_cut_out, 12000}},
         S::day_shedding_start,
         11999,
         12000},
        {{{S::night_shedding, 1}, {S::store_limit, 7500}}, S::night_shedding_target, 7499, 7500},
        {{{S::store_ceiling, 7600}}, S::backup_temperature, 7599, 7600},
        {{{S::store_ceiling, 7600}, {S::sanitise, 1}}, S::sanitise_temperature, 7599, 7600},
        {{{S::sanitise, 1}, {S::sanitise_longest, 180}}, S::sanitise_hold, 179, 180},
        {{{S::holiday_from, 9000}}, S::holiday_until, 9000, 8999},
    };
    for (const Contradiction& c : all) {
        BOOST_TEST_CONTEXT("setting " << int(c.moved) << " at " << c.first_contradicting) {
            settings = default_settings();
            for (const auto& [setting, value] : c.given) {
                settings[setting] = static_cast<std::int16_t>(value);
            }
            settings[c.moved] = static_cast<std::int16_t>(c.last_sensible);
            BOOST_TEST(!suspects(AdviceKind::contradicting_settings));
            settings[c.moved] = static_cast<std::int16_t>(c.first_contradicting);
            BOOST_TEST(suspects(AdviceKind::contradicting_settings));
        }
    }
}

BOOST_FIXTURE_TEST_CASE(what_is_switched_off_does_not_contradict, Watch) {
    settings[Setting::frost_guard] = 0;
    settings[Setting::frost_stop] = -1500;
    settings[Setting::day_shedding] = 0;
    settings[Setting::day_shedding_start] = 19000;
    settings[Setting::night_shedding] = 0;
    settings[Setting::night_shedding_target] = 8000;
    settings[Setting::sanitise] = 0;
    settings[Setting::sanitise_hold] = 240;
    settings[Setting::sanitise_longest] = 10;
    BOOST_TEST(!suspects(AdviceKind::contradicting_settings));
    settings[Setting::backup_control] = 0;
    settings[Setting::store_ceiling] = 7600;
    settings[Setting::backup_temperature] = 8000;
    BOOST_TEST(!suspects(AdviceKind::contradicting_settings));
}

BOOST_FIXTURE_TEST_CASE(a_cut_out_less_than_five_kelvin_below_boiling_is_told, Watch) {
    settings[Setting::site_pressure] = 200;
    settings[Setting::collector_height] = 90;
    settings[Setting::glycol_share] = 40;
    // 2.0 bar on the gauge and 9 m of 40 % glycol: 2.1 bar at the top, boiling near 126 degC.
    BOOST_TEST(collector_pressure_centibar(settings) == 211);
    const int boils = boiling_point(40, 211).centicelsius;
    BOOST_CHECK_SMALL(boils / 100.0 - 126.3, 0.5);
    settings[Setting::collector_cut_out] = static_cast<std::int16_t>(boils - 500);
    BOOST_TEST(!suspects(AdviceKind::cut_out_above_boiling_point));
    settings[Setting::collector_cut_out] = static_cast<std::int16_t>(boils - 499);
    BOOST_TEST(suspects(AdviceKind::cut_out_above_boiling_point));
}

BOOST_AUTO_TEST_SUITE_END()
