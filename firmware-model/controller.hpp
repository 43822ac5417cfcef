// SPDX-License-Identifier: MIT
// The controller's one function of time. The priority of its decisions is the table in
// priority.hpp; everything that survives a tick is in State (state.hpp).
#pragma once
#include "memory.hpp"
#include "settings.hpp"
#include "state.hpp"
#include "terminals.hpp"

namespace noonbench::firmware {

/// One second of control. Any input and any in-range settings give an answer;
/// Outputs::pump_reason and ::backup_reason say why.
Outputs tick(const Settings& settings, const Inputs& inputs, State& state) noexcept;

/// The only way in: the state when power comes. Kept through a cut: settings, counters, event ring,
/// date of the last sanitise success. Lost: filters, timers, latches, the regulator's memory,
/// sanitise progress, hand mode (back to automatic). The pump waits the least rest. The ring gets
/// power_came_back with the hours since the last saving, of which there is one each hour.
State start(const Persistent& saved, const Inputs& inputs) noexcept;

/// What is to be saved (hourly, and whenever the ring or a setting changes).
Persistent to_save(const Settings& settings, const State& state, const Inputs& inputs) noexcept;

}  // namespace noonbench::firmware
