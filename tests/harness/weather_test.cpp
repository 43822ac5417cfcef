// SPDX-License-Identifier: MIT
// Real files of each format, from the folder NOONBENCH_WEATHER_DIR or ../shared/weather beside the
// sources, where they are; and small malformed ones, written for the purpose.
#include "harness/weather/weather_file.hpp"

#include <unistd.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

#include "harness/weather/convention.hpp"
#include "harness/weather/text_file.hpp"
#include "plant/calendar.hpp"
#include "plant/hourly_sky.hpp"
#include "plant/irradiance.hpp"
#include "plant/si.hpp"
#include "plant/sun.hpp"

namespace {

using namespace noonbench;
using harness::WeatherYear;
namespace fs = std::filesystem;

fs::path weather_folder() {
    const char* named = std::getenv("NOONBENCH_WEATHER_DIR");
    return named != nullptr ? fs::path(named)
                            : fs::path(NOONBENCH_SOURCE_DIR) / ".." / "shared" / "weather";
}

/// The file, or nothing and a loud word: the test then passes without having looked.
std::optional<fs::path> real_file(const std::string& name) {
    const fs::path path = weather_folder() / name;
    if (fs::exists(path)) return path;
    std::cerr << "SKIPPED: no weather file " << path.string()
              << "; set NOONBENCH_WEATHER_DIR to the folder that has it\n";
    BOOST_TEST_MESSAGE("skipped");
    return std::nullopt;
}

/// A folder of our own that goes when the test does.
struct Scratch {
    fs::path folder;
    Scratch() {
        std::string pattern = (fs::temp_directory_path() / "noonbench-weather-XXXXXX").string();
        BOOST_REQUIRE(mkdtemp(pattern.data()) != nullptr);
        folder = pattern;
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;
    ~Scratch() {
        std::error_code ignored;
        fs::remove_all(folder, ignored);
    }
    [[nodiscard]] fs::path write(const std::string& name, const std::string& text) const {
        std::ofstream(folder / name, std::ios::binary) << text;
        return folder / name;
    }
};

/// What reading a file is refused with; empty if it is not.
std::string refusal(const fs::path& path) {
    try {
        (void)harness::read_weather(path);
    } catch (const harness::InputRefused& refused) {
        std::string all = harness::text(refused.problems());
        const std::string folder = path.parent_path().string() + "/";
        for (std::size_t at = all.find(folder); at != std::string::npos; at = all.find(folder)) {
            all.erase(at, folder.size());
        }
        return all;
    }
    return "";
}

struct Sums {
    double global = 0.0, beam = 0.0, diffuse = 0.0, air = 0.0;
    double coldest = 1e9, warmest = -1e9;
};

/// kWh/m2 a year and the mean of the air.
Sums sums_of(const WeatherYear& year) {
    Sums sums;
    for (const harness::HourRecord& hour : year.hours) {
        sums.global += hour.global_w_m2 / 1000.0;
        sums.beam += hour.beam_normal_w_m2 / 1000.0;
        sums.diffuse += hour.diffuse_w_m2 / 1000.0;
        sums.air += hour.air_c / 8760.0;
        sums.coldest = std::min(sums.coldest, hour.air_c);
        sums.warmest = std::max(sums.warmest, hour.air_c);
    }
    return sums;
}

void check_sums(const WeatherYear& year, const Sums& expected) {
    const Sums found = sums_of(year);
    // Half a unit of the last digit that the list of check values gives.
    BOOST_CHECK_SMALL(found.global - expected.global, 0.05);
    BOOST_CHECK_SMALL(found.beam - expected.beam, 0.05);
    BOOST_CHECK_SMALL(found.diffuse - expected.diffuse, 0.05);
    BOOST_CHECK_SMALL(found.air - expected.air, 0.0005);
}

bool says(const WeatherYear& year, const std::string& words) {
    return std::any_of(year.messages.begin(), year.messages.end(), [&](const std::string& message) {
        return message.find(words) != std::string::npos;
    });
}

struct PlaneYear {
    double level_kwh = 0.0, diffuse_kwh = 0.0, south_kwh = 0.0, absorbable_kwh = 0.0;
};

/// A whole year of the sky on a level plane and on one of 40 degrees south, by trapezoids.
PlaneYear through_planes(const WeatherYear& weather) {
    const plant::Site site = harness::site_of(weather);
    const plant::HourlySky sky = harness::hourly_sky(weather, site);
    plant::Row row;
    row.slope_rad = plant::radians(40.0);
    PlaneYear sums;
    double level_before = 0.0;
    plant::SkyKnot before;
    plant::PlaneKnot plane_before;
    bool first = true;
    for (int day = 0; day < 365; ++day) {
        const plant::CivilSeconds start =
            plant::midnight_of({2023, 1, 1}) + day * plant::seconds_a_day;
        for (const plant::SkyKnot& knot : plant::knots_of_day(sky, start)) {
            const plant::PlaneKnot plane = plant::on_planes(site, std::span(&row, 1), knot);
            const plant::SunPosition sun =
                plant::sun_position(site, static_cast<double>(knot.at_s));
            const double level =
                knot.diffuse_horizontal_w_m2 +
                knot.beam_normal_w_m2 * std::max(0.0, std::sin(sun.apparent_elevation_rad));
            BOOST_REQUIRE(std::isfinite(plane.received_w_m2[0]) && plane.received_w_m2[0] >= 0.0);
            BOOST_REQUIRE(std::isfinite(knot.sky_c) && std::isfinite(knot.air_c));
            if (!first) {
                const double half_kwh = static_cast<double>(knot.at_s - before.at_s) / 7.2e6;
                sums.level_kwh += half_kwh * (level + level_before);
                sums.diffuse_kwh +=
                    half_kwh * (knot.diffuse_horizontal_w_m2 + before.diffuse_horizontal_w_m2);
                sums.south_kwh +=
                    half_kwh * (plane.received_w_m2[0] + plane_before.received_w_m2[0]);
                sums.absorbable_kwh +=
                    half_kwh * (plane.absorbable_w_m2[0] + plane_before.absorbable_w_m2[0]);
            }
            first = false;
            level_before = level;
            before = knot;
            plane_before = plane;
        }
    }
    return sums;
}

std::string epw_header(const std::string& comment = "COMMENTS 1,plain") {
    return "LOCATION,Freiburg,-,DEU,made up,unknown,48.0,7.85,1.0,300.0\n"
           "DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n"
           "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\n" +
           comment + "\nCOMMENTS 2,\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n";
}

struct EpwHour {
    std::string air = "5.0", wind = "3.0", global = "0", beam = "0", diffuse = "0";
};

/// A year of night unless `change` says otherwise; `leap` puts a 29 February in.
std::string made_up_epw(const std::function<void(int, EpwHour&)>& change, bool leap = false) {
    std::ostringstream text;
    text << epw_header();
    const int days[] = {31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int number = 0;
    for (int month = 1; month <= 12; ++month) {
        for (int day = 1; day <= days[month - 1]; ++day) {
            for (int hour = 1; hour <= 24; ++hour) {
                EpwHour now;
                change(number++, now);
                text << (month == 1 ? 1995 : 1990) << ',' << month << ',' << day << ',' << hour
                     << ",60,flags," << now.air << ",2.0,80,97000,9999,9999,9999," << now.global
                     << ',' << now.beam << ',' << now.diffuse << ",999999,999999,999999,9999,180,"
                     << now.wind << ",5,5,9999,99999,9,999999999,999,0.999,999,99,999,999,99\n";
            }
        }
    }
    return text.str();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(weather)

// Sums and first rows by an independent reading of the same files.
BOOST_AUTO_TEST_CASE(the_european_year_is_read_as_it_stands) {
    const auto path = real_file("piedmont-45N-8E.csv");
    if (!path) return;
    const WeatherYear year = harness::read_weather(*path);
    BOOST_TEST((year.format == harness::WeatherFormat::european_csv));
    BOOST_TEST(year.hours.size() == 8760U);
    BOOST_REQUIRE(year.place.has_value());
    BOOST_TEST(year.place->latitude_deg == 45.0);
    BOOST_TEST(year.place->longitude_deg == 8.0);
    BOOST_TEST(year.place->elevation_m == 250.0);
    check_sums(year, {1435.86, 1591.57, 570.95, 13.564});
    BOOST_CHECK_SMALL(sums_of(year).coldest + 2.34, 1e-9);
    BOOST_CHECK_SMALL(sums_of(year).warmest - 34.33, 1e-9);
    BOOST_TEST(year.hours[8].air_c == 2.10);
    BOOST_TEST(year.hours[8].global_w_m2 == 32.0);
    BOOST_TEST(year.hours[8].beam_normal_w_m2 == 0.0);
    BOOST_TEST(year.hours[9].global_w_m2 == 149.0);
    BOOST_TEST(year.hours[9].beam_normal_w_m2 == 125.3);
    BOOST_TEST(year.hours[9].diffuse_w_m2 == 117.0);
    // 0.1761 h after the stamp, as its header says; closure agrees within 1 W/m2.
    BOOST_TEST(year.convention.sun_shift_s == 634);
    BOOST_TEST(!year.convention.hour_mean);
    BOOST_TEST(!year.convention.from_closure);
    BOOST_TEST(year.convention.closure_w_m2 < 1.0);
    BOOST_TEST(year.convention.closure_w_m2 >= 0.0);
    BOOST_TEST(harness::site_of(year).utc_offset_s == 3600);
}

BOOST_AUTO_TEST_CASE(the_months_of_the_european_year_agree) {
    const auto path = real_file("piedmont-45N-8E.csv");
    if (!path) return;
    const WeatherYear year = harness::read_weather(*path);
    const double global[] = {47.8,  67.0,  118.6, 121.4, 149.8, 216.2,
                             205.2, 178.5, 135.5, 89.0,  60.6,  46.2};
    const double air[] = {5.20,  6.96,  8.73,  12.37, 17.04, 22.46,
                          21.92, 22.15, 20.20, 14.97, 6.31,  4.05};
    double sum[12]{};
    double warmth[12]{};
    int hours[12]{};
    for (const harness::HourRecord& hour : year.hours) {
        sum[hour.month - 1] += hour.global_w_m2 / 1000.0;
        warmth[hour.month - 1] += hour.air_c;
        ++hours[hour.month - 1];
    }
    for (int month = 0; month < 12; ++month) {
        BOOST_CHECK_SMALL(sum[month] - global[month], 0.051);
        BOOST_CHECK_SMALL(warmth[month] / hours[month] - air[month], 0.0051);
    }
}

// This EPW is not hour-ending as the format says: only the data tell.
BOOST_AUTO_TEST_CASE(an_epw_of_instants_is_found_out_by_closure) {
    const auto path = real_file("piedmont-45N-8E.epw");
    if (!path) return;
    const WeatherYear year = harness::read_weather(*path);
    BOOST_TEST((year.format == harness::WeatherFormat::epw));
    check_sums(year, {1435.86, 1591.57, 570.95, 13.564});
    BOOST_TEST(year.hours[9].global_w_m2 == 149.0);  // hour 10 of 1 January
    BOOST_TEST(year.hours[9].beam_normal_w_m2 == 125.3);
    BOOST_TEST(year.convention.from_closure);
    BOOST_TEST(!year.convention.hour_mean);
    BOOST_TEST(std::abs(year.convention.sun_shift_s - 634) <= 60);
    BOOST_TEST(says(year, "The format declares irradiances as means of the hour around -30 min"));
}

BOOST_AUTO_TEST_CASE(a_tmy3_year_is_hour_ending) {
    const auto path = real_file("sand-point-55N-160W.tmy3.csv");
    if (!path) return;
    const WeatherYear year = harness::read_weather(*path);
    BOOST_TEST((year.format == harness::WeatherFormat::tmy3));
    BOOST_REQUIRE(year.place.has_value());
    BOOST_TEST(year.place->name == "SAND POINT");
    BOOST_TEST(year.place->latitude_deg == 55.317);
    BOOST_TEST(year.place->longitude_deg == -160.517);
    BOOST_TEST(year.utc_offset_s == -9 * 3600);
    check_sums(year, {829.2, 819.2, 460.9, 4.421});
    BOOST_TEST(year.hours[0].air_c == 4.0);
    BOOST_TEST(year.hours[0].wind_m_s == 2.1);
    BOOST_TEST(year.hours[8759].air_c == -6.0);
    BOOST_TEST(year.convention.sun_shift_s == -1800);
    BOOST_TEST(year.convention.hour_mean);
    BOOST_TEST(!year.convention.from_closure);
    BOOST_TEST(year.convention.closure_w_m2 < 1.5);
    const harness::Closure closure = harness::closure_of(year);
    BOOST_TEST(std::abs(closure.best_shift_s + 1800) <= 180);
}

// The plant's sky keeps what the file has: 1e-6 of the global on the level; the diffuse gains what
// beam the sun of the simulated year cannot carry, below 1e-4. And a south roof gets more.
BOOST_AUTO_TEST_CASE(whole_years_pass_through_to_a_south_roof) {
    for (const char* name :
         {"piedmont-45N-8E.csv", "piedmont-45N-8E.epw", "sand-point-55N-160W.tmy3.csv"}) {
        const auto path = real_file(name);
        if (!path) continue;
        const WeatherYear weather = harness::read_weather(*path);
        const Sums file = sums_of(weather);
        const PlaneYear year = through_planes(weather);
        BOOST_TEST_CONTEXT(name << " global " << year.level_kwh << " of " << file.global
                                << ", diffuse " << year.diffuse_kwh << ", south " << year.south_kwh
                                << ", absorbable " << year.absorbable_kwh) {
            BOOST_TEST(year.level_kwh == file.global, boost::test_tools::tolerance(1e-6));
            BOOST_TEST(year.diffuse_kwh == file.diffuse, boost::test_tools::tolerance(1e-4));
            BOOST_TEST(year.south_kwh > 1.15 * file.global);
            BOOST_TEST(year.south_kwh < 1.35 * file.global);
            BOOST_TEST(year.absorbable_kwh < year.south_kwh);
            BOOST_TEST(year.absorbable_kwh > 0.9 * year.south_kwh);
        }
    }
}

// Both files say the same of the same place, though in another clock.
BOOST_AUTO_TEST_CASE(the_two_formats_of_one_year_make_the_same_sky) {
    const auto csv = real_file("piedmont-45N-8E.csv");
    const auto epw = real_file("piedmont-45N-8E.epw");
    if (!csv || !epw) return;
    const double one = through_planes(harness::read_weather(*csv)).south_kwh;
    const double other = through_planes(harness::read_weather(*epw)).south_kwh;
    // The EPW's shift is found to a minute, the CSV's is given to the second.
    BOOST_TEST(one == other, boost::test_tools::tolerance(5e-4));
}

BOOST_AUTO_TEST_CASE(the_basic_european_variant_needs_a_place_from_elsewhere) {
    const auto path = real_file("piedmont-45N-8E.csv");
    if (!path) return;
    std::ifstream full(*path);
    std::string line;
    std::string basic;
    bool table = false;
    while (std::getline(full, line)) {
        if (line.rfind("time(UTC)", 0) == 0) table = true;
        if (table && line.empty()) break;
        if (table) basic += line + "\r\n";
    }
    const Scratch scratch;
    const fs::path written = scratch.write("basic.csv", basic);
    const WeatherYear nowhere = harness::read_weather(written);
    BOOST_TEST(!nowhere.place.has_value());
    BOOST_TEST(says(nowhere, "names no place"));
    BOOST_TEST(nowhere.convention.sun_shift_s == 0);
    const WeatherYear somewhere =
        harness::read_weather(written, harness::WeatherPlace{"there", 45.0, 8.0, 250.0});
    BOOST_TEST(std::abs(somewhere.convention.sun_shift_s - 634) <= 60);
    BOOST_TEST(somewhere.convention.from_closure);
}

BOOST_AUTO_TEST_CASE(what_is_no_weather_file_is_named_as_what_it_is) {
    const Scratch s;
    const auto refused = [](const fs::path& path, const std::string& words) {
        const std::string text = refusal(path);
        BOOST_TEST_CONTEXT(text) BOOST_TEST(text.find(words) != std::string::npos);
    };
    refused(s.folder / "none.epw", "none.epw: there is no such weather file");
    refused(s.folder, "this is a folder, not a weather file");
    refused(s.write("empty.epw", ""), "empty.epw: the weather file is empty");
    refused(s.write("zeros", std::string("LOCATION,\0x", 11)), "this is not a text file");
    refused(s.write("page", "<html>"), "page:1:1: this is a web page, not a weather file");
    refused(s.write("year.json", "{}"), "year.json:1:1: this is JSON");
    refused(s.write("plane.csv", "Latitude:\t45\n\ntime,G(i),H_sun,T2m,WS10m,Int\n"),
            "these are hours on a tilted plane");
    refused(s.write("else", "a,b,c\n1,2,3\n"),
            "else:1:1: the format of this weather file is not known; allowed: EPW, TMY3");
    const fs::path large = s.write("large.epw", "LOCATION,");
    fs::resize_file(large, 100U << 20U);  // sparse
    refused(large,
            "100 MB is too large for a year of hours; allowed: a text file of at most 32 MB");
}

BOOST_AUTO_TEST_CASE(a_malformed_line_is_named_by_line_and_column) {
    const Scratch s;
    const auto epw_with = [&](int hour, EpwHour bad) {
        return refusal(s.write("bad.epw", made_up_epw([&](int number, EpwHour& now) {
                                   if (number == hour) now = bad;
                               })));
    };
    EpwHour text;
    text.air = "warm";
    // Eight lines of header; `1995,1,1,3,60,flags,` is 20 bytes wide.
    BOOST_TEST(
        epw_with(2, text) ==
        "bad.epw:11:21: 'warm' is not a number; allowed: dry bulb temperature from -90 to 70 "
        "degC\n");
    EpwHour hot;
    hot.air = "75";
    BOOST_TEST(epw_with(2, hot) ==
               "bad.epw:11:21: 75 is out of range; allowed: dry bulb temperature from -90 to 70 "
               "degC\n");
    EpwHour dark;
    dark.global = "-50";
    BOOST_TEST(epw_with(0, dark).find("-50 is out of range") != std::string::npos);
    const std::string cut = epw_header() + "1995,1,1,1,60,flags,5.0\n";
    BOOST_TEST(
        refusal(s.write("cut.epw", cut))
            .find("cut.epw:9:1: the line ends before the dew point: 7 fields instead of 8") !=
        std::string::npos);
    const std::string zone = "LOCATION,x,-,-,-,-,48,7.85,25,300\n";
    BOOST_TEST(refusal(s.write("zone.epw", zone))
                   .find("zone.epw:1:28: 25 is out of range; allowed: time zone from -12 to 14") !=
               std::string::npos);
    std::string half_hourly = epw_header();
    half_hourly.replace(half_hourly.find("PERIODS,1,1"), 11, "PERIODS,1,2");
    BOOST_TEST(refusal(s.write("half.epw", half_hourly)).find("half.epw:8:16: 2 is out of range") !=
               std::string::npos);
}

BOOST_AUTO_TEST_CASE(at_most_twenty_problems_are_listed) {
    const Scratch s;
    const std::string all =
        refusal(s.write("bad.epw", made_up_epw([](int, EpwHour& now) { now.air = "x"; })));
    BOOST_TEST(std::count(all.begin(), all.end(), '\n') == 20);
}

BOOST_AUTO_TEST_CASE(hours_out_of_order_or_missing_are_refused) {
    const Scratch s;
    const std::string good = made_up_epw([](int, EpwHour&) {});
    std::string without = good;
    const std::size_t line = without.find("1990,3,5,7,");
    without.erase(line, without.find('\n', line) + 1 - line);
    BOOST_TEST(refusal(s.write("gap.epw", without))
                   .find("record 8 of month 3, day 5 stands out of "
                         "order; allowed: record 7 of month 3, "
                         "day 5") != std::string::npos);
    const std::string half = good.substr(0, good.find("1990,7,1,1,"));
    BOOST_TEST(refusal(s.write("half.epw", half)) ==
               "half.epw: the file has 4344 hourly records; allowed: 8760 from 1 January to 31 "
               "December\n");
    const WeatherYear leap =
        harness::read_weather(s.write("leap.epw", made_up_epw([](int, EpwHour&) {}, true)));
    BOOST_TEST(leap.hours.size() == 8760U);
    BOOST_TEST(says(leap, "29 February (24 records) was left out."));
}

BOOST_AUTO_TEST_CASE(short_gaps_are_bridged_and_long_ones_refused) {
    const Scratch s;
    const auto year_with = [&](int from, int until, const std::string& field) {
        return s.write("gap.epw", made_up_epw([&](int number, EpwHour& now) {
                           now.air = std::to_string(number % 24);
                           if (number < from || number >= until) return;
                           if (field == "air") now.air = "99.9";
                           if (field == "wind") now.wind = "999";
                           if (field == "global") now.global = "9999";
                           if (field == "beam") now.beam = "9999";
                       }));
    };
    const WeatherYear bridged = harness::read_weather(year_with(1002, 1005, "air"));
    for (int i = 1002; i < 1005; ++i) {
        BOOST_CHECK_SMALL(bridged.hours[static_cast<std::size_t>(i)].air_c - i % 24, 1e-12);
    }
    BOOST_TEST(says(bridged, "Air temperature was missing in 3 hours and was interpolated."));
    BOOST_TEST(refusal(year_with(1002, 1006, "air")) ==
               "gap.epw:1011:1: air temperature is missing for 4 hours on end; allowed: gaps of at "
               "most 3 hours\n");
    BOOST_TEST(refusal(year_with(0, 8760, "air")).find("missing in the whole year") !=
               std::string::npos);
    const WeatherYear calm = harness::read_weather(year_with(10, 15, "wind"));
    BOOST_TEST(calm.hours[12].wind_m_s == 2.0);
    BOOST_TEST(says(calm, "Wind was missing in 5 hours: 2 m/s taken."));
    BOOST_TEST(refusal(year_with(10, 11, "global"))
                   .find("gap.epw:19:1: global horizontal "
                         "irradiance is missing") == 0U);
    BOOST_TEST(
        says(harness::read_weather(year_with(10, 12, "beam")), "Beam was missing in 2 hours"));
    // At the end of the year the gap is bridged to its beginning: 22, 23 | 0.
    const WeatherYear ring = harness::read_weather(year_with(8759, 8760, "air"));
    BOOST_CHECK_SMALL(ring.hours[8759].air_c - 11.0, 1e-12);  // between 22 and 0
}

BOOST_AUTO_TEST_CASE(bytes_of_other_alphabets_and_quoted_commas_are_taken_as_they_come) {
    const Scratch s;
    std::string text = made_up_epw([](int, EpwHour& now) { now.global = "-0.0"; });
    text.replace(text.find("Freiburg"), 8, "M\xfcnchen");
    text.replace(text.find("COMMENTS 1,plain"), 16, "COMMENTS 1,\"by hand, and M\xfcller\"");
    const WeatherYear year = harness::read_weather(s.write("latin.epw", text));
    BOOST_TEST(year.place->name == "M\xc3\xbcnchen");
    BOOST_TEST(!std::signbit(year.hours[0].global_w_m2));
    BOOST_TEST(says(year, "Too few hours with beam to test the times"));
    BOOST_TEST(harness::utf8_from("M\xc3\xbcnchen") == "M\xc3\xbcnchen");
    const auto fields = harness::split_fields("a, \"b, c\" ,,d");
    BOOST_REQUIRE(fields.size() == 4U);
    BOOST_TEST(fields[1].text == "b, c");
    BOOST_TEST(fields[1].column == 5);
    BOOST_TEST(fields[2].text.empty());
    BOOST_TEST(fields[3].column == 12);
}

BOOST_AUTO_TEST_SUITE_END()
