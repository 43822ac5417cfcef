// SPDX-License-Identifier: MIT
// A year of hourly weather from a file that somebody brings: EPW, TMY3, or the typical-year CSV of
// the European Commission's service. The format is recognised by content, never by name.
#pragma once
#include "plant/hourly_sky.hpp"
#include "plant/parameters.hpp"

#include "harness/scenario/problem.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace noonbench::harness {

enum class WeatherFormat : std::uint8_t { epw, tmy3, european_csv };
[[nodiscard]] const char* name_of(WeatherFormat format);

/// One record as it stands in the file, in SI but for degrees Celsius and tenths; not-a-number
/// where the file has no value. After reading, global, diffuse, air, wind and sky always have one.
struct HourRecord {
    int year = 2001;           // differs from month to month in typical years
    int month = 1;             // 1..12
    int day = 1;               // 1..31
    int hour = 0;              // 0..23, number of the record in its day
    int line = 0;              // of the file, from 1
    double global_w_m2 = 0.0;  // on the horizontal
    double beam_normal_w_m2 = 0.0;
    double diffuse_w_m2 = 0.0;  // on the horizontal
    double air_c = 0.0;
    double dew_point_c = 0.0;
    double opaque_tenths = 0.0;  // cloud cover, 0..10
    double infrared_w_m2 = 0.0;  // from the sky on the horizontal
    double wind_m_s = 0.0;
    double sky_c = 0.0;  // from the above, see complete_year
};

/// When a record's numbers are true. Its stamp is `first_stamp_s` after the hour it is numbered by,
/// in the file's clock; its irradiance belongs to the hour around stamp + sun_shift_s.
struct TimeConvention {
    std::int32_t first_stamp_s = 3600;
    std::int32_t sun_shift_s = -1800;
    bool hour_mean = true;       // false: measured at an instant
    bool from_closure = false;   // true: the data overruled the format
    double closure_w_m2 = -1.0;  // mean |global - diffuse - beam sin(elevation)|; -1: not tested
};

struct WeatherPlace {
    std::string name;
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
    double elevation_m = 0.0;
};

struct WeatherYear {
    WeatherFormat format = WeatherFormat::epw;
    std::optional<WeatherPlace> place;  // none in the basic European variant
    std::int32_t utc_offset_s = 0;      // of the file's clock
    std::vector<HourRecord> hours;      // 8760
    TimeConvention convention{};
    std::vector<std::string> messages;  // what was decided or filled, one sentence each
};

/// Reads and completes a year:
/// - 29 February is dropped, with a message. Any other missing, double or displaced hour is
/// refused.
/// - Global or diffuse irradiance missing: refused. Beam missing: taken as global less diffuse.
/// - Air temperature missing: up to 3 h on end interpolated, with a message; more is refused.
/// - Wind missing: 2 m/s, with a message. Negative irradiance down to -10 W/m2 is read as 0.
/// - Sky temperature: from infrared, else from dew point and opaque clouds, else from the air.
/// - The time convention is tested by closure; if it belies the format's, it wins, with a message.
/// `known_place` is used when the file names none. Throws InputRefused with all problems found (20
/// at most).
[[nodiscard]] WeatherYear read_weather(const std::filesystem::path& path,
                                       const std::optional<WeatherPlace>& known_place = {});

/// The site's place and clock as the file has them, everything else as in `site`. The European
/// service counts in UTC: its clock becomes whole hours nearest to the place's longitude.
[[nodiscard]] plant::Site site_of(const WeatherYear& year, plant::Site site = {});

/// The year as a sky over the site, whatever the site's clock.
[[nodiscard]] plant::HourlySky hourly_sky(const WeatherYear& year, const plant::Site& site);

}  // namespace noonbench::harness
