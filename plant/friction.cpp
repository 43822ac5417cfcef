// SPDX-License-Identifier: MIT
#include "friction.hpp"

#include <cmath>
#include <numbers>

namespace noonbench::plant {
namespace {

// 1/sqrt f by Haaland.
double haaland_root(double reynolds, double roughness_term) {
    return -1.8 * std::log10(roughness_term + 6.9 / reynolds);
}

FrictionProduct turbulent_product(double reynolds, double roughness_term) {
    const double viscous = 6.9 / reynolds;
    const double x = roughness_term + viscous;
    constexpr double per_e_fold = 1.8 * std::numbers::log10e;
    const double root = -per_e_fold * std::log(x);  // every second: log is the quicker one
    const double friction = 1.0 / (root * root);
    // d root / d Re = 1.8/ln 10 x (6.9/Re^2)/x, and d(f Re)/dRe = f - 2 f Re root'/root.
    const double root_rise = per_e_fold * viscous / x;  // Re d root / d Re
    return {friction * reynolds, friction * (1.0 - 2.0 * root_rise / root)};
}

}  // namespace

double laminar_friction(double reynolds) {
    return 64.0 / reynolds;
}

double haaland_roughness_term(double relative_roughness) {
    return std::pow(relative_roughness / 3.7, 1.11);
}

double haaland_friction(double reynolds, double relative_roughness) {
    const double root = haaland_root(reynolds, haaland_roughness_term(relative_roughness));
    return 1.0 / (root * root);
}

double colebrook_friction(double reynolds, double relative_roughness) {
    const double rough = relative_roughness / 3.7;
    const double smooth = 2.51 / reynolds;
    double root = haaland_root(reynolds, haaland_roughness_term(relative_roughness));
    for (int i = 0; i < 6; ++i) {
        const double inside = rough + smooth * root;
        const double miss = root + 2.0 * std::log10(inside);
        const double slope = 1.0 + 2.0 * std::numbers::log10e * smooth / inside;
        root -= miss / slope;
    }
    return 1.0 / (root * root);
}

FrictionProduct friction_product(double reynolds, double roughness_term) {
    if (reynolds <= laminar_end_reynolds) return {};
    const FrictionProduct turbulent = turbulent_product(reynolds, roughness_term);
    if (reynolds >= turbulent_start_reynolds) return turbulent;
    constexpr double width = turbulent_start_reynolds - laminar_end_reynolds;
    const double x = (reynolds - laminar_end_reynolds) / width;
    const double share = x * x * (3.0 - 2.0 * x);
    const double share_slope = 6.0 * x * (1.0 - x) / width;
    const double above = turbulent.phi - 64.0;
    return {64.0 + share * above, share_slope * above + share * turbulent.slope};
}

}  // namespace noonbench::plant
