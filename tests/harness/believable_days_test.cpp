// SPDX-License-Identifier: MIT
// Whether a practitioner would believe the days on the shelf: figures of healthy days within the
// ranges that the trade expects, and of every day the shape that its `about` promises.
#include "bench_days.hpp"
#include "harness/bench/clock.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
using noonbench::firmware::BackupReason;
using noonbench::firmware::PumpReason;

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
// since Orchard Lane has 4.2 m2; in July it is capped by the store.
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
};

// ------------------------------------------------------------------ runs, each made once

const RunResult& run_of(const std::string& name, std::vector<std::string> sets = {}) {
    static std::map<std::string, RunResult> runs;
    std::string key = name;
    for (const auto& set : sets) key += " " + set;
    auto found = runs.find(key);
    if (found == runs.end()) {
        sets.emplace_back("record.every=60 s");
        found = runs.emplace(key, run(day(name, sets))).first;
    }
    return found->second;
}

/// The second of two equal days, so that the store is the household's and not the scenario's.
const RunResult& healthy(Season season) {
    const char* name = "clear_spring_day";
    switch (season) {
        case Season::april:
            return run_of(name, {"length=2 day"});
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

/// A column at a clock time of a day of the run.
double at(const RunResult& r, const std::string& column, double hour, std::size_t of_day = 0) {
    const std::int64_t when = day_start(r.scenario.start_s) +
                              static_cast<std::int64_t>(of_day) * 86400 +
                              std::llround(hour * 60.0) * 60;
    const auto row =
        static_cast<std::size_t>((when - r.scenario.start_s) / r.scenario.record.every_s);
    return r.trace.value(row, r.trace.column(column));
}

/// The figures of the table for the second day of a run, by their names there.
std::map<std::string, double> figures_of(Season season) {
    const RunResult& r = healthy(season);
    const Sums& s = r.days.at(1);
    const double shift = solar_minus_clock_h(season);
    const double noon = 12.0 - shift;
    const auto now = [&](const char* column, double hour) { return at(r, column, hour, 1); };
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
        {"heat to the store, kWh/m2", s.to_store_kwh / 4.2},
        {"store bottom at dawn, degC",
         now("store_bottom_reading_c", season == Season::january ? 8.5 : 6.0)},
        {"store bottom in the afternoon, degC", now("store_bottom_reading_c", 16.0)},
        {"store top at dawn, degC", now("store_top_reading_c", 6.0)},
        {"store top in the evening, degC", now("store_top_reading_c", 18.0)},
        {"pump electricity of heat, %", 100.0 * s.pump_electricity_kwh / s.to_store_kwh},
        {"collector under air before dawn, K", now("air_c", 4.0) - now("collector_reading_c", 4.0)},
    };
}

void check_season(Season season) {
    const auto figures = figures_of(season);
    for (const Range& range : ranges) {
        if (range.season != season) continue;
        const double value = figures.at(range.quantity);
        BOOST_TEST((value >= range.least && value <= range.most),
                   range.quantity << " is " << value << ", believed from " << range.least << " to "
                                  << range.most);
    }
}

double hours(const Sums& sums, PumpReason reason) {
    return sums.reason_h[static_cast<std::size_t>(reason)];
}

/// Lowest value of a column between two clock times of a day.
double lowest(const RunResult& r, const std::string& column, double from, double until,
              std::size_t of_day = 0) {
    double least = 1e300;
    for (double h = from; h <= until; h += 1.0 / 60.0)
        least = std::min(least, at(r, column, h, of_day));
    return least;
}

bool ever_given(const RunResult& r, const char* reason) {
    return std::any_of(r.events.begin(), r.events.end(),
                       [&](const auto& e) { return e.what == "reason" && e.to == reason; });
}

/// Share of the minutes between two clock times in which `holds` is true.
double share_of_minutes(double from, double until, const std::function<bool(double)>& holds) {
    int all = 0;
    int good = 0;
    for (double h = from; h < until; h += 1.0 / 60.0, ++all) good += holds(h) ? 1 : 0;
    return static_cast<double>(good) / all;
}

const RunResult& clear_day() {
    return run_of("clear_spring_day");
}

}  // namespace

BOOST_AUTO_TEST_SUITE(believable_days)

BOOST_AUTO_TEST_CASE(a_clear_april_day_is_one_that_a_practitioner_believes) {
    check_season(Season::april);
}

BOOST_AUTO_TEST_CASE(a_clear_july_day_is_one_that_a_practitioner_believes) {
    check_season(Season::july);
}

BOOST_AUTO_TEST_CASE(a_clear_january_day_is_one_that_a_practitioner_believes) {
    check_season(Season::january);
}

BOOST_AUTO_TEST_CASE(every_days_books_balance_and_healthy_days_bring_no_advice) {
    for (const char* name :
         {"boiler_before_the_sun", "clear_spring_day", "east_west_roof", "frosty_night_glycol",
          "frosty_night_water", "holiday_without_draws", "hot_idle_august_week", "long_pipe_run",
          "morning_shower_rush", "passing_clouds", "sensor_out_of_its_pocket",
          "short_cycling_difference", "wrong_flow_typed_in"}) {
        BOOST_TEST_CONTEXT(name) {
            const RunResult& r = run_of(name);
            BOOST_TEST(r.balance.holds);
            BOOST_TEST(r.balance.boundary_gap < 1e-3);
        }
    }
    for (const char* name : {"clear_spring_day", "passing_clouds", "long_pipe_run",
                             "morning_shower_rush", "hot_idle_august_week", "east_west_roof",
                             "frosty_night_glycol", "holiday_without_draws"}) {
        const RunResult& r = run_of(name);
        BOOST_TEST(r.advice.empty(), name << ": " << (r.advice.empty() ? "" : r.advice.front()));
    }
}

BOOST_AUTO_TEST_CASE(clear_spring_day_keeps_its_promises) {
    const RunResult& r = clear_day();
    double sunrise = 0.0;
    while (at(r, "sun_row_1_w_m2", sunrise) < 20.0) sunrise += 1.0 / 60.0;
    const double start = static_cast<double>(r.days[0].first_start_s) / 3600.0;
    BOOST_TEST((start - sunrise > 0.5 && start - sunrise < 2.0),
               "sun from " << sunrise << ", start " << start);  // "about an hour"
    const double within = share_of_minutes(10.5, 14.5, [&](double h) {
        const double gap = at(r, "collector_reading_c", h) - at(r, "store_bottom_reading_c", h);
        return gap >= 9.5 && gap <= 13.5;  // "10 to 13 degrees", to half a degree
    });
    BOOST_TEST(within > 0.9);
    BOOST_TEST(at(r, "collector_reading_c", 4.0) < at(r, "air_c", 4.0));
}

BOOST_AUTO_TEST_CASE(passing_clouds_keeps_its_promises) {
    const RunResult& r = run_of("passing_clouds");
    // five minutes from 09:40: 5 to 15 degrees, and the pump lives through it
    const double before = at(r, "collector_reading_c", 9.0 + 39.0 / 60.0);
    const double dip = before - lowest(r, "collector_reading_c", 9.67, 9.85);
    BOOST_TEST((dip >= 5.0 && dip <= 15.0), "the collector falls by " << dip << " K");
    BOOST_TEST(lowest(r, "pump_relay", 9.6, 9.9) == 1.0);
    BOOST_TEST(lowest(r, "pump_relay", 10.95, 11.2) == 1.0);
    // a longer one stops it
    BOOST_TEST(lowest(r, "pump_relay", 11.5, 12.0) == 0.0);
    BOOST_TEST(lowest(r, "pump_relay", 14.4, 15.1) == 0.0);
    for (const auto& e : r.events) {
        if (e.name != "pump_reason" || e.from != "collecting") continue;
        BOOST_TEST((e.to == "waiting_for_sun" || e.to == "resting"), e.to);
    }
}

BOOST_AUTO_TEST_CASE(boiler_before_the_sun_keeps_its_promises) {
    const Sums& s = run_of("boiler_before_the_sun").days[0];
    const Sums& clear = clear_day().days[0];
    BOOST_TEST(s.first_start_s > clear.first_start_s);
    BOOST_TEST(s.last_stop_s < clear.last_stop_s);
    BOOST_TEST(s.to_store_kwh < clear.to_store_kwh);
    BOOST_TEST(s.backup_kwh > clear.backup_kwh);
}

BOOST_AUTO_TEST_CASE(east_west_roof_keeps_its_promises) {
    const RunResult& r = run_of("east_west_roof");
    BOOST_TEST(at(r, "row_1_outlet_c", 9.0) > at(r, "row_2_outlet_c", 9.0) + 2.0);
    BOOST_TEST(at(r, "row_2_outlet_c", 17.0) > at(r, "row_1_outlet_c", 17.0) + 2.0);
    BOOST_TEST(at(r, "pump_relay", 9.0) == 1.0);
    BOOST_TEST(at(r, "pump_relay", 17.0) == 1.0);
    BOOST_TEST(r.days[0].first_start_s < clear_day().days[0].first_start_s);
    BOOST_TEST(r.days[0].last_stop_s > clear_day().days[0].last_stop_s);
}

BOOST_AUTO_TEST_CASE(frosty_night_water_keeps_its_promises) {
    const RunResult& r = run_of("frosty_night_water");
    BOOST_TEST(hours(r.total, PumpReason::guarding_frost) > 0.1);
    BOOST_TEST(lowest(r, "collector_reading_c", 12.1, 35.9) > 0.0);  // it does not freeze
    const RunResult& glycol = run_of("frosty_night_glycol");
    // what the guard costs: the store is cooler by morning than beside it
    BOOST_TEST(at(r, "store_layer_01_c", 7.0, 1) < at(glycol, "store_layer_01_c", 7.0, 1) - 1.0);
    BOOST_TEST(hours(glycol.total, PumpReason::guarding_frost) == 0.0);
    BOOST_TEST(at(glycol, "collector_reading_c", 4.0, 1) < at(glycol, "air_c", 4.0, 1) - 1.0);
    BOOST_TEST(lowest(glycol, "collector_reading_c", 18.0, 30.0) > -21.0);
    for (double h = 18.0; h < 30.0; h += 1.0 / 60.0) {
        BOOST_TEST_REQUIRE(at(glycol, "pump_relay", h) == 0.0);  // "nothing has to run"
    }
}

BOOST_AUTO_TEST_CASE(holiday_without_draws_keeps_its_promises) {
    const RunResult& r = run_of("holiday_without_draws");
    BOOST_TEST(r.days.size() == 5U);
    BOOST_TEST(r.total.tapped_kwh == 0.0);  // "five days without a draw"
    for (std::size_t night = 0; night < 3; ++night) {
        const double shed = share_of_minutes(
            21.5, 27.5, [&](double h) { return at(r, "pump_relay", h, night) == 1.0; });
        BOOST_TEST(shed > 0.1, "night " << night << " runs " << shed << " of the time");
    }
    // "cool enough to take the sun": no day in holiday mode ends at the store's limit or in steam
    for (std::size_t i = 1; i < 4; ++i) {
        BOOST_TEST(r.days[i].stagnation_h == 0.0, "day " << i);
        BOOST_TEST(r.days[i].to_store_kwh + 0.0 > -1.0);
    }
    BOOST_TEST(hours(r.days[4], PumpReason::shedding_by_night) <
               hours(r.days[2], PumpReason::shedding_by_night));
}

BOOST_AUTO_TEST_CASE(hot_idle_august_week_keeps_its_promises) {
    const RunResult& r = run_of("hot_idle_august_week");
    BOOST_TEST(hours(r.days[0], PumpReason::store_full) + hours(r.days[1], PumpReason::store_full) >
               0.0);
    for (std::size_t i = 2; i < r.days.size(); ++i) {
        BOOST_TEST_CONTEXT("day " << i) {
            BOOST_TEST(r.days[i].last_stop_s < 12 * 3600);
            BOOST_TEST(r.days[i].pump_starts >= 1);  // "next morning it starts by itself"
            BOOST_TEST(r.days[i].collector_highest_c > r.boiling_point_c);
            // common practice, no source: 140 to 170 degC where the store is full
            BOOST_TEST(
                (r.days[i].collector_highest_c >= 140.0 && r.days[i].collector_highest_c <= 170.0),
                r.days[i].collector_highest_c);
            BOOST_TEST(at(r, "row_1_hottest_c", 21.0, i) < r.boiling_point_c - 40.0);
        }
    }
    BOOST_TEST(r.total.store_top_highest_c < 80.0);
}

BOOST_AUTO_TEST_CASE(long_pipe_run_keeps_its_promises) {
    const Sums& s = run_of("long_pipe_run").days[0];
    const Sums& clear = clear_day().days[0];
    BOOST_TEST(s.pump_starts > clear.pump_starts);
    BOOST_TEST(s.pipe_loss_kwh > 1.5 * clear.pipe_loss_kwh);
    BOOST_TEST(s.to_store_kwh < clear.to_store_kwh);
}

BOOST_AUTO_TEST_CASE(morning_shower_rush_keeps_its_promises) {
    const RunResult& r = run_of("morning_shower_rush");
    const Sums& s = r.days[0];
    const double mains_c = 8.5;  // 10 degC in the mean, about the coldest third of the year
    BOOST_TEST(lowest(r, "store_layer_01_c", 6.3, 9.0) < mains_c + 3.0);
    BOOST_TEST(s.first_start_s < clear_day().days[0].first_start_s);
    BOOST_TEST(s.pump_starts <= 2);  // "starts early and stays"
    BOOST_TEST(s.cool_l > 0.0);
    BOOST_TEST(ever_given(r, "leaving_it_to_the_sun"));
    // four showers of 1.9 kWh are some 50 l each; a household does not draw twice its store
    BOOST_TEST(s.tapped_l < 350.0);
}

BOOST_AUTO_TEST_CASE(sensor_out_of_its_pocket_keeps_its_promises) {
    const RunResult& r = run_of("sensor_out_of_its_pocket");
    const Sums& clear = clear_day().days[0];
    BOOST_TEST(static_cast<double>(r.days[0].first_start_s - clear.first_start_s) / 3600.0 >= 1.5);
    BOOST_TEST(static_cast<double>(clear.last_stop_s - r.days[0].last_stop_s) / 3600.0 >= 1.0);
    int running = 0;
    int hotter = 0;
    for (double h = 8.0; h < 16.0; h += 1.0 / 60.0) {
        if (at(r, "pump_turning", h) != 1.0 || at(r, "pump_turning", h - 3.0 / 60.0) != 1.0)
            continue;
        ++running;
        hotter += at(r, "station_hot_c", h) > at(r, "collector_reading_c", h) ? 1 : 0;
    }
    BOOST_TEST(running > 30);
    BOOST_TEST(hotter > running * 9 / 10, hotter << " of " << running << " minutes");
    BOOST_TEST(r.days[0].to_store_kwh < 0.8 * clear.to_store_kwh);
}

BOOST_AUTO_TEST_CASE(short_cycling_difference_keeps_its_promises) {
    const Sums& s = run_of("short_cycling_difference").days[0];
    const Sums& fixed = run_of("clear_spring_day",
                               {"loop.pump.takes_speed_signal=no", "controller.pump_drive=on_off"})
                            .days[0];
    BOOST_TEST(s.pump_starts > 15);
    BOOST_TEST(s.pump_starts > fixed.pump_starts * 3 / 2);
    // "hardly changes": within 5 % of the same fixed-speed pump with usual settings
    BOOST_CHECK_CLOSE(s.to_store_kwh, fixed.to_store_kwh, 5.0);
}

BOOST_AUTO_TEST_CASE(wrong_flow_typed_in_keeps_its_promises) {
    const RunResult& r = run_of("wrong_flow_typed_in");
    BOOST_TEST(r.total.to_store_kwh == clear_day().total.to_store_kwh);
    const double factor = r.tally_kwh / r.total.to_store_kwh;
    BOOST_TEST((factor > 1.7 && factor < 2.6), "the counter shows " << factor << " times the heat");
    const double honest = clear_day().tally_kwh / clear_day().total.to_store_kwh;
    // collector to store bottom overstates by 10 to 25 %, common practice, no source
    BOOST_TEST((honest > 1.0 && honest < 1.3), "the right one " << honest << " times");
}

BOOST_AUTO_TEST_SUITE_END()
