// SPDX-License-Identifier: MIT
// Real files of each format, from the folder NOONBENCH_WEATHER_DIR or ../shared/weather beside the
// sources, where they are.
#include "weather_scratch.hpp"

#include "plant/calendar.hpp"
#include "plant/hourly_sky.hpp"
#include "plant/irradiance.hpp"
#include "plant/si.hpp"
#include "plant/sun.hpp"

#include "harness/weather/convention.hpp"
#include "harness/weather/weather_file.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <optional>
#include <span>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(weather)

namespace {

using namespace noonbench;
using harness::WeatherYear;
using harness::test::says;
using harness::test::Scratch;
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

}  // namespace

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

BOOST_AUTO_TEST_SUITE_END()
