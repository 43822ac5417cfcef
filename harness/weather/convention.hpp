// SPDX-License-Identifier: MIT
// When the irradiances of a file were true: told from the irradiances themselves.
#pragma once
#include "weather_file.hpp"

namespace noonbench::harness {

/// Which shift of the sun from the stamp makes global = diffuse + beam x sin(elevation) hold best.
struct Closure {
    int hours_used = 0;             // of those with beam above 50 W/m2; spread evenly
    std::int32_t best_shift_s = 0;  // to a minute, -90 .. 90 min
    double best_w_m2 = 0.0;         // mean absolute residual there
    double declared_w_m2 = 0.0;     // and at the shift that the format declares
};

/// The year must have a place. Uses at most some 600 hours.
[[nodiscard]] Closure closure_of(const WeatherYear& year);

/// Keeps the format's convention if it closes nearly as well as the best; else takes the best,
/// which counts as an hour's mean within 5 minutes of -30 and as an instant otherwise. Says so in a
/// message. Without a place or with less than 50 sunny hours nothing can be told: says that.
void settle_convention(WeatherYear& year);

}  // namespace noonbench::harness
