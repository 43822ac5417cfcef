// SPDX-License-Identifier: MIT
#include "skyline.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace noonbench::plant {
namespace {

constexpr double full_turn = 2.0 * std::numbers::pi;

/// The integral of cos^2 along a straight rise from one elevation to another, over unit azimuth.
double mean_cos_squared(double from_rad, double to_rad) {
    const double rise = to_rad - from_rad;
    if (std::abs(rise) < 1e-6) {
        const double cosine = std::cos(0.5 * (from_rad + to_rad));
        return cosine * cosine;
    }
    return 0.5 + (std::sin(2.0 * to_rad) - std::sin(2.0 * from_rad)) / (4.0 * rise);
}

}  // namespace

double skyline_rad(std::span<const HorizonPoint> skyline, double azimuth_rad) {
    if (skyline.empty()) return 0.0;
    if (skyline.size() == 1) return skyline.front().elevation_rad;
    const double azimuth = azimuth_rad - full_turn * std::floor(azimuth_rad / full_turn);
    const auto after = std::upper_bound(
        skyline.begin(), skyline.end(), azimuth,
        [](double value, const HorizonPoint& point) { return value < point.azimuth_rad; });
    // Before the first and behind the last point the line runs on through north.
    const bool wraps = after == skyline.begin() || after == skyline.end();
    const HorizonPoint& left = after == skyline.begin() ? skyline.back() : *(after - 1);
    const HorizonPoint& right = after == skyline.end() ? skyline.front() : *after;
    const double width = right.azimuth_rad - left.azimuth_rad + (wraps ? full_turn : 0.0);
    double into = azimuth - left.azimuth_rad;
    if (into < 0.0) into += full_turn;
    const double share = width > 0.0 ? into / width : 0.0;
    return left.elevation_rad + share * (right.elevation_rad - left.elevation_rad);
}

double sky_view(std::span<const HorizonPoint> skyline) {
    if (skyline.empty()) return 1.0;
    double seen = 0.0;
    for (std::size_t i = 0; i < skyline.size(); ++i) {
        const bool last = i + 1 == skyline.size();
        const HorizonPoint& left = skyline[i];
        const HorizonPoint& right = last ? skyline.front() : skyline[i + 1];
        const double width = right.azimuth_rad - left.azimuth_rad + (last ? full_turn : 0.0);
        seen += width * mean_cos_squared(left.elevation_rad, right.elevation_rad);
    }
    return seen / full_turn;
}

}  // namespace noonbench::plant
