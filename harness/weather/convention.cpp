// SPDX-License-Identifier: MIT
#include "convention.hpp"

#include "plant/calendar.hpp"
#include "plant/si.hpp"
#include "plant/sun.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>

namespace noonbench::harness {
namespace {

constexpr double sunny_w_m2 = 50.0;
constexpr std::size_t hours_wanted = 600;
constexpr int fewest_hours = 50;
constexpr std::int32_t minute_s = 60;

/// The sunny hours with the instant of their stamp, thinned to what is needed.
struct SunnyHour {
    double stamp_s = 0.0;
    const HourRecord* record = nullptr;
};

std::vector<SunnyHour> sunny_hours(const WeatherYear& year) {
    std::vector<SunnyHour> all;
    for (const HourRecord& record : year.hours) {
        if (!(record.beam_normal_w_m2 > sunny_w_m2)) continue;
        const plant::CivilSeconds midnight = plant::midnight_of(
            {record.year, static_cast<unsigned>(record.month), static_cast<unsigned>(record.day)});
        all.push_back({static_cast<double>(midnight + plant::CivilSeconds{record.hour} * 3600 +
                                           year.convention.first_stamp_s),
                       &record});
    }
    const std::size_t stride = std::max<std::size_t>(1, all.size() / hours_wanted);
    std::vector<SunnyHour> some;
    for (std::size_t i = 0; i < all.size(); i += stride) some.push_back(all[i]);
    return some;
}

double residual_w_m2(const std::vector<SunnyHour>& hours, const plant::Site& site,
                     std::int32_t shift_s) {
    double sum = 0.0;
    for (const SunnyHour& hour : hours) {
        const plant::SunPosition sun = plant::sun_position(site, hour.stamp_s + shift_s);
        const HourRecord& r = *hour.record;
        const double sine = std::max(0.0, std::sin(sun.elevation_rad));
        sum += std::abs(r.global_w_m2 - r.diffuse_w_m2 - r.beam_normal_w_m2 * sine);
    }
    return sum / static_cast<double>(hours.size());
}

plant::Site site_for_closure(const WeatherYear& year) {
    plant::Site site;
    site.latitude_rad = plant::radians(year.place->latitude_deg);
    site.longitude_rad = plant::radians(year.place->longitude_deg);
    site.elevation_m = year.place->elevation_m;
    site.utc_offset_s = year.utc_offset_s;
    return site;
}

std::string in_words(const TimeConvention& convention) {
    const double minutes = convention.sun_shift_s / 60.0;
    if (convention.hour_mean) {
        return fmt::format("means of the hour around {:+.0f} min from the stamp", minutes);
    }
    return fmt::format("values of an instant {:+.1f} min from the stamp", minutes);
}

}  // namespace

Closure closure_of(const WeatherYear& year) {
    Closure closure;
    const std::vector<SunnyHour> hours = sunny_hours(year);
    closure.hours_used = static_cast<int>(hours.size());
    if (hours.empty()) return closure;
    const plant::Site site = site_for_closure(year);
    closure.declared_w_m2 = residual_w_m2(hours, site, year.convention.sun_shift_s);
    const auto try_shifts = [&](std::int32_t from_s, std::int32_t until_s, std::int32_t step_s) {
        std::int32_t best_s = from_s;
        double best = 1e300;
        for (std::int32_t shift = from_s; shift <= until_s; shift += step_s) {
            const double residual = residual_w_m2(hours, site, shift);
            if (residual < best) {
                best = residual;
                best_s = shift;
            }
        }
        closure.best_shift_s = best_s;
        closure.best_w_m2 = best;
    };
    try_shifts(-90 * minute_s, 90 * minute_s, 10 * minute_s);
    const std::int32_t coarse = closure.best_shift_s;
    try_shifts(coarse - 9 * minute_s, coarse + 9 * minute_s, minute_s);
    return closure;
}

void settle_convention(WeatherYear& year) {
    TimeConvention& convention = year.convention;
    const std::string declared = in_words(convention);
    if (!year.place) {
        year.messages.push_back(
            "The file names no place, so its times could not be tested; "
            "irradiances are read as " +
            declared + ".");
        return;
    }
    const Closure closure = closure_of(year);
    if (closure.hours_used < fewest_hours) {
        year.messages.push_back(
            "Too few hours with beam to test the times; irradiances are read "
            "as " +
            declared + ".");
        return;
    }
    // The residual at the right shift is 1 to 2 W/m2 in the files seen, at a wrong one 9 to 35.
    if (closure.declared_w_m2 <= 1.5 * closure.best_w_m2 + 0.5) {
        convention.closure_w_m2 = closure.declared_w_m2;
        year.messages.push_back(fmt::format(
            "Irradiances are {}: global = diffuse + beam x sine of elevation within {:.1f} W/m2.",
            declared, closure.declared_w_m2));
        return;
    }
    constexpr std::int32_t half_hour_before_s = -1800;
    const bool mean = std::abs(closure.best_shift_s - half_hour_before_s) <= 5 * minute_s;
    convention.hour_mean = mean;
    convention.sun_shift_s = mean ? half_hour_before_s : closure.best_shift_s;
    convention.from_closure = true;
    convention.closure_w_m2 = closure.best_w_m2;
    year.messages.push_back(fmt::format(
        "The format declares irradiances as {}, but there global misses diffuse + beam x sine of "
        "elevation by {:.1f} W/m2; they are read as {} ({:.1f} W/m2).",
        declared, closure.declared_w_m2, in_words(convention), closure.best_w_m2));
}

}  // namespace noonbench::harness
