// SPDX-License-Identifier: MIT
#include "boiling_curve.hpp"

#include "fluid.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {
namespace {

// ln(2 MPa / 5 kPa), written out so that a call takes one logarithm in every build.
constexpr double log_range = 5.991464547107982;
constexpr double log_step = log_range / static_cast<double>(BoilingCurve::points - 1);

struct Place {
    std::size_t below = 0;  // the point of the table at or below, or the end piece's
    double beyond = 0.0;    // in steps
};

Place place(double absolute_pa) {
    const double steps = std::log(absolute_pa / BoilingCurve::first_pa) / log_step;
    // A pressure that is no number lands on the first piece and stays no number.
    const double inside =
        steps > 0.0 ? std::min(steps, static_cast<double>(BoilingCurve::points - 2)) : 0.0;
    const auto below = static_cast<std::size_t>(inside);
    return {below, steps - static_cast<double>(below)};
}

}  // namespace

double BoilingCurve::boiling_c(double absolute_pa) const {
    const Place at = place(absolute_pa);
    return t_c[at.below] + at.beyond * (t_c[at.below + 1] - t_c[at.below]);
}

double BoilingCurve::slope_k_per_ln_p(double absolute_pa) const {
    const std::size_t below = place(absolute_pa).below;
    return (t_c[below + 1] - t_c[below]) / log_step;
}

BoilingCurve boiling_curve(double glycol_share) {
    BoilingCurve curve;
    for (std::size_t i = 0; i < BoilingCurve::points; ++i) {
        const double pa = BoilingCurve::first_pa * std::exp(static_cast<double>(i) * log_step);
        curve.t_c[i] = boiling_point_c(glycol_share, pa);
    }
    return curve;
}

}  // namespace noonbench::plant
