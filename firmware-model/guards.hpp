// SPDX-License-Identifier: MIT
// The guards against too hot and too cold. Each is a latch with one threshold that sets it and one
// that releases it; which guard wins when several are set is the table in priority.hpp.
#pragma once
#include "settings.hpp"
#include "situation.hpp"
#include "state.hpp"

namespace noonbench::firmware {

/// The store ceiling lets go this far below itself, so that noise does not make a relay chatter.
inline constexpr TemperatureDifference ceiling_release{200};
/// Day shedding ends this far below its start (common practice 5 to 10 K, no source).
inline constexpr TemperatureDifference day_shedding_hysteresis{1000};

/// Night shedding goes on until the collector is this close below the store: a glazed collector in
/// the dark takes only a few kelvin out of the flow, so the mirrored stop difference would click.
inline constexpr TemperatureDifference night_shedding_stop{100};
/// Night shedding and frost guard start only this far above the store temperature at which they
/// end: twice the error of a class B sensor at 60 degC (IEC 60751: 0.3 + 0.005 |t| K), rounded.
inline constexpr TemperatureDifference floor_hysteresis{100};

/// Brings all latches up to date.
///  - store ceiling: the hottest good store sensor reaches it; released 2 K below, once both store
///    sensors are good;
///  - store limit: the store bottom reaches it; released by its own setting;
///  - collector cut-out: the hottest collector; released at the (resolved) release;
///  - frost: the coldest collector at or below frost start until (resolved) frost stop, while the
///    store bottom is above its floor;
///  - day shedding: from its start until 10 K below, while the store limit is reached. Cut-out and
///    store ceiling rank above it;
///  - night shedding: by night (by the clock), if switched on or within the holiday's dates, both
///    included, while the store bottom is above its target and warmer than the collector by the
///    start difference, until the stop difference.
/// A latch whose reading is not good stays as it is if it bars the pump, and lets go if it asks
/// for the pump.
void keep_guards(const Settings& settings, const Situation& situation,
                 GuardsState& guards) noexcept;

/// Is today one of the holiday's days? Both dates are included; the mode ends by itself.
bool on_holiday(const Settings& settings, const Situation& situation) noexcept;

}  // namespace noonbench::firmware
