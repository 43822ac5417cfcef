// SPDX-License-Identifier: MIT
// When the household draws hot water, and how much: the load profiles of Regulation (EU) 812/2013
// or a seeded family. Every day is a pure function of (pattern, day).
#pragma once
#include "draw.hpp"

#include <cstdint>
#include <vector>

namespace noonbench::plant {

/// Load profiles of Regulation (EU) 812/2013, Annex VII table 3, or people with a seed.
enum class DrawProfile : std::uint8_t { none, small, medium, large, extra_large, people };

/// Days without draws: first <= day < end, both as the start of a day.
struct DaysAway {
    CivilSeconds first_s = 0;
    CivilSeconds end_s = 0;
};

struct DrawPattern {
    DrawProfile profile = DrawProfile::medium;
    double scale = 1.0;            // multiplies every energy, hence every duration
    std::vector<DaysAway> away{};  // holidays

    // For `people` alone:
    int people = 3;                       // 1..20
    double volume_m3_person_day = 0.048;  // at 45 degC; 45..50 l is typical (no source)
    std::uint64_t seed = 1;
};

/// The day's draws, sorted by time; day_start_s is a midnight of local standard time.
/// Throws std::invalid_argument on a scale below 0, people outside
/// 1..20 or a volume outside 0..0.5 m3.
std::vector<Draw> draws_of_day(const DrawPattern& pattern, CivilSeconds day_start_s);

/// Energy asked for by a list of draws, joules.
double energy_asked_j(const std::vector<Draw>& draws);

/// Nominal reference of a draw: water at its peak (else useful, else 40 degC) temperature over
/// 10 degC cold, specific heat 4186 J/(kg K), 1 kg/l. Mass in kg.
double nominal_mass_kg(const Draw& draw);

/// Shortest time of the draw at its own flow, seconds: nominal mass over mass flow.
double nominal_duration_s(const Draw& draw);

}  // namespace noonbench::plant
