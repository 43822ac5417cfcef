// SPDX-License-Identifier: MIT
// Several seconds in one step of a higher order, while nothing outside changes: the same right-hand
// side as everywhere, with the flow solved at every stage. Linearly implicit (rosenbrock.hpp), so
// that cells which are renewed in seconds do not hold it up. What is in between is known as cubics.
#pragma once
#include "plant.hpp"

#include <array>

namespace noonbench::plant {

/// Temperatures of the sensors during a stride, from its start to its end: cubics through values
/// and slopes at both ends (Hermite).
struct SensorCourse {
    double seconds = 1.0;
    Readings at_start{};
    Readings at_end{};
    Readings slope_at_start{};  // K/s
    Readings slope_at_end{};    // K/s

    /// `s` seconds after the start, 0..seconds.
    [[nodiscard]] Readings at(double s) const;
    /// The same course from one second to another, 0 <= from <= to <= seconds.
    [[nodiscard]] SensorCourse part(double from_s, double to_s) const;
};

/// The same for everything that the plant holds and books: amounts and their slopes at both ends.
/// Nothing is set after a stride of one second, nor what lies behind the layout's last amount.
struct PlantCourse {
    Amounts at_start;  // edges at zero
    Amounts at_end;
    Amounts slope_at_start;  // per second
    Amounts slope_at_end;
    double flow_at_start_m3_s = 0.0;
    double flow_at_end_m3_s = 0.0;
};

struct StrideReport {
    StepReport step{};  // edges over all its seconds; the rest as during each of them
    int seconds = 1;
    int evaluations = 0;  // of the right-hand side, thrown-away tries included
    SensorCourse sensors{};
    PlantCourse all{};
    double cold_j_kg = 0.0;  // of the cold water at the tap
};

/// How exact a stride is: the estimated error of no cell's temperature may exceed the one, that of
/// no sensor's curve in between the other, K.
inline constexpr double stride_tolerance_k = 2e-3;
inline constexpr double sensor_tolerance_k = 3e-4;

/// Carries the plant from `now` on by as many whole seconds as the tolerance allows, at most
/// `most_seconds`. The caller promises that until then actions, levers and the flow at the tap
/// (`tap_flow_kg_s`, mixed) stay as they are and that the weather's span does not end. No stride
/// reaches over a switching of a stat, thermostat or window of the plant. A loop that is not calm
/// is carried by one second, as advance() does. How far the next stride tries to reach is part of
/// the plant, so that copies and replays agree.
StrideReport stride(Plant& plant, const WeatherSpan& weather, CivilSeconds now,
                    const Actions& actions, double tap_flow_kg_s, int most_seconds);

/// What one of the seconds did, 1 .. seconds, of the plant as its stride left it; edges in joules
/// of that second.
[[nodiscard]] StepReport second_within(const Plant& plant, const StrideReport& report, int second);

/// Makes of the plant as a stride left it the plant as it was after `second` of its seconds, 1 up
/// to one less than all of them; to be looked at, not to go on from.
void show_within(Plant& plant, const StrideReport& report, int second);

}  // namespace noonbench::plant
