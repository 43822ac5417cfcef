// SPDX-License-Identifier: MIT
#include "controller.hpp"

#include "advice.hpp"
#include "backup.hpp"
#include "bounds.hpp"
#include "drive_level.hpp"
#include "guards.hpp"
#include "pump.hpp"
#include "sensors.hpp"
#include "situation.hpp"
#include "tally.hpp"

#include <cstddef>
#include <limits>

namespace noonbench::firmware {

namespace {

constexpr std::int16_t hours_not_known = std::numeric_limits<std::int16_t>::max();
constexpr std::uint32_t seconds_per_hour = 3600;

void note_event(State& state, const Inputs& inputs, EventKind kind, std::int16_t value) {
    note(state.ring, Event{inputs.clock_s, kind, 0, value});
}

void take_hand(const Inputs& inputs, State& state) {
    if (inputs.pump_hand != HandRequest::none && inputs.pump_hand != state.pump.hand) {
        state.pump.hand = inputs.pump_hand;
        note_event(state, inputs, EventKind::pump_hand_changed,
                   static_cast<std::int16_t>(inputs.pump_hand));
    }
    if (inputs.backup_hand != HandRequest::none && inputs.backup_hand != state.backup.hand) {
        state.backup.hand = inputs.backup_hand;
        note_event(state, inputs, EventKind::backup_hand_changed,
                   static_cast<std::int16_t>(inputs.backup_hand));
    }
}

void note_advice(const Inputs& inputs, Advice advice, State& state) {
    const Advice before = state.advice.shown;
    state.advice.shown = advice;
    for (std::size_t i = 0; advice != before && i < advice_count; ++i) {
        const auto kind = static_cast<AdviceKind>(i);
        if (advice.has(kind) != before.has(kind)) {
            note_event(state, inputs,
                       advice.has(kind) ? EventKind::advice_came : EventKind::advice_went,
                       static_cast<std::int16_t>(i));
        }
    }
}

Outputs outputs_of(const Settings& settings, const Readings& readings, const State& state) {
    Outputs out;
    out.pump_relay = state.pump.relay_on;
    out.backup_relay = state.backup.relay_on;
    out.drive_level_pct = state.drive.level_pct;
    out.speed_signal_pct = speed_signal_pct(settings, state.drive.level_pct);
    out.pump_reason = state.pump.reason;
    out.backup_reason = state.backup.reason;
    out.advice = state.advice.shown;
    out.readings = readings;
    out.difference = state.pump.difference;
    out.threshold = state.pump.threshold;
    const TallyCounters counters = counters_at(state.tally, state.now);
    out.tally_wh = counters.heat_wh;
    out.pump_starts = counters.pump_starts;
    out.pump_run_s = counters.pump_run_s;
    return out;
}

}  // namespace

Outputs tick(const Settings& settings, const Inputs& inputs, State& state) noexcept {
    take_hand(inputs, state);

    // The seven decisions, each of which may rely on those before it.
    // 1. Sensors: which temperatures may be trusted.
    const Readings readings = read_sensors(settings, inputs, state.sensors);
    const Situation situation = see(settings, readings, inputs, state.now);
    // 2. Guards: too hot, too cold.
    const bool was_at_ceiling = state.guards.at_ceiling != 0;
    keep_guards(settings, situation, state.guards);
    if (state.guards.at_ceiling != 0 && !was_at_ceiling) {
        note_event(state, inputs, EventKind::store_at_ceiling,
                   situation.hottest_store.centicelsius);
    }
    // 3. Difference and 4. runs: claims on the pump, settled by the table of priority, and the
    // level that follows from the winner.
    decide_pump(settings, situation, state.guards, state.pump);
    const std::uint8_t level = drive_level(settings, situation, state.pump, state.drive);
    // 5. Backup: after the pump, because the sun may go first.
    const std::uint16_t sanitised_before = state.backup.sanitised_on;
    decide_backup(settings, situation,
                  {state.guards.at_ceiling != 0, state.pump.reason == PumpReason::collecting},
                  state.backup);
    if (state.backup.sanitised_on != sanitised_before) {
        note_event(state, inputs, EventKind::sanitised,
                   sanitise_proof(settings, situation).centicelsius);
    }
    // 6. Tally: what the second that has ended brought, and what the coming one does.
    keep_tally(settings, readings, {state.now, inputs.flow_pulses, state.pump.relay_on, level},
               state.tally);
    // 7. Advice: looks at all of it.
    note_advice(inputs, advise(settings, situation, readings, state), state);

    const Outputs out = outputs_of(settings, readings, state);
    ++state.now.count;
    return out;
}

State start(const Persistent& saved, const Inputs& inputs) noexcept {
    State state;
    state.tally = resume_tally(saved.counters);
    state.ring = saved.ring;
    state.backup.sanitised_on = saved.sanitised_on;

    std::int16_t hours = hours_not_known;
    const std::uint32_t then = saved.saved_clock_s;
    if (inputs.clock_is_set != 0 && then != 0 && inputs.clock_s >= then) {
        hours = static_cast<std::int16_t>(
            lesser<std::uint32_t>((inputs.clock_s - then) / seconds_per_hour, hours_not_known - 1));
    }
    note_event(state, inputs, EventKind::power_came_back, hours);
    return state;
}

Persistent to_save(const Settings& settings, const State& state, const Inputs& inputs) noexcept {
    Persistent data{};
    data.counters = counters_at(state.tally, state.now);
    data.ring = state.ring;
    data.saved_clock_s = inputs.clock_is_set != 0 ? inputs.clock_s : 0;
    data.sanitised_on = state.backup.sanitised_on;
    data.settings = settings;
    return data;
}

}  // namespace noonbench::firmware
