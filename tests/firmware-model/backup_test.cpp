// SPDX-License-Identifier: MIT
#include "firmware-model/backup.hpp"

#include <boost/test/unit_test.hpp>

#include "decisions.hpp"

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

namespace {

struct Backup {
    Settings settings = default_settings();
    Situation situation = quiet_afternoon();
    SolarSide solar{};
    BackupState backup{};

    Backup() {
        settings[Setting::backup_control] = 1;
        settings[Setting::backup_temperature] = 5500;
        settings[Setting::backup_hysteresis] = 500;
        settings[Setting::window_1_days] = 0x7F;
        settings[Setting::window_1_from] = 17 * 60;
        settings[Setting::window_1_until] = 21 * 60;
        settings[Setting::solar_first] = 1;
        settings[Setting::solar_first_longest] = 60;
        settings[Setting::clock_unset_temperature] = 4500;
        settings[Setting::sanitise] = 0;
        settings[Setting::sanitise_temperature] = 6000;
        settings[Setting::sanitise_hold] = 30;
        settings[Setting::sanitise_every] = 7;
        settings[Setting::sanitise_from] = 18 * 60;
        settings[Setting::sanitise_longest] = 120;
    }
    BackupReason decide() {
        decide_backup(settings, situation, solar, backup);
        return backup.reason;
    }
    BackupReason decide_at(int bottom, int top) {
        read(situation, {2000}, {static_cast<std::int16_t>(bottom)},
             {static_cast<std::int16_t>(top)});
        return decide();
    }
    BackupReason decide_at(int top) { return decide_at(3000, top); }
    void clock(int hour, int minute = 0) {
        situation.time.minute_of_day = static_cast<std::int16_t>(hour * 60 + minute);
    }
    void wait(std::uint32_t seconds) { situation.now.count += seconds; }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(backup)

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
