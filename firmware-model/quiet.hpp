// SPDX-License-Identifier: MIT
// Until when nothing can change, so that a simulation need not run every second. Between two
// decisions a tick changes only the tick counter and the sensors' filters; whoever can say between
// which counts the sensors will stay may pass those ticks in one go, to the very state that single
// ticks would have given. A board has no use for it.
#pragma once
#include "settings.hpp"
#include "state.hpp"
#include "terminals.hpp"

#include <array>
#include <cstddef>
#include <cstdint>

namespace noonbench::firmware {

/// Counts between which a sensor stays, both ends included.
struct Band {
    std::uint16_t least = 0;
    std::uint16_t most = 0;
};

/// What is known of the inputs to come: bands that hold every sample from the filter's oldest on,
/// noise included; no hand on the controller; a clock that counts one second a tick.
struct Bands {
    std::array<Band, sensor_count> counts{};
    std::uint16_t most_pulses = 0;  // of the flow meter in one second
    std::uint32_t clock_s = 0;      // of the clock chip at tick `now`
    std::uint8_t clock_is_set = 1;
};

/// Samples that a filter holds: as many inputs pass_quiet() wants, or all if fewer are passed.
inline constexpr std::size_t quiet_window = filter_samples;

/// The first tick from state.now on at which time alone may do something: an appointment, the end
/// of a timer, a time of day by the clock chip, which shows `clock_s` at tick `now`. state.now
/// itself where that is the next tick: it has to be run, whatever the sensors show.
Ticks due_at(const Settings& settings, const State& state, std::uint32_t clock_s,
             std::uint8_t clock_is_set) noexcept;

/// Whether no tick from state.now on to due_at() does more than move the filters, as long as the
/// bands hold: outputs (but the readings), reasons, advice, latches and the event ring stay as they
/// are. Not always where they would: a threshold that does not matter at the moment counts too.
bool stays_quiet(const Settings& settings, const State& state, const Bands& bands) noexcept;

/// Both at once: the first tick from state.now on that may do more than move the filters; state.now
/// itself where nothing is promised. Never too late.
Ticks quiet_until(const Settings& settings, const State& state, const Bands& bands) noexcept;

/// Passes `ticks` ticks that were promised to be quiet. `last` are the inputs of the last of them
/// in their order, `count` the lesser of `ticks` and quiet_window.
void pass_quiet(const Settings& settings, State& state, std::uint32_t ticks, const Inputs* last,
                std::size_t count) noexcept;

}  // namespace noonbench::firmware
