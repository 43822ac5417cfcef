// SPDX-License-Identifier: MIT
// Clouds passing before the sun within one hour, when it is known how much of it they cover.
#pragma once
#include "random.hpp"

#include <cstdint>
#include <vector>

namespace noonbench::plant {

/// What an hour of passages has to meet.
struct CloudyHour {
    double sunny_share = 0.5;   // of the time, edges counted by half; cut to 0.04 .. 0.96
    double sun_at_begin = 0.0;  // 0 cloud before the sun .. 1 gap; between: joins a smooth hour
    double sun_at_end = 0.0;
    bool begins_sunny = false;  // the first spell, after an edge if sun_at_begin is neither
    bool ends_sunny = false;
};

/// Where a slope changes; between bends the sun is a straight line.
struct SunBend {
    std::int32_t second = 0;  // of the hour, 0 .. 3600
    double sun = 0.0;         // 0 .. 1
};

/// Bends in rising order, from second 0 to 3600. Gaps and clouds in turn, each at least 69 s from
/// the middle of an edge to the next; edges last 20..90 s. As many as in the seeded years: a cycle
/// takes 150 s / (share * (1 - share)) in the mean.
[[nodiscard]] std::vector<SunBend> draw_passages(const CloudyHour& hour, RandomStream stream);

}  // namespace noonbench::plant
