// SPDX-License-Identifier: MIT
// How hard the pump runs: a proportional and integral regulator with a start boost and a least
// level, and the duty of the speed-signal wire.
//
// Numbers. Levels are computed in thousandths of a percent (one part in 100'000 of full level):
// gain [0.1 %/K] times error [0.01 K] is a level in that unit without scaling. The error is held
// within +-100 K and the proportional part within +-100 %, beyond which the level stands at an end
// anyhow; the integral lies between least level and 100 %, so that it cannot wind up. All products
// fit int32 (asserted in drive_level.cpp).
#pragma once
#include "settings.hpp"
#include "situation.hpp"
#include "state.hpp"

#include <cstdint>

namespace noonbench::firmware {

/// Values of Setting::pump_drive.
enum class PumpDrive : std::int16_t { on_off, target_difference, target_collector };

/// Values of Setting::speed_signal.
enum class SpeedSignal : std::int16_t { more_is_faster, more_is_slower };

inline constexpr std::uint8_t full_level_pct = 100;
inline constexpr std::uint32_t level_every_s = 10;  // the regulator acts by appointment

/// The level for the coming second, 0 to 100; also kept in `drive`. 0 exactly while the relay is
/// off. Full level when driven on/off, during the start boost, and whenever another reason than
/// collecting (or its least run) runs the pump. Regulating begins at the least level.
std::uint8_t drive_level(const Settings& settings, const Situation& situation,
                         const PumpState& pump, DriveState& drive) noexcept;

/// Duty of the speed-signal wire for a level. more_is_faster (solar pumps): the level itself, 0 %
/// stops. more_is_slower (heating pumps): 100 minus the level, 0 % is full speed.
std::uint8_t speed_signal_pct(const Settings& settings, std::uint8_t level_pct) noexcept;

}  // namespace noonbench::firmware
