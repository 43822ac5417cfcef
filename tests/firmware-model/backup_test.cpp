// SPDX-License-Identifier: MIT
#include "backup_bench.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(backup)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

BOOST_FIXTURE_TEST_CASE(the_thermostat_works_between_temperature_and_hysteresis, Backup) {
    clock(18);
    BOOST_TEST(decide_at(5001) == BackupReason::warm_enough);
    BOOST_TEST(decide_at(5000) == BackupReason::in_window);
    BOOST_TEST(backup.relay_on == 1);
    BOOST_TEST(decide_at(5499) == BackupReason::in_window);
    BOOST_TEST(decide_at(5500) == BackupReason::warm_enough);
    BOOST_TEST(backup.relay_on == 0);
}

BOOST_FIXTURE_TEST_CASE(windows_open_and_close_to_the_minute, Backup) {
    for (const auto& [hour, minute, expected] : {std::tuple{16, 59, BackupReason::out_of_window},
                                                 {17, 0, BackupReason::in_window},
                                                 {20, 59, BackupReason::in_window},
                                                 {21, 0, BackupReason::out_of_window}}) {
        BOOST_TEST_CONTEXT(hour << ":" << minute) {
            clock(hour, minute);
            BOOST_TEST(decide_at(4000) == expected);
        }
    }
}

BOOST_FIXTURE_TEST_CASE(each_of_the_three_windows_counts, Backup) {
    settings[Setting::window_1_days] = 0;
    clock(6);
    BOOST_TEST(decide_at(4000) == BackupReason::out_of_window);
    settings[Setting::window_2_days] = 0x7F;
    settings[Setting::window_2_from] = 5 * 60;
    settings[Setting::window_2_until] = 7 * 60;
    BOOST_TEST(decide() == BackupReason::in_window);
    settings[Setting::window_2_days] = 0;
    settings[Setting::window_3_days] = 1 << situation.time.weekday;
    settings[Setting::window_3_from] = 6 * 60;
    settings[Setting::window_3_until] = 7 * 60;
    BOOST_TEST(decide() == BackupReason::in_window);
    situation.time.weekday = 3;
    BOOST_TEST(decide() == BackupReason::out_of_window);
}

BOOST_FIXTURE_TEST_CASE(a_demand_does_not_outlive_its_window, Backup) {
    clock(18);
    BOOST_TEST(decide_at(5000) == BackupReason::in_window);
    clock(22);
    BOOST_TEST(decide_at(5200) == BackupReason::out_of_window);
    clock(18);
    BOOST_TEST(decide_at(5200) == BackupReason::warm_enough);
}

BOOST_FIXTURE_TEST_CASE(a_demand_does_not_outlive_its_sensor, Backup) {
    clock(18);
    BOOST_TEST(decide_at(5000) == BackupReason::in_window);
    situation.store = Trust::lost;
    BOOST_TEST(decide() == BackupReason::sensor_lost);
    BOOST_TEST(backup.demand == 0);
    BOOST_TEST(decide_at(5200) == BackupReason::warm_enough);
}

BOOST_FIXTURE_TEST_CASE(without_backup_control_only_a_hand_heats, Backup) {
    settings[Setting::backup_control] = 0;
    clock(18);
    BOOST_TEST(decide_at(2000) == BackupReason::out_of_window);
    situation.clock_is_set = false;
    BOOST_TEST(decide() == BackupReason::out_of_window);
    backup.hand = HandRequest::on;
    BOOST_TEST(decide() == BackupReason::hand_on);
    BOOST_TEST(backup.relay_on == 1);
}

BOOST_FIXTURE_TEST_CASE(a_hand_wins_over_window_and_thermostat, Backup) {
    clock(18);
    backup.hand = HandRequest::off;
    BOOST_TEST(decide_at(2000) == BackupReason::hand_off);
    BOOST_TEST(backup.relay_on == 0);
    backup.hand = HandRequest::on;
    clock(3);
    BOOST_TEST(decide_at(8000) == BackupReason::hand_on);
}

BOOST_FIXTURE_TEST_CASE(the_store_ceiling_and_a_lost_sensor_win_over_a_hand, Backup) {
    backup.hand = HandRequest::on;
    situation.store = Trust::lost;
    BOOST_TEST(decide() == BackupReason::sensor_lost);
    BOOST_TEST(backup.relay_on == 0);
    solar.at_ceiling = true;
    BOOST_TEST(decide() == BackupReason::ceiling_reached);
    BOOST_TEST(backup.relay_on == 0);
}

BOOST_FIXTURE_TEST_CASE(a_sensor_that_settles_after_power_came_is_not_lost, Backup) {
    situation.store = Trust::settling;
    BOOST_TEST(decide() == BackupReason::out_of_window);
    situation.store = Trust::lost;
    BOOST_TEST(decide() == BackupReason::sensor_lost);
    situation.store = Trust::settling;
    BOOST_TEST(decide() == BackupReason::sensor_lost);
}

BOOST_FIXTURE_TEST_CASE(the_sun_goes_first_only_while_it_is_gaining, Backup) {
    clock(18);
    solar.gaining = true;
    BOOST_TEST(decide_at(4000) == BackupReason::leaving_it_to_the_sun);
    BOOST_TEST(backup.relay_on == 0);
    solar.gaining = false;
    BOOST_TEST(decide() == BackupReason::in_window);
    solar.gaining = true;
    settings[Setting::solar_first] = 0;
    BOOST_TEST(decide() == BackupReason::in_window);
}

BOOST_FIXTURE_TEST_CASE(the_sun_is_waited_for_so_long_in_one_window, Backup) {
    clock(18);
    solar.gaining = true;
    BOOST_TEST(decide_at(4000) == BackupReason::leaving_it_to_the_sun);
    wait(1800);
    solar.gaining = false;
    BOOST_TEST(decide() == BackupReason::in_window);
    wait(1799);
    solar.gaining = true;
    BOOST_TEST(decide() == BackupReason::leaving_it_to_the_sun);
    wait(1);
    BOOST_TEST(decide() == BackupReason::in_window);  // an hour after the first time
    BOOST_TEST(decide_at(5500) == BackupReason::warm_enough);
    BOOST_TEST(decide_at(5000) == BackupReason::in_window);  // spent for this window
    clock(22);
    BOOST_TEST(decide() == BackupReason::out_of_window);
    clock(18);
    BOOST_TEST(decide() == BackupReason::leaving_it_to_the_sun);
}

BOOST_FIXTURE_TEST_CASE(a_store_below_the_comfort_floor_does_not_wait_for_the_sun, Backup) {
    clock(18);
    solar.gaining = true;
    BOOST_TEST(decide_at(3500) == BackupReason::leaving_it_to_the_sun);
    BOOST_TEST(decide_at(3499) == BackupReason::in_window);
    BOOST_TEST(decide_at(3999) == BackupReason::in_window);  // not broken off at the floor
    BOOST_TEST(decide_at(4000) == BackupReason::leaving_it_to_the_sun);
    BOOST_TEST(decide_at(3501) == BackupReason::leaving_it_to_the_sun);
}

BOOST_FIXTURE_TEST_CASE(with_the_clock_unset_windows_are_closed_and_a_minimum_is_kept, Backup) {
    clock(18);
    situation.clock_is_set = false;
    solar.gaining = true;  // the minimum does not wait for the sun
    BOOST_TEST(decide_at(4001) == BackupReason::out_of_window);
    BOOST_TEST(decide_at(4000) == BackupReason::clock_unset);
    BOOST_TEST(backup.relay_on == 1);
    BOOST_TEST(decide_at(4499) == BackupReason::clock_unset);
    BOOST_TEST(decide_at(4500) == BackupReason::out_of_window);
    BOOST_TEST(backup.relay_on == 0);
}

BOOST_AUTO_TEST_SUITE_END()
