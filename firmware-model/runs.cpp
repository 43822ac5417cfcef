// SPDX-License-Identifier: MIT
#include "runs.hpp"

#include "setting_values.hpp"

namespace noonbench::firmware {

namespace {

/// Under way and not over, or due after standing still for so long.
bool timed_run(const PumpState& pump, Ticks now, PumpReason own, std::uint32_t after_s,
               std::uint32_t for_s) {
    const std::uint32_t since_change_s = seconds_between(pump.changed_at, now);
    if (pump.relay_on != 0) {
        return pump.reason == own && since_change_s < for_s;
    }
    return since_change_s >= after_s;
}

}  // namespace

bool sampling_asks(const Settings& settings, const Situation& situation,
                   const PumpState& pump) noexcept {
    return is_on(settings, Setting::sampling) && by_day(settings, situation) &&
           timed_run(pump, situation.now, PumpReason::sampling,
                     duration_s(settings, Setting::sampling_every),
                     duration_s(settings, Setting::sampling_for));
}

bool exercise_asks(const Settings& settings, const Situation& situation,
                   const PumpState& pump) noexcept {
    return settings[Setting::exercise_after] != 0 && situation.collector == Trust::good &&
           situation.coldest_collector >= too_cold_to_exercise &&
           timed_run(pump, situation.now, PumpReason::exercising,
                     duration_s(settings, Setting::exercise_after),
                     duration_s(settings, Setting::exercise_for));
}

}  // namespace noonbench::firmware
