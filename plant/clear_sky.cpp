// SPDX-License-Identifier: MIT
#include "clear_sky.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {

HorizontalSky clear_sky(const ClearAir& air, double cos_zenith, double air_mass,
                        double extraterrestrial_normal_w_m2) {
    if (cos_zenith <= 0.0) return {};
    // Ineichen & Perez 2002, eqs. 6 to 8: fh1, fh2, cg1, cg2 in their notation.
    const double h = air.height_m;
    const double fh1 = std::exp(-h / 8000.0);
    const double fh2 = std::exp(-h / 1250.0);
    const double cg1 = 5.09e-5 * h + 0.868;
    const double cg2 = 3.92e-5 * h + 0.0387;
    const double murk = air.turbidity - 1.0;
    const double global = cg1 * extraterrestrial_normal_w_m2 * cos_zenith *
                          std::exp(-cg2 * air_mass * (fh1 + fh2 * murk));
    const double direct =
        (0.664 + 0.163 / fh1) * extraterrestrial_normal_w_m2 * std::exp(-0.09 * air_mass * murk);
    const double least_diffuse_share = (0.1 - 0.2 * std::exp(-air.turbidity)) / (0.1 + 0.882 / fh1);
    const double beam = std::min(direct, global * (1.0 - least_diffuse_share) / cos_zenith);
    return {global, beam, std::max(0.0, global - beam * cos_zenith)};
}

double diffuse_share(double clearness) {
    const double k = std::clamp(clearness, 0.0, 1.0);
    if (k <= 0.22) return 1.0 - 0.09 * k;
    if (k > 0.80) return 0.165;
    return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

HorizontalSky split_global(double global_horizontal_w_m2, double cos_zenith,
                           double extraterrestrial_normal_w_m2) {
    const double global = std::max(0.0, global_horizontal_w_m2);
    constexpr double sine_of_half_a_degree = 0.0087265;
    if (cos_zenith < sine_of_half_a_degree) return {global, 0.0, global};
    const double outside = extraterrestrial_normal_w_m2 * cos_zenith;
    const double diffuse = global * diffuse_share(global / outside);
    const double beam = std::min((global - diffuse) / cos_zenith, extraterrestrial_normal_w_m2);
    return {global, beam, global - beam * cos_zenith};
}

}  // namespace noonbench::plant
