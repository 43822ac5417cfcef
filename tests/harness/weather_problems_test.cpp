// SPDX-License-Identifier: MIT
// Small, malformed or incomplete weather files, written for the purpose.
#include "weather_scratch.hpp"

#include "harness/weather/text_file.hpp"
#include "harness/weather/weather_file.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <functional>
#include <sstream>
#include <string>

BOOST_AUTO_TEST_SUITE(weather_problems)

namespace {

using namespace noonbench;
using harness::WeatherYear;
using harness::test::says;
using harness::test::Scratch;
namespace fs = std::filesystem;

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
    BOOST_TEST(fields[3].column == 13);
}

BOOST_AUTO_TEST_SUITE_END()
