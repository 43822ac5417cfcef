// SPDX-License-Identifier: MIT
#include "weather_file.hpp"

#include "completion.hpp"
#include "convention.hpp"
#include "epw.hpp"
#include "european_csv.hpp"
#include "text_file.hpp"
#include "tmy3.hpp"

#include "plant/si.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <string_view>
#include <utility>

namespace noonbench::harness {
namespace {

constexpr const char* formats_read =
    "EPW, TMY3, or the European Commission's typical year as CSV "
    "(time(UTC),T2m,..,G(h),Gb(n),Gd(h))";

void refuse_format(std::span<const std::string_view> lines, ProblemList& problems) {
    const auto any_line = [&](auto holds) {
        return std::any_of(
            lines.begin(),
            lines.begin() + std::min<std::ptrdiff_t>(60, static_cast<std::ptrdiff_t>(lines.size())),
            holds);
    };
    std::string what = "the format of this weather file is not known";
    if (any_line([](std::string_view line) {
            return line.find(",G(i)") != line.npos || line.find(",Gb(i)") != line.npos;
        })) {
        what = "these are hours on a tilted plane; hours on the horizontal are needed";
    } else if (!lines.empty() && (lines[0].starts_with("{") || lines[0].starts_with("["))) {
        what = "this is JSON; the typical year is read as CSV or EPW";
    } else if (!lines.empty() && lines[0].starts_with("<")) {
        what = "this is a web page, not a weather file";
    }
    problems.add(1, 1, what, formats_read);
}

void read_any(std::span<const std::string_view> lines, WeatherYear& year, ProblemList& problems) {
    if (looks_like_epw(lines)) {
        read_epw(lines, year, problems);
    } else if (looks_like_tmy3(lines)) {
        read_tmy3(lines, year, problems);
    } else if (looks_like_european_csv(lines)) {
        read_european_csv(lines, year, problems);
    } else {
        refuse_format(lines, problems);
    }
}

}  // namespace

const char* name_of(WeatherFormat format) {
    switch (format) {
        case WeatherFormat::epw:
            return "EPW";
        case WeatherFormat::tmy3:
            return "TMY3";
        case WeatherFormat::european_csv:
            return "European CSV";
    }
    return "";
}

WeatherYear read_weather(const std::filesystem::path& path,
                         const std::optional<WeatherPlace>& known_place) {
    std::vector<Problem> file_problems;
    const std::optional<TextFile> file = read_text_file(path, file_problems);
    if (!file) throw InputRefused(std::move(file_problems));

    ProblemList problems(file->name);
    WeatherYear year;
    const std::vector<std::string_view> lines = file->lines();
    read_any(lines, year, problems);
    if (problems.empty()) order_year(year, problems);
    if (problems.empty()) complete_year(year, problems);
    if (!problems.empty()) throw InputRefused(problems.take());
    if (!year.place) year.place = known_place;
    settle_convention(year);
    return year;
}

plant::Site site_of(const WeatherYear& year, plant::Site site) {
    if (!year.place) return site;
    site.latitude_rad = plant::radians(year.place->latitude_deg);
    site.longitude_rad = plant::radians(year.place->longitude_deg);
    site.elevation_m = year.place->elevation_m;
    site.utc_offset_s = year.utc_offset_s;
    if (year.format == WeatherFormat::european_csv) {
        constexpr double degrees_an_hour = 15.0;
        const double hours = std::round(year.place->longitude_deg / degrees_an_hour);
        site.utc_offset_s = static_cast<std::int32_t>(hours) * 3600;
    }
    return site;
}

plant::HourlySky hourly_sky(const WeatherYear& year, const plant::Site& site) {
    plant::HourlySky sky;
    sky.site = site;
    sky.sun_shift_s = year.convention.sun_shift_s;
    sky.first_stamp_s = year.convention.first_stamp_s + site.utc_offset_s - year.utc_offset_s;
    sky.hours.reserve(year.hours.size());
    for (const HourRecord& hour : year.hours) {
        sky.hours.push_back(
            {hour.global_w_m2, hour.diffuse_w_m2, hour.air_c, hour.sky_c, hour.wind_m_s});
    }
    return sky;
}

}  // namespace noonbench::harness
