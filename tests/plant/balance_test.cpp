// SPDX-License-Identifier: MIT
#include "plant/balance.hpp"
#include "plant/fluid.hpp"
#include "tests/plant/plant_day.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstddef>

BOOST_AUTO_TEST_SUITE(balance)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

// Every outside edge carries something in the course of the day: circulation, two rows, a leaking
// check valve at night, boiler, draws, the store's safety valve, fluid let out and topped up.
Parameters everything() {
    Parameters p;
    p.rows.resize(2);
    p.rows[1].azimuth_rad = radians(270.0);
    p.circulation.fitted = true;
    p.store.safety_valve_c = 47.0;  // opens in the course of the day
    return p;
}

Plant day_with_everything(Method method) {
    Plant plant = make_plant(everything(), 20.0, 45.0, 8.0);
    plant.method = method;
    plant.levers.check_valve_leak = 0.5;
    April april(plant);
    plant.levers.lost_fluid_m3 = 0.4e-3;
    april.run(0, 43200);
    plant.levers.lost_fluid_m3 = -0.2e-3;
    april.run(43200, 43200);
    return plant;
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_step_and_the_day_hold_to_rounding) {
    for (Method method : {Method::everyday, Method::reference}) {
        const Plant plant = day_with_everything(method);
        const Residual run = balance_of_run(plant);
        BOOST_TEST_CONTEXT("run residual " << run.residual_j << " J of "
                                           << plant.books.throughput_j() << " J, bound "
                                           << run.bound_j << ", worst step ratio "
                                           << plant.balance.worst_step_ratio) {
            BOOST_TEST(run.holds());
            BOOST_TEST(plant.balance.worst_step_ratio <= 1.0);
            BOOST_TEST(plant.balance.steps == 86400);
            // Far tighter than the bound: rounding alone.
            BOOST_TEST(std::abs(run.residual_j) < 1e-12 * plant.books.throughput_j());
        }
    }
}

BOOST_AUTO_TEST_CASE(leaving_out_any_outside_edge_breaks_the_balance) {
    const Plant plant = day_with_everything(Method::everyday);
    for (int i = 0; i < outside_edge_count; ++i) {
        const auto edge = static_cast<Edge>(i);
        BOOST_TEST_CONTEXT("without edge " << i << ", which carried " << plant.books.of(edge)
                                           << " J") {
            BOOST_TEST(!balance_of_run(plant, edge).holds());
        }
    }
}

BOOST_AUTO_TEST_CASE(one_step_without_an_edge_breaks_its_own_balance) {
    Plant plant = make_plant(everything(), 20.0, 60.0, 8.0);
    April april(plant);
    april.run(0, 12 * 3600);  // noon: a draw begins, the pump runs, circulation rests
    const Amounts before = plant.amounts;
    const StepReport report = april.tick(12 * 3600);
    for (Edge edge : {Edge::absorbed, Edge::pump_heat, Edge::cold_in, Edge::collector_loss,
                      Edge::pipe_loss, Edge::store_loss, Edge::hot_out}) {
        BOOST_TEST_CONTEXT("edge " << static_cast<int>(edge)) {
            BOOST_TEST(!step_residual(layout_of(plant), before, plant.amounts, report.edges, edge)
                            .holds());
        }
    }
    BOOST_TEST(step_residual(layout_of(plant), before, plant.amounts, report.edges).holds());
}

BOOST_AUTO_TEST_CASE(books_do_not_lose_the_small_beside_the_large) {
    Books books;
    EdgeAmounts step{};
    at(step, Edge::absorbed) = 1e12;
    books.add(step);
    at(step, Edge::absorbed) = 1e-5;
    for (int i = 0; i < 100000; ++i) books.add(step);
    BOOST_CHECK_SMALL(books.of(Edge::absorbed) - 1e12 - 1.0, 2e-4);  // spacing of doubles at 1e12
}

BOOST_AUTO_TEST_CASE(boundary_powers_follow_from_the_temperatures_on_view) {
    // Recomputed here from what the bench shows, by formulas of this test: 0.1 % of the day's sums.
    Parameters p;
    p.circulation.fitted = true;
    p.circulation.loop_ua_w_k = 6.0;
    p.circulation.flow_kg_s = 0.05;
    p.store.side_ua_w_k = 1.6;
    p.store.connection_ua_w_k = 0.5;
    p.loop.pump.heat_share = 0.5;
    p.loop.glycol_mass_share = 0.4;
    p.layers = 12;
    Plant plant = make_plant(p, 20.0, 45.0, 8.0);
    April april(plant);
    double store_loss_j = 0.0, tapped_j = 0.0, circulation_j = 0.0, collected_j = 0.0;
    const double loop_kg_m3 = density_kg_m3(0.4, 20.0);
    const HeatContent fluid = loop_heat_content(0.4);
    double absorbed_j = 0.0, pump_heat_j = 0.0;
    View before = view(plant);
    for (int s = 0; s < 86400; ++s) {
        april.tick(s);
        const View after = view(plant);
        const auto mean = [](double a, double b) { return 0.5 * (a + b); };
        double over_k = 0.0;
        for (std::size_t k = 0; k < 12; ++k) {
            over_k += mean(before.layer_c[k], after.layer_c[k]) - 18.0;
        }
        const double top_c = mean(before.layer_c[11], after.layer_c[11]);
        store_loss_j += 1.6 / 12.0 * over_k + 0.5 * (top_c - 18.0);
        tapped_j += after.hot_draw_kg_s *
                    (water_heat_content.energy_j_kg(top_c) - water_heat_content.energy_j_kg(10.0));
        if (after.circulation_on) {
            circulation_j += 0.05 * 4187.0 * -std::expm1(-6.0 / (0.05 * 4187.0)) * (top_c - 18.0);
        }
        collected_j += after.flow_m3_s * loop_kg_m3 *
                       (fluid.energy_j_kg(mean(before.row_outlet_c[0], after.row_outlet_c[0])) -
                        fluid.energy_j_kg(mean(before.row_inlet_c[0], after.row_inlet_c[0])));
        // 4 m2 under the sun of the middle of the second.
        const double sun_w_m2 =
            mean(april_knot(s).absorbable_w_m2[0], april_knot(s + 1).absorbable_w_m2[0]);
        absorbed_j += p.rows[0].collector.eta0 * 4.0 * sun_w_m2;
        pump_heat_j += 0.5 * after.pump_power_w;
        before = after;
    }
    constexpr double percent = 0.1;
    BOOST_CHECK_CLOSE(store_loss_j, plant.books.of(Edge::store_loss), percent);
    BOOST_CHECK_CLOSE(absorbed_j, plant.books.of(Edge::absorbed), percent);
    BOOST_CHECK_CLOSE(pump_heat_j, plant.books.of(Edge::pump_heat), percent);
    BOOST_CHECK_CLOSE(tapped_j, plant.books.tapped_j(), percent);
    BOOST_CHECK_CLOSE(circulation_j, plant.books.of(Edge::circulation_loss), percent);
    BOOST_CHECK_CLOSE(collected_j, plant.books.of(Edge::collector_to_loop), percent);
}

BOOST_AUTO_TEST_SUITE_END()
