// SPDX-License-Identifier: MIT
#include "backup.hpp"

#include "priority.hpp"
#include "setting_values.hpp"

namespace noonbench::firmware {

namespace {

bool in_any_window(const Settings& s, const CivilTime& time) {
    return in_window(time, s[Setting::window_1_days], s[Setting::window_1_from],
                     s[Setting::window_1_until]) ||
           in_window(time, s[Setting::window_2_days], s[Setting::window_2_from],
                     s[Setting::window_2_until]) ||
           in_window(time, s[Setting::window_3_days], s[Setting::window_3_from],
                     s[Setting::window_3_until]);
}

/// How long the last success stays good. A date in the future is a clock that was wrong: not known.
bool sanitise_is_due(const Settings& settings, const Situation& now, const BackupState& backup) {
    const bool known = backup.sanitised_on != 0 && backup.sanitised_on <= now.time.date;
    return !known || now.time.date - backup.sanitised_on >= settings[Setting::sanitise_every];
}

void note_success(const Situation& now, BackupState& backup) {
    if (now.clock_is_set) {
        backup.sanitised_on = now.time.date;
    }
    backup.missed = 0;
    backup.cycle = 0;
    backup.cycle_since = {};
}

void begin_cycle(const Settings& settings, const Situation& now, BackupState& backup) {
    backup.tried_on = now.time.date;
    if (is_on(settings, Setting::backup_control)) {
        backup.cycle = 1;
        backup.cycle_since = now.now;
    } else {
        backup.missed = 1;
    }
}

void watch_heat(const Settings& settings, const Situation& now, BackupState& backup) {
    const bool hot =
        now.store == Trust::good && above_zero(sanitise_proof(settings, now)) >=
                                        degrees_of(settings, Setting::sanitise_temperature);
    if (!hot) {
        backup.hot = 0;
        backup.hot_since = {};
    } else if (backup.hot == 0) {
        backup.hot = 1;
        backup.hot_since = now.now;
    }
}

/// Does the cycle ask for heat now, or is it holding its temperature?
bool cycle_heats(const Settings& settings, const Situation& now, const BackupState& backup) {
    const bool heating = backup.reason == BackupReason::sanitising;
    const TemperatureDifference off_at =
        degrees_of(settings, Setting::sanitise_temperature) + sanitise_margin;
    const TemperatureDifference on_below{off_at.centikelvin - sanitise_margin.centikelvin / 2};
    return above_zero(sanitise_proof(settings, now)) < (heating ? off_at : on_below);
}

/// Keeps BackupState::demand for the temperature that is to be kept, if any.
void keep_thermostat(const Settings& settings, const Situation& now, bool in_force,
                     BackupState& backup) {
    const TemperatureDifference target =
        degrees_of(settings, now.clock_is_set ? Setting::backup_temperature
                                              : Setting::clock_unset_temperature);
    const TemperatureDifference top = above_zero(now.store_top);
    if (!in_force || now.store != Trust::good || top >= target) {
        backup.demand = 0;
    } else if (top <= target - difference_of(settings, Setting::backup_hysteresis)) {
        backup.demand = 1;
    }
}

/// Is the store's top so cool that comfort cannot wait? Heating that has begun is not broken off
/// again at the floor itself.
bool comfort_first(const Settings& settings, const Situation& now, const BackupState& backup) {
    const TemperatureDifference floor = degrees_of(settings, Setting::solar_first_floor);
    const TemperatureDifference enough =
        backup.reason == BackupReason::in_window
            ? floor + difference_of(settings, Setting::backup_hysteresis)
            : floor;
    return above_zero(now.store_top) < enough;
}

/// May the sun go first? Starts and ends the hold-off, which belongs to one window.
bool left_to_the_sun(const Settings& settings, const Situation& now, bool window, bool gaining,
                     BackupState& backup) {
    if (!window || !is_on(settings, Setting::solar_first)) {
        backup.held_off = 0;
        backup.held_off_since = {};
        return false;
    }
    if (backup.demand == 0 || !gaining || comfort_first(settings, now, backup)) {
        return false;
    }
    if (backup.held_off == 0) {
        backup.held_off = 1;
        backup.held_off_since = now.now;
    }
    return seconds_between(backup.held_off_since, now.now) <
           duration_s(settings, Setting::solar_first_longest);
}

/// A sensor that is only settling after power came has not been lost.
BackupReason reason_of(const BackupRow& row, const Situation& now, const BackupState& backup) {
    const bool starting_up = row.who == BackupClaim::store_sensor && now.store == Trust::settling &&
                             backup.reason == BackupReason::out_of_window;
    return starting_up ? BackupReason::out_of_window : row.reason;
}

}  // namespace

Temperature sanitise_proof(const Settings& settings, const Situation& situation) noexcept {
    const bool bottom = settings[Setting::sanitise_sensor] ==
                        static_cast<std::int16_t>(SanitiseSensor::store_bottom);
    return bottom ? situation.store_bottom : situation.store_top;
}

void keep_sanitise(const Settings& settings, const Situation& situation,
                   BackupState& backup) noexcept {
    watch_heat(settings, situation, backup);
    if (!is_on(settings, Setting::sanitise)) {
        backup.cycle = 0;
        backup.cycle_since = {};
        backup.missed = 0;
        return;
    }
    if (backup.hot != 0 && seconds_between(backup.hot_since, situation.now) >=
                               duration_s(settings, Setting::sanitise_hold)) {
        note_success(situation, backup);
    } else if (backup.cycle != 0 && seconds_between(backup.cycle_since, situation.now) >=
                                        duration_s(settings, Setting::sanitise_longest)) {
        backup.cycle = 0;
        backup.cycle_since = {};
        backup.missed = 1;
    } else if (backup.cycle == 0 && situation.clock_is_set &&
               situation.time.minute_of_day >= settings[Setting::sanitise_from] &&
               backup.tried_on != situation.time.date &&
               sanitise_is_due(settings, situation, backup)) {
        begin_cycle(settings, situation, backup);
    }
}

void decide_backup(const Settings& settings, const Situation& situation, const SolarSide& solar,
                   BackupState& backup) noexcept {
    keep_sanitise(settings, situation, backup);
    const bool controls = is_on(settings, Setting::backup_control);
    const bool window =
        controls && situation.clock_is_set && in_any_window(settings, situation.time);
    const bool minimum = controls && !situation.clock_is_set;
    keep_thermostat(settings, situation, window || minimum, backup);

    const bool cycle = controls && backup.cycle != 0;
    Claims claims;
    claims.add_if(solar.at_ceiling, BackupClaim::store_ceiling);
    claims.add_if(situation.store != Trust::good, BackupClaim::store_sensor);
    claims.add_if(backup.hand == HandRequest::on, BackupClaim::hand_on);
    claims.add_if(backup.hand == HandRequest::off, BackupClaim::hand_off);
    claims.add_if(cycle && cycle_heats(settings, situation, backup), BackupClaim::sanitise_cycle);
    claims.add_if(cycle, BackupClaim::sanitise_hold);
    claims.add_if(minimum && backup.demand != 0, BackupClaim::clock_unset_minimum);
    claims.add_if(left_to_the_sun(settings, situation, window, solar.gaining, backup),
                  BackupClaim::solar_first);
    claims.add_if(window && backup.demand != 0, BackupClaim::thermostat);
    claims.add_if(window, BackupClaim::thermostat_content);

    const BackupRow& row = winner(backup_priority, claims);
    backup.reason = reason_of(row, situation, backup);
    backup.relay_on = row.forces == Forces::on;
}

}  // namespace noonbench::firmware
