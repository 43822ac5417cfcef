// SPDX-License-Identifier: MIT
// What a careful installer types into the controller because it stands on site.
#pragma once
#include "read_map.hpp"

namespace noonbench::harness {

/// Settings that describe the site (flow, glycol share, pressure, height, fitted sensors, pulses,
/// profile of the speed signal, on/off drive for a pump without that signal) follow the plant and
/// the wiring, rounded to their step and kept in their range, unless the scenario gives them. Those
/// it gives stay, right or wrong.
void commission(Scenario& scenario, const Given& given);

}  // namespace noonbench::harness
