// SPDX-License-Identifier: MIT
// The cloudless sky, and the split of a measured global irradiance into its two parts.
#pragma once

namespace noonbench::plant {

/// Irradiance without regard to any tilted plane [W/m2].
struct HorizontalSky {
    double global_horizontal_w_m2 = 0.0;
    double beam_normal_w_m2 = 0.0;
    double diffuse_horizontal_w_m2 = 0.0;
};

/// Air between sun and ground.
struct ClearAir {
    double turbidity = 3.0;  // Linke, for air mass 2; 2 very clean .. 7 murky
    double height_m = 0.0;   // of the site above the sea
};

/// Ineichen & Perez, Solar Energy 73 (2002), without the enhancement exp(0.01 AM^1.8).
/// `cos_zenith` of the apparent sun; `air_mass` absolute (corrected by pressure). Nothing, if the
/// sun is not above the horizon.
[[nodiscard]] HorizontalSky clear_sky(const ClearAir& air, double cos_zenith, double air_mass,
                                      double extraterrestrial_normal_w_m2);

/// Share of the diffuse in the global irradiance of an hour, Erbs, Klein & Duffie, Solar Energy 28
/// (1982); `clearness` = global / extraterrestrial on the horizontal, 0 .. 1.
[[nodiscard]] double diffuse_share(double clearness);

/// Splits a global irradiance by `diffuse_share`. The beam never exceeds the extraterrestrial one:
/// what is over becomes diffuse, as does all with the sun below 0.5 deg.
[[nodiscard]] HorizontalSky split_global(double global_horizontal_w_m2, double cos_zenith,
                                         double extraterrestrial_normal_w_m2);

}  // namespace noonbench::plant
