// SPDX-License-Identifier: MIT
// The whole plant with its flow solved from pressures instead of given.
#include "plant/circuit.hpp"
#include "plant/random.hpp"
#include "plant/solver.hpp"
#include "plant/tick.hpp"
#include "tests/plant/plant_day.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>

BOOST_AUTO_TEST_SUITE(solved_loop)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

Parameters with(Hydraulics hydraulics) {
    Parameters p;
    p.loop.hydraulics = hydraulics;
    return p;
}

struct DaySums {
    DayFindings found{};
    CivilSeconds first_flow_s = -1;
    double coil_kwh = 0.0;
    double lost_backward_kg = 0.0;
    double store_top_c = 0.0;
};

DaySums april_day(const Parameters& parameters, const Levers& levers, CivilSeconds until_s) {
    Plant plant = make_plant(parameters, 18.0, 50.0, 8.0);
    plant.levers = levers;
    April april(plant);
    DaySums sums;
    for (CivilSeconds now = 0; now < until_s; ++now) {
        const StepReport report = april.tick(now);
        if (report.flow_m3_s > 0.0 && sums.first_flow_s < 0) sums.first_flow_s = now;
        sums.coil_kwh += kilowatt_hours(at(report.edges, Edge::coil));
        sums.lost_backward_kg -= std::fmin(report.flow_m3_s, 0.0) * 1000.0;
    }
    sums.found = april.found();
    sums.store_top_c = readings(plant).store_top_sensor_c;
    return sums;
}

Actions at_signal(double signal) {
    Actions actions = pump_running();
    actions.speed_signal = signal;
    return actions;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_healthy_day_is_nearly_the_one_with_given_flow) {
    // A commissioned loop runs within some per cent of its full flow over 20 .. 80 degC, and an
    // exchange of heat asks little of the flow: within 3 % in hours, 1 % in heat.
    const DaySums given = april_day(with(Hydraulics::given), Levers{}, seconds_a_day);
    const DaySums solved = april_day(with(Hydraulics::solved), Levers{}, seconds_a_day);
    BOOST_TEST_CONTEXT("given " << given.first_flow_s << " s, " << given.found.running_s << " s, "
                                << given.coil_kwh << " kWh; solved " << solved.first_flow_s
                                << " s, " << solved.found.running_s << " s, " << solved.coil_kwh
                                << " kWh") {
        BOOST_TEST(solved.first_flow_s == given.first_flow_s);  // nothing differs before it
        BOOST_CHECK_CLOSE(static_cast<double>(solved.found.running_s),
                          static_cast<double>(given.found.running_s), 3.0);
        BOOST_CHECK_CLOSE(solved.coil_kwh, given.coil_kwh, 1.0);
        BOOST_TEST(given.coil_kwh > 5.0);
        BOOST_TEST(solved.lost_backward_kg == 0.0);
    }
}

BOOST_AUTO_TEST_CASE(given_flow_knows_none_of_the_new_levers) {
    Levers levers;
    levers.strainer_clogging = 0.98;
    levers.loop_valve_opening = 0.0;
    levers.check_valve_held_open = 1.0;
    levers.fluid_thickening = 20.0;
    const auto end_of = [](const Levers& set) {
        Plant plant = make_plant(with(Hydraulics::given), 18.0, 50.0, 8.0);
        plant.levers = set;
        April april(plant);
        april.run(0, 12 * 3600);
        return plant.amounts;
    };
    BOOST_TEST(end_of(levers) == end_of(Levers{}));  // bit for bit
}

BOOST_AUTO_TEST_CASE(a_leaking_valve_empties_the_store_into_the_night) {
    Parameters p = with(Hydraulics::solved);
    const DaySums healthy = april_day(p, Levers{}, 5 * 3600);
    Levers levers;
    levers.check_valve_leak = 0.05;
    const DaySums leaking = april_day(p, levers, 5 * 3600);
    levers.check_valve_leak = 0.0;
    levers.check_valve_held_open = 1.0;
    const DaySums held = april_day(p, levers, 5 * 3600);
    BOOST_TEST_CONTEXT("backward " << leaking.lost_backward_kg << " and " << held.lost_backward_kg
                                   << " kg") {
        BOOST_TEST(healthy.lost_backward_kg == 0.0);
        BOOST_TEST(leaking.lost_backward_kg > 1.0);
        BOOST_TEST(held.lost_backward_kg > leaking.lost_backward_kg);
        BOOST_TEST(leaking.coil_kwh < healthy.coil_kwh);
        BOOST_TEST(held.coil_kwh < leaking.coil_kwh);
    }
}

BOOST_AUTO_TEST_CASE(a_pump_may_turn_and_move_nothing) {
    Parameters p = with(Hydraulics::solved);
    p.loop.pump.takes_speed_signal = true;
    Plant plant = make_plant(p, 40.0, 40.0, 18.0);
    const WeatherSpan weather = constant_weather(0.0, 18.0, 18.0);
    StepReport report = advance(plant, weather, 0, at_signal(0.16), 0.0);
    BOOST_TEST(report.pump.turning);  // 6 m x 0.16^2 are 15 hPa, the check valve wants 20
    BOOST_TEST(!report.pump.moving);
    BOOST_TEST(report.flow_m3_s == 0.0);
    BOOST_TEST(report.pump.power_w > 0.0);
    report = advance(plant, weather, 1, at_signal(0.5), 0.0);
    BOOST_TEST(report.pump.moving);
    BOOST_TEST(report.pump.flow_m3_s == report.flow_m3_s);
    plant.levers.loop_valve_opening = 0.0;
    report = advance(plant, weather, 2, at_signal(1.0), 0.0);
    BOOST_TEST(report.pump.turning);
    BOOST_TEST(!report.pump.moving);
}

BOOST_AUTO_TEST_CASE(old_lever_of_flow_multiplies_the_solved_flow) {
    const Parameters p = with(Hydraulics::solved);
    const WeatherSpan weather = constant_weather(0.0, 18.0, 18.0);
    Plant plant = make_plant(p, 40.0, 40.0, 18.0);
    Plant half = plant;
    half.levers.flow_factor = 0.5;
    const double whole_m3_s = advance(plant, weather, 0, pump_running(), 0.0).flow_m3_s;
    BOOST_CHECK_CLOSE(advance(half, weather, 0, pump_running(), 0.0).flow_m3_s, 0.5 * whole_m3_s,
                      1e-12);
}

BOOST_AUTO_TEST_CASE(a_hot_column_in_the_falling_pipe_stops_what_the_sun_started) {
    // No check valve, pump at rest, roof in the sun: the rows' light fluid starts forward, but what
    // they send must fall 8 m to the store, and that column soon balances them.
    Parameters p = with(Hydraulics::solved);
    p.loop.check_valve_opening_pa = 0.0;
    Plant plant = make_plant(p, 20.0, 20.0, 20.0);
    const WeatherSpan weather = constant_weather(900.0, 20.0, 10.0);
    double most_m3_s = 0.0;
    for (int s = 0; s < 4 * 3600; ++s) {
        most_m3_s = std::fmax(most_m3_s, advance(plant, weather, s, Actions{}, 0.0).flow_m3_s);
    }
    BOOST_TEST(!plant.last.pump.turning);
    BOOST_TEST(!plant.last.pump.moving);
    BOOST_TEST(plant.last.pump.flow_m3_s == 0.0);
    BOOST_TEST_CONTEXT("at most " << 60000.0 * most_m3_s << " l/min, in the end "
                                  << 60000.0 * plant.last.flow_m3_s) {
        const double full_m3_s = p.loop.pump.full_flow_m3_s;
        BOOST_TEST(most_m3_s > 0.01 * full_m3_s);
        BOOST_TEST(plant.last.flow_m3_s >= 0.0);
        BOOST_TEST(plant.last.flow_m3_s < 0.005 * full_m3_s);
    }
    BOOST_TEST(view(plant).row_hottest_c[0] > 120.0);  // it stagnates all the same
}

BOOST_AUTO_TEST_CASE(no_combination_of_levers_breaks_the_plant_or_its_balance) {
    RandomSequence random(7);
    for (int n = 0; n < 40; ++n) {
        Parameters p = with(Hydraulics::solved);
        p.rows.resize(1 + random.bits() % 3);
        p.loop.pump.takes_speed_signal = true;
        p.loop.pump.full_flow_m3_s = (0.5 + 15.0 * random.uniform()) / 60000.0;
        Plant plant = make_plant(p, 20.0, 60.0, 5.0);
        for (const LeverInfo& lever : lever_table) {
            if (random.uniform() < 0.5) continue;
            set_lever(plant.levers, lever.name,
                      lever.least + (lever.most - lever.least) * random.uniform());
        }
        for (int block = 0; block < 20; ++block) {
            const double sun_w_m2 = 1000.0 * random.uniform();
            const double air_c = -25.0 + 55.0 * random.uniform();
            Actions actions = at_signal(random.uniform());
            actions.pump_relay = random.uniform() < 0.6;
            run(plant, constant_weather(sun_w_m2, air_c, air_c - 15.0), actions, 60, 60L * block);
        }
        BOOST_TEST_CONTEXT("case " << n) {
            BOOST_TEST(std::isfinite(view(plant).stored_j));
            BOOST_TEST(plant.balance.worst_step_ratio <= 1.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(substeps_follow_a_flow_that_nobody_gave) {
    // An open setter passes more than six times the default: the fastest cell still changes by less
    // than its content in one substep.
    Parameters p = with(Hydraulics::solved);
    p.loop.pump.full_flow_m3_s = 1.0;  // out of reach, so the setter is open
    const Circuit c = make_circuit(p);
    Plant plant = make_plant(p, 40.0, 40.0, 40.0);
    BOOST_TEST(!full_flow_reached(plant));
    BOOST_TEST(full_flow_reached(make_plant(with(Hydraulics::solved), 40.0, 40.0, 40.0)));
    p.loop.hydraulics = Hydraulics::given;
    BOOST_TEST(full_flow_reached(make_plant(p, 40.0, 40.0, 40.0)));
    const Tick tick = make_tick(c, Levers{}, Modes{}, {0, pump_running(), 0.0}, plant.amounts);
    const double cell_kg = c.loop_density_kg_m3 * 0.016 * 0.016 * 3.14159 / 4.0 * 2.0;
    BOOST_TEST_CONTEXT("flow " << tick.flow_kg_s << " kg/s, cell " << cell_kg << " kg") {
        BOOST_TEST(tick.flow_kg_s > 0.2);
        BOOST_TEST(substeps_needed(c, tick) >= tick.flow_kg_s / cell_kg);
    }
    run(plant, constant_weather(800.0, 20.0, 5.0), pump_running(), 600);
    BOOST_TEST(std::isfinite(view(plant).stored_j));
    BOOST_TEST(plant.balance.worst_step_ratio <= 1.0);
}

BOOST_AUTO_TEST_SUITE_END()
