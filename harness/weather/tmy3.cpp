// SPDX-License-Identifier: MIT
#include "tmy3.hpp"

#include <cmath>
#include <cstddef>

namespace noonbench::harness {
namespace {

constexpr double missing = -9900.0;  // and below

constexpr Quantity time_zone{"time zone", "hours, east positive", 3, -12, 14};
constexpr Quantity latitude{"latitude", "degrees, north positive", 4, -90, 90};
constexpr Quantity longitude{"longitude", "degrees, east positive", 5, -180, 180};
constexpr Quantity elevation{"elevation", "m", 6, -500, 9000};
constexpr Quantity month{"month", "in MM/DD/YYYY", 0, 1, 12};
constexpr Quantity day{"day", "in MM/DD/YYYY", 0, 1, 31};
constexpr Quantity year_number{"year", "in MM/DD/YYYY", 0, 1900, 2100};
constexpr Quantity hour{"hour", "in HH:00", 1, 1, 24};
constexpr Quantity global{"global horizontal irradiance", "W/m2", 4, 0, 1500, 1e300, missing, -10};
constexpr Quantity beam{"direct normal irradiance", "W/m2", 7, 0, 1500, 1e300, missing, -10};
constexpr Quantity diffuse{
    "diffuse horizontal irradiance", "W/m2", 10, 0, 1500, 1e300, missing, -10};
constexpr Quantity opaque{"opaque sky cover", "tenths", 28, 0, 10, 99, -99};
constexpr Quantity dry_bulb{"dry bulb temperature", "degC", 31, -90, 70, 1e300, missing};
constexpr Quantity dew_point{"dew point", "degC", 34, -110, 60, 1e300, missing};
constexpr Quantity wind{"wind speed", "m/s", 46, 0, 100, 1e300, missing};

HourRecord read_hour(const DataRow& row, ProblemList& problems) {
    HourRecord record;
    record.line = row.line;
    const std::string_view date = row.fields[0].text;
    const std::string_view time = row.fields.size() > 1 ? row.fields[1].text : "";
    if (date.size() == 10 && date[2] == '/' && date[5] == '/') {
        record.month = whole_part(date.substr(0, 2), row, month, problems);
        record.day = whole_part(date.substr(3, 2), row, day, problems);
        record.year = whole_part(date.substr(6, 4), row, year_number, problems);
    } else {
        record.month = whole_part(date, row, month, problems);
    }
    const bool hourly = time.size() == 5 && time.substr(2) == ":00";
    record.hour = whole_part(hourly ? time.substr(0, 2) : time, row, hour, problems) - 1;
    record.global_w_m2 = value_of(row, global, problems);
    record.beam_normal_w_m2 = value_of(row, beam, problems);
    record.diffuse_w_m2 = value_of(row, diffuse, problems);
    record.opaque_tenths = value_of(row, opaque, problems);
    record.air_c = value_of(row, dry_bulb, problems);
    record.dew_point_c = value_of(row, dew_point, problems);
    record.wind_m_s = value_of(row, wind, problems);
    record.infrared_w_m2 = std::nan("");
    return record;
}

}  // namespace

bool looks_like_tmy3(std::span<const std::string_view> lines) {
    return lines.size() > 1 && lines[1].starts_with("Date (MM/DD/YYYY),Time (HH:MM),ETR");
}

void read_tmy3(std::span<const std::string_view> lines, WeatherYear& year, ProblemList& problems) {
    year.format = WeatherFormat::tmy3;
    const std::vector<Field> header = split_fields(lines[0]);
    const DataRow first{header, 1};
    WeatherPlace place;
    if (header.size() > 1) place.name = utf8_from(header[1].text);
    year.utc_offset_s =
        static_cast<std::int32_t>(std::lround(header_value(first, time_zone, problems) * 3600.0));
    place.latitude_deg = header_value(first, latitude, problems);
    place.longitude_deg = header_value(first, longitude, problems);
    place.elevation_m = header_value(first, elevation, problems);
    year.place = place;
    for (std::size_t i = 2; i < lines.size() && !problems.full(); ++i) {
        if (lines[i].empty()) continue;
        const std::vector<Field> fields = split_fields(lines[i]);
        year.hours.push_back(read_hour({fields, static_cast<int>(i) + 1}, problems));
    }
}

}  // namespace noonbench::harness
