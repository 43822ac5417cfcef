// SPDX-License-Identifier: MIT
// One hour of sky, taken apart into gaps and clouds so that its means stay what they were.
#pragma once
#include "cloud_passages.hpp"
#include "parameters.hpp"
#include "random.hpp"
#include "sky.hpp"

#include <optional>
#include <vector>

namespace noonbench::plant {

inline constexpr double beam_under_cloud = 0.02;  // of the clear beam; rough, no source

/// A knot and the clear sun over it.
struct SunnyKnot {
    SkyKnot knot{};
    double sine = 0.0;  // of the apparent elevation, not below zero
    double clear_normal_w_m2 = 0.0;
    double outside_w_m2 = 0.0;  // extraterrestrial, normal

    [[nodiscard]] double beam_horizontal_w_m2() const { return knot.beam_normal_w_m2 * sine; }
    [[nodiscard]] double clear_horizontal_w_m2() const { return clear_normal_w_m2 * sine; }
};

/// The clear sky is that of Linke turbidity 3, as for the shape of the smooth hours.
[[nodiscard]] SunnyKnot sunny_knot(const Site& site, const SkyKnot& knot);

/// An hour as its record has it. Means on the horizontal, integrated over the knots [W/m2].
struct SmoothHour {
    std::vector<SunnyKnot> knots;  // both borders included
    double beam_mean_w_m2 = 0.0;
    double diffuse_mean_w_m2 = 0.0;
    double clear_mean_w_m2 = 0.0;  // of the clear sky's beam
};
[[nodiscard]] SmoothHour smooth_hour(std::vector<SunnyKnot> knots);

/// The diffuse relative to its hour's mean: 1.2 times as much under a cloud as in a gap.
[[nodiscard]] double cloud_diffuse_factor(double sun, double mean_sun);

/// What is to be laid into an hour.
struct PassagesWanted {
    CloudyHour clouds{};
    double gap_beam = 1.0;  // of the clear beam
    SunnyKnot begin{};      // the borders' knots, which are given
    SunnyKnot end{};
};

/// The hour's knots with passages, both borders included; beam and diffuse keep their means, to
/// rounding. Gaps are drawn, then the beam in them is shifted to meet the mean, by 10 % of
/// `gap_beam` at most; if that is not enough the gaps are widened or narrowed, up to three times.
/// Nothing, if that does not serve, if the beam would exceed the extraterrestrial, or if the
/// borders would leave the rest less than half or more than twice the diffuse it had.
[[nodiscard]] std::optional<std::vector<SkyKnot>> with_passages(const Site& site,
                                                                const SmoothHour& hour,
                                                                const PassagesWanted& wanted,
                                                                RandomStream stream);

}  // namespace noonbench::plant
