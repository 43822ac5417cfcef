// SPDX-License-Identifier: MIT
// The seeded average-climate year as the plant receives it, against the monthly irradiance on a
// plane of 45 degrees to the south in Regulation (EU) 812/2013, Annex VII, table 5.
#include "bench_days.hpp"

#include "plant/climate.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/sky_feed.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(published_year)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
namespace plant = noonbench::plant;

constexpr double promised_pct = 0.5;  // of each month, climate.hpp

Scenario average_year() {
    Scenario scenario = day("../years/average_climate");
    scenario.plant.site = plant::climate_table(plant::Climate::average).reference_site;
    scenario.plant.rows[0].slope_rad = plant::radians(45.0);
    scenario.plant.rows[0].azimuth_rad = plant::radians(180.0);
    return scenario;
}

}  // namespace

BOOST_AUTO_TEST_CASE(months_of_the_average_climate_reach_the_plant_as_the_regulation_has_them) {
    // W/m2 as means over 24 h
    const std::array<double, 12> table{70, 104, 149, 192, 221, 222, 232, 217, 176, 129, 80, 56};
    const Scenario scenario = average_year();
    SkyFeed sky(scenario);
    std::array<double, 12> received_j{};
    std::array<double, 12> seconds{};
    for (CivilSeconds now = scenario.start_s; now < scenario.start_s + 365 * 86400;) {
        const plant::WeatherSpan& span = sky.at(now);
        BOOST_TEST_REQUIRE(span.from.at_s == now);  // no stretch is skipped or taken twice
        const auto length = static_cast<double>(span.to.at_s - now);
        const std::size_t month = date_of(now).month - 1;
        received_j[month] += 0.5 * length * (span.from.received_w_m2[0] + span.to.received_w_m2[0]);
        seconds[month] += length;
        now = span.to.at_s;
    }
    for (std::size_t month = 0; month < 12; ++month) {
        BOOST_TEST_CONTEXT("month " << month + 1) {
            BOOST_CHECK_CLOSE(received_j[month] / seconds[month], table[month], promised_pct);
        }
    }
}

BOOST_AUTO_TEST_CASE(the_sums_of_a_run_are_those_of_its_sky) {
    Scenario scenario = average_year();
    scenario.start_s = midnight_of({2026, 7, 6});
    scenario.length_s = 5 * 86400;
    scenario.record.every_s = 3600;
    const RunResult result = run(scenario);
    SkyFeed sky(scenario);
    double received_j = 0.0;
    for (CivilSeconds now = scenario.start_s; now < scenario.start_s + scenario.length_s;) {
        const plant::WeatherSpan& span = sky.at(now);
        received_j += 0.5 * static_cast<double>(span.to.at_s - now) *
                      (span.from.received_w_m2[0] + span.to.received_w_m2[0]);
        now = span.to.at_s;
    }
    BOOST_TEST(result.total.sun_kwh_m2 > 10.0);
    BOOST_CHECK_CLOSE(result.total.sun_kwh_m2, received_j / 3.6e6, 1e-7);
}

BOOST_AUTO_TEST_CASE(a_day_is_the_same_whether_it_is_reached_or_asked_for) {
    const Scenario scenario = average_year();
    SkyFeed walked(scenario);
    const CivilSeconds noon = midnight_of({2026, 1, 20}) + 43200;
    for (CivilSeconds now = scenario.start_s; now <= noon; now += 600) (void)walked.at(now);
    SkyFeed jumped(scenario);
    const plant::WeatherSpan there = jumped.at(noon);
    BOOST_TEST(walked.at(noon).from.received_w_m2[0] == there.from.received_w_m2[0]);
    BOOST_TEST(walked.at(noon).to.at_s == there.to.at_s);
    (void)jumped.at(noon + 20 * 86400);
    BOOST_TEST(jumped.at(noon).from.received_w_m2[0] == there.from.received_w_m2[0]);  // and back
}

BOOST_AUTO_TEST_SUITE_END()
