// SPDX-License-Identifier: MIT
#include "pump.hpp"

#include "difference.hpp"
#include "priority.hpp"
#include "runs.hpp"
#include "setting_values.hpp"

namespace noonbench::firmware {

namespace {

Claims claims_on_pump(const Settings& settings, const Situation& now, const GuardsState& guards,
                      const PumpState& pump) {
    Claims claims;
    claims.add_if(guards.at_ceiling != 0, PumpClaim::store_ceiling);
    claims.add_if(now.store != Trust::good, PumpClaim::store_sensor);
    claims.add_if(pump.hand == HandRequest::on, PumpClaim::hand_on);
    claims.add_if(pump.hand == HandRequest::off, PumpClaim::hand_off);
    claims.add_if(now.collector != Trust::good, PumpClaim::collector_sensor);
    claims.add_if(guards.cut_out != 0, PumpClaim::collector_cut_out);
    claims.add_if(guards.frost != 0, PumpClaim::frost_guard);
    claims.add_if(guards.shedding_by_day != 0, PumpClaim::day_shedding);
    claims.add_if(guards.shedding_by_night != 0, PumpClaim::night_shedding);
    claims.add_if(guards.at_limit != 0, PumpClaim::store_limit);
    claims.add_if(difference_asks(settings, now, pump), PumpClaim::difference);
    claims.add_if(sampling_asks(settings, now, pump), PumpClaim::sampling_run);
    claims.add_if(exercise_asks(settings, now, pump), PumpClaim::exercise_run);
    return claims;
}

/// A sensor that is only settling after power came has not been lost: the pump goes on waiting.
PumpReason reason_of(const PumpRow& row, const Situation& now, const PumpState& pump) {
    const Trust blamed = row.who == PumpClaim::store_sensor ? now.store : now.collector;
    const bool starting_up = row.reason == PumpReason::sensor_lost && blamed == Trust::settling &&
                             pump.reason == PumpReason::waiting_for_sun;
    return starting_up ? PumpReason::waiting_for_sun : row.reason;
}

}  // namespace

Decisive decisive(const Settings& settings, const Situation& situation, PumpReason reason,
                  PumpReason before) noexcept {
    const bool ended_a_run = reason == PumpReason::waiting_for_sun &&
                             (before == PumpReason::collecting || before == PumpReason::least_run);
    switch (reason) {
        case PumpReason::ceiling_reached:
            return {above_zero(situation.hottest_store),
                    degrees_of(settings, Setting::store_ceiling)};
        case PumpReason::store_full:
            return {above_zero(situation.store_bottom), degrees_of(settings, Setting::store_limit)};
        case PumpReason::collector_cut_out:
            return {above_zero(situation.hottest_collector),
                    degrees_of(settings, Setting::collector_cut_out)};
        case PumpReason::shedding_by_day:
            return {above_zero(situation.hottest_collector),
                    degrees_of(settings, Setting::day_shedding_start)};
        case PumpReason::guarding_frost:
            return {above_zero(situation.coldest_collector),
                    degrees_of(settings, Setting::frost_start)};
        case PumpReason::shedding_by_night:
            return {-situation.difference, difference_of(settings, Setting::start_difference)};
        default:
            break;
    }
    if (!situation.sees_difference()) {
        return {};
    }
    const bool against_stop = reason == PumpReason::least_run || ended_a_run;
    return {situation.difference, against_stop
                                      ? stop_difference(settings)
                                      : difference_of(settings, Setting::start_difference)};
}

void decide_pump(const Settings& settings, const Situation& situation, const GuardsState& guards,
                 PumpState& pump) noexcept {
    const PumpRow& row = winner(pump_priority, claims_on_pump(settings, situation, guards, pump));
    PumpReason reason = reason_of(row, situation, pump);
    bool on = row.forces == Forces::on;
    if (on && row.least_rest == LeastRest::kept && in_least_rest(settings, situation.now, pump)) {
        on = false;
        reason = PumpReason::resting;
    } else if (!on && row.least_run == LeastRun::kept &&
               in_least_run(settings, situation.now, pump)) {
        on = true;
        reason = PumpReason::least_run;
    }
    if (reason != pump.reason) {
        const Decisive why = decisive(settings, situation, reason, pump.reason);
        pump.difference = why.difference;
        pump.threshold = why.threshold;
        pump.reason = reason;
    }
    if (on != (pump.relay_on != 0)) {
        pump.relay_on = on;
        pump.changed_at = situation.now;
    }
}

}  // namespace noonbench::firmware
