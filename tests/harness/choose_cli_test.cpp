// SPDX-License-Identifier: MIT
// `noonbench choose` from outside, for a site with a weather file of its own: some twenty seconds
// on two cores. And whether its sheet is one side of A4.
#include "browser.hpp"
#include "choose_settings_sheet_demo.hpp"
#include "program.hpp"

#include "harness/bench/clock.hpp"
#include "harness/choose/settings_sheet.hpp"
#include "plant/sun.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>
#include <vector>

#include <fmt/format.h>

BOOST_AUTO_TEST_SUITE(choose_cli)

namespace {

using namespace noonbench;
using namespace noonbench::harness::testing;

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

constexpr const char* epw_header =
    "LOCATION,Quellrain,-,DEU,made up,unknown,47.9,8.1,1.0,420.0\n"
    "DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n"
    "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,made up by a test\nCOMMENTS 2,\n"
    "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n";

/// An hour of a made-up year, 2001: clear and dull days by turns, cold in January.
std::string epw_hour(harness::CivilDate date, int day, int hour) {
    const plant::Site site;
    const double middle_s = static_cast<double>(harness::midnight_of(date)) + 3600.0 * (hour - 0.5);
    const double height =
        std::max(0.0, std::sin(plant::sun_position(site, middle_s).elevation_rad));
    const double clear = height > 0.0 ? 900.0 * std::exp(-0.13 / std::max(0.05, height)) : 0.0;
    const double beam = day % 3 == 0 ? 0.0 : clear;
    const double diffuse = (day % 3 == 0 ? 300.0 : 110.0) * height;
    const double air_c =
        9.0 - 9.0 * std::cos(2.0 * M_PI * (day - 15) / 365.0) - 4.0 * std::cos(M_PI * hour / 12.0);
    return fmt::format(
        "2001,{},{},{},60,flags,{:.1f},2.0,80,97000,9999,9999,9999,{:.0f},{:.0f},{:.0f},999999,"
        "999999,999999,9999,180,3.0,5,5,9999,99999,9,999999999,999,0.999,999,99,999,999,99\n",
        date.month, date.day, hour, air_c, beam * height + diffuse, beam, diffuse);
}

std::string made_up_year() {
    std::string text = epw_header;
    const unsigned days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int number = 0;
    for (unsigned month = 1; month <= 12; ++month) {
        for (unsigned day = 1; day <= days[month - 1]; ++day, ++number) {
            for (int hour = 1; hour <= 24; ++hour) {
                text += epw_hour({2001, month, day}, number, hour);
            }
        }
    }
    return text;
}

/// Few dimensions, so that the reasons take few runs: its pump knows on and off, and the boiler has
/// a thermostat of its own.
std::string small_site() {
    return "based_on: " + std::string(NOONBENCH_SOURCE_DIR) +
           "/scenarios/sites/orchard_lane_3.yaml\n"
           "sky:\n  weather:\n    file: weather/quellrain.epw\n"
           "loop:\n  pump:\n    takes_speed_signal: no\n"
           "backup:\n  by_controller: no\n";
}

harness::Chosen with_settings(std::size_t count) {
    harness::Chosen chosen = invented_search();
    const std::vector<harness::ChosenSetting> some = chosen.settings;
    chosen.settings.clear();
    for (std::size_t i = 0; i < count; ++i) chosen.settings.push_back(some[i % some.size()]);
    return chosen;
}

boost::test_tools::assertion_result asked_for_sites(boost::unit_test::test_unit_id /*test*/) {
    return std::getenv("NOONBENCH_CHOOSE_SITES") != nullptr;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_site_with_a_weather_file_gets_its_sheet) {
    const Bay bay;
    bay.write("site.yaml", small_site());
    bay.write("weather/quellrain.epw", made_up_year());
    std::vector<std::string> command{"choose",   "site.yaml", "--into",         "found",
                                     "--budget", "10",        "--fresh-worlds", "2"};
    const Finished first = noonbench_in(bay, command);
    BOOST_TEST_REQUIRE(first.exit_code == 0, first.err);
    BOOST_TEST(has(first.out, "start difference"));
    const std::string sheet = content_of(bay / "found/settings_sheet.html");
    BOOST_TEST(has(sheet, "weather of quellrain.epw, other clouds in each world"));
    BOOST_TEST((has(sheet, " instead: ") || has(sheet, "Left at ")));
    BOOST_TEST(first_fault_of_page(sheet) == "");
    const std::string page = content_of(bay / "found/trade_off.html");
    BOOST_TEST(has(page, "What was searched"));
    BOOST_TEST(first_fault_of_page(page) == "");
    if (const auto paper = printed(bay, bay / "found/settings_sheet.html")) {
        BOOST_TEST(paper->pages == 1U);
        BOOST_TEST(paper->a4);
    }
    // What is there is not written over, and going on with it gives the same bytes.
    BOOST_TEST(noonbench_in(bay, command).exit_code == 2);
    command.emplace_back("--resume");
    const Finished again = noonbench_in(bay, command);
    BOOST_TEST(again.exit_code == 0, again.err);
    BOOST_TEST(again.out == first.out);
    BOOST_TEST((content_of(bay / "found/settings_sheet.html") == sheet));
    // The rows belong to this weather.
    std::string other = made_up_year();
    other.replace(other.find(",60,flags,") + 10, 1, "1");
    bay.write("weather/quellrain.epw", other);
    const Finished changed = noonbench_in(bay, command);
    BOOST_TEST(changed.exit_code == 2);
    BOOST_TEST(has(changed.err, "results.sqlite"), changed.err);
}

BOOST_AUTO_TEST_CASE(a_weather_file_that_cannot_serve_is_refused_by_its_place) {
    const Bay bay;
    bay.write("site.yaml", small_site());
    bay.write("weather/quellrain.epw", std::string(epw_header) + "2001,1,1,1,60,flags,warm\n");
    const Finished f = noonbench_in(bay, {"choose", "site.yaml", "--into", "found"});
    BOOST_TEST(f.exit_code == 2);
    BOOST_TEST(has(f.err, "quellrain.epw:9:"), f.err);
}

BOOST_AUTO_TEST_CASE(a_sheet_of_up_to_ten_settings_is_one_side_of_a4) {
    const Bay bay;
    for (const std::size_t count : {1U, 5U, 6U, 7U, 8U, 9U, 10U}) {
        bay.write("sheet.html", harness::settings_sheet_html(with_settings(count)));
        const auto paper = printed(bay, bay / "sheet.html");
        if (!paper) return;
        BOOST_TEST_CONTEXT(count << " settings") {
            BOOST_TEST(paper->pages == 1U);
            BOOST_TEST(paper->a4);
        }
    }
    // What is too much takes a second side: the count can tell.
    harness::Chosen much = with_settings(10);
    much.flat_sentence.clear();
    for (int i = 0; i < 300; ++i) much.flat_sentence += "too much is said ";
    for (harness::ChosenSetting& setting : much.settings) setting.because += much.flat_sentence;
    bay.write("sheet.html", harness::settings_sheet_html(much));
    BOOST_TEST(printed(bay, bay / "sheet.html")->pages > 1U);
}

// Six minutes on two cores: NOONBENCH_CHOOSE_SITES=1 harness_tests --run_test=choose_cli
BOOST_AUTO_TEST_CASE(each_demo_site_gets_one_side_of_a4,
                     *boost::unit_test::precondition(asked_for_sites)) {
    for (const char* site : {"chapel_house", "mill_row_12", "orchard_lane_3", "ridge_farm"}) {
        const Bay bay;
        const std::string file =
            fmt::format("{}/scenarios/sites/{}.yaml", NOONBENCH_SOURCE_DIR, site);
        const Finished f = noonbench_in(bay, {"choose", file, "--into", "found"});
        BOOST_TEST_REQUIRE(f.exit_code == 0, f.err);
        const std::string sheet = content_of(bay / "found/settings_sheet.html");
        BOOST_TEST(first_fault_of_page(sheet) == "");
        BOOST_TEST(first_fault_of_page(content_of(bay / "found/trade_off.html")) == "");
        if (const auto paper = printed(bay, bay / "found/settings_sheet.html")) {
            BOOST_TEST(paper->pages == 1U, site << " takes " << paper->pages << " sides");
            BOOST_TEST(paper->a4);
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
