// SPDX-License-Identifier: MIT
#include "difference.hpp"

#include "setting_values.hpp"

namespace noonbench::firmware {

bool difference_asks(const Settings& settings, const Situation& situation,
                     const PumpState& pump) noexcept {
    if (!situation.sees_difference()) {
        return false;
    }
    // The start threshold comes first: with it alone a collecting pump goes on at any setting.
    return situation.difference >= difference_of(settings, Setting::start_difference) ||
           (pump.reason == PumpReason::collecting &&
            situation.difference > stop_difference(settings));
}

bool in_least_run(const Settings& settings, Ticks now, const PumpState& pump) noexcept {
    const bool began_it =
        pump.reason == PumpReason::collecting || pump.reason == PumpReason::least_run;
    return began_it &&
           seconds_between(pump.changed_at, now) < duration_s(settings, Setting::least_run_time);
}

bool in_least_rest(const Settings& settings, Ticks now, const PumpState& pump) noexcept {
    return pump.relay_on == 0 &&
           seconds_between(pump.changed_at, now) < duration_s(settings, Setting::least_rest_time);
}

}  // namespace noonbench::firmware
