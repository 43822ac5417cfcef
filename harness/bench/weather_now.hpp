// SPDX-License-Identifier: MIT
// The weather at an instant of a stretch that is linear in time.
#pragma once
#include "plant/drive.hpp"

#include <array>
#include <cstddef>

namespace noonbench::harness {

struct WeatherNow {
    std::array<double, plant::most_rows> received_w_m2{};
    std::array<double, plant::most_rows> absorbable_w_m2{};
    double air_c = 0.0;
};

/// How far the span has gone at `at` (civil seconds, within the span), 0..1.
inline double share_of(const plant::WeatherSpan& span, double at) {
    const auto from = static_cast<double>(span.from.at_s);
    const auto to = static_cast<double>(span.to.at_s);
    return to > from ? (at - from) / (to - from) : 0.0;
}

inline double received_w_m2(const plant::WeatherSpan& span, double at, std::size_t row) {
    const double from = span.from.received_w_m2[row];
    return from + share_of(span, at) * (span.to.received_w_m2[row] - from);
}

inline double air_c(const plant::WeatherSpan& span, double at) {
    return span.from.air_c + share_of(span, at) * (span.to.air_c - span.from.air_c);
}

/// `at` in civil seconds, within the span.
inline WeatherNow weather_at(const plant::WeatherSpan& span, double at) {
    const double share = share_of(span, at);
    WeatherNow now;
    for (std::size_t r = 0; r < plant::most_rows; ++r) {
        now.received_w_m2[r] = received_w_m2(span, at, r);
        now.absorbable_w_m2[r] =
            span.from.absorbable_w_m2[r] +
            share * (span.to.absorbable_w_m2[r] - span.from.absorbable_w_m2[r]);
    }
    now.air_c = air_c(span, at);
    return now;
}

}  // namespace noonbench::harness
