// SPDX-License-Identifier: MIT
// The difference switch: on from the start difference, off at the stop difference, and the least
// times of run and rest that keep it from chattering. It needs no memory of its own: the pump's
// last reason says whether it is on, the moment of the last change says since when.
#pragma once
#include "settings.hpp"
#include "situation.hpp"
#include "state.hpp"

namespace noonbench::firmware {

/// Does the switch ask for the pump? On at difference >= start; while collecting it stays on as
/// long as difference > stop (resolved, setting_values.hpp). In a least run it is off already.
/// Never while a reading that it needs is not good.
bool difference_asks(const Settings& settings, const Situation& situation,
                     const PumpState& pump) noexcept;

/// Must a run that the difference switch began go on, the difference being gone? Runs begun by
/// others have an end of their own and are not lengthened.
bool in_least_run(const Settings& settings, Ticks now, const PumpState& pump) noexcept;

/// Must the pump, being off, stay off a while? True for the least rest after power came, too.
bool in_least_rest(const Settings& settings, Ticks now, const PumpState& pump) noexcept;

}  // namespace noonbench::firmware
