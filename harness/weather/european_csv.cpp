// SPDX-License-Identifier: MIT
#include "european_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace noonbench::harness {
namespace {

constexpr std::string_view table_head = "time(UTC),";
constexpr std::size_t longest_preamble = 60;

constexpr Quantity latitude{"latitude", "degrees, north positive", 1, -90, 90};
constexpr Quantity longitude{"longitude", "degrees, east positive", 1, -180, 180};
constexpr Quantity elevation{"elevation", "m", 1, -500, 9000};
constexpr Quantity offset{"irradiance time offset", "h", 1, -1, 1};
constexpr Quantity stamp{"time", "as YYYYMMDD:HHMM, hourly", 0, 0, 23};
constexpr Quantity year_number{"year", "in YYYYMMDD:HHMM", 0, 1900, 2100};
constexpr Quantity month{"month", "in YYYYMMDD:HHMM", 0, 1, 12};
constexpr Quantity day{"day", "in YYYYMMDD:HHMM", 0, 1, 31};
constexpr Quantity hour{"hour", "in YYYYMMDD:HHMM", 0, 0, 23};
constexpr Quantity minute{"minute", "in YYYYMMDD:HHMM (full hours)", 0, 0, 0};

/// The columns that are read, found by name since their order has changed over the years.
struct Columns {
    Quantity air{"air temperature", "degC", 0, -90, 70};
    Quantity global{"global horizontal irradiance", "W/m2", 0, 0, 1500, 1e300, -1e300, -10};
    Quantity beam{"beam normal irradiance", "W/m2", 0, 0, 1500, 1e300, -1e300, -10};
    Quantity diffuse{"diffuse horizontal irradiance", "W/m2", 0, 0, 1500, 1e300, -1e300, -10};
    Quantity infrared{"infrared from the sky", "W/m2", 0, 0, 800};
    Quantity wind{"wind speed", "m/s", 0, 0, 100};
};

std::size_t table_line(std::span<const std::string_view> lines) {
    const std::size_t last = std::min(lines.size(), longest_preamble);
    for (std::size_t i = 0; i < last; ++i) {
        if (lines[i].starts_with(table_head)) return i;
    }
    return lines.size();
}

Columns find_columns(std::string_view line, int line_number, ProblemList& problems) {
    Columns columns;
    const std::vector<Field> names = split_fields(line);
    const auto find = [&](Quantity& quantity, std::string_view name) {
        for (std::size_t i = 0; i < names.size(); ++i) {
            if (names[i].text == name) quantity.index = i;
        }
        if (quantity.index == 0) {
            problems.add(line_number, 1, fmt::format("there is no column {}", name),
                         "time(UTC), T2m, G(h), Gb(n), Gd(h), IR(h), WS10m");
        }
    };
    find(columns.air, "T2m");
    find(columns.global, "G(h)");
    find(columns.beam, "Gb(n)");
    find(columns.diffuse, "Gd(h)");
    find(columns.infrared, "IR(h)");
    find(columns.wind, "WS10m");
    return columns;
}

/// `Name (unit): value` becomes two fields, the value second.
std::vector<Field> name_and_value(std::string_view line) {
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos) return {};
    const std::vector<Field> value = split_fields(line.substr(colon + 1));
    return {{line.substr(0, colon), 1},
            {value[0].text, value[0].column + static_cast<int>(colon) + 1}};
}

void read_preamble(std::span<const std::string_view> lines, WeatherYear& year,
                   ProblemList& problems) {
    WeatherPlace place;
    int found = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::vector<Field> fields = name_and_value(lines[i]);
        if (fields.empty()) continue;
        const DataRow row{fields, static_cast<int>(i) + 1};
        if (lines[i].starts_with("Latitude")) {
            place.latitude_deg = header_value(row, latitude, problems);
            ++found;
        } else if (lines[i].starts_with("Longitude")) {
            place.longitude_deg = header_value(row, longitude, problems);
            ++found;
        } else if (lines[i].starts_with("Elevation")) {
            place.elevation_m = header_value(row, elevation, problems);
        } else if (lines[i].starts_with("Irradiance Time Offset")) {
            const double hours = header_value(row, offset, problems);
            year.convention.sun_shift_s = static_cast<std::int32_t>(std::lround(hours * 3600.0));
        }
    }
    place.name = fmt::format("{:.3f} {} {:.3f} {}", std::abs(place.latitude_deg),
                             place.latitude_deg < 0.0 ? 'S' : 'N', std::abs(place.longitude_deg),
                             place.longitude_deg < 0.0 ? 'W' : 'E');
    if (found == 2) year.place = place;
}

HourRecord read_hour(const DataRow& row, const Columns& columns, ProblemList& problems) {
    HourRecord record;
    record.line = row.line;
    const std::string_view time = row.fields[0].text;
    if (time.size() == 13 && time[8] == ':') {
        record.year = whole_part(time.substr(0, 4), row, year_number, problems);
        record.month = whole_part(time.substr(4, 2), row, month, problems);
        record.day = whole_part(time.substr(6, 2), row, day, problems);
        record.hour = whole_part(time.substr(9, 2), row, hour, problems);
        (void)whole_part(time.substr(11, 2), row, minute, problems);
    } else {
        record.hour = whole_part(time, row, stamp, problems);
    }
    record.air_c = value_of(row, columns.air, problems);
    record.global_w_m2 = value_of(row, columns.global, problems);
    record.beam_normal_w_m2 = value_of(row, columns.beam, problems);
    record.diffuse_w_m2 = value_of(row, columns.diffuse, problems);
    record.infrared_w_m2 = value_of(row, columns.infrared, problems);
    record.wind_m_s = value_of(row, columns.wind, problems);
    record.dew_point_c = std::nan("");
    record.opaque_tenths = std::nan("");
    return record;
}

}  // namespace

bool looks_like_european_csv(std::span<const std::string_view> lines) {
    return table_line(lines) < lines.size();
}

void read_european_csv(std::span<const std::string_view> lines, WeatherYear& year,
                       ProblemList& problems) {
    const std::size_t head = table_line(lines);
    year.format = WeatherFormat::european_csv;
    year.utc_offset_s = 0;
    year.convention = {0, 0, false, false, -1.0};
    read_preamble(lines.first(head), year, problems);
    const Columns columns = find_columns(lines[head], static_cast<int>(head) + 1, problems);
    if (!problems.empty()) return;
    // A blank line parts the table from the legend.
    for (std::size_t i = head + 1; i < lines.size() && !lines[i].empty(); ++i) {
        if (problems.full()) return;
        const std::vector<Field> fields = split_fields(lines[i]);
        year.hours.push_back(read_hour({fields, static_cast<int>(i) + 1}, columns, problems));
    }
}

}  // namespace noonbench::harness
