// SPDX-License-Identifier: MIT
// The pump's relay: collects the claims, lets the table of priority.hpp decide, holds least run
// and least rest, and notes what decided it.
#pragma once
#include "settings.hpp"
#include "situation.hpp"
#include "state.hpp"

namespace noonbench::firmware {

/// Settles relay and reason for the coming second. `guards` must be up to date.
void decide_pump(const Settings& settings, const Situation& situation, const GuardsState& guards,
                 PumpState& pump) noexcept;

/// What a reason is decided by: a difference and the threshold that it is held against.
struct Decisive {
    TemperatureDifference difference{};
    TemperatureDifference threshold{};
};

/// The two differences of `reason` at this moment, `before` being the reason until now.
///  - store and collector guards: a temperature and its threshold, both over 0 degC;
///  - shedding_by_night: store bottom minus collector, and the start difference;
///  - least_run, and waiting_for_sun at the end of a run: collector minus store bottom, and the
///    stop difference in force; all others: the same and the start difference;
///  - both 0 where a sensor that they need is not good.
Decisive decisive(const Settings& settings, const Situation& situation, PumpReason reason,
                  PumpReason before) noexcept;

}  // namespace noonbench::firmware
