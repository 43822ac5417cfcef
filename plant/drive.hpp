// SPDX-License-Identifier: MIT
// What drives the plant from outside during one tick: weather that is linear in time, and actions
// that are constant from tick to tick.
#pragma once
#include "sky.hpp"

namespace noonbench::plant {

/// Weather between two knots of a sky, linear in time; from.at_s <= now < to.at_s.
struct WeatherSpan {
    PlaneKnot from{};
    PlaneKnot to{};
};

/// Between the controller's relay and moving fluid stand four things in order, each able to fail:
/// high-limit stat, isolator, pump, flow. Constant during a tick.
struct Actions {
    bool pump_relay = false;           // mains leaves the controller
    double speed_signal = 1.0;         // duty of the speed-signal wire, 0..1
    bool speed_wire_connected = true;  // false: the pump sees no signal
    bool backup_asked = false;         // the controller's backup relay
    double mains_c = 10.0;             // cold water entering the house
};

}  // namespace noonbench::plant
