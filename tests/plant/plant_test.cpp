// SPDX-License-Identifier: MIT
#include "plant/plant.hpp"
#include "plant/random.hpp"
#include "plant/sensors.hpp"
#include "tests/plant/plant_day.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>

BOOST_AUTO_TEST_SUITE(plant)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

bool all_finite(const Plant& plant) {
    for (int i = 0; i < layout_of(plant).total; ++i) {
        if (!std::isfinite(plant.amounts[static_cast<std::size_t>(i)])) return false;
    }
    return true;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_copy_is_a_fork_of_the_world) {
    Plant plant = make_plant(Parameters{}, 20.0, 50.0, 8.0);
    const WeatherSpan weather = constant_weather(700.0, 12.0, 0.0);
    run(plant, weather, pump_running(), 500);
    Plant fork = plant;
    run(plant, weather, pump_running(), 300, 500);
    fork.levers.pump_healthy = 0.0;
    Plant healthy_again = fork;
    healthy_again.levers.pump_healthy = 1.0;
    run(fork, weather, pump_running(), 300, 500);
    run(healthy_again, weather, pump_running(), 300, 500);
    BOOST_TEST(healthy_again.amounts == plant.amounts);  // bit for bit
    BOOST_TEST(fork.amounts != plant.amounts);
}

BOOST_AUTO_TEST_CASE(at_rest_in_equal_temperatures_nothing_happens) {
    Parameters p;
    for (Row& row : p.rows) row.collector.a4 = 0.0;
    Plant plant = make_plant(p, 18.0, 18.0, 18.0);
    const double before_j = view(plant).stored_j;
    run(plant, constant_weather(0.0, 18.0, 18.0), Actions{}, 3600);
    BOOST_CHECK_SMALL(view(plant).stored_j / before_j - 1.0, 1e-12);
    BOOST_CHECK_SMALL(readings(plant).store_top_sensor_c - 18.0, 1e-9);
}

BOOST_AUTO_TEST_CASE(clear_april_day_is_one_that_the_trade_believes) {
    // Ranges: trade experience for two flat plates (3.75 m2) at 2.6 l/min, no source.
    Plant plant = make_plant(Parameters{}, 18.0, 50.0, 8.0);
    April april(plant);
    april.run(0, 12 * 3600);
    const View noon = view(plant);
    const Readings shown = noon.sensors;
    BOOST_TEST_CONTEXT("collector " << shown.collector_sensor_c << ", bottom "
                                    << shown.store_bottom_sensor_c << ", station "
                                    << shown.station_hot_c << " / " << shown.station_cold_c) {
        const double total_k = shown.collector_sensor_c - shown.store_bottom_sensor_c;
        const double station_k = shown.station_hot_c - shown.station_cold_c;
        BOOST_TEST(total_k > 10.0);
        BOOST_TEST(total_k < 18.0);
        BOOST_TEST(station_k > 8.0);
        BOOST_TEST(station_k < 14.0);
        BOOST_TEST(shown.station_cold_c - shown.store_bottom_sensor_c > 1.0);
        BOOST_TEST(shown.station_cold_c - shown.store_bottom_sensor_c < 5.0);
    }
    april.run(12 * 3600, 12 * 3600);
    const double to_store_kwh = kilowatt_hours(plant.books.of(Edge::coil));
    BOOST_TEST_CONTEXT("heat to store " << to_store_kwh << " kWh, starts " << april.found().starts
                                        << ", running " << april.found().running_s / 3600.0
                                        << " h") {
        BOOST_TEST(to_store_kwh > 8.0);
        BOOST_TEST(to_store_kwh < 12.0);  // 4 m2 here, and a cold store to start with
        BOOST_TEST(april.found().starts <= 12);
        BOOST_TEST(april.found().highest_collector_c < 85.0);
    }
    april.run(86400, 4 * 3600);  // the small hours of the next day
    const double under_air_k = april.weather().from.air_c - readings(plant).collector_sensor_c;
    BOOST_TEST(under_air_k > 1.0);
    BOOST_TEST(under_air_k < 7.0);
}

BOOST_AUTO_TEST_CASE(store_top_falls_a_few_kelvin_overnight) {
    Plant plant = make_plant(Parameters{}, 50.0, 58.0, 12.0);
    run(plant, constant_weather(0.0, 9.0, -8.0), Actions{}, 10 * 3600);
    const double fallen_k = 58.0 - view(plant).layer_c[11];
    BOOST_TEST(fallen_k > 2.0);  // 3..6 K by trade experience for a 220 l store; 300 l here
    BOOST_TEST(fallen_k < 6.0);
}

BOOST_AUTO_TEST_CASE(leaking_check_valve_empties_the_store_at_night_and_warms_the_collector) {
    const WeatherSpan night = constant_weather(0.0, 6.0, -11.0);
    Plant healthy = make_plant(Parameters{}, 45.0, 60.0, 6.0);
    Plant leaking = healthy;
    leaking.levers.check_valve_leak = 1.0;
    run(healthy, night, Actions{}, 10 * 3600);
    run(leaking, night, Actions{}, 10 * 3600);
    const double lost_kwh = -kilowatt_hours(leaking.books.of(Edge::coil));
    BOOST_TEST_CONTEXT("carried out " << lost_kwh << " kWh, collector "
                                      << readings(leaking).collector_sensor_c) {
        BOOST_TEST(lost_kwh > 1.0);  // 1..3 kWh a night: trade experience, no source
        BOOST_TEST(lost_kwh < 4.0);
        BOOST_TEST(readings(leaking).collector_sensor_c > 16.0);
        BOOST_TEST(readings(healthy).collector_sensor_c < 6.0);
        BOOST_TEST(leaking.last.flow_m3_s < 0.0);
        BOOST_TEST(!leaking.last.pump.moving);
        BOOST_TEST(balance_of_run(leaking).holds());
    }
}

BOOST_AUTO_TEST_CASE(high_limit_stat_stays_open_until_somebody_resets_it) {
    Plant plant = make_plant(Parameters{}, 80.0, 84.9, 20.0);
    const WeatherSpan sun = constant_weather(900.0, 30.0, 20.0);
    run(plant, sun, pump_running(), 5);
    BOOST_TEST(plant.last.pump.powered);
    Plant hot = make_plant(Parameters{}, 80.0, 85.2, 20.0);
    run(hot, sun, pump_running(), 1);
    BOOST_TEST(hot.modes.high_limit_tripped);
    BOOST_TEST(!hot.last.pump.powered);
    Actions tap = pump_running();
    for (int s = 1; s < 1800; ++s) advance(hot, sun, s, tap, 0.15);  // the store cools
    BOOST_TEST(view(hot).layer_c[11] < 84.0);
    BOOST_TEST(!hot.last.pump.powered);
    hot.levers.high_limit_closed = 0.0;  // a hand on the button
    run(hot, sun, pump_running(), 1, 1800);
    hot.levers.high_limit_closed = 1.0;
    run(hot, sun, pump_running(), 1, 1801);
    BOOST_TEST(hot.last.pump.powered);
}

BOOST_AUTO_TEST_CASE(collector_sensor_at_the_cold_end_falls_to_the_inlet_when_the_pump_starts) {
    Parameters p;
    p.loop.hydraulics = Hydraulics::given;  // the two loops' buoyancy differs by a hair
    Plant proper = make_plant(p, 20.0, 50.0, 45.0);
    Plant crossed = proper;
    crossed.levers.collector_pipes_crossed = 1.0;
    const WeatherSpan sun = constant_weather(700.0, 15.0, 5.0);
    run(proper, sun, pump_running(), 600);
    run(crossed, sun, pump_running(), 600);
    BOOST_TEST(readings(proper).collector_sensor_c - readings(crossed).collector_sensor_c > 5.0);
    p.rows.front().sensor_place = CollectorSensorPlace::cold_end;
    Plant placed = make_plant(p, 20.0, 50.0, 45.0);
    run(placed, sun, pump_running(), 600);
    BOOST_TEST(readings(placed).collector_sensor_c == readings(crossed).collector_sensor_c);
}

BOOST_AUTO_TEST_CASE(sensor_lags_as_a_pocket_does) {
    // First order: 63.2 % after one time constant; a steady ramp is followed r x tau late.
    Parameters p;
    p.lags.store_s = 40.0;
    Plant plant = make_plant(p, 50.0, 50.0, 20.0);
    plant.amounts[static_cast<std::size_t>(layout_of(plant).store_bottom_sensor)] = 10.0;
    run(plant, constant_weather(0.0, 20.0, 20.0), Actions{}, 40);
    BOOST_CHECK_SMALL(readings(plant).store_bottom_sensor_c - (50.0 - 40.0 * std::exp(-1.0)), 0.01);
    BOOST_TEST(felt_c({60.0, 20.0, 1.0}) == 60.0);
    BOOST_TEST(felt_c({60.0, 20.0, 0.0}) == 20.0);
    BOOST_TEST(felt_c({60.0, 20.0, 0.25}) == 30.0);
    BOOST_TEST(sensor_rate_k_s(40.0, {60.0, 20.0, 1.0}, 10.0) == 2.0);
}

BOOST_AUTO_TEST_CASE(a_sensor_out_of_its_pocket_reads_its_surroundings) {
    Plant plant = make_plant(Parameters{}, 50.0, 60.0, 8.0);
    plant.levers.store_bottom_sensor_contact = 0.0;
    plant.levers.collector_sensor_contact = 0.0;
    run(plant, constant_weather(800.0, 8.0, 0.0), Actions{}, 1200);
    BOOST_CHECK_SMALL(readings(plant).store_bottom_sensor_c - 18.0, 0.01);
    BOOST_CHECK_SMALL(readings(plant).collector_sensor_c - 8.0, 0.01);
    BOOST_TEST(view(plant).row_hottest_c[0] > 40.0);
}

BOOST_AUTO_TEST_CASE(air_bound_row_boils_beside_a_working_one) {
    Parameters p;
    p.rows.resize(2);
    Plant plant = make_plant(p, 20.0, 50.0, 20.0);
    plant.levers.row_1_flow_factor = 0.0;
    run(plant, constant_weather(900.0, 20.0, 10.0), pump_running(), 3600);
    const View shown = view(plant);
    BOOST_TEST(shown.row_outlet_c[0] > shown.row_outlet_c[1] + 50.0);
    BOOST_TEST(shown.sensors.collector_sensor_c > shown.sensors.second_collector_sensor_c + 50.0);
}

BOOST_AUTO_TEST_CASE(coil_fed_from_below_warms_the_bottom_more) {
    Plant proper = make_plant(Parameters{}, 20.0, 30.0, 60.0);
    Plant crossed = proper;
    crossed.levers.coil_ports_crossed = 1.0;
    const WeatherSpan sun = constant_weather(800.0, 15.0, 5.0);
    run(proper, sun, pump_running(), 1800);
    run(crossed, sun, pump_running(), 1800);
    BOOST_TEST(view(crossed).layer_c[0] > view(proper).layer_c[0] + 0.5);
    BOOST_TEST(crossed.books.of(Edge::coil) < proper.books.of(Edge::coil));
}

BOOST_AUTO_TEST_CASE(lever_table_is_complete_and_starts_healthy) {
    BOOST_TEST(lever_table.size() * sizeof(double) == sizeof(Levers));
    const Levers healthy;
    for (const LeverInfo& lever : lever_table) {
        BOOST_TEST_CONTEXT("lever " << std::string(lever.name)) {
            const double as_made = healthy.*(lever.value);
            BOOST_TEST(as_made == lever.healthy);
            BOOST_TEST(lever.least < lever.most);
            BOOST_TEST(lever.least <= lever.healthy);
            BOOST_TEST(lever.healthy <= lever.most);
            Levers moved;
            BOOST_TEST(set_lever(moved, lever.name, 1e9));
            const double as_moved = moved.*(lever.value);
            BOOST_TEST(as_moved == lever.most);
        }
    }
    Levers levers;
    BOOST_TEST(!set_lever(levers, "no_such_lever", 1.0));
}

BOOST_AUTO_TEST_CASE(any_levers_at_their_ends_leave_a_plant_that_keeps_its_books) {
    RandomSequence random(20260401);
    for (int trial = 0; trial < 200; ++trial) {
        Parameters p;
        p.rows.resize(1 + static_cast<std::size_t>(trial) % 3);
        p.circulation.fitted = trial % 2 == 0;
        p.loop.pump.takes_speed_signal = trial % 3 == 0;
        Plant plant = make_plant(p, 90.0 * random.uniform(), 90.0 * random.uniform(), 30.0);
        for (const LeverInfo& lever : lever_table) {
            plant.levers.*(lever.value) = random.uniform() < 0.5 ? lever.least : lever.most;
        }
        const WeatherSpan weather =
            constant_weather(1200.0 * random.uniform(), -20.0 + 60.0 * random.uniform(), -20.0);
        Actions actions;
        for (int s = 0; s < 600; ++s) {
            if (s % 60 == 0) {
                actions.pump_relay = random.uniform() < 0.6;
                actions.speed_signal = random.uniform();
                actions.backup_asked = random.uniform() < 0.5;
            }
            advance(plant, weather, s, actions, s % 120 < 40 ? 0.3 : 0.0);
        }
        const Residual residual = balance_of_run(plant);
        BOOST_TEST_CONTEXT("trial " << trial << ", residual " << residual.residual_j << ", bound "
                                    << residual.bound_j << ", worst step "
                                    << plant.balance.worst_step_ratio) {
            BOOST_TEST(all_finite(plant));
            BOOST_TEST(residual.holds());
            BOOST_TEST(plant.balance.worst_step_ratio <= 1.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(parameters_that_make_no_plant_are_refused_with_a_reason) {
    const auto refused = [](auto change) {
        Parameters p;
        change(p);
        try {
            static_cast<void>(make_plant(p, 20.0, 50.0, 10.0));
        } catch (const std::invalid_argument& reason) {
            return std::string(reason.what());
        }
        return std::string("accepted");
    };
    BOOST_TEST(refused([](Parameters&) {}) == "accepted");
    BOOST_TEST(refused([](Parameters& p) { p.rows.clear(); }) ==
               "a plant has one to five rows of collectors");
    BOOST_TEST(refused([](Parameters& p) { p.loop.glycol_mass_share = 0.7; }) ==
               "the glycol share is 0 to 0.6 by mass");
    BOOST_TEST(refused([](Parameters& p) { p.layers = 40; }) == "a store has 1 to 32 layers");
    BOOST_TEST(refused([](Parameters& p) { p.loop.hot_pipe.wall_m = 0.01; }) ==
               "a pipe needs a length and a bore");
    BOOST_TEST(refused([](Parameters& p) {
                   p.rows.resize(5);
                   for (Row& row : p.rows) row.collectors_in_series = 12;
                   p.pipe_cells = 24;
                   p.layers = 32;
               }) == "too many cells for one plant");
}

BOOST_AUTO_TEST_SUITE_END()
