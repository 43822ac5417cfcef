// SPDX-License-Identifier: MIT
// Every day on the shelf shows what its `about` promises.
#include "shelf_runs.hpp"

#include <boost/test/unit_test.hpp>

#include <string>

BOOST_AUTO_TEST_SUITE(day_promises)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
using noonbench::firmware::PumpReason;

}  // namespace

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
        return gap >= 8.5 && gap <= 14.5;  // "9 to 14 degrees", to half a degree
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
    // "about an hour a day instead of nearly four"
    const RunResult& without = run_of("holiday_without_draws", {"controller.holiday_from=never"});
    for (std::size_t i = 1; i < 4; ++i) {
        BOOST_TEST_CONTEXT("day " << i << ", without the mode " << without.days[i].stagnation_h) {
            BOOST_TEST(r.days[i].stagnation_h < 1.5);
            BOOST_TEST(without.days[i].stagnation_h > 3.0);
            BOOST_TEST(r.days[i].stagnation_h < 0.5 * without.days[i].stagnation_h);
        }
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
    const RunResult& r = run_of("long_pipe_run");
    const double on = static_cast<double>(s.first_start_s) / 3600.0;
    BOOST_TEST(at(r, "row_1_outlet_c", on + 0.05) > at(r, "station_hot_c", on + 0.05) + 3.0);
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
    BOOST_TEST(s.cool_l == 0.0);
    BOOST_TEST(s.backup_kwh > 2.0);
    const RunResult& without =
        run_of("morning_shower_rush", {"controller.backup_control=off", "controller.sanitise=off"});
    BOOST_TEST(without.days[0].cool_l > 0.0);
    // four showers of 1.9 kWh are some 50 l each; a household does not draw twice its store
    BOOST_TEST(s.tapped_l < 350.0);
}

BOOST_AUTO_TEST_CASE(sensor_out_of_its_pocket_keeps_its_promises) {
    const RunResult& r = run_of("sensor_out_of_its_pocket");
    const Sums& clear = clear_day().days[0];
    BOOST_TEST(static_cast<double>(r.days[0].first_start_s - clear.first_start_s) / 3600.0 >= 1.0);
    // At its least level the pump moves half a litre a minute over the check valve, and so little
    // comes down hot enough to keep even this sensor up for long.
    BOOST_TEST(static_cast<double>(clear.last_stop_s - r.days[0].last_stop_s) / 60.0 >= 10.0);
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
    const RunResult& r = run_of("short_cycling_difference");
    const Sums& wide =
        run_of("short_cycling_difference", {"controller.stop_difference=1 K"}).days[0];
    BOOST_TEST(r.days[0].pump_starts > 15);
    BOOST_TEST(r.days[0].pump_starts >= 2 * wide.pump_starts,
               r.days[0].pump_starts << " starts, with 5 K and 1 K " << wide.pump_starts);
    BOOST_CHECK_CLOSE(r.days[0].to_store_kwh, wide.to_store_kwh, 5.0);  // "hardly changes"
    int morning = 0;
    int noon = 0;
    int afternoon = 0;
    for (const auto& e : r.events) {
        if (e.name != "pump_relay" || e.to != "on") continue;
        const std::int64_t hour = second_of_day(e.at_s) / 3600;
        (hour < 11 ? morning : hour < 14 ? noon : afternoon) += 1;
    }
    BOOST_TEST(morning >= 2);
    BOOST_TEST(noon <= 1);
    BOOST_TEST(afternoon >= 4);
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
