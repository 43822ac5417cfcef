// SPDX-License-Identifier: MIT
#include "sky_temperature.hpp"

#include "si.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {

double clear_sky_c(double air_c) {
    const double air_k = std::max(air_c + zero_celsius_k, 100.0);
    return 0.0552 * air_k * std::sqrt(air_k) - zero_celsius_k;
}

double sky_emissivity(double dew_point_c, double opaque_tenths) {
    // The source counts kelvin from 273 in this logarithm.
    const double dew_k = std::max(dew_point_c, -80.0) + 273.0;
    const double n = std::clamp(opaque_tenths, 0.0, 10.0);
    const double clear = 0.787 + 0.764 * std::log(dew_k / 273.0);
    const double cloudy = clear * (1.0 + n * (0.0224 + n * (-0.0035 + n * 0.00028)));
    return std::clamp(cloudy, 0.2, 1.0);
}

double sky_c_from_emissivity(double emissivity, double air_c) {
    return std::pow(emissivity, 0.25) * (air_c + zero_celsius_k) - zero_celsius_k;
}

double sky_c_from_infrared(double infrared_w_m2) {
    const double heat = std::max(infrared_w_m2, 1.0);
    return std::pow(heat / stefan_boltzmann_w_m2k4, 0.25) - zero_celsius_k;
}

}  // namespace noonbench::plant
