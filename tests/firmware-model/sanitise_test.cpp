// SPDX-License-Identifier: MIT
#include "backup_bench.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(sanitise)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

BOOST_FIXTURE_TEST_CASE(a_sanitise_cycle_begins_in_the_evening_when_it_is_due, Backup) {
    settings[Setting::sanitise] = 1;
    for (const auto& [last, minute, due] : {std::tuple{0, 18 * 60, true},
                                            {0, 18 * 60 - 1, false},
                                            {8901 - 7, 18 * 60, true},
                                            {8901 - 6, 18 * 60, false},
                                            {8902, 18 * 60, true}}) {
        BOOST_TEST_CONTEXT("last " << last << " minute " << minute) {
            backup = {};
            backup.sanitised_on = static_cast<std::uint16_t>(last);
            situation.time.minute_of_day = static_cast<std::int16_t>(minute);
            decide_at(4000);
            BOOST_TEST(bool{backup.cycle != 0} == due);
            BOOST_TEST((backup.reason == BackupReason::sanitising) == due);
        }
    }
}

BOOST_FIXTURE_TEST_CASE(no_cycle_begins_while_the_clock_is_unset, Backup) {
    settings[Setting::sanitise] = 1;
    situation.clock_is_set = false;
    situation.time.minute_of_day = 23 * 60;
    decide_at(4000);
    BOOST_TEST(backup.cycle == 0);
}

BOOST_FIXTURE_TEST_CASE(the_cycle_is_proved_by_holding_the_temperature_without_a_break, Backup) {
    settings[Setting::sanitise] = 1;
    clock(18);
    BOOST_TEST(decide_at(5999) == BackupReason::sanitising);
    BOOST_TEST(backup.hot == 0);
    decide_at(6000);
    wait(1799);
    decide();
    BOOST_TEST(backup.cycle == 1);
    decide_at(5999);  // a break
    decide_at(6000);
    wait(1799);
    decide();
    BOOST_TEST(backup.cycle == 1);
    wait(1);
    decide();
    BOOST_TEST(backup.cycle == 0);
    BOOST_TEST(backup.sanitised_on == 8901);
    BOOST_TEST(backup.missed == 0);
}

BOOST_FIXTURE_TEST_CASE(the_hold_is_not_broken_by_the_heaters_hysteresis, Backup) {
    settings[Setting::sanitise] = 1;
    clock(18);
    BOOST_TEST(decide_at(4000) == BackupReason::sanitising);
    BOOST_TEST(decide_at(6199) == BackupReason::sanitising);
    BOOST_TEST(decide_at(6200) == BackupReason::warm_enough);
    BOOST_TEST(backup.relay_on == 0);
    BOOST_TEST(decide_at(6100) == BackupReason::warm_enough);
    BOOST_TEST(decide_at(6099) == BackupReason::sanitising);
}

BOOST_FIXTURE_TEST_CASE(the_sun_can_do_the_cycle_and_saves_it, Backup) {
    settings[Setting::sanitise] = 1;
    backup.sanitised_on = 8901 - 7;
    clock(14);
    decide_at(7000);
    wait(1800);
    decide();
    BOOST_TEST(backup.sanitised_on == 8901);
    clock(18);
    BOOST_TEST(decide_at(4000) != BackupReason::sanitising);
}

BOOST_FIXTURE_TEST_CASE(the_chosen_sensor_proves_it, Backup) {
    settings[Setting::sanitise] = 1;
    settings[Setting::sanitise_sensor] = static_cast<std::int16_t>(SanitiseSensor::store_bottom);
    clock(18);
    BOOST_TEST(decide_at(2500, 7000) == BackupReason::sanitising);
    BOOST_TEST(backup.hot == 0);
    decide_at(6000, 7000);
    BOOST_TEST(backup.hot == 1);
    BOOST_TEST(sanitise_proof(settings, situation).centicelsius == 6000);
    settings[Setting::sanitise_sensor] = static_cast<std::int16_t>(SanitiseSensor::store_top);
    BOOST_TEST(sanitise_proof(settings, situation).centicelsius == 7000);
}

BOOST_FIXTURE_TEST_CASE(a_cycle_that_takes_too_long_is_missed_and_tried_next_day, Backup) {
    settings[Setting::sanitise] = 1;
    clock(18);
    decide_at(5000);
    wait(7199);
    decide();
    BOOST_TEST(backup.cycle == 1);
    BOOST_TEST(backup.missed == 0);
    wait(1);
    decide();
    BOOST_TEST(backup.cycle == 0);
    BOOST_TEST(backup.missed == 1);
    clock(23);
    decide();
    BOOST_TEST(backup.cycle == 0);  // once a day
    ++situation.time.date;
    decide();
    BOOST_TEST(backup.cycle == 1);
    BOOST_TEST(backup.missed == 1);  // until it succeeds
    decide_at(6000);
    wait(1800);
    decide();
    BOOST_TEST(backup.missed == 0);
}

BOOST_FIXTURE_TEST_CASE(heat_without_a_set_clock_forgives_a_miss_but_gives_no_date, Backup) {
    settings[Setting::sanitise] = 1;
    backup.missed = 1;
    situation.clock_is_set = false;
    decide_at(6000);
    wait(1800);
    decide();
    BOOST_TEST(backup.missed == 0);
    BOOST_TEST(backup.sanitised_on == 0);
}

BOOST_FIXTURE_TEST_CASE(a_lost_store_sensor_breaks_the_hold, Backup) {
    settings[Setting::sanitise] = 1;
    decide_at(6500);
    BOOST_TEST(backup.hot == 1);
    situation.store = Trust::lost;
    decide();
    BOOST_TEST(backup.hot == 0);
    BOOST_TEST(backup.hot_since.count == 0U);
}

BOOST_FIXTURE_TEST_CASE(without_backup_control_a_due_cycle_is_missed_at_once, Backup) {
    settings[Setting::sanitise] = 1;
    settings[Setting::backup_control] = 0;
    clock(18);
    BOOST_TEST(decide_at(4000) == BackupReason::out_of_window);
    BOOST_TEST(backup.missed == 1);
    BOOST_TEST(backup.cycle == 0);
}

BOOST_FIXTURE_TEST_CASE(control_taken_away_in_a_cycle_ends_the_heating, Backup) {
    settings[Setting::sanitise] = 1;
    clock(18);
    BOOST_TEST(decide_at(4000) == BackupReason::sanitising);
    settings[Setting::backup_control] = 0;
    BOOST_TEST(decide() == BackupReason::out_of_window);
}

BOOST_FIXTURE_TEST_CASE(sanitising_switched_off_ends_the_cycle_and_its_advice, Backup) {
    settings[Setting::sanitise] = 1;
    clock(18);
    decide_at(4000);
    backup.missed = 1;
    settings[Setting::sanitise] = 0;
    BOOST_TEST(decide() == BackupReason::in_window);
    BOOST_TEST(backup.cycle == 0);
    BOOST_TEST(backup.cycle_since.count == 0U);
    BOOST_TEST(backup.missed == 0);
}

BOOST_AUTO_TEST_SUITE_END()
