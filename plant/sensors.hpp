// SPDX-License-Identifier: MIT
// A sensor in its pocket: first-order lag towards what its tip feels, which is the body's
// temperature as far as the contact goes, and the surroundings for the rest.
#pragma once

namespace noonbench::plant {

struct SensorBody {
    double body_c = 0.0;
    double surroundings_c = 0.0;
    double contact = 1.0;  // 1 = home in its pocket, 0 = hangs in the surroundings
};

[[nodiscard]] constexpr double felt_c(const SensorBody& at) {
    return at.surroundings_c + at.contact * (at.body_c - at.surroundings_c);
}

/// K/s
[[nodiscard]] constexpr double sensor_rate_k_s(double shown_c, const SensorBody& at,
                                               double time_constant_s) {
    return (felt_c(at) - shown_c) / time_constant_s;
}

}  // namespace noonbench::plant
