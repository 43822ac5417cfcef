// SPDX-License-Identifier: MIT
#include "decisions.hpp"

#include "firmware-model/difference.hpp"
#include "firmware-model/setting_values.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(difference)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

namespace {

struct Switch {
    Settings settings = default_settings();
    Situation situation = quiet_afternoon();
    PumpState pump{};

    Switch() {
        settings[Setting::start_difference] = 800;
        settings[Setting::stop_difference] = 400;
        settings[Setting::least_run_time] = 60;
        settings[Setting::least_rest_time] = 90;
    }
    bool asks_at(int centikelvin) {
        set_difference(situation, centikelvin);
        return difference_asks(settings, situation, pump);
    }
};

}  // namespace

BOOST_FIXTURE_TEST_CASE(a_resting_pump_starts_at_the_start_difference, Switch) {
    BOOST_TEST(!asks_at(799));
    BOOST_TEST(asks_at(800));
    BOOST_TEST(!asks_at(-500));
}

BOOST_FIXTURE_TEST_CASE(a_collecting_pump_stops_at_the_stop_difference, Switch) {
    pump = pump_since(situation, PumpReason::collecting, true, 100);
    BOOST_TEST(asks_at(401));
    BOOST_TEST(!asks_at(400));
}

BOOST_FIXTURE_TEST_CASE(only_collecting_lowers_the_threshold_to_the_stop_difference, Switch) {
    for (const PumpReason reason : {PumpReason::least_run, PumpReason::hand_on,
                                    PumpReason::sampling, PumpReason::shedding_by_day}) {
        BOOST_TEST_CONTEXT(reason) {
            pump = pump_since(situation, reason, true, 10);
            BOOST_TEST(!asks_at(799));
            BOOST_TEST(asks_at(800));
        }
    }
}

BOOST_FIXTURE_TEST_CASE(a_stop_above_the_start_acts_as_start_minus_one_kelvin, Switch) {
    pump = pump_since(situation, PumpReason::collecting, true, 100);
    for (const int stop : {701, 800, 1900}) {
        BOOST_TEST_CONTEXT("stop " << stop) {
            settings[Setting::stop_difference] = static_cast<std::int16_t>(stop);
            BOOST_TEST(asks_at(701));
            BOOST_TEST(!asks_at(700));
        }
    }
    settings[Setting::stop_difference] = 699;
    BOOST_TEST(asks_at(700));
    BOOST_TEST(!asks_at(699));
}

BOOST_FIXTURE_TEST_CASE(a_reading_that_is_not_good_asks_for_nothing, Switch) {
    BOOST_TEST(asks_at(2000));
    for (const Trust trust : {Trust::settling, Trust::lost}) {
        set_difference(situation, 2000);
        situation.collector = trust;
        BOOST_TEST(!difference_asks(settings, situation, pump));
        set_difference(situation, 2000);
        situation.store = trust;
        BOOST_TEST(!difference_asks(settings, situation, pump));
    }
}

BOOST_FIXTURE_TEST_CASE(the_least_run_lasts_to_the_second, Switch) {
    for (const PumpReason reason : {PumpReason::collecting, PumpReason::least_run}) {
        pump = pump_since(situation, reason, true, 59);
        BOOST_TEST(in_least_run(settings, situation.now, pump));
        pump = pump_since(situation, reason, true, 60);
        BOOST_TEST(!in_least_run(settings, situation.now, pump));
    }
}

BOOST_FIXTURE_TEST_CASE(runs_of_others_are_not_lengthened, Switch) {
    for (const PumpReason reason :
         {PumpReason::sampling, PumpReason::exercising, PumpReason::guarding_frost,
          PumpReason::shedding_by_day, PumpReason::shedding_by_night, PumpReason::hand_on}) {
        pump = pump_since(situation, reason, true, 1);
        BOOST_TEST(!in_least_run(settings, situation.now, pump));
    }
}

BOOST_FIXTURE_TEST_CASE(the_least_rest_lasts_to_the_second, Switch) {
    pump = pump_since(situation, PumpReason::waiting_for_sun, false, 89);
    BOOST_TEST(in_least_rest(settings, situation.now, pump));
    pump = pump_since(situation, PumpReason::waiting_for_sun, false, 90);
    BOOST_TEST(!in_least_rest(settings, situation.now, pump));
    pump = pump_since(situation, PumpReason::collecting, true, 1);
    BOOST_TEST(!in_least_rest(settings, situation.now, pump));
}

BOOST_FIXTURE_TEST_CASE(least_times_are_right_across_the_wrap_of_the_tick_counter, Switch) {
    situation.now = {5};
    pump = pump_since(situation, PumpReason::waiting_for_sun, false, 89);
    BOOST_TEST(pump.changed_at.count > situation.now.count);
    BOOST_TEST(in_least_rest(settings, situation.now, pump));
    situation.now = {6};
    BOOST_TEST(!in_least_rest(settings, situation.now, pump));
}

BOOST_AUTO_TEST_CASE(each_contradicting_pair_moves_the_end_that_stops) {
    Settings s = default_settings();
    s[Setting::collector_cut_out] = 12000;
    s[Setting::collector_release] = 11900;
    BOOST_TEST(collector_release(s).centikelvin == 11900);
    s[Setting::collector_release] = 11901;
    BOOST_TEST(collector_release(s).centikelvin == 11900);
    s[Setting::frost_start] = 400;
    s[Setting::frost_stop] = 500;
    BOOST_TEST(frost_stop(s).centikelvin == 500);
    s[Setting::frost_stop] = 499;
    BOOST_TEST(frost_stop(s).centikelvin == 500);
}

BOOST_AUTO_TEST_CASE(durations_follow_the_unit_of_their_row) {
    Settings s = default_settings();
    s[Setting::least_run_time] = 7;
    s[Setting::sampling_every] = 7;
    s[Setting::exercise_after] = 7;
    BOOST_TEST(duration_s(s, Setting::least_run_time) == 7U);
    BOOST_TEST(duration_s(s, Setting::sampling_every) == 420U);
    BOOST_TEST(duration_s(s, Setting::exercise_after) == 604'800U);
    BOOST_TEST(seconds_in(SettingUnit::hours) == 3600U);
    BOOST_TEST(duration_s(s, Setting::start_difference) == 0U);  // not a duration
}

BOOST_AUTO_TEST_SUITE_END()
