// SPDX-License-Identifier: MIT
#include "pump.hpp"

#include <algorithm>

namespace noonbench::plant {

double pump_level(const Pump& pump, const Actions& actions, bool profile_swapped) {
    if (!pump.takes_speed_signal) return 1.0;
    const bool more_is_slower = pump.more_is_slower != profile_swapped;
    // A broken wire is a signal of 0: the heating-type profile (more is slower) runs full, the
    // solar-type one stops (common practice, no source).
    const double signal =
        actions.speed_wire_connected ? std::clamp(actions.speed_signal, 0.0, 1.0) : 0.0;
    const double level = more_is_slower ? 1.0 - signal : signal;
    return level < pump.least_level ? 0.0 : level;
}

PumpState pump_state(const Pump& pump, const Actions& actions, const Levers& levers,
                     bool high_limit_tripped) {
    PumpState state;
    const bool stat_closed = !high_limit_tripped && is_set(levers.high_limit_closed);
    state.powered = actions.pump_relay && stat_closed && is_set(levers.isolator_closed);
    if (!state.powered || !is_set(levers.pump_healthy)) return state;
    state.level = pump_level(pump, actions, is_set(levers.speed_profile_swapped));
    state.turning = state.level > 0.0;
    if (!state.turning) return state;
    state.flow_m3_s = pump.full_flow_m3_s * state.level * levers.flow_factor;
    state.moving = state.flow_m3_s > 0.0;
    // Affinity law: shaft power with the cube of the speed, over a constant part.
    const double cube = state.level * state.level * state.level;
    state.power_w = pump.least_power_w + (pump.full_power_w - pump.least_power_w) * cube;
    state.heat_w = state.power_w * pump.heat_share;
    return state;
}

}  // namespace noonbench::plant
