// SPDX-License-Identifier: MIT
// Built-in climates and the seeded year: weather that no file has to bring, drawn so that each
// month's mean irradiance on a 45-degree south plane and mean daytime temperature are those of
// Regulation (EU) 812/2013 at the climate's reference place. A rough model of days and clouds
// (day clearness, a telegraph of cloud passages), not a record of any real year.
#pragma once
#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "parameters.hpp"
#include "sky.hpp"

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
};

ClimateTable climate_table(Climate climate);

struct SeededYearConfig {
    Climate climate = Climate::average;
    std::uint64_t seed = 1;
    Site site{};
};

inline constexpr int days_of_climate_year = 365;

/// What is drawn once per day, closed into a ring: 31 December is followed by 1 January.
struct SeededDay {
    double clearness = 0.5;    // 0 dull .. 1 clear
    double air_least_c = 5.0;  // at 05:00
    double air_most_c = 12.0;  // at 15:00
    double wind_m_s = 2.5;     // day's mean at the collectors
};

/// A year ready to be asked: a value, computed once from its config.
struct SeededYear {
    SeededYearConfig config{};
    std::array<double, 12> linke_turbidity{};
    std::array<SeededDay, days_of_climate_year> days{};
};

/// Draws the year and fits each month's clearness and temperature to the climate's table (the
/// sun of 2021 at the reference place). Monthly irradiance is met within 0.5 %, daytime air
/// temperature within 0.1 K. About 0.3 s. Throws std::domain_error if a month cannot be met.
SeededYear make_seeded_year(const SeededYearConfig& config);

/// Knots of one day at the config's site: the first at day_start_s, the last before the next
/// midnight (the next day's first knot closes the day); rising times, some hundreds a day. A pure
/// function of (config, day); each calendar year repeats the same 365 days (29 February: 28th).
std::vector<SkyKnot> knots_of_day(const SeededYear& year, CivilSeconds day_start_s);

/// Share of the day's daylight under cloud that a clearness stands for, 0..1.
double cloud_share(double clearness);

}  // namespace noonbench::plant
