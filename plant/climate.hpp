// SPDX-License-Identifier: MIT
// Built-in climates and the seeded year: weather that no file has to bring, drawn so that each
// month's mean irradiance on a 45-degree south plane and mean daytime temperature are those of
// Regulation (EU) 812/2013 at the climate's reference place. A rough model of days and clouds
// (day clearness, a telegraph of cloud passages), not a record of any real year.
#pragma once
#include "calendar.hpp"
#include "parameters.hpp"
#include "sky.hpp"

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

namespace noonbench::plant {

enum class Climate : std::uint8_t { average, colder, warmer };

/// Monthly means of one climate, January first.
struct ClimateTable {
    std::string_view name;
    std::string_view reference_place;
    Site reference_site;
    std::array<double, 12> irradiance_w_m2;  // 24-h mean on a plane tilted 45 degrees, facing south
    std::array<double, 12> daytime_air_c;    // mean of 06:00 to 18:00 here
    std::array<double, 12> linke_turbidity;  // typical of the month (no source)
    double day_to_day_air_k;  // standard deviation of a day's temperature in its month (typical)
};

[[nodiscard]] ClimateTable climate_table(Climate climate);

/// What is drawn once per day.
struct SeededDay {
    double clearness = 0.5;    // 0 dull .. 1 clear
    double air_least_c = 5.0;  // at 05:00
    double air_most_c = 12.0;  // at 15:00
    double wind_m_s = 2.5;     // the day's mean at the collectors
};

/// A year of 365 days that repeats for ever, closed into a ring (31 December is followed by
/// 1 January); 29 February repeats the 28th. A value, computed once.
struct SeededYear {
    Site site{};
    std::uint64_t seed = 1;
    std::array<double, 12> linke_turbidity{};
    std::array<SeededDay, days_a_weather_year> days{};
};

/// Draws the year and fits each month's clearness and temperature to the climate's table, with the
/// sun of 2021 at the reference place. There the month's irradiance is met within 0.5 % and the
/// daytime air temperature within 0.1 K. Over `site` the same days pass under another sun; in other
/// calendar years the sun stands up to 0.75 days earlier, which moves a month by 2 % at most (and
/// by some percent a February that counts its 28th day twice).
/// Throws std::domain_error if a month cannot be met.
[[nodiscard]] SeededYear make_seeded_year(Climate climate, std::uint64_t seed, const Site& site);

/// Shape as in sky_source.hpp: hourly by night, every 10 min by day, at rise and set, and where an
/// edge of a cloud bends; about two hundred knots a day.
[[nodiscard]] std::vector<SkyKnot> knots_of_day(const SeededYear& year, CivilSeconds day_start_s);

}  // namespace noonbench::plant
