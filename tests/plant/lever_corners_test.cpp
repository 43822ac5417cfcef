// SPDX-License-Identifier: MIT
// Every lever at its bounds, alone, in pairs and at the worst corners together: the loop's equation
// has a root there, pressure is a number, and the plant runs on with its books in order.
#include "plant_day.hpp"

#include "plant/circuit.hpp"
#include "plant/friction.hpp"
#include "plant/loop_picture.hpp"
#include "plant/si.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

BOOST_AUTO_TEST_SUITE(lever_corners)

namespace {

using namespace noonbench::plant;

constexpr double litre = 1e-3;
constexpr CivilSeconds hour_s = 3600;

// ------------------------------------------------------------ loops to begin with

struct Start {
    std::string name;
    Plant plant{};
    CivilSeconds now = 0;
    double warmer_k = 0.0;  // than the April day
    bool pump = false;
};

void run(Start& start, CivilSeconds seconds) {
    for (const CivilSeconds end = start.now + seconds; start.now < end; ++start.now) {
        WeatherSpan weather{testing::april_knot(start.now), testing::april_knot(start.now + 1)};
        for (PlaneKnot* knot : {&weather.from, &weather.to}) {
            knot->air_c += start.warmer_k;
            knot->sky_c += start.warmer_k;
        }
        advance(start.plant, weather, start.now, Actions{.pump_relay = start.pump}, 0.0);
    }
}

Parameters two_rows() {
    Parameters p;
    p.loop.hydraulics = Hydraulics::solved;
    p.rows.resize(2);
    for (Row& row : p.rows) row.collector.eta0 = 0.80;
    return p;
}

Start running_noon() {
    Start start{"running at noon", make_plant(two_rows(), 30.0, 50.0, 12.0), 11 * hour_s, 0.0,
                true};
    run(start, hour_s);
    BOOST_REQUIRE(start.plant.last.flow_m3_s > 0.0);
    return start;
}

Start resting_night() {
    Start start{"resting at night", make_plant(two_rows(), 40.0, 60.0, 8.0), 1 * hour_s};
    run(start, 1800);
    BOOST_REQUIRE(start.plant.last.flow_m3_s == 0.0);
    return start;
}

Start boiling_noon() {
    Start start{"boiling at noon", make_plant(two_rows(), 60.0, 70.0, 20.0), 9 * hour_s, 15.0};
    run(start, 3 * hour_s);
    BOOST_REQUIRE(loop_fluid_state(start.plant).steam_m3 > 1.0 * litre);
    return start;
}

// Loop, room and air at -25 degC, which half glycol bears as a liquid.
Start bitter_cold() {
    Parameters p = two_rows();
    p.loop.glycol_mass_share = 0.5;
    p.store.room_c = -25.0;
    Start start{"bitter cold", make_plant(p, 10.0, 20.0, -25.0), 2 * hour_s, -35.0, true};
    run(start, 60);
    BOOST_REQUIRE(loop_fluid_state(start.plant).most_ice_share == 0.0);
    return start;
}

// ------------------------------------------------------------ the loop's equation

// Its resistances put together once more, from what each is; the three numbers are those of an
// ordinary valve, strainer and open check valve on the pipe's bore (common practice, no source).
double chain_drop_pa(const LoopHydraulics& h, const LoopFluids& f, const Levers& levers,
                     double check_valve_open, double kg_s) {
    const double passage = 1.0 - levers.strainer_clogging;
    const double zeta = h.fittings_zeta + h.setter_zeta +
                        8.0 / (check_valve_open * check_valve_open) + 3.0 / (passage * passage) +
                        0.3 / (levers.loop_valve_opening * levers.loop_valve_opening);
    double drop_pa =
        (h.pump_1_m4 + zeta * h.zeta_1_m4) / f.station_cold.density_kg_m3 * kg_s * kg_s;
    for (const auto& [tube, fluid] :
         {std::pair{h.hot_pipe, f.hot_pipe}, {h.coil, f.coil}, {h.cold_pipe, f.cold_pipe}}) {
        const double mu_pa_s = fluid.viscosity_pa_s * levers.fluid_thickening;
        const double reynolds = tube.reynolds_1_m * kg_s / mu_pa_s;
        drop_pa += friction_product(reynolds, tube.roughness_term).phi * tube.friction_1_m3 *
                   mu_pa_s / fluid.density_kg_m3 * kg_s;
    }
    return drop_pa;
}

std::array<double, most_rows> shares(const Levers& levers) {
    return {levers.row_1_flow_factor, levers.row_2_flow_factor, levers.row_3_flow_factor,
            levers.row_4_flow_factor, levers.row_5_flow_factor};
}

double row_buoyancy_pa(const LoopHydraulics& h, const LoopFluids& f, const Levers& levers,
                       std::size_t row) {
    const double own = f.rows[row].density_kg_m3;
    const double lighter = is_set(levers.collector_pipes_crossed) ? own - f.hot_pipe.density_kg_m3
                                                                  : f.cold_pipe.density_kg_m3 - own;
    return standard_gravity_m_s2 * lighter * h.rows[row].rise_m;
}

// Head that a row needs for its flow.
double row_head_pa(const LoopHydraulics& h, const LoopFluids& f, const Levers& levers,
                   std::size_t row, double kg_s) {
    const double kg_s_open = kg_s / shares(levers)[row];
    const FluidProperties& fluid = f.rows[row];
    return (h.rows[row].laminar_1_m3 * fluid.viscosity_pa_s * levers.fluid_thickening * kg_s_open +
            h.rows[row].local_1_m4 * kg_s_open * kg_s_open) /
           fluid.density_kg_m3;
}

struct Closure {
    LoopFlow flow{};
    double drive_pa = 0.0;  // what friction has to use up; 0: nothing may move
    double left_pa = 0.0;   // what no row's path uses up
};

Closure close_loop(const LoopHydraulics& h, const LoopFluids& f, double level, const Levers& levers,
                   double missing_pa) {
    constexpr double dead_band_pa = 0.01;
    Closure found;
    found.flow = solve_loop(h, f, level, levers, {.missing_pa = missing_pa});
    double strongest_pa = -1e300;
    for (std::size_t r = 0; r < h.row_count; ++r) {
        if (shares(levers)[r] <= 0.0) continue;
        strongest_pa = std::max(strongest_pa, row_buoyancy_pa(h, f, levers, r));
    }
    const double rest_pa = drive_at_rest_pa(h, f, level, levers);
    const double driven_pa = std::max(std::abs(rest_pa) - missing_pa, 0.0);
    const bool forward = rest_pa > 0.0;
    const bool held = is_set(levers.check_valve_held_open);
    const double open = forward || held ? 1.0 : levers.check_valve_leak;
    const double takes_pa = forward && !held ? std::max(h.opening_pa, dead_band_pa) : dead_band_pa;
    const bool barred = strongest_pa < -1e299 || levers.loop_valve_opening <= 0.0 || open <= 0.0;
    if (barred || driven_pa <= takes_pa) return found;
    found.drive_pa = driven_pa - takes_pa;
    const double chain_pa = chain_drop_pa(h, f, levers, open, std::abs(found.flow.total_kg_s));
    for (std::size_t r = 0; r < h.row_count; ++r) {
        if (found.flow.row_kg_s[r] == 0.0) continue;
        const double behind_pa = forward ? strongest_pa - row_buoyancy_pa(h, f, levers, r) : 0.0;
        const double head_pa =
            row_head_pa(h, f, levers, r, std::abs(found.flow.row_kg_s[r])) + behind_pa;
        const double left_pa = std::abs(found.drive_pa - chain_pa - head_pa);
        found.left_pa = std::max(found.left_pa, left_pa);
    }
    return found;
}

constexpr double root_tolerance = 1e-7;  // of the drive; the search stops at 1e-10 of a row's head
std::string why_no_root(const Closure& found) {
    const double kg_s = found.flow.total_kg_s;
    if (!std::isfinite(kg_s)) return "flow is no number";
    if ((kg_s == 0.0) != (found.drive_pa == 0.0)) {
        return "flow " + std::to_string(kg_s) + " kg/s at a drive of " +
               std::to_string(found.drive_pa) + " Pa";
    }
    if (!(found.left_pa <= root_tolerance * found.drive_pa)) {
        return std::to_string(found.left_pa) + " Pa left of " + std::to_string(found.drive_pa);
    }
    return {};
}

// At rest, at the least level, half way and at full level. Empty: there is a root at all of them.
std::string why_no_flow(const Plant& plant) {
    const Circuit& c = *plant.circuit;
    const LoopPicture picture =
        look_at_loop(c, plant.levers, plant.modes.loop, plant.amounts.data());
    const LoopFluids fluids = loop_fluids(c, picture);
    const LoopObstacles obstacles = obstacles_of(c, picture);
    for (const double level : {0.0, 0.15, 0.5, 1.0}) {
        std::string why = why_no_root(
            close_loop(c.hydraulics, fluids, level, plant.levers, obstacles.missing_pa));
        const double passing_kg_s =
            solve_loop(c.hydraulics, fluids, level, plant.levers, obstacles).total_kg_s;
        if (!std::isfinite(passing_kg_s)) why = "flow past gas is no number";
        if (!why.empty()) return why + " at level " + std::to_string(level);
    }
    return {};
}

// ------------------------------------------------------------ the plant runs on

std::string why_unsound(const Plant& plant) {
    for (int i = 0; i < plant.circuit->layout.total; ++i) {
        const double amount = plant.amounts[static_cast<std::size_t>(i)];
        if (!std::isfinite(amount)) return "amount " + std::to_string(i) + " is no number";
    }
    const LoopPressure pressure = loop_pressure(plant);
    if (!std::isfinite(pressure.gauge_pa) || !(pressure.top_pa > -pressure.atmosphere_pa)) {
        return "pressure " + std::to_string(pressure.gauge_pa) + " Pa";
    }
    if (!(plant.balance.worst_step_ratio <= 1.0)) return "energy of a step";
    if (!balance_of_run(plant).holds()) return "energy of the run";
    if (!(std::abs(fluid_balance_kg(plant)) <= 1e-10 * plant.filled_kg)) return "fluid of the run";
    return {};
}

// Empty when all is sound every few seconds.
std::string what_breaks(Start start, CivilSeconds seconds) {
    constexpr CivilSeconds look_s = 10;
    for (CivilSeconds s = 0; s < seconds; s += look_s) {
        run(start, look_s);
        std::string why = why_unsound(start.plant);
        if (why.empty()) why = why_no_flow(start.plant);
        if (!why.empty()) return why + ", second " + std::to_string(s + look_s);
    }
    return {};
}

std::array<double, 2> bounds(const LeverInfo& lever) {
    return {lever.least, lever.most};
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_lever_at_each_bound_alone_leaves_a_sound_loop) {
    for (const Start& sound : {running_noon(), resting_night(), boiling_noon(), bitter_cold()}) {
        BOOST_TEST(why_no_flow(sound.plant) == "");
        for (const LeverInfo& lever : lever_table) {
            for (const double bound : bounds(lever)) {
                Start start = sound;
                start.plant.levers.*(lever.value) = bound;
                BOOST_TEST_CONTEXT(start.name << ", " << lever.name << " at " << bound) {
                    BOOST_TEST(why_no_flow(start.plant) == "");
                    BOOST_TEST(what_breaks(start, 300) == "");
                }
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(all_pairs_of_levers_at_their_bounds_leave_a_sound_loop) {
    int broken = 0;
    for (const Start& sound : {running_noon(), boiling_noon()}) {
        for (std::size_t a = 0; a < lever_table.size(); ++a) {
            for (std::size_t b = a + 1; b < lever_table.size(); ++b) {
                for (int corner = 0; corner < 4; ++corner) {
                    Start start = sound;
                    const LeverInfo& one = lever_table[a];
                    const LeverInfo& other = lever_table[b];
                    start.plant.levers.*(one.value) = bounds(one)[corner % 2];
                    start.plant.levers.*(other.value) = bounds(other)[corner / 2];
                    const std::string why = what_breaks(start, 20);
                    if (why.empty()) continue;
                    ++broken;
                    BOOST_ERROR(start.name << ", " << one.name << " at "
                                           << start.plant.levers.*(one.value) << ", " << other.name
                                           << " at " << start.plant.levers.*(other.value) << ": "
                                           << why);
                }
            }
        }
    }
    BOOST_TEST(broken == 0);
}

// No gas in the vessel, no vessel, a loop filled below its own height, air on top, thick fluid, a
// pump at rest, a coil the other way round: each of them with each.
BOOST_AUTO_TEST_CASE(the_worst_corners_together_leave_a_sound_loop) {
    for (const Start& sound : {running_noon(), resting_night(), boiling_noon(), bitter_cold()}) {
        for (unsigned corner = 0; corner < 1U << 7U; ++corner) {
            Start start = sound;
            Levers& levers = start.plant.levers;
            if ((corner & 1U) != 0U) levers.vessel_precharge_factor = 0.0;
            if ((corner & 2U) != 0U) levers.vessel_waterlogged_share = 0.99;
            if ((corner & 2U) != 0U) levers.vessel_cap_closed = 1.0;
            if ((corner & 4U) != 0U) levers.lost_fluid_m3 = 0.02;
            if ((corner & 8U) != 0U) levers.trapped_air_m3 = 0.01;
            if ((corner & 8U) != 0U) levers.top_draws_air = 1.0;
            if ((corner & 16U) != 0U) levers.fluid_thickening = 20.0;
            start.pump = (corner & 32U) == 0U;
            if ((corner & 64U) != 0U) levers.coil_ports_crossed = 1.0;
            BOOST_TEST_CONTEXT(start.name << ", corner " << corner) {
                BOOST_TEST(what_breaks(start, 300) == "");
                if ((corner & 4U) == 0U) continue;
                run(start, 1);
                const LoopFluidState fluid = loop_fluid_state(start.plant);
                BOOST_TEST(fluid.gas_m3 + fluid.steam_m3 > 1.0 * litre);  // it is really short
            }
        }
    }
}

// What an empty vessel is short of went out at the room's temperature; liquid that runs into it
// afterwards must not heat or cool its bare shell without end.
BOOST_AUTO_TEST_CASE(an_emptied_vessel_gets_no_hotter_and_no_colder_than_loop_and_room) {
    for (Start start : {boiling_noon(), bitter_cold()}) {
        const Circuit& c = *start.plant.circuit;
        const LoopPicture before =
            look_at_loop(c, start.plant.levers, start.plant.modes.loop, start.plant.amounts.data());
        const auto* const end = before.t_c.begin() + c.layout.layers_first;
        const double hottest_c = *std::max_element(before.t_c.begin(), end);
        const double coldest_c = std::min(before.coldest_c, c.filled.vessel_c);
        start.plant.levers.lost_fluid_m3 = 12.0 * litre;
        for (int i = 0; i < 60; ++i) {
            run(start, 10);
            const double vessel_c = loop_fluid_state(start.plant).vessel_c;
            BOOST_TEST_CONTEXT(start.name << ", second " << 10 * i) {
                BOOST_REQUIRE(vessel_c > coldest_c - 1.0);
                BOOST_REQUIRE(vessel_c < hottest_c + 1.0);
            }
        }
    }
}

// A cap that is shut and opened again gives back what it kept, and no more of a waterlogged vessel.
BOOST_AUTO_TEST_CASE(a_cap_shut_and_opened_again_leaves_the_pressure_as_it_was) {
    for (const double waterlogged : {0.0, 0.5, 0.99}) {
        Start start = resting_night();
        start.plant.levers.vessel_waterlogged_share = waterlogged;
        run(start, 60);
        Start untouched = start;
        run(untouched, 120);
        start.plant.levers.vessel_cap_closed = 1.0;
        run(start, 60);
        start.plant.levers.vessel_cap_closed = 0.0;
        run(start, 60);
        BOOST_TEST_CONTEXT(waterlogged << " of the vessel is water") {
            BOOST_CHECK_CLOSE(gauge_pressure_pa(start.plant), gauge_pressure_pa(untouched.plant),
                              0.1);
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
