// SPDX-License-Identifier: MIT
// The temperature of a black sky that would send down as much heat as the real one does.
#pragma once

namespace noonbench::plant {

/// Clear sky from the air temperature alone: Swinbank 1963, T_sky = 0.0552 T_air^1.5 in kelvin.
[[nodiscard]] double clear_sky_c(double air_c);

/// Emissivity of the sky from the dew point and the cover of opaque clouds in tenths (0 .. 10):
/// Clark & Allen 1978 with Walton's clouds, as the EPW data dictionary gives it.
[[nodiscard]] double sky_emissivity(double dew_point_c, double opaque_tenths);

/// Sky temperature for an emissivity that refers to air temperature.
[[nodiscard]] double sky_c_from_emissivity(double emissivity, double air_c);

/// Sky temperature from the heat that a horizontal plane receives from it [W/m2].
[[nodiscard]] double sky_c_from_infrared(double infrared_w_m2);

}  // namespace noonbench::plant
