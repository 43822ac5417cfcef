// SPDX-License-Identifier: MIT
// Boiling point of the loop's fluid against pressure, as a table: boiling_point_c() searches for
// its answer by halving, far too slow for every second of a stagnation.
#pragma once
#include <array>
#include <cstddef>

namespace noonbench::plant {

/// Straight lines over the logarithm of pressure; within 0.001 K of boiling_point_c() from 5 kPa to
/// 2 MPa absolute, the end pieces go on beyond. Rises strictly.
struct BoilingCurve {
    static constexpr double first_pa = 5.0e3;
    static constexpr double last_pa = 2.0e6;
    static constexpr std::size_t points = 257;
    std::array<double, points> t_c{};

    /// degC; the pressure must be above 0.
    [[nodiscard]] double boiling_c(double absolute_pa) const;
    /// How steeply it rises there: d boiling_c / d ln(absolute_pa), K.
    [[nodiscard]] double slope_k_per_ln_p(double absolute_pa) const;
};

/// `glycol_share` by mass, 0 to 0.6.
[[nodiscard]] BoilingCurve boiling_curve(double glycol_share);

}  // namespace noonbench::plant
