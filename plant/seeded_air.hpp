// SPDX-License-Identifier: MIT
// Air temperature, sky temperature and wind of a seeded year.
#pragma once
#include "climate.hpp"
#include "random.hpp"

#include <array>
#include <cstdint>

namespace noonbench::plant {

/// A first-order autoregression around the ring of days: mean 0, variance 1, lag-one correlation
/// `persistence` (below 0.9); bounded as its noise is.
[[nodiscard]] std::array<double, days_a_weather_year> persistent_noise(RandomStream stream,
                                                                       double persistence);

/// 0..11, the month of a day 0..364.
[[nodiscard]] int month_of_day(int day);

/// Fills air_least_c, air_most_c and wind_m_s of every day, whose clearness is known already:
/// clear days swing further. Each month's mean from 06:00 to 18:00 becomes the table's.
void draw_air(const ClimateTable& table, SeededYear& year);

/// Air temperature at a second of a day (0..364), smooth over midnight.
[[nodiscard]] double seeded_air_c(const SeededYear& year, int day, std::int32_t second);

/// Sky temperature: dew point 1 K below the day's least air temperature, cloud tenths from the
/// day's cloudy share, emissivity of sky_temperature.hpp.
[[nodiscard]] double seeded_sky_c(const SeededYear& year, int day, std::int32_t second,
                                  double air_c);

/// Wind at the collectors: day's mean, stronger in the afternoon, one gust factor an hour.
[[nodiscard]] double seeded_wind_m_s(const SeededYear& year, int day, std::int32_t second);

}  // namespace noonbench::plant
