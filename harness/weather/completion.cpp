// SPDX-License-Identifier: MIT
#include "completion.hpp"

#include "plant/sky_temperature.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::harness {
namespace {

constexpr std::size_t longest_gap_h = 3;
constexpr double usual_wind_m_s = 2.0;

void require_irradiance(const WeatherYear& year, ProblemList& problems) {
    for (const HourRecord& hour : year.hours) {
        const bool no_global = std::isnan(hour.global_w_m2);
        if (!no_global && !std::isnan(hour.diffuse_w_m2)) continue;
        problems.add(
            hour.line, 1,
            fmt::format("{} horizontal irradiance is missing", no_global ? "global" : "diffuse"),
            "a file with global and diffuse irradiance in every hour");
        if (problems.full()) return;
    }
}

/// The year is a ring: a gap at its end is bridged to its beginning.
void bridge_air(WeatherYear& year, ProblemList& problems) {
    const std::size_t n = year.hours.size();
    const auto missing = [&](std::size_t i) { return std::isnan(year.hours[i % n].air_c); };
    std::size_t start = 0;
    while (start < n && missing(start)) ++start;
    if (start == n) {
        problems.add(year.hours.front().line, 1, "air temperature is missing in the whole year");
        return;
    }
    std::size_t filled = 0;
    for (std::size_t i = start; i < start + n; ++i) {
        std::size_t gap = 0;
        while (missing(i + gap + 1)) ++gap;
        if (gap > longest_gap_h) {
            problems.add(year.hours[(i + 1) % n].line, 1,
                         fmt::format("air temperature is missing for {} hours on end", gap),
                         fmt::format("gaps of at most {} hours", longest_gap_h));
        }
        const double from = year.hours[i % n].air_c;
        const double until = year.hours[(i + gap + 1) % n].air_c;
        for (std::size_t j = 1; j <= gap; ++j) {
            const double share = static_cast<double>(j) / static_cast<double>(gap + 1);
            year.hours[(i + j) % n].air_c = from + share * (until - from);
        }
        filled += gap;
        i += gap;
    }
    if (filled > 0) {
        year.messages.push_back(
            fmt::format("Air temperature was missing in {} hours and was interpolated.", filled));
    }
}

void fill_wind(WeatherYear& year) {
    int filled = 0;
    for (HourRecord& hour : year.hours) {
        if (!std::isnan(hour.wind_m_s)) continue;
        hour.wind_m_s = usual_wind_m_s;
        ++filled;
    }
    if (filled > 0) {
        year.messages.push_back(
            fmt::format("Wind was missing in {} hours: {} m/s taken.", filled, usual_wind_m_s));
    }
}

void square_irradiances(WeatherYear& year) {
    int no_beam = 0;
    int cut = 0;
    for (HourRecord& hour : year.hours) {
        if (std::isnan(hour.beam_normal_w_m2)) ++no_beam;
        if (hour.diffuse_w_m2 <= hour.global_w_m2) continue;
        // A watt more is rounding and needs no words.
        if (hour.diffuse_w_m2 > hour.global_w_m2 + 1.0) ++cut;
        hour.diffuse_w_m2 = hour.global_w_m2;
    }
    if (no_beam > 0) {
        year.messages.push_back(fmt::format(
            "Beam was missing in {} hours; it is global less diffuse anyway.", no_beam));
    }
    if (cut > 0) {
        year.messages.push_back(
            fmt::format("Diffuse exceeded global in {} hours and was cut to it.", cut));
    }
}

void add_sky_temperature(WeatherYear& year) {
    int by_infrared = 0;
    int by_dew_point = 0;
    int by_air = 0;
    constexpr double least_infrared_w_m2 = 50.0;  // 0 stands in files that have none
    for (HourRecord& hour : year.hours) {
        if (hour.infrared_w_m2 > least_infrared_w_m2) {
            hour.sky_c = plant::sky_c_from_infrared(hour.infrared_w_m2);
            ++by_infrared;
        } else if (!std::isnan(hour.dew_point_c) && !std::isnan(hour.opaque_tenths)) {
            const double emissivity = plant::sky_emissivity(hour.dew_point_c, hour.opaque_tenths);
            hour.sky_c = plant::sky_c_from_emissivity(emissivity, hour.air_c);
            ++by_dew_point;
        } else {
            hour.sky_c = plant::clear_sky_c(hour.air_c);
            ++by_air;
        }
    }
    std::string sources;
    const auto add = [&](int hours, const char* from) {
        if (hours == 0) return;
        sources += fmt::format("{}{} in {} h", sources.empty() ? "" : ", ", from, hours);
    };
    add(by_infrared, "infrared");
    add(by_dew_point, "dew point and clouds");
    add(by_air, "air temperature as if clear");
    year.messages.push_back("Sky temperature comes from " + sources + ".");
}

}  // namespace

void complete_year(WeatherYear& year, ProblemList& problems) {
    require_irradiance(year, problems);
    bridge_air(year, problems);
    if (!problems.empty()) return;
    fill_wind(year);
    square_irradiances(year);
    add_sky_temperature(year);
}

}  // namespace noonbench::harness
