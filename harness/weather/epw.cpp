// SPDX-License-Identifier: MIT
#include "epw.hpp"

#include <cmath>
#include <cstddef>

namespace noonbench::harness {
namespace {

constexpr std::size_t header_lines = 8;

// Positions and codes of a missing value: EPW data dictionary.
constexpr Quantity latitude{"latitude", "degrees, north positive", 6, -90, 90};
constexpr Quantity longitude{"longitude", "degrees, east positive", 7, -180, 180};
constexpr Quantity time_zone{"time zone", "hours, east positive", 8, -12, 14};
constexpr Quantity elevation{"elevation", "m", 9, -500, 9000};
constexpr Quantity records_an_hour{"number of records an hour", "(only hourly years are read)", 2,
                                   1, 1};
constexpr Quantity year_number{"year", "", 0, 1900, 2100};
constexpr Quantity month{"month", "", 1, 1, 12};
constexpr Quantity day{"day", "", 2, 1, 31};
constexpr Quantity hour{"hour", "", 3, 1, 24};
constexpr Quantity dry_bulb{"dry bulb temperature", "degC", 6, -90, 70, 99.9};
constexpr Quantity dew_point{"dew point", "degC", 7, -110, 60, 99.9};
constexpr Quantity infrared{"infrared from the sky", "Wh/m2", 12, 0, 800, 9999};
constexpr Quantity global{"global horizontal irradiance", "Wh/m2", 13, 0, 1500, 9999, -1e300, -10};
constexpr Quantity beam{"direct normal irradiance", "Wh/m2", 14, 0, 1500, 9999, -1e300, -10};
constexpr Quantity diffuse{
    "diffuse horizontal irradiance", "Wh/m2", 15, 0, 1500, 9999, -1e300, -10};
constexpr Quantity wind{"wind speed", "m/s", 21, 0, 100, 999};
constexpr Quantity opaque{"opaque sky cover", "tenths", 23, 0, 10, 99};

void read_header(std::span<const std::string_view> lines, WeatherYear& year,
                 ProblemList& problems) {
    const std::vector<Field> fields = split_fields(lines[0]);
    const DataRow row{fields, 1};
    WeatherPlace place;
    if (fields.size() > 1) place.name = utf8_from(fields[1].text);
    place.latitude_deg = header_value(row, latitude, problems);
    place.longitude_deg = header_value(row, longitude, problems);
    place.elevation_m = header_value(row, elevation, problems);
    year.utc_offset_s =
        static_cast<std::int32_t>(std::lround(header_value(row, time_zone, problems) * 3600.0));
    year.place = place;
    for (std::size_t i = 1; i < header_lines && i < lines.size(); ++i) {
        if (!lines[i].starts_with("DATA PERIODS")) continue;
        const std::vector<Field> periods = split_fields(lines[i]);
        (void)header_value({periods, static_cast<int>(i) + 1}, records_an_hour, problems);
    }
}

HourRecord read_hour(const DataRow& row, ProblemList& problems) {
    const auto whole = [&](const Quantity& quantity) {
        const bool there = quantity.index < row.fields.size();
        return whole_part(there ? row.fields[quantity.index].text : "", row, quantity, problems);
    };
    HourRecord record;
    record.line = row.line;
    record.year = whole(year_number);
    record.month = whole(month);
    record.day = whole(day);
    record.hour = whole(hour) - 1;
    record.air_c = value_of(row, dry_bulb, problems);
    record.dew_point_c = value_of(row, dew_point, problems);
    record.infrared_w_m2 = value_of(row, infrared, problems);
    record.global_w_m2 = value_of(row, global, problems);
    record.beam_normal_w_m2 = value_of(row, beam, problems);
    record.diffuse_w_m2 = value_of(row, diffuse, problems);
    record.wind_m_s = value_of(row, wind, problems);
    record.opaque_tenths = value_of(row, opaque, problems);
    return record;
}

}  // namespace

bool looks_like_epw(std::span<const std::string_view> lines) {
    return !lines.empty() && lines[0].starts_with("LOCATION,");
}

void read_epw(std::span<const std::string_view> lines, WeatherYear& year, ProblemList& problems) {
    year.format = WeatherFormat::epw;
    read_header(lines, year, problems);
    for (std::size_t i = header_lines; i < lines.size() && !problems.full(); ++i) {
        if (lines[i].empty()) continue;
        const std::vector<Field> fields = split_fields(lines[i]);
        year.hours.push_back(read_hour({fields, static_cast<int>(i) + 1}, problems));
    }
}

}  // namespace noonbench::harness
