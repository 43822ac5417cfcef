// SPDX-License-Identifier: MIT
// From the horizontal to a tilted plane.
#pragma once

namespace noonbench::plant {

enum class SkyModel {
    isotropic,   // Liu & Jordan 1963
    hay_davies,  // Hay & Davies 1980
    hdkr,        // the same with Reindl's brightening of the horizon, 1990
    perez        // Perez et al., Solar Energy 44 (1990), coefficients of table 6
};

/// The sky at an instant, with what is needed to carry it over.
struct SkyState {
    double beam_normal_w_m2 = 0.0;
    double diffuse_horizontal_w_m2 = 0.0;
    double extraterrestrial_normal_w_m2 = 1361.0;
    double air_mass = 1.0;    // relative
    double cos_zenith = 1.0;  // of the apparent sun; below 0 there is no beam
};

/// The plane as the sky sees it.
struct PlaneView {
    double slope_rad = 0.0;      // 0 .. pi
    double cos_incidence = 1.0;  // sun on plane; below 0 = behind
    double ground_albedo = 0.2;
};

/// What a plane receives, by where it comes from [W/m2]. Only `horizon` may be below zero (the sky
/// is darker at the horizon than overhead); `sky()` and `total()` never are.
struct PlaneIrradiance {
    double beam = 0.0;
    double dome = 0.0;         // the even part of the sky
    double circumsolar = 0.0;  // from around the sun
    double horizon = 0.0;      // band at the horizon
    double ground = 0.0;
    [[nodiscard]] double sky() const;
    [[nodiscard]] double total() const;
};

[[nodiscard]] PlaneIrradiance on_plane(SkyModel model, const SkyState& sky, const PlaneView& plane);

/// Inside the Perez model: brightness of the circumsolar part and of the horizon.
struct PerezBrightness {
    double clearness = 1.0;    // epsilon
    double brightness = 0.0;   // delta
    double circumsolar = 0.0;  // F1, 0 .. 1
    double horizon = 0.0;      // F2
};
[[nodiscard]] PerezBrightness perez_brightness(const SkyState& sky);

}  // namespace noonbench::plant
