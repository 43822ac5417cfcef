// SPDX-License-Identifier: MIT
#include "transposition.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace noonbench::plant {
namespace {

/// Near the horizon the ratio of the two cosines runs away; the published models stop it there.
constexpr double cos_85_deg = 0.08715574274765817;
constexpr double cos_89_deg = 0.01745240643728351;

struct PerezBin {
    double above;  // clearness at which the bin begins
    double f11, f12, f13, f21, f22, f23;
};

/// Perez et al. 1990, tables 1 and 6 (three decimals).
constexpr std::array<PerezBin, 8> perez_bins{{
    {1.000, -0.008, 0.588, -0.062, -0.060, 0.072, -0.022},
    {1.065, 0.130, 0.683, -0.151, -0.019, 0.066, -0.029},
    {1.230, 0.330, 0.487, -0.221, 0.055, -0.064, -0.026},
    {1.500, 0.568, 0.187, -0.295, 0.109, -0.152, -0.014},
    {1.950, 0.873, -0.392, -0.362, 0.226, -0.462, 0.001},
    {2.800, 1.132, -1.237, -0.412, 0.288, -0.823, 0.056},
    {4.500, 1.060, -1.600, -0.359, 0.264, -1.127, 0.131},
    {6.200, 0.678, -0.327, -0.250, 0.156, -1.377, 0.251},
}};

double sky_share(double slope_rad) {
    return 0.5 * (1.0 + std::cos(slope_rad));
}

/// Share of the diffuse that is circumsolar in Hay & Davies: the beam's transmission.
double anisotropy(const SkyState& sky) {
    return std::clamp(sky.beam_normal_w_m2 / sky.extraterrestrial_normal_w_m2, 0.0, 1.0);
}

/// Beam on the plane over beam on the horizontal, kept finite at sunrise.
double beam_ratio(const SkyState& sky, const PlaneView& plane) {
    return std::max(0.0, plane.cos_incidence) / std::max(cos_89_deg, sky.cos_zenith);
}

void add_hay_davies(PlaneIrradiance& on, const SkyState& sky, const PlaneView& plane) {
    const double share = sky.cos_zenith > 0.0 ? anisotropy(sky) : 0.0;
    on.circumsolar = sky.diffuse_horizontal_w_m2 * share * beam_ratio(sky, plane);
    on.dome = sky.diffuse_horizontal_w_m2 * (1.0 - share) * sky_share(plane.slope_rad);
}

void add_reindl_horizon(PlaneIrradiance& on, const SkyState& sky, const PlaneView& plane) {
    const double beam = sky.beam_normal_w_m2 * std::max(0.0, sky.cos_zenith);
    const double global = beam + sky.diffuse_horizontal_w_m2;
    if (global <= 0.0) return;
    const double half_sine = std::sin(0.5 * plane.slope_rad);
    on.horizon = on.dome * std::sqrt(beam / global) * half_sine * half_sine * half_sine;
}

void add_perez(PlaneIrradiance& on, const SkyState& sky, const PlaneView& plane) {
    const PerezBrightness bright = perez_brightness(sky);
    const double diffuse = sky.diffuse_horizontal_w_m2;
    const double ratio = std::max(0.0, plane.cos_incidence) / std::max(cos_85_deg, sky.cos_zenith);
    on.dome = diffuse * (1.0 - bright.circumsolar) * sky_share(plane.slope_rad);
    on.circumsolar = diffuse * bright.circumsolar * ratio;
    on.horizon = diffuse * bright.horizon * std::sin(plane.slope_rad);
}

}  // namespace

double PlaneIrradiance::sky() const {
    return std::max(0.0, dome + circumsolar + horizon);
}

double PlaneIrradiance::total() const {
    return beam + sky() + ground;
}

PerezBrightness perez_brightness(const SkyState& sky) {
    PerezBrightness bright;
    if (sky.diffuse_horizontal_w_m2 <= 0.0) return bright;
    const double zenith = std::acos(std::clamp(sky.cos_zenith, 0.0, 1.0));
    const double k = 1.041 * zenith * zenith * zenith;
    const double ratio = sky.beam_normal_w_m2 / sky.diffuse_horizontal_w_m2;
    bright.clearness = (1.0 + ratio + k) / (1.0 + k);
    bright.brightness =
        sky.diffuse_horizontal_w_m2 * sky.air_mass / sky.extraterrestrial_normal_w_m2;
    const PerezBin* bin = perez_bins.data();
    for (const PerezBin& next : perez_bins) {
        if (bright.clearness >= next.above) bin = &next;
    }
    const double delta = bright.brightness;
    // Above 1 the even part of the sky would be darker than black: the upper guard is ours.
    bright.circumsolar = std::clamp(bin->f11 + bin->f12 * delta + bin->f13 * zenith, 0.0, 1.0);
    bright.horizon = bin->f21 + bin->f22 * delta + bin->f23 * zenith;
    return bright;
}

PlaneIrradiance on_plane(SkyModel model, const SkyState& sky, const PlaneView& plane) {
    PlaneIrradiance on;
    const bool sun_up = sky.cos_zenith > 0.0;
    const double beam_normal = sun_up ? sky.beam_normal_w_m2 : 0.0;
    on.beam = beam_normal * std::max(0.0, plane.cos_incidence);
    const double global = beam_normal * sky.cos_zenith + sky.diffuse_horizontal_w_m2;
    on.ground = plane.ground_albedo * global * 0.5 * (1.0 - std::cos(plane.slope_rad));
    switch (model) {
        case SkyModel::isotropic:
            on.dome = sky.diffuse_horizontal_w_m2 * sky_share(plane.slope_rad);
            break;
        case SkyModel::hay_davies:
            add_hay_davies(on, sky, plane);
            break;
        case SkyModel::hdkr:
            add_hay_davies(on, sky, plane);
            add_reindl_horizon(on, sky, plane);
            break;
        case SkyModel::perez:
            add_perez(on, sky, plane);
            break;
    }
    return on;
}

}  // namespace noonbench::plant
