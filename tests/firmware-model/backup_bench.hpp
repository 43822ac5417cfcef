// SPDX-License-Identifier: MIT
// Backup heat on its own, with settings that the tests of backup_test and sanitise_test share.
#pragma once
#include "decisions.hpp"

#include "firmware-model/backup.hpp"

namespace noonbench::firmware::decisions {

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
        settings[Setting::solar_first_floor] = 3500;
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

}  // namespace noonbench::firmware::decisions
