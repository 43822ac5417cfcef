// SPDX-License-Identifier: MIT
// Between which counts the sockets stay while the plant strides: what the controller has to know to
// say that nothing can change.
#pragma once
#include "wires.hpp"

#include "firmware-model/quiet.hpp"
#include "plant/stride.hpp"

namespace noonbench::harness {

/// Bands that hold every count of every second of the stride, both ends included, whatever the
/// noise draws; wires stay as they are and no flow meter is connected. The course's hull is that of
/// its Bezier points (Farin, Curves and Surfaces for CAGD: a Bezier curve lies in their convex
/// hull), and every element's resistance runs one way with its temperature.
[[nodiscard]] firmware::Bands bands_of(const Wiring& wiring, const plant::SensorCourse& course);

/// Widens the bands so that they hold what the filters still remember.
void include(firmware::Bands& bands, const firmware::State& state);

}  // namespace noonbench::harness
