// SPDX-License-Identifier: MIT
// Whether a practitioner would believe the healthy days: their figures within the ranges that the
// trade expects.
#include "shelf_runs.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <iterator>
#include <map>
#include <stdexcept>
#include <string>

BOOST_AUTO_TEST_SUITE(believable_days)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

// ------------------------------------------------------------------ the ranges

enum class Season { april, july, january };

struct Range {
    Season season;
    const char* quantity;
    double least;
    double most;
};

// All: common practice, no source. For 4 m2, 250..300 l, 2.6 l/min, speed control, clear sky; air
// 6..17, 15..27 and -2..5 degC. Hours are of solar time. Heat to the store is given a square metre,
// of glass; in July it is capped by the store.
constexpr Range ranges[] = {
    {Season::april, "sun on the plane, kWh/m2", 6.0, 7.2},
    {Season::april, "first start, h", 7.25, 8.25},
    {Season::april, "last stop, h", 15.75, 16.75},
    {Season::april, "pump hours", 6.5, 8.5},
    {Season::april, "starts", 2, 6},
    {Season::april, "collector at noon, degC", 50, 75},
    {Season::april, "collector highest, degC", 60, 85},
    {Season::april, "collector over store bottom at noon, K", 10, 18},
    {Season::april, "station hot over cold at noon, K", 9, 14},
    {Season::april, "station cold over store bottom at noon, K", 1.5, 5},
    {Season::april, "heat to the store, kWh/m2", 2.1, 2.9},
    {Season::april, "store bottom at dawn, degC", 14, 25},
    {Season::april, "store bottom in the afternoon, degC", 48, 62},
    {Season::april, "store top at dawn, degC", 45, 55},
    {Season::april, "store top in the evening, degC", 58, 70},
    {Season::april, "pump electricity of heat, %", 0, 4},
    {Season::april, "collector under air before dawn, K", 1, 7},
    {Season::april, "gauge at dawn, bar", 2.0, 2.3},
    {Season::april, "gauge in the afternoon over dawn, bar", 0.1, 0.4},
    {Season::july, "sun on the plane, kWh/m2", 6.5, 7.8},
    {Season::july, "first start, h", 6.833, 8.0},
    {Season::july, "pump hours", 5, 9},
    {Season::july, "starts", 2, 8},
    {Season::july, "collector at noon, degC", 60, 88},
    {Season::july, "collector over store bottom at noon, K", 10, 19},
    {Season::july, "station hot over cold at noon, K", 9, 14},
    {Season::july, "station cold over store bottom at noon, K", 1.5, 5},
    {Season::july, "heat to the store, kWh/m2", 1.9, 2.9},
    {Season::july, "store bottom at dawn, degC", 20, 35},
    {Season::july, "store bottom in the afternoon, degC", 60, 75},
    {Season::july, "store top at dawn, degC", 50, 62},
    {Season::july, "store top in the evening, degC", 65, 78},
    {Season::july, "pump electricity of heat, %", 0, 4},
    {Season::july, "gauge at dawn, bar", 2.0, 2.3},
    {Season::july, "gauge in the afternoon over dawn, bar", 0.1, 0.4},
    {Season::january, "sun on the plane, kWh/m2", 2.3, 3.4},
    {Season::january, "first start, h", 8.75, 9.75},
    {Season::january, "last stop, h", 14.25, 15.25},
    {Season::january, "pump hours", 3.5, 5.5},
    {Season::january, "starts", 2, 8},
    {Season::january, "collector at noon, degC", 30, 48},
    {Season::january, "collector highest, degC", 35, 50},
    {Season::january, "collector over store bottom at noon, K", 5, 10},
    {Season::january, "station hot over cold at noon, K", 5, 9},
    {Season::january, "station cold over store bottom at noon, K", 1, 3},
    {Season::january, "heat to the store, kWh/m2", 0.6, 1.25},
    {Season::january, "store bottom at dawn, degC", 9, 15},
    {Season::january, "store bottom in the afternoon, degC", 30, 42},
    {Season::january, "store top in the evening, degC", 48, 55},
    {Season::january, "pump electricity of heat, %", 0, 4},
    {Season::january, "collector under air before dawn, K", 1, 7},
    {Season::january, "gauge at dawn, bar", 1.9, 2.2},
    {Season::january, "gauge in the afternoon over dawn, bar", 0.1, 0.4},
};

/// Where the physics of this bench says otherwise, with the reason; each is held to its own range,
/// and a row that the trade's range would hold by now has to go.
struct Exception {
    Season season;
    const char* quantity;
    double least;
    double most;
    const char* why;
};
constexpr Exception exceptions[] = {
    {Season::april, "pump hours", 8.5, 9.0,
     "at its least level the pump lives on some 100 W/m2, which stretches both ends of the day"},
    {Season::april, "starts", 1.0, 1.0,
     "at 30 % of its level the pump moves a fifth of its flow over the check valve's spring: no "
     "slug "
     "of cold fluid stops a run that begins so gently"},
    {Season::july, "starts", 1.0, 1.0, "the same"},
    {Season::january, "starts", 1.0, 1.0, "the same"},
    {Season::january, "pump hours", 5.5, 5.7, "the same"},
    {Season::july, "first start, h", 6.6, 6.833, "the same"},
    {Season::july, "pump hours", 9.0, 9.7, "the same, and the store does not fill"},
    {Season::january, "station cold over store bottom at noon, K", 0.2, 1.0,
     "the flow is throttled in the weak sun, so the coil brings it close to the store"},
    {Season::april, "gauge in the afternoon over dawn, bar", 0.05, 0.1,
     "15 l of fluid grow by 0.4 l and the vessel of the rule gives 5 l a bar; the pump's own "
     "pressure and a vessel that warms, which the trade sees as well, are left out"},
    {Season::july, "gauge in the afternoon over dawn, bar", 0.05, 0.1, "the same"},
    {Season::january, "gauge in the afternoon over dawn, bar", 0.02, 0.1, "the same"},
};

constexpr double glass_m2 = 4.0;

/// April is the shelf's own day. The other two are the same house in another season; the second of
/// two equal days counts, so that the store is the household's and not the scenario's.
const RunResult& healthy(Season season) {
    const char* name = "clear_spring_day";
    switch (season) {
        case Season::april:
            return run_of(name);
        case Season::july:
            return run_of(
                name, {"length=2 day", "start=2026-07-15 00:00", "sky.clear_day.air_least=15 degC",
                       "sky.clear_day.air_most=27 degC"});
        case Season::january:
            return run_of(
                name, {"length=2 day", "start=2026-01-20 00:00", "sky.clear_day.air_least=-2 degC",
                       "sky.clear_day.air_most=5 degC", "store.start_bottom=12 degC"});
    }
    throw std::logic_error("season");
}

/// Solar minus standard time at 8.1 degrees east of UTC + 1 h: -27.6 min and the equation of time
/// (about 0 on 15 April, -6 min on 15 July, -11 min on 20 January; any almanac, to a minute).
double solar_minus_clock_h(Season season) {
    const std::map<Season, double> minutes{
        {Season::april, -27.6}, {Season::july, -33.6}, {Season::january, -38.6}};
    return minutes.at(season) / 60.0;
}

/// The figures of the table for the day that counts, by their names there.
std::map<std::string, double> figures_of(Season season) {
    const RunResult& r = healthy(season);
    const std::size_t of_day = season == Season::april ? 0 : 1;
    const Sums& s = r.days.at(of_day);
    const double shift = solar_minus_clock_h(season);
    const double noon = 12.0 - shift;
    const auto now = [&](const char* column, double hour) { return at(r, column, hour, of_day); };
    const double bottom = now("store_bottom_reading_c", noon);
    return {
        {"sun on the plane, kWh/m2", s.sun_kwh_m2},
        {"first start, h", static_cast<double>(s.first_start_s) / 3600.0 + shift},
        {"last stop, h", static_cast<double>(s.last_stop_s) / 3600.0 + shift},
        {"pump hours", s.pump_run_h},
        {"starts", static_cast<double>(s.pump_starts)},
        {"collector at noon, degC", now("collector_reading_c", noon)},
        {"collector highest, degC", s.collector_highest_c},
        {"collector over store bottom at noon, K", now("collector_reading_c", noon) - bottom},
        {"station hot over cold at noon, K",
         now("station_hot_c", noon) - now("station_cold_c", noon)},
        {"station cold over store bottom at noon, K", now("station_cold_c", noon) - bottom},
        {"heat to the store, kWh/m2", s.to_store_kwh / glass_m2},
        {"store bottom at dawn, degC",
         now("store_bottom_reading_c", season == Season::january ? 8.5 : 6.0)},
        {"store bottom in the afternoon, degC", now("store_bottom_reading_c", 16.0)},
        {"store top at dawn, degC", now("store_top_reading_c", 6.0)},
        {"store top in the evening, degC", now("store_top_reading_c", 18.0)},
        {"pump electricity of heat, %", 100.0 * s.pump_electricity_kwh / s.to_store_kwh},
        {"collector under air before dawn, K", now("air_c", 4.0) - now("collector_reading_c", 4.0)},
        {"gauge at dawn, bar", now("gauge_bar", 6.0)},
        {"gauge in the afternoon over dawn, bar", now("gauge_bar", 14.0) - now("gauge_bar", 6.0)},
    };
}

void check_season(Season season) {
    const auto figures = figures_of(season);
    for (const Range& range : ranges) {
        if (range.season != season) continue;
        const double value = figures.at(range.quantity);
        const auto* exception =
            std::find_if(std::begin(exceptions), std::end(exceptions), [&](const Exception& e) {
                return e.season == season && std::string(e.quantity) == range.quantity;
            });
        if (exception != std::end(exceptions)) {
            BOOST_TEST((value >= exception->least && value <= exception->most),
                       range.quantity << " is " << value << ", by our physics from "
                                      << exception->least << " to " << exception->most << ": "
                                      << exception->why);
            continue;
        }
        BOOST_TEST((value >= range.least && value <= range.most),
                   range.quantity << " is " << value << ", believed from " << range.least << " to "
                                  << range.most);
    }
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_clear_april_day_is_one_that_a_practitioner_believes) {
    check_season(Season::april);
}

BOOST_AUTO_TEST_CASE(a_clear_july_day_is_one_that_a_practitioner_believes) {
    check_season(Season::july);
}

BOOST_AUTO_TEST_CASE(a_clear_january_day_is_one_that_a_practitioner_believes) {
    check_season(Season::january);
}

BOOST_AUTO_TEST_SUITE_END()
