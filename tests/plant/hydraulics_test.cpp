// SPDX-License-Identifier: MIT
#include "plant/hydraulics.hpp"

#include "plant/fluid.hpp"
#include "plant/si.hpp"
#include "tests/plant/loop_cases.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <numbers>
#include <utility>

BOOST_AUTO_TEST_SUITE(hydraulics)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double g = standard_gravity_m_s2;

double full_kg_s(const Parameters& p) {
    return p.loop.pump.full_flow_m3_s * density_kg_m3(p.loop.glycol_mass_share, 20.0);
}

/// Pipes and coil alone resist, and laminar: setter, fittings, rows and pump resist as good as not.
LoopHydraulics only_pipes() {
    LoopHydraulics h = make_hydraulics(Parameters{});
    h.setter_zeta = 0.0;
    h.fittings_zeta = 0.0;
    h.zeta_1_m4 = 0.0;  // check valve, strainer and loop valve too
    h.pump_1_m4 = 0.0;
    for (RowTubes& row : h.rows) row.laminar_1_m3 = row.local_1_m4 = 1e-3;
    h.opening_pa = 0.0;
    return h;
}

// Hagen and Poiseuille: 128 mu L / (pi d^4), Pa s/m3.
double poiseuille_pa_s_m3(double viscosity_pa_s, double length_m, double bore_m) {
    return 128.0 * viscosity_pa_s * length_m / (pi * std::pow(bore_m, 4));
}

double coil_length_m(const Parameters& p) {
    const Coil& coil = p.store.solar_coil;
    return coil.content_m3 / (pi / 4.0 * coil.bore_m * coil.bore_m);
}

}  // namespace

BOOST_AUTO_TEST_CASE(full_flow_is_what_the_setter_was_commissioned_for) {
    for (std::size_t rows : {1U, 2U, 5U}) {
        for (double litres_min : {0.5, 2.6, 12.0}) {
            Parameters p = with_rows(rows, 3);
            p.loop.pump.full_flow_m3_s = litres_min / 60000.0;
            const LoopHydraulics h = make_hydraulics(p);
            BOOST_TEST_CONTEXT(rows << " rows, " << litres_min << " l/min, zeta "
                                    << h.setter_zeta) {
                BOOST_TEST(h.full_flow_reached);
                BOOST_CHECK_SMALL(mass_flow(h, 40.0, 1.0) / full_kg_s(p) - 1.0, 1e-6);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(too_weak_a_pump_leaves_the_setter_open_and_says_so) {
    Parameters p;
    p.loop.pump.full_flow_m3_s = 20.0 / 60000.0;
    p.loop.pump.shut_off_head_m = 3.0;
    const LoopHydraulics h = make_hydraulics(p);
    BOOST_TEST(!h.full_flow_reached);
    BOOST_TEST(h.setter_zeta == 0.0);
    BOOST_TEST(mass_flow(h, 40.0, 1.0) < full_kg_s(p));
    BOOST_TEST(mass_flow(h, 40.0, 1.0) > 0.0);
}

BOOST_AUTO_TEST_CASE(laminar_flow_is_that_of_hagen_and_poiseuille) {
    const Parameters p;
    LoopHydraulics h = only_pipes();
    constexpr double head_m = 0.05;
    h.shut_off_j_kg = g * head_m;
    const FluidProperties fluid = h.fluid.at(0.0);
    const double resistance = poiseuille_pa_s_m3(fluid.viscosity_pa_s, 24.0, 0.016) +
                              poiseuille_pa_s_m3(fluid.viscosity_pa_s, coil_length_m(p), 0.026);
    const double drive_pa = fluid.density_kg_m3 * g * head_m - 0.01;  // the solver's dead band
    const double by_hand_kg_s = drive_pa / resistance * fluid.density_kg_m3;
    const double reynolds = h.hot_pipe.reynolds_1_m * by_hand_kg_s / fluid.viscosity_pa_s;
    BOOST_TEST_CONTEXT("Re " << reynolds) {
        BOOST_TEST(reynolds < laminar_end_reynolds);
        // The rows' stand-in of 1e-3 resists 1e-10 of the pipes.
        BOOST_CHECK_CLOSE(mass_flow(h, 0.0, 1.0), by_hand_kg_s, 1e-6);
    }
}

BOOST_AUTO_TEST_CASE(turbulent_flow_is_where_haaland_and_the_velocity_heads_say) {
    // Backward: choose 15 l/min of 60 degC, add up by hand what it costs, give the pump that head.
    const Parameters p;
    LoopHydraulics h = make_hydraulics(p);
    const FluidProperties fluid = h.fluid.at(60.0);
    const double litres_s = 15.0 / 60000.0;
    const auto tube_pa = [&](double length_m, double bore_m, double roughness_m) {
        const double v = litres_s / (pi / 4.0 * bore_m * bore_m);
        const double re = fluid.density_kg_m3 * v * bore_m / fluid.viscosity_pa_s;
        BOOST_TEST(re > turbulent_start_reynolds);
        return haaland_friction(re, roughness_m / bore_m) * length_m / bore_m * 0.5 *
               fluid.density_kg_m3 * v * v;
    };
    const auto heads_pa = [&](double zeta, double bore_m) {
        const double v = litres_s / (pi / 4.0 * bore_m * bore_m);
        return zeta * 0.5 * fluid.density_kg_m3 * v * v;
    };
    const double pipes_pa = tube_pa(24.0, 0.016, 1.5e-6) + tube_pa(coil_length_m(p), 0.026, 45e-6);
    const double locals_pa = heads_pa(20.0 + 3.0 + 8.0 + 0.3, 0.016);  // fittings and bodies
    const double rows_pa =
        2.0 * (poiseuille_pa_s_m3(fluid.viscosity_pa_s, 1.9, 0.007) * litres_s / 10.0 +
               heads_pa(5.0, 0.020));
    h.setter_zeta = 0.0;
    h.pump_1_m4 = 0.0;
    h.shut_off_j_kg = (pipes_pa + locals_pa + rows_pa + 2000.0) / fluid.density_kg_m3;
    BOOST_CHECK_CLOSE(mass_flow(h, 60.0, 1.0), litres_s * fluid.density_kg_m3, 1e-6);
}

BOOST_AUTO_TEST_CASE(cold_thick_glycol_flows_as_much_less_as_it_is_thicker) {
    // All laminar: dp = R mu m/rho, so m rises with rho^2/mu at a given head in metres.
    LoopHydraulics h = only_pipes();
    h.shut_off_j_kg = g * 0.02;
    const FluidProperties cold = h.fluid.at(-15.0);
    const FluidProperties warm = h.fluid.at(10.0);
    const auto expected = [](const FluidProperties& fluid) {
        return (fluid.density_kg_m3 * g * 0.02 - 0.01) * fluid.density_kg_m3 / fluid.viscosity_pa_s;
    };
    const double ratio = mass_flow(h, -15.0, 1.0) / mass_flow(h, 10.0, 1.0);
    BOOST_CHECK_CLOSE(ratio, expected(cold) / expected(warm), 1e-5);
    BOOST_TEST(ratio < 0.3);
    // Twentyfold viscosity is a twentieth of the flow.
    Levers sludge;
    sludge.fluid_thickening = 20.0;
    BOOST_CHECK_CLOSE(mass_flow(h, 10.0, 1.0, sludge) * 20.0, mass_flow(h, 10.0, 1.0), 1e-5);
}

BOOST_AUTO_TEST_CASE(strainer_and_valve_add_the_velocity_heads_of_their_formulas) {
    // With all friction gone dp = zeta rho v^2/2: zeta 20 + 3/(1-x)^2 + 8 + 0.3/o^2.
    LoopHydraulics h = make_hydraulics(Parameters{});
    h.setter_zeta = 0.0;
    h.pump_1_m4 = 0.0;
    for (Tube* tube : {&h.hot_pipe, &h.coil, &h.cold_pipe}) tube->friction_1_m3 = 0.0;
    for (RowTubes& row : h.rows) row.laminar_1_m3 = row.local_1_m4 = 1e-3;
    const double clean = mass_flow(h, 40.0, 1.0);
    Levers levers;
    levers.strainer_clogging = 0.5;
    BOOST_CHECK_CLOSE(mass_flow(h, 40.0, 1.0, levers) / clean, std::sqrt(31.3 / 40.3), 1e-4);
    levers = {};
    levers.loop_valve_opening = 0.5;
    BOOST_CHECK_CLOSE(mass_flow(h, 40.0, 1.0, levers) / clean, std::sqrt(31.3 / 32.2), 1e-4);
    levers.loop_valve_opening = 0.0;
    BOOST_TEST(mass_flow(h, 40.0, 1.0, levers) == 0.0);
}

BOOST_AUTO_TEST_CASE(a_set_regulator_hides_a_half_clogged_strainer) {
    // The setter is the greatest resistance: half clogged costs less than 1 %, 98 % more than half.
    const LoopHydraulics h = make_hydraulics(Parameters{});
    const double clean = mass_flow(h, 40.0, 1.0);
    Levers levers;
    levers.strainer_clogging = 0.5;
    BOOST_TEST(mass_flow(h, 40.0, 1.0, levers) / clean > 0.99);
    BOOST_TEST(mass_flow(h, 40.0, 1.0, levers) < clean);
    levers.strainer_clogging = 0.98;
    BOOST_TEST(mass_flow(h, 40.0, 1.0, levers) / clean < 0.5);
}

BOOST_AUTO_TEST_CASE(rows_in_parallel_take_a_quarter_of_the_laminar_head_of_rows_in_series) {
    // Four collectors: two rows of two see half the flow through half the collectors.
    const auto head_of_rows = [](const Parameters& p) {
        LoopHydraulics h = make_hydraulics(p);
        h.setter_zeta = h.fittings_zeta = h.zeta_1_m4 = h.pump_1_m4 = h.opening_pa = 0.0;
        for (Tube* tube : {&h.hot_pipe, &h.coil, &h.cold_pipe}) tube->friction_1_m3 = 0.0;
        for (RowTubes& row : h.rows) row.local_1_m4 = 1e-3;
        h.shut_off_j_kg = g * 0.05;
        return mass_flow(h, 20.0, 1.0);
    };
    BOOST_CHECK_CLOSE(head_of_rows(with_rows(2, 2)) / head_of_rows(with_rows(1, 4)), 4.0, 1e-4);
}

BOOST_AUTO_TEST_CASE(rows_share_by_resistance_and_a_blocked_one_gets_nothing) {
    Parameters p = with_rows(2, 1);
    p.rows[1].collectors_in_series = 3;
    const LoopHydraulics h = make_hydraulics(p);
    LoopFlow flow = solve_loop(h, uniform_fluids(h, 40.0), 1.0, Levers{});
    // All terms of a row go with the number in series: linear part dominates, so nearly 3 : 1.
    BOOST_TEST(flow.row_kg_s[0] / flow.row_kg_s[1] < 3.0);
    BOOST_TEST(flow.row_kg_s[0] / flow.row_kg_s[1] > 2.3);
    // Same head: a m + b m^2 of both rows agree.
    const FluidProperties fluid = h.fluid.at(40.0);
    const auto head = [&](std::size_t r) {
        const double m = flow.row_kg_s[r];
        return (h.rows[r].laminar_1_m3 * fluid.viscosity_pa_s + h.rows[r].local_1_m4 * m) * m /
               fluid.density_kg_m3;
    };
    BOOST_CHECK_CLOSE(head(0), head(1), 1e-9);
    Levers levers;
    levers.row_1_flow_factor = 0.0;
    const double both = flow.total_kg_s;
    flow = solve_loop(h, uniform_fluids(h, 40.0), 1.0, levers);
    BOOST_TEST(flow.row_kg_s[0] == 0.0);
    BOOST_TEST(flow.row_kg_s[1] == flow.total_kg_s);
    BOOST_TEST(flow.total_kg_s < both);
    levers.row_2_flow_factor = 0.0;
    BOOST_TEST(solve_loop(h, uniform_fluids(h, 40.0), 1.0, levers).total_kg_s == 0.0);
}

BOOST_AUTO_TEST_CASE(a_hotter_row_takes_more_of_the_flow) {
    const LoopHydraulics h = make_hydraulics(with_rows(2, 2));
    LoopFluids fluids = uniform_fluids(h, 40.0);
    fluids.rows[1] = h.fluid.at(80.0);  // thinner, and lifted
    const LoopFlow flow = solve_loop(h, fluids, 1.0, Levers{});
    BOOST_TEST(flow.row_kg_s[1] > 1.5 * flow.row_kg_s[0]);
}

BOOST_AUTO_TEST_CASE(a_pump_below_the_opening_pressure_moves_nothing) {
    // 6 m n^2 against 20 hPa: 1020 kg/m3 x 9.80665 x 6 n^2 = 2000 Pa at n = 0.1825.
    const LoopHydraulics h = make_hydraulics(Parameters{});
    BOOST_TEST(mass_flow(h, 40.0, 0.182) == 0.0);
    BOOST_TEST(mass_flow(h, 40.0, 0.184) > 0.0);
    Levers held;
    held.check_valve_held_open = 1.0;
    BOOST_TEST(mass_flow(h, 40.0, 0.1, held) > 0.0);
}

BOOST_AUTO_TEST_CASE(check_valve_bars_a_little_or_not_at_all) {
    const LoopHydraulics h = make_hydraulics(Parameters{});
    const LoopFluids night = fluids_at(h, frosty_c);
    BOOST_TEST(drive_at_rest_pa(h, night, 0.0, Levers{}) < 0.0);
    Levers levers;
    BOOST_TEST(solve_loop(h, night, 0.0, levers).total_kg_s == 0.0);
    double last = 0.0;
    for (double leak : {0.02, 0.05, 0.2, 0.5}) {
        levers.check_valve_leak = leak;
        const double flow = solve_loop(h, night, 0.0, levers).total_kg_s;
        BOOST_TEST_CONTEXT("leak " << leak << ": " << flow << " kg/s") BOOST_TEST(flow < last);
        last = flow;
    }
    levers.check_valve_held_open = 1.0;
    BOOST_TEST(solve_loop(h, night, 0.0, levers).total_kg_s < last);
    // A turning pump is stronger than the cold roof.
    BOOST_TEST(solve_loop(h, night, 1.0, levers).total_kg_s > 0.0);
}

BOOST_AUTO_TEST_CASE(natural_circulation_goes_where_the_heavy_column_pushes) {
    // Hot pipe 80, cold pipe 40, all else 40 degC: 8 m of lighter fluid would rise in the pipe that
    // the pump lets fall. Backward, laminar: g (rho_40 - rho_80) 8 m = sum 128 mu L/(pi d^4) m/rho.
    const Parameters p;
    LoopHydraulics h = only_pipes();
    LoopFluids fluids = uniform_fluids(h, 40.0);
    fluids.hot_pipe = h.fluid.at(80.0);
    for (Tube* tube : {&h.hot_pipe, &h.cold_pipe}) tube->friction_1_m3 *= 20.0;  // stays laminar
    const double drive_pa =
        g * (fluids.cold_pipe.density_kg_m3 - fluids.hot_pipe.density_kg_m3) * 8.0;
    const auto term = [](const FluidProperties& f, double length_m, double bore_m) {
        return poiseuille_pa_s_m3(f.viscosity_pa_s, length_m, bore_m) / f.density_kg_m3;
    };
    const double resistance = term(fluids.hot_pipe, 20.0 * 12.0, 0.016) +
                              term(fluids.cold_pipe, 20.0 * 12.0, 0.016) +
                              term(fluids.coil, coil_length_m(p), 0.026);
    Levers levers;
    BOOST_TEST(solve_loop(h, fluids, 0.0, levers).total_kg_s == 0.0);
    levers.check_valve_held_open = 1.0;
    const double by_hand_kg_s = -(drive_pa - 0.01) / resistance;
    BOOST_CHECK_CLOSE(solve_loop(h, fluids, 0.0, levers).total_kg_s, by_hand_kg_s, 1e-6);
    // The other way round it runs forward, and the open check valve does not mind.
    std::swap(fluids.hot_pipe, fluids.cold_pipe);
    levers = {};
    BOOST_TEST(solve_loop(h, fluids, 0.0, levers).total_kg_s > 0.0);
}

BOOST_AUTO_TEST_CASE(hot_rows_lift_and_crossed_pipes_turn_them_round) {
    const Parameters p;
    const LoopHydraulics h = make_hydraulics(p);
    LoopFluids fluids = uniform_fluids(h, 30.0);
    fluids.rows[0] = h.fluid.at(90.0);
    const double rise_m = 1.9 * std::sin(p.rows[0].slope_rad);
    const double lift_pa =
        g * (h.fluid.at(30.0).density_kg_m3 - h.fluid.at(90.0).density_kg_m3) * rise_m;
    Levers levers;
    BOOST_CHECK_CLOSE(drive_at_rest_pa(h, fluids, 0.0, levers), lift_pa, 1e-8);
    levers.collector_pipes_crossed = 1.0;
    BOOST_CHECK_CLOSE(drive_at_rest_pa(h, fluids, 0.0, levers), -lift_pa, 1e-8);
    // A warm coil below pushes backward by the height it spans, forward when fed from below.
    fluids = uniform_fluids(h, 30.0);
    fluids.coil = h.fluid.at(60.0);
    const double span_m = (p.store.solar_coil.to_height - p.store.solar_coil.from_height) * 1.6;
    const double push_pa =
        g * (h.fluid.at(30.0).density_kg_m3 - h.fluid.at(60.0).density_kg_m3) * span_m;
    levers = {};
    BOOST_CHECK_CLOSE(drive_at_rest_pa(h, fluids, 0.0, levers), -push_pa, 1e-8);
    levers.coil_ports_crossed = 1.0;
    BOOST_CHECK_CLOSE(drive_at_rest_pa(h, fluids, 0.0, levers), push_pa, 1e-8);
}

BOOST_AUTO_TEST_CASE(equal_temperatures_move_exactly_nothing) {
    const LoopHydraulics h = make_hydraulics(Parameters{});
    Levers levers;
    levers.check_valve_held_open = 1.0;
    for (double t_c : {-25.0, 18.0, 120.0}) BOOST_TEST(mass_flow(h, t_c, 0.0, levers) == 0.0);
}

BOOST_AUTO_TEST_SUITE_END()
