// SPDX-License-Identifier: MIT
// What must hold at every tick, written down a second time and from the outputs alone wherever
// they show it: the rules know nothing of Situation, claims or the code of the table.
#pragma once
#include "firmware-model/controller.hpp"
#include "firmware-model/guards.hpp"

#include <algorithm>
#include <cstdint>

namespace noonbench::firmware::walking {

/// One tick seen from outside.
struct Tick {
    const Settings& settings;
    const Inputs& inputs;
    const State& before;
    const State& after;
    const Outputs& out;

    [[nodiscard]] const Reading& at(Sensor sensor) const {
        return out.readings[static_cast<std::size_t>(sensor)];
    }
    [[nodiscard]] bool good(Sensor sensor) const { return at(sensor).status == SensorStatus::good; }
    [[nodiscard]] int temperature(Sensor sensor) const {
        return at(sensor).temperature.centicelsius;
    }
    [[nodiscard]] bool two_collectors() const {
        return settings[Setting::second_collector_fitted] != 0;
    }
    [[nodiscard]] bool collectors_good() const {
        return good(Sensor::collector) && (!two_collectors() || good(Sensor::second_collector));
    }
    [[nodiscard]] bool store_good() const {
        return good(Sensor::store_bottom) && good(Sensor::store_top);
    }
    [[nodiscard]] int hottest_collector() const {
        const int one = temperature(Sensor::collector);
        return two_collectors() ? std::max(one, temperature(Sensor::second_collector)) : one;
    }
    [[nodiscard]] int coldest_collector() const {
        const int one = temperature(Sensor::collector);
        return two_collectors() ? std::min(one, temperature(Sensor::second_collector)) : one;
    }
    [[nodiscard]] int bottom() const { return temperature(Sensor::store_bottom); }
    [[nodiscard]] int difference() const { return hottest_collector() - bottom(); }
    [[nodiscard]] int start() const { return settings[Setting::start_difference]; }
    [[nodiscard]] int stop() const {
        return std::min<int>(settings[Setting::stop_difference], start() - 100);
    }
    [[nodiscard]] bool pump_is(PumpReason reason, bool on) const {
        return out.pump_reason == reason && (out.pump_relay != 0) == on;
    }
    [[nodiscard]] bool both_off() const { return out.pump_relay == 0 && out.backup_relay == 0; }
};

// Each rule gives null, or its own first sentence that does not hold.
#define HOLDS(sentence)       \
    do {                      \
        if (!(sentence)) {    \
            return #sentence; \
        }                     \
    } while (false)
#define WHEN(condition, sentence)                     \
    do {                                              \
        if ((condition) && !(sentence)) {             \
            return "when " #condition ": " #sentence; \
        }                                             \
    } while (false)

inline bool runs(PumpReason reason) {
    switch (reason) {
        case PumpReason::collecting:
        case PumpReason::least_run:
        case PumpReason::shedding_by_day:
        case PumpReason::shedding_by_night:
        case PumpReason::guarding_frost:
        case PumpReason::sampling:
        case PumpReason::exercising:
        case PumpReason::hand_on:
            return true;
        default:
            return false;
    }
}

inline bool heats(BackupReason reason) {
    return reason == BackupReason::in_window || reason == BackupReason::sanitising ||
           reason == BackupReason::clock_unset || reason == BackupReason::hand_on;
}

inline const char* reasons_tell_the_relays(const Tick& t) {
    HOLDS((t.out.pump_relay != 0) == runs(t.out.pump_reason));
    HOLDS((t.out.backup_relay != 0) == heats(t.out.backup_reason));
    HOLDS(t.after.pump.relay_on == t.out.pump_relay);
    WHEN(t.before.pump.reason == t.after.pump.reason,
         t.before.pump.difference == t.after.pump.difference &&
             t.before.pump.threshold == t.after.pump.threshold);
    HOLDS(t.after.now.count == t.before.now.count + 1);
    return nullptr;
}

inline const char* nothing_passes_the_ceiling(const Tick& t) {
    for (const Sensor sensor : {Sensor::store_bottom, Sensor::store_top}) {
        const bool hot =
            t.good(sensor) && t.temperature(sensor) >= t.settings[Setting::store_ceiling];
        WHEN(hot, t.both_off());
        WHEN(hot, t.out.pump_reason == PumpReason::ceiling_reached);
        WHEN(hot, t.out.backup_reason == BackupReason::ceiling_reached);
        WHEN(!t.good(sensor), t.both_off());
    }
    return nullptr;
}

/// The upper part of the order, read from the inputs; each rank speaks if none above it does.
inline const char* the_order_holds(const Tick& t) {
    if (t.out.pump_reason == PumpReason::ceiling_reached) {
        return nullptr;
    }
    const bool lost = t.out.pump_reason == PumpReason::sensor_lost ||
                      t.out.pump_reason == PumpReason::waiting_for_sun;
    WHEN(!t.store_good(), lost);
    if (!t.store_good()) {
        return nullptr;
    }
    WHEN(t.after.pump.hand == HandRequest::on, t.pump_is(PumpReason::hand_on, true));
    WHEN(t.after.pump.hand == HandRequest::off, t.pump_is(PumpReason::hand_off, false));
    if (t.after.pump.hand != HandRequest::automatic) {
        return nullptr;
    }
    WHEN(!t.collectors_good(), lost && t.out.pump_relay == 0);
    if (!t.collectors_good()) {
        return nullptr;
    }
    HOLDS(t.out.pump_reason != PumpReason::sensor_lost);
    WHEN(t.hottest_collector() >= t.settings[Setting::collector_cut_out],
         t.pump_is(PumpReason::collector_cut_out, false));
    if (t.out.pump_reason == PumpReason::collector_cut_out) {
        return nullptr;
    }
    const bool freezing = t.settings[Setting::frost_guard] != 0 &&
                          t.coldest_collector() <= t.settings[Setting::frost_start] &&
                          t.bottom() > t.settings[Setting::frost_store_floor] + 100;
    WHEN(freezing, t.pump_is(PumpReason::guarding_frost, true));
    WHEN(t.bottom() >= t.settings[Setting::store_limit],
         t.out.pump_reason == PumpReason::store_full || t.out.pump_reason == PumpReason::resting ||
             t.out.pump_reason == PumpReason::guarding_frost ||
             t.out.pump_reason == PumpReason::shedding_by_day ||
             t.out.pump_reason == PumpReason::shedding_by_night);
    return nullptr;
}

/// Each reason of the lower ranks says something that can be looked up.
inline const char* reasons_are_true(const Tick& t) {
    const PumpReason reason = t.out.pump_reason;
    WHEN(reason == PumpReason::collecting, t.difference() > t.stop());
    WHEN(reason == PumpReason::collecting && t.before.pump.reason != PumpReason::collecting,
         t.difference() >= t.start());
    WHEN(reason == PumpReason::least_run, t.difference() < t.start());
    WHEN(t.before.pump.reason == PumpReason::collecting &&
             (reason == PumpReason::least_run || reason == PumpReason::waiting_for_sun),
         t.difference() <= t.stop());
    WHEN(reason == PumpReason::shedding_by_day,
         t.settings[Setting::day_shedding] != 0 &&
             t.hottest_collector() > t.settings[Setting::day_shedding_start] - 1000);
    WHEN(reason == PumpReason::shedding_by_night,
         -t.difference() > night_shedding_stop.centikelvin && t.inputs.clock_is_set != 0 &&
             t.bottom() > t.settings[Setting::night_shedding_target]);
    WHEN(reason == PumpReason::guarding_frost,
         t.settings[Setting::frost_guard] != 0 &&
             t.bottom() > t.settings[Setting::frost_store_floor]);
    WHEN(reason == PumpReason::sampling,
         t.settings[Setting::sampling] != 0 && t.inputs.clock_is_set != 0);
    WHEN(reason == PumpReason::exercising, t.coldest_collector() >= 500);
    WHEN(reason == PumpReason::waiting_for_sun && t.store_good() && t.collectors_good(),
         t.difference() < t.start());
    return nullptr;
}

/// The least times, and who alone may break them.
inline const char* least_times_are_kept(const Tick& t) {
    const PumpState& was = t.before.pump;
    const PumpState& is = t.after.pump;
    const std::uint32_t since_s = t.before.now.count - was.changed_at.count;
    const auto least_run_s = static_cast<std::uint32_t>(t.settings[Setting::least_run_time]);
    const auto least_rest_s = static_cast<std::uint32_t>(t.settings[Setting::least_rest_time]);
    const bool switched = was.relay_on != is.relay_on;
    HOLDS(is.changed_at.count == (switched ? t.before.now.count : was.changed_at.count));
    const bool collected =
        was.reason == PumpReason::collecting || was.reason == PumpReason::least_run;
    WHEN(was.relay_on != 0 && is.relay_on == 0 && collected && since_s < least_run_s,
         is.reason == PumpReason::ceiling_reached || is.reason == PumpReason::sensor_lost ||
             is.reason == PumpReason::hand_off || is.reason == PumpReason::collector_cut_out ||
             is.reason == PumpReason::store_full);
    WHEN(was.relay_on == 0 && is.relay_on != 0 && since_s < least_rest_s,
         is.reason == PumpReason::hand_on || is.reason == PumpReason::guarding_frost);
    WHEN(is.reason == PumpReason::least_run, since_s < least_run_s);
    WHEN(is.reason == PumpReason::resting, since_s < least_rest_s);
    HOLDS(t.out.pump_starts == t.before.tally.counters.pump_starts ||
          (is.relay_on != 0 && t.out.pump_starts == t.before.tally.counters.pump_starts + 1));
    return nullptr;
}

inline const char* levels_are_right(const Tick& t) {
    const int level = t.out.drive_level_pct;
    const int signal = t.out.speed_signal_pct;
    HOLDS((level == 0) == (t.out.pump_relay == 0));
    HOLDS(level <= 100);
    WHEN(t.out.pump_relay != 0, level >= t.settings[Setting::least_level]);
    WHEN(t.out.pump_relay != 0 && t.settings[Setting::pump_drive] == 0, level == 100);
    HOLDS(signal == (t.settings[Setting::speed_signal] == 0 ? level : 100 - level));
    return nullptr;
}

inline const char* backup_is_right(const Tick& t) {
    const BackupReason reason = t.out.backup_reason;
    const int top = t.temperature(Sensor::store_top);
    WHEN(reason == BackupReason::in_window,
         t.inputs.clock_is_set != 0 && top < t.settings[Setting::backup_temperature]);
    WHEN(reason == BackupReason::clock_unset,
         t.inputs.clock_is_set == 0 && top < t.settings[Setting::clock_unset_temperature]);
    WHEN(reason == BackupReason::leaving_it_to_the_sun,
         t.out.pump_reason == PumpReason::collecting && t.settings[Setting::solar_first] != 0 &&
             t.before.now.count - t.after.backup.held_off_since.count <
                 static_cast<std::uint32_t>(t.settings[Setting::solar_first_longest]) * 60U);
    WHEN(reason == BackupReason::sanitising, t.settings[Setting::sanitise] != 0);
    if (t.store_good() && reason != BackupReason::ceiling_reached) {
        WHEN(t.after.backup.hand == HandRequest::on, reason == BackupReason::hand_on);
        WHEN(t.after.backup.hand == HandRequest::off, reason == BackupReason::hand_off);
        HOLDS(reason != BackupReason::sensor_lost);
        WHEN(t.settings[Setting::backup_control] == 0 && reason != BackupReason::hand_on,
             t.out.backup_relay == 0);
    }
    return nullptr;
}

/// One state, one set of bytes: flags are 0 or 1, and what a flag disowns is 0.
inline const char* state_is_canonical(const Tick& t) {
    const GuardsState& g = t.after.guards;
    const BackupState& b = t.after.backup;
    const DriveState& d = t.after.drive;
    const AdviceState& a = t.after.advice;
    for (const std::uint8_t flag :
         {g.at_ceiling, g.at_limit, g.cut_out, g.frost, g.shedding_by_day, g.shedding_by_night,
          b.relay_on, b.demand, b.held_off, b.hot, b.cycle, b.missed, d.regulating, a.ran_at_mark,
          a.rested_at_mark, a.no_flow, a.warm_night, a.swapped, t.after.pump.relay_on}) {
        HOLDS(flag <= 1);
    }
    HOLDS(t.after.pump.hand != HandRequest::none && b.hand != HandRequest::none);
    WHEN(b.held_off == 0, b.held_off_since.count == 0);
    WHEN(b.hot == 0, b.hot_since.count == 0);
    WHEN(b.cycle == 0, b.cycle_since.count == 0);
    WHEN(d.regulating == 0, d.integral_millipercent == 0 && d.appointment_at.count == 0);
    WHEN(d.regulating != 0, d.integral_millipercent <= 100'000);
    WHEN(a.ran_at_mark == 0, a.running_mark_ck == 0);
    WHEN(a.rested_at_mark == 0, a.resting_mark.centicelsius == 0 && a.dark_marks == 0);
    HOLDS(t.after.reserved == 0 && t.after.pump.reserved == 0 && g.reserved == 0);
    return nullptr;
}

/// The first sentence that does not hold, or null.
inline const char* first_broken(const Tick& t) {
    for (const auto rule :
         {reasons_tell_the_relays, nothing_passes_the_ceiling, the_order_holds, reasons_are_true,
          least_times_are_kept, levels_are_right, backup_is_right, state_is_canonical}) {
        if (const char* broken = rule(t)) {
            return broken;
        }
    }
    return nullptr;
}

#undef HOLDS
#undef WHEN

}  // namespace noonbench::firmware::walking
