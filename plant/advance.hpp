// SPDX-License-Identifier: MIT
// The parts of a tick that a single second and a longer stride share.
#pragma once
#include "plant.hpp"

namespace noonbench::plant {

/// What happened on the tick itself: the amounts before it, and what its jumps carried.
struct Begun {
    Amounts before;  // energies only
    EdgeAmounts jumps{};
};

/// Jumps of the loop, then the modes of what follows.
[[nodiscard]] Begun begin_tick(Plant& plant, CivilSeconds now);

/// Carries a begun tick through its one second.
StepReport one_second(Plant& plant, const Begun& begun, const WeatherSpan& weather,
                      CivilSeconds now, const Actions& actions, double tap_flow_kg_s);

/// Books the edges, jumps included, and the balance of a begun tick and its seconds.
void end_tick(Plant& plant, const Begun& begun, int seconds, StepReport& report);

}  // namespace noonbench::plant
