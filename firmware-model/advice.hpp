// SPDX-License-Identifier: MIT
// The controller's own suspicions. It sees two or three temperatures and a clock that may be wrong,
// so each rule says what it looks at and what it cannot see. Rules that need a history look only
// at marks ten minutes apart, so that quiet ticks change nothing.
#pragma once
#include "settings.hpp"
#include "situation.hpp"
#include "state.hpp"

#include <cstdint>

namespace noonbench::firmware {

/// Marks are the ticks whose number is a multiple of this.
inline constexpr std::uint32_t mark_every_s = 600;

// No flow although running: at full level, from mark to mark, the difference is at least 40 K (the
// longest row of collectors at a low flow shows 25 to 35 K, common practice) and has grown by 2 K
// or more, where a flow would have taken it down. Withdrawn when a running pump brings the
// difference below 30 K. Cannot tell which of many causes stops the flow.
inline constexpr TemperatureDifference suspicious_difference{4000};
inline constexpr TemperatureDifference suspicious_growth{200};
inline constexpr TemperatureDifference proof_of_flow{3000};

// Warm collector at night: no clock is asked, since a clock may be wrong by hours. Dark is what
// looks dark: the pump is off, and for three hours the collector neither rises by more than 0.3 K
// nor falls by more than 0.5 K from mark to mark (open air takes a free collector down faster until
// it is within 3 K of the air, and so does a northern summer's dusk; a leaking check valve cools
// the store by 0.7 to 2 K an hour, common practice). A dark collector is as cold as the air or
// colder, so 30 degC is warm. Withdrawn in a later dark hour below 28 degC. Cannot see a collector
// that is warm only against a winter's air.
inline constexpr TemperatureDifference dark_rise{30};
inline constexpr TemperatureDifference dark_fall{-50};
inline constexpr std::uint8_t dark_marks_needed = 18;
inline constexpr Temperature warm_at_night{3000};
inline constexpr Temperature cool_at_night{2800};

// Sensors swapped: the store bottom is 10 K warmer than its top at four marks in a row. Water does
// not stay so; any swap of collector, store bottom and store top shows it by day or by night.
// Withdrawn at a mark at which the bottom is no warmer than the top.
inline constexpr TemperatureDifference upside_down{1000};
inline constexpr std::uint8_t inverted_marks_needed = 4;

// Implausible: a good reading that the place cannot have. Water in the store is liquid and below
// its relief; a collector in stagnation stays below 230 degC and no sky cools it below -40 degC.
inline constexpr Temperature store_least{-200};
inline constexpr Temperature store_most{11000};
inline constexpr Temperature collector_least{-4000};
inline constexpr Temperature collector_most{23000};

/// All suspicions of this tick. `state` must be up to date apart from its advice.
Advice advise(const Settings& settings, const Situation& situation, const Readings& readings,
              State& state) noexcept;

}  // namespace noonbench::firmware
