// SPDX-License-Identifier: MIT
// The difference needle: collector minus store bottom, on a dial between stop and start.
#pragma once
#include <optional>
#include <string>

namespace noonbench::harness {

struct Needle {
    std::optional<double> gap_k;  // collector minus store bottom; none while a sensor is lost
    double stop_k = 4.0;
    double start_k = 8.0;
};

/// An SVG whose parts have the ids needle-..., which the page's script turns.
std::string needle_svg(const Needle& needle);

/// Degrees from upright, clockwise; the middle between stop and start is upright.
double needle_angle_deg(const Needle& needle, double gap_k);

}  // namespace noonbench::harness
