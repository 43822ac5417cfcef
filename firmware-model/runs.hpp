// SPDX-License-Identifier: MIT
// Timed runs of the pump that look at no difference. Neither needs memory of its own: the pump's
// last reason says whether one is under way, the moment of the last change says since when.
#pragma once
#include "settings.hpp"
#include "situation.hpp"
#include "state.hpp"

namespace noonbench::firmware {

/// No exercise below this: the pipes may be colder than the sensor, and slush would be pushed into
/// the coil (common practice, no source).
inline constexpr Temperature too_cold_to_exercise{500};

/// A sampling run brings the collector's fluid to a sensor that sits outside the absorber: by day
/// (by the clock), each time the pump has stood still for sampling_every.
bool sampling_asks(const Settings& settings, const Situation& situation,
                   const PumpState& pump) noexcept;

/// An exercise run turns a pump that has stood still for exercise_after days (0 = never), but
/// never in frost. Standstill is counted from the last power cut at the most.
bool exercise_asks(const Settings& settings, const Situation& situation,
                   const PumpState& pump) noexcept;

}  // namespace noonbench::firmware
