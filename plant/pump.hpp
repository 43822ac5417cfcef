// SPDX-License-Identifier: MIT
// From the controller's relay to moving fluid: high-limit stat, isolator, pump, flow. Each of the
// four signals can be true while the next is not.
#pragma once
#include "drive.hpp"
#include "levers.hpp"
#include "parameters.hpp"

namespace noonbench::plant {

struct PumpState {
    bool powered = false;  // mains reaches the pump
    bool turning = false;
    bool moving = false;  // fluid moves because of the pump
    double level = 0.0;   // share of full speed
    double flow_m3_s = 0.0;
    double power_w = 0.0;  // electric
    double heat_w = 0.0;   // of it into the fluid
};

/// Level that the pump takes from its signals while powered, 0 or least_level..1.
[[nodiscard]] double pump_level(const Pump& pump, const Actions& actions, bool profile_swapped);

/// The whole chain; flow is the given one, in proportion to the level.
[[nodiscard]] PumpState pump_state(const Pump& pump, const Actions& actions, const Levers& levers,
                                   bool high_limit_tripped);

}  // namespace noonbench::plant
