// SPDX-License-Identifier: MIT
#include "decisions.hpp"

#include "firmware-model/drive_level.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(drive_level)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;
using noonbench::firmware::drive_level;

namespace {

struct Drive {
    Settings settings = default_settings();
    Situation situation = quiet_afternoon();
    PumpState pump = pump_since(situation, PumpReason::collecting, true, 1000);
    DriveState drive{};

    Drive() {
        settings[Setting::pump_drive] = static_cast<std::int16_t>(PumpDrive::target_difference);
        settings[Setting::target_difference] = 1000;
        settings[Setting::target_collector] = 6500;
        settings[Setting::start_boost_time] = 30;
        settings[Setting::least_level] = 30;
        settings[Setting::level_gain] = 50;         // 5 % per kelvin
        settings[Setting::level_reset_time] = 100;  // a tenth of the gain at each appointment
    }
    int level() { return drive_level(settings, situation, pump, drive); }
    int level_at(int centikelvin) {
        set_difference(situation, centikelvin);
        return level();
    }
    void wait(std::uint32_t seconds) { situation.now.count += seconds; }
};

}  // namespace

BOOST_FIXTURE_TEST_CASE(a_pump_that_is_off_has_level_zero_and_forgets, Drive) {
    level_at(1500);
    BOOST_TEST(drive.regulating == 1);
    pump.relay_on = 0;
    BOOST_TEST(level() == 0);
    BOOST_TEST(drive.regulating == 0);
    BOOST_TEST(drive.integral_millipercent == 0);
    BOOST_TEST(drive.appointment_at.count == 0U);
}

BOOST_FIXTURE_TEST_CASE(driven_on_and_off_the_level_is_full, Drive) {
    settings[Setting::pump_drive] = static_cast<std::int16_t>(PumpDrive::on_off);
    BOOST_TEST(level_at(450) == 100);
    BOOST_TEST(drive.regulating == 0);
}

BOOST_FIXTURE_TEST_CASE(the_start_boost_is_full_level_to_the_second, Drive) {
    pump.changed_at = {situation.now.count - 29};
    BOOST_TEST(level_at(450) == 100);
    wait(1);
    BOOST_TEST(level() == 30);
}

BOOST_FIXTURE_TEST_CASE(only_collecting_and_its_least_run_are_regulated, Drive) {
    for (const PumpReason reason :
         {PumpReason::shedding_by_day, PumpReason::shedding_by_night, PumpReason::guarding_frost,
          PumpReason::sampling, PumpReason::exercising, PumpReason::hand_on}) {
        BOOST_TEST_CONTEXT(reason) {
            pump.reason = reason;
            BOOST_TEST(level_at(450) == 100);
        }
    }
    for (const PumpReason reason : {PumpReason::collecting, PumpReason::least_run}) {
        BOOST_TEST_CONTEXT(reason) {
            pump.reason = reason;
            drive = {};
            BOOST_TEST(level_at(450) == 30);
        }
    }
}

BOOST_FIXTURE_TEST_CASE(the_proportional_part_is_gain_times_error, Drive) {
    BOOST_TEST(level_at(1400) == 50);  // least 30 % + 5 %/K * 4 K
    drive = {};
    BOOST_TEST(level_at(1409) == 50);  // 50.45 %
    drive = {};
    BOOST_TEST(level_at(1411) == 51);  // 50.55 %
}

BOOST_FIXTURE_TEST_CASE(the_integral_moves_by_the_gain_once_in_the_reset_time, Drive) {
    settings[Setting::level_reset_time] = 10;
    BOOST_TEST(level_at(1400) == 50);  // integral 20 %, raised to the least level of 30 %
    for (const int expected : {70, 90, 100, 100}) {
        wait(10);
        BOOST_TEST(level() == expected);
    }
    BOOST_TEST(drive.integral_millipercent == 100'000);
}

BOOST_FIXTURE_TEST_CASE(the_integral_does_not_wind_up, Drive) {
    level_at(4000);
    for (int i = 0; i < 100; ++i) {
        wait(10);
        level();
    }
    BOOST_TEST(drive.integral_millipercent == 100'000);
    set_difference(situation, 900);
    wait(10);
    BOOST_TEST(level() == 95);  // 100 - 0.5 integral - 5 proportional, rounded from 94.5
    for (int i = 0; i < 1000; ++i) {
        wait(10);
        level();
    }
    BOOST_TEST(drive.integral_millipercent == 30'000);
    BOOST_TEST(level() == 30);
}

BOOST_FIXTURE_TEST_CASE(the_regulator_acts_each_ten_seconds_only, Drive) {
    level_at(1400);
    set_difference(situation, 2000);
    for (int second = 1; second < 10; ++second) {
        wait(1);
        BOOST_TEST(level() == 50);
    }
    wait(1);
    BOOST_TEST(level() > 50);
}

BOOST_FIXTURE_TEST_CASE(a_raised_least_level_acts_at_once, Drive) {
    BOOST_TEST(level_at(1000) == 30);
    wait(1);
    settings[Setting::least_level] = 45;
    BOOST_TEST(level() == 45);
    BOOST_TEST(drive.integral_millipercent == 45'000);
}

BOOST_FIXTURE_TEST_CASE(the_collector_target_looks_at_the_collector_alone, Drive) {
    settings[Setting::pump_drive] = static_cast<std::int16_t>(PumpDrive::target_collector);
    read(situation, {6500}, {1000}, {5000});
    BOOST_TEST(level() == 30);
    drive = {};
    read(situation, {6900}, {6000}, {6000});
    BOOST_TEST(level() == 50);
}

BOOST_FIXTURE_TEST_CASE(extremes_stand_at_the_ends, Drive) {
    settings[Setting::level_gain] = 32767;
    read(situation, {25000}, {-5000}, {5000});
    BOOST_TEST(level() == 100);
    wait(10);
    read(situation, {-5000}, {25000}, {5000});
    BOOST_TEST(level() == 30);
    settings[Setting::level_gain] = 0;
    drive = {};
    BOOST_TEST(level() == 30);
}

BOOST_FIXTURE_TEST_CASE(the_two_speed_signal_profiles_are_opposite, Drive) {
    settings[Setting::speed_signal] = static_cast<std::int16_t>(SpeedSignal::more_is_faster);
    BOOST_TEST(int{speed_signal_pct(settings, 0)} == 0);
    BOOST_TEST(int{speed_signal_pct(settings, 30)} == 30);
    BOOST_TEST(int{speed_signal_pct(settings, 100)} == 100);
    settings[Setting::speed_signal] = static_cast<std::int16_t>(SpeedSignal::more_is_slower);
    BOOST_TEST(int{speed_signal_pct(settings, 0)} == 100);
    BOOST_TEST(int{speed_signal_pct(settings, 30)} == 70);
    BOOST_TEST(int{speed_signal_pct(settings, 100)} == 0);
}

BOOST_AUTO_TEST_SUITE_END()
