// SPDX-License-Identifier: MIT
#include "quiet.hpp"

#include "advice.hpp"
#include "backup.hpp"
#include "bounds.hpp"
#include "calendar.hpp"
#include "controller.hpp"
#include "drive_level.hpp"
#include "guards.hpp"
#include "runs.hpp"
#include "sensors.hpp"
#include "setting_values.hpp"
#include "tally.hpp"

namespace noonbench::firmware {

namespace {

// ------------------------------------------------------------------ sensors

/// Does each tick do to this sensor what the tick before did: move a full filter on, or leave a
/// fault standing?
bool stands(const SensorState& s, Band band) {
    if (!of_one_status(band.least, band.most)) return false;
    const SensorStatus sample = status_of(band.least);
    // Only a full filter is good. Good samples in between, too few to end a fault, start its count
    // of bad ones anew.
    const bool good = sample == SensorStatus::good;
    return s.status == sample && s.bad_run == (good ? 0 : samples_to_fault);
}

/// Temperatures between which a reading stays, in 0.01 K above 0 degC.
struct Span {
    TemperatureDifference least{};
    TemperatureDifference most{};
    bool known = false;  // of a sensor that may be trusted
};

Span span_of(const State& state, const Bands& bands, Sensor sensor) {
    const auto i = static_cast<std::size_t>(sensor);
    if (state.sensors.sensor[i].status != SensorStatus::good) return {};
    return {above_zero(temperature_of(bands.counts[i].least * 8U)),
            above_zero(temperature_of(bands.counts[i].most * 8U)), true};
}

Span greater_of(const Span& a, const Span& b) {
    if (!a.known) return b;
    return b.known ? Span{greater(a.least, b.least), greater(a.most, b.most), true} : a;
}

Span lesser_of(const Span& a, const Span& b) {
    if (!a.known) return b;
    return b.known ? Span{lesser(a.least, b.least), lesser(a.most, b.most), true} : a;
}

struct Spans {
    Span collector{};
    Span second_collector{};
    Span store_bottom{};
    Span store_top{};
    Span hottest_collector{};
    Span coldest_collector{};
    Span hottest_store{};
    Span difference{};
};

Spans spans_of(const Settings& settings, const State& state, const Bands& bands) {
    Spans all;
    all.collector = span_of(state, bands, Sensor::collector);
    if (is_on(settings, Setting::second_collector_fitted)) {
        all.second_collector = span_of(state, bands, Sensor::second_collector);
    }
    all.store_bottom = span_of(state, bands, Sensor::store_bottom);
    all.store_top = span_of(state, bands, Sensor::store_top);
    all.hottest_collector = greater_of(all.collector, all.second_collector);
    all.coldest_collector = lesser_of(all.collector, all.second_collector);
    all.hottest_store = greater_of(all.store_bottom, all.store_top);
    all.difference = {all.hottest_collector.least - all.store_bottom.most,
                      all.hottest_collector.most - all.store_bottom.least,
                      all.hottest_collector.known && all.store_bottom.known};
    return all;
}

// ------------------------------------------------------------------ thresholds

/// Whether any of the thresholds named to it lies within the span that is held against it.
class Touch {
  public:
    void at(const Span& span, TemperatureDifference threshold) {
        any_ = any_ || (span.known && span.least <= threshold && threshold <= span.most);
    }
    /// A threshold and the one that gives it back.
    void at(const Span& span, TemperatureDifference threshold, TemperatureDifference other) {
        at(span, threshold);
        at(span, other);
    }
    [[nodiscard]] bool any() const { return any_; }

  private:
    bool any_ = false;
};

void touch_guards(const Settings& s, const Spans& spans, Touch& touch) {
    const TemperatureDifference ceiling = degrees_of(s, Setting::store_ceiling);
    touch.at(spans.hottest_store, ceiling, ceiling - ceiling_release);
    const TemperatureDifference limit = degrees_of(s, Setting::store_limit);
    touch.at(spans.store_bottom, limit, limit - difference_of(s, Setting::store_limit_release));
    touch.at(spans.hottest_collector, degrees_of(s, Setting::collector_cut_out),
             collector_release(s));
    if (is_on(s, Setting::frost_guard)) {
        const TemperatureDifference floor = degrees_of(s, Setting::frost_store_floor);
        touch.at(spans.store_bottom, floor, floor + floor_hysteresis);
        touch.at(spans.coldest_collector, degrees_of(s, Setting::frost_start), frost_stop(s));
    }
    if (is_on(s, Setting::day_shedding)) {
        const TemperatureDifference start = degrees_of(s, Setting::day_shedding_start);
        touch.at(spans.hottest_collector, start, start - day_shedding_hysteresis);
    }
    if (is_on(s, Setting::night_shedding) || s[Setting::holiday_from] != 0) {
        const TemperatureDifference target = degrees_of(s, Setting::night_shedding_target);
        touch.at(spans.store_bottom, target, target + floor_hysteresis);
        touch.at(spans.difference, -difference_of(s, Setting::start_difference),
                 -night_shedding_stop);
    }
}

/// A pump that collects is held against the stop difference, any other against the start: the one
/// that does not count at the moment would not even be looked at.
void touch_pump(const Settings& s, const PumpState& pump, const Spans& spans, Ticks now,
                Touch& touch) {
    const bool collects = pump.reason == PumpReason::collecting;
    touch.at(spans.difference,
             collects ? stop_difference(s) : difference_of(s, Setting::start_difference));
    const bool is_due =
        seconds_between(pump.changed_at, now) >= duration_s(s, Setting::exercise_after);
    if (s[Setting::exercise_after] != 0 && (is_due || pump.reason == PumpReason::exercising)) {
        touch.at(spans.coldest_collector, above_zero(too_cold_to_exercise));
    }
}

/// What asks for heat is held against where it is content, what does not against where it begins.
void touch_backup(const Settings& s, const BackupState& backup, const Spans& spans,
                  bool clock_is_set, Touch& touch) {
    const bool bottom_proves =
        s[Setting::sanitise_sensor] == static_cast<std::int16_t>(SanitiseSensor::store_bottom);
    const Span& proof = bottom_proves ? spans.store_bottom : spans.store_top;
    const TemperatureDifference hot = degrees_of(s, Setting::sanitise_temperature);
    touch.at(proof, hot);
    if (!is_on(s, Setting::backup_control)) return;
    if (backup.cycle != 0) {
        touch.at(proof, hot + sanitise_margin, {hot.centikelvin + sanitise_margin.centikelvin / 2});
    }
    const TemperatureDifference hysteresis = difference_of(s, Setting::backup_hysteresis);
    const TemperatureDifference target = degrees_of(
        s, clock_is_set ? Setting::backup_temperature : Setting::clock_unset_temperature);
    if (backup.demand == 0) {
        touch.at(spans.store_top, target - hysteresis);
        return;
    }
    touch.at(spans.store_top, target);
    if (is_on(s, Setting::solar_first)) {
        const TemperatureDifference floor = degrees_of(s, Setting::solar_first_floor);
        touch.at(spans.store_top, floor, floor + hysteresis);
    }
}

void touch_advice(const Spans& spans, Touch& touch) {
    for (const Span* span : {&spans.collector, &spans.second_collector}) {
        touch.at(*span, above_zero(collector_least), above_zero(collector_most));
    }
    for (const Span* span : {&spans.store_bottom, &spans.store_top}) {
        touch.at(*span, above_zero(store_least), above_zero(store_most));
    }
}

bool touches_a_threshold(const Settings& settings, const State& state, const Bands& bands) {
    const Spans spans = spans_of(settings, state, bands);
    Touch touch;
    touch_guards(settings, spans, touch);
    touch_pump(settings, state.pump, spans, state.now, touch);
    touch_backup(settings, state.backup, spans, bands.clock_is_set != 0, touch);
    touch_advice(spans, touch);
    return touch.any();
}

// ------------------------------------------------------------------ time

/// The earliest of the moments named to it, as ticks from now on; those that are past do not count.
class Earliest {
  public:
    explicit Earliest(Ticks now) : now_(now) {}

    void after(Ticks since, std::uint32_t seconds) {
        const std::uint32_t passed = seconds_between(since, now_);
        if (passed <= seconds) in(seconds - passed);
    }
    void in(std::uint32_t ticks) { ticks_ = lesser(ticks_, ticks); }
    [[nodiscard]] std::uint32_t ticks() const { return ticks_; }

  private:
    static constexpr std::uint32_t longest = 7 * seconds_per_day;
    Ticks now_;
    std::uint32_t ticks_ = longest;
};

/// Appointments read temperatures, so that the tick itself has to be run, however quiet.
void note_appointments(const State& state, Earliest& earliest) {
    const std::uint32_t since_mark = state.now.count % mark_every_s;
    earliest.in(since_mark == 0 ? 0 : mark_every_s - since_mark);
    if (state.tally.running != 0) earliest.after(state.tally.booked_until, tally_every_s);
    if (state.drive.regulating != 0) earliest.after(state.drive.appointment_at, level_every_s);
}

void note_timers(const Settings& settings, const State& state, Earliest& earliest) {
    for (const Setting time :
         {Setting::least_run_time, Setting::least_rest_time, Setting::start_boost_time,
          Setting::sampling_every, Setting::sampling_for, Setting::exercise_after,
          Setting::exercise_for}) {
        earliest.after(state.pump.changed_at, duration_s(settings, time));
    }
    const BackupState& backup = state.backup;
    if (backup.held_off != 0) {
        earliest.after(backup.held_off_since, duration_s(settings, Setting::solar_first_longest));
    }
    if (backup.hot != 0) {
        earliest.after(backup.hot_since, duration_s(settings, Setting::sanitise_hold));
    }
    if (backup.cycle != 0) {
        earliest.after(backup.cycle_since, duration_s(settings, Setting::sanitise_longest));
    }
}

/// Times of day at which a window opens or closes or a date begins; summer time comes and goes at
/// 02:00 standard time.
void note_clock(const Settings& settings, std::uint32_t clock_s, Earliest& earliest) {
    const CivilTime time = civil_time(clock_s, settings);
    const std::uint32_t of_minute = clock_s % 60;
    const auto at_minute = [&](std::int32_t minute, std::int32_t minute_now) {
        const std::int32_t ahead = (minute - minute_now + 2 * minutes_per_day) % minutes_per_day;
        const auto whole = static_cast<std::uint32_t>(ahead) * 60;
        if (ahead != 0) {
            earliest.in(whole - of_minute);
        } else if (of_minute == 0) {
            earliest.in(0);
        }
    };
    for (const Setting minute :
         {Setting::window_1_from, Setting::window_1_until, Setting::window_2_from,
          Setting::window_2_until, Setting::window_3_from, Setting::window_3_until,
          Setting::sampling_from, Setting::sampling_until, Setting::sanitise_from}) {
        at_minute(settings[minute], time.minute_of_day);
    }
    at_minute(0, time.minute_of_day);
    constexpr std::int32_t summer_time_change = 120;
    at_minute(summer_time_change, static_cast<std::int32_t>(clock_s % seconds_per_day / 60));
}

// ------------------------------------------------------------------ one tick tried out

template <class Plain>
bool same_bytes(const Plain& a, const Plain& b) {
    return __builtin_memcmp(&a, &b, sizeof(Plain)) == 0;
}

/// With no threshold in any band one reading stands for all: if a tick with it leaves the state as
/// it is, so does each tick until the next moment of time.
bool rests(const Settings& settings, const State& state, const Bands& bands) {
    Inputs inputs;
    for (std::size_t i = 0; i < sensor_count; ++i) inputs.counts[i] = bands.counts[i].least;
    inputs.clock_s = bands.clock_s;
    inputs.clock_is_set = bands.clock_is_set;
    State after = state;
    tick(settings, inputs, after);
    after.now = state.now;
    after.sensors = state.sensors;
    return same_bytes(state, after);
}

bool counts_pulses(const Settings& settings, const Bands& bands) {
    return settings[Setting::tally_source] == static_cast<std::int16_t>(TallySource::pulse_meter) &&
           bands.most_pulses != 0;
}

bool sensors_stand(const Settings& settings, const State& state, const Bands& bands) {
    for (std::size_t i = 0; i < sensor_count; ++i) {
        const SensorState& s = state.sensors.sensor[i];
        if (is_fitted(settings, static_cast<Sensor>(i)) && !stands(s, bands.counts[i])) {
            return false;
        }
        if (!is_fitted(settings, static_cast<Sensor>(i)) && !same_bytes(s, SensorState{})) {
            return false;
        }
    }
    return true;
}

}  // namespace

Ticks due_at(const Settings& settings, const State& state, std::uint32_t clock_s,
             std::uint8_t clock_is_set) noexcept {
    Earliest earliest(state.now);
    note_appointments(state, earliest);
    note_timers(settings, state, earliest);
    if (clock_is_set != 0) note_clock(settings, clock_s, earliest);
    return {state.now.count + earliest.ticks()};
}

bool stays_quiet(const Settings& settings, const State& state, const Bands& bands) noexcept {
    return !counts_pulses(settings, bands) && sensors_stand(settings, state, bands) &&
           !touches_a_threshold(settings, state, bands) && rests(settings, state, bands);
}

Ticks quiet_until(const Settings& settings, const State& state, const Bands& bands) noexcept {
    const Ticks due = due_at(settings, state, bands.clock_s, bands.clock_is_set);
    return due != state.now && stays_quiet(settings, state, bands) ? due : state.now;
}

void pass_quiet(const Settings& settings, State& state, std::uint32_t ticks, const Inputs* last,
                std::size_t count) noexcept {
    for (std::size_t i = 0; i < sensor_count; ++i) {
        SensorState& s = state.sensors.sensor[i];
        if (!is_fitted(settings, static_cast<Sensor>(i)) || s.status != SensorStatus::good) {
            continue;
        }
        s.next = static_cast<std::uint8_t>((s.next + ticks - count) % filter_samples);
        for (std::size_t k = 0; k < count; ++k) {
            s.window[s.next] = last[k].counts[i];
            s.next = static_cast<std::uint8_t>((s.next + 1U) % filter_samples);
        }
    }
    state.now.count += ticks;
}

}  // namespace noonbench::firmware
