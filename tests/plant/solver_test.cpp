// SPDX-License-Identifier: MIT
#include "plant/solver.hpp"
#include "plant/tick.hpp"
#include "tests/plant/plant_day.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstddef>

BOOST_AUTO_TEST_SUITE(solver)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

// Two minutes after a start: steep fronts run round the loop, the store is well layered (no
// inversion, so the right-hand side is smooth and the order can show).
Amounts after_two_minutes(Method method, int substeps) {
    Plant plant = make_plant(Parameters{}, 20.0, 60.0, 45.0);
    const WeatherSpan weather = constant_weather(600.0, 15.0, 5.0);
    for (int s = 0; s < 120; ++s) {
        const Tick tick = make_tick(*plant.circuit, plant.levers, plant.modes,
                                    {s, pump_running(), 0.05}, plant.amounts);
        integrate_second(*plant.circuit, {weather, s, tick}, method, substeps, plant.amounts);
    }
    return plant.amounts;
}

double largest_difference_j(const Amounts& a, const Amounts& b, int cells) {
    double worst_j = 0.0;
    for (std::size_t i = 0; i < static_cast<std::size_t>(cells); ++i) {
        worst_j = std::fmax(worst_j, std::abs(a[i] - b[i]));
    }
    return worst_j;
}

double observed_order(Method method) {
    const int cells = make_circuit(Parameters{}).layout.cells;
    const Amounts exact = after_two_minutes(Method::reference, 32);
    const double coarse_j = largest_difference_j(after_two_minutes(method, 1), exact, cells);
    const double fine_j = largest_difference_j(after_two_minutes(method, 2), exact, cells);
    return std::log2(coarse_j / fine_j);
}

}  // namespace

BOOST_AUTO_TEST_CASE(everyday_method_is_of_second_order) {
    const double order = observed_order(Method::everyday);
    BOOST_TEST(order > 1.9);
    BOOST_TEST(order < 2.2);
}

BOOST_AUTO_TEST_CASE(reference_method_is_of_fourth_order) {
    const double order = observed_order(Method::reference);
    BOOST_TEST(order > 3.8);
    BOOST_TEST(order < 4.2);
}

BOOST_AUTO_TEST_CASE(everyday_method_follows_the_reference_through_a_day) {
    Plant quick = make_plant(Parameters{}, 16.0, 50.0, 8.0);
    Plant exact = quick;
    exact.method = Method::reference;
    April quick_april(quick);
    April exact_april(exact);
    double worst_k = 0.0;
    for (int s = 0; s < 86400; ++s) {
        quick_april.tick(s);
        exact_april.tick(s);
        if (s % 600 == 0) {
            worst_k = std::fmax(worst_k, std::abs(readings(quick).store_bottom_sensor_c -
                                                  readings(exact).store_bottom_sensor_c));
        }
    }
    const double coil_j = exact.books.of(Edge::coil);
    BOOST_TEST_CONTEXT("coil " << coil_j << " J, off by "
                               << quick.books.of(Edge::coil) / coil_j - 1.0 << ", store bottom "
                               << worst_k << " K") {
        BOOST_TEST(quick_april.found().starts == exact_april.found().starts);
        BOOST_CHECK_CLOSE(quick.books.of(Edge::coil), coil_j, 0.01);
        BOOST_TEST(worst_k < 0.02);  // below the controller's resolution of a tenth of a kelvin
    }
}

BOOST_AUTO_TEST_CASE(a_second_is_cut_when_something_is_fast) {
    Parameters quick;
    quick.pipe_cells = 24;
    quick.loop.hot_pipe.length_m = 2.0;
    quick.loop.cold_pipe.length_m = 2.0;
    quick.loop.pump.full_flow_m3_s = 8.0 / 60000.0;
    Plant plant = make_plant(quick, 20.0, 50.0, 60.0);
    const WeatherSpan weather = constant_weather(500.0, 15.0, 5.0);
    advance(plant, weather, 0, Actions{}, 0.0);
    BOOST_TEST(plant.last.substeps == 1);
    run(plant, weather, pump_running(), 600, 1);
    BOOST_TEST(plant.last.substeps > 5);
    BOOST_TEST(balance_of_run(plant).holds());
    const View shown = view(plant);
    BOOST_TEST(shown.row_outlet_c[0] > shown.row_inlet_c[0]);
    BOOST_TEST(shown.row_outlet_c[0] < 70.0);
}

BOOST_AUTO_TEST_CASE(stiffest_rate_is_not_underestimated) {
    // Of a pair in the middle of an inverted stack and of a pipe cell, by finite differences.
    const Parameters p;
    Plant plant = make_plant(p, 60.0, 20.0, 45.0);
    const Circuit& c = *plant.circuit;
    const Tick tick =
        make_tick(c, plant.levers, plant.modes, {0, pump_running(), 0.2}, plant.amounts);
    const Outside outside = outside_at(constant_weather(0.0, 10.0, 0.0), c, 0, 0.0);
    Amounts base{};
    Amounts moved{};
    rates(c, tick, outside, plant.amounts.data(), base.data());
    double steepest_per_s = 0.0;
    for (int i = 0; i < c.layout.cells; ++i) {
        const auto cell = static_cast<std::size_t>(i);
        Amounts amounts = plant.amounts;
        amounts[cell] += 1.0;
        rates(c, tick, outside, amounts.data(), moved.data());
        double column_per_s = 0.0;  // a column sum bounds every eigenvalue
        for (std::size_t k = 0; k < static_cast<std::size_t>(c.layout.cells); ++k) {
            column_per_s += std::abs(moved[k] - base[k]);
        }
        steepest_per_s = std::fmax(steepest_per_s, 0.5 * column_per_s);
    }
    BOOST_TEST(steepest_per_s <= stiffest_rate_per_s(c, tick));
    BOOST_TEST(steepest_per_s > 0.3);
}

BOOST_AUTO_TEST_SUITE_END()
