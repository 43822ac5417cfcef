// SPDX-License-Identifier: MIT
// What a single second and a longer stride share: how a stretch of time begins and ends.
#pragma once
#include "plant.hpp"

namespace noonbench::plant {

/// What happened on the tick itself: the amounts before it, and what its jumps carried.
struct Begun {
    Amounts before;  // energies only
    EdgeAmounts jumps{};
};

/// Jumps of the loop, then the modes of what follows.
[[nodiscard]] Begun begin_stretch(Plant& plant, CivilSeconds now);

/// Carries a begun stretch through one second.
StepReport one_second(Plant& plant, const Begun& begun, const WeatherSpan& weather,
                      CivilSeconds now, const Actions& actions, double tap_flow_kg_s);

/// What came out of the tap, from the edges of one second (or their mean): after the mixing valve,
/// what left the store less what came for it, plus the cold water that joined at the valve.
void report_delivery(double cold_j_kg, StepReport& report);

/// Books the edges, jumps included, and the balance of a begun stretch of so many seconds.
void end_stretch(Plant& plant, const Begun& begun, int seconds, StepReport& report);

}  // namespace noonbench::plant
