// SPDX-License-Identifier: MIT
// Everything in `plant` is SI: kelvin for differences, degrees Celsius (suffix _c) where a
// temperature on a scale is kept because energies count from liquid at 0 degC, watts, joules,
// kilograms, pascals, seconds, radians (suffix _rad). The conversions stand here and nowhere else.
#pragma once
#include <numbers>

namespace noonbench::plant {

inline constexpr double zero_celsius_k = 273.15;
inline constexpr double stefan_boltzmann_w_m2k4 = 5.670374419e-8;  // CODATA 2018
inline constexpr double standard_gravity_m_s2 = 9.80665;

constexpr double radians(double degrees) {
    return degrees * std::numbers::pi / 180.0;
}
constexpr double degrees(double rad) {
    return rad * 180.0 / std::numbers::pi;
}
constexpr double kilowatt_hours(double joules) {
    return joules / 3.6e6;
}
constexpr double joules_from_kwh(double kwh) {
    return kwh * 3.6e6;
}
constexpr double kg_per_s_from_lpm(double litres_per_minute, double density_kg_m3) {
    return litres_per_minute / 60000.0 * density_kg_m3;
}

}  // namespace noonbench::plant
