// SPDX-License-Identifier: MIT
// The method of the strides: its coefficients against the conditions of order for any approximation
// of the Jacobian (Hairer and Wanner, Solving Ordinary Differential Equations II, section IV.7,
// W-methods), and its equations against what they stand for.
#include "plant/rosenbrock.hpp"
#include "plant/linear.hpp"
#include "plant/plant.hpp"

#include "linear_rates.hpp"
#include "stride_day.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <array>
#include <cmath>

BOOST_AUTO_TEST_SUITE(rosenbrock)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;
namespace method = noonbench::plant::rosenbrock;

namespace {

using Row = method::Row;
using Square = std::array<Row, method::stages>;

Square with_diagonal() {
    Square gamma = method::coupling;
    for (std::size_t i = 0; i < method::stages; ++i) gamma[i][i] = method::diagonal;
    return gamma;
}

Row times(const Square& matrix, const Row& vector) {
    Row product{};
    for (std::size_t i = 0; i < method::stages; ++i) {
        for (std::size_t k = 0; k < method::stages; ++k) product[i] += matrix[i][k] * vector[k];
    }
    return product;
}

double dot(const Row& a, const Row& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < method::stages; ++i) sum += a[i] * b[i];
    return sum;
}

constexpr Row ones{1.0, 1.0, 1.0, 1.0};

}  // namespace

BOOST_AUTO_TEST_CASE(has_order_three_whatever_stands_for_the_jacobian) {
    const Square alpha = method::weight;
    const Square gamma = with_diagonal();
    const Row a = times(alpha, ones);
    const Row g = times(gamma, ones);
    Row squares{};
    for (std::size_t i = 0; i < method::stages; ++i) squares[i] = a[i] * a[i];
    const Row& b = method::result;
    constexpr double rounding = 1e-14;
    BOOST_CHECK_SMALL(dot(b, ones) - 1.0, rounding);
    BOOST_CHECK_SMALL(dot(b, a) - 1.0 / 2.0, rounding);
    BOOST_CHECK_SMALL(dot(b, g), rounding);
    BOOST_CHECK_SMALL(dot(b, squares) - 1.0 / 3.0, rounding);
    BOOST_CHECK_SMALL(dot(b, times(alpha, a)) - 1.0 / 6.0, rounding);
    BOOST_CHECK_SMALL(dot(b, times(alpha, g)), rounding);
    BOOST_CHECK_SMALL(dot(b, times(gamma, a)), rounding);
    BOOST_CHECK_SMALL(dot(b, times(gamma, g)), rounding);
}

BOOST_AUTO_TEST_CASE(the_second_opinion_has_order_two_and_no_more) {
    const Square alpha = method::weight;
    const Row a = times(alpha, ones);
    const Row& b = method::second_opinion;
    BOOST_CHECK_SMALL(dot(b, ones) - 1.0, 1e-14);
    BOOST_CHECK_SMALL(dot(b, a) - 1.0 / 2.0, 1e-14);
    BOOST_CHECK_SMALL(dot(b, times(with_diagonal(), ones)), 1e-14);
    BOOST_TEST(std::abs(dot(b, times(alpha, a)) - 1.0 / 6.0) > 1e-2);
}

// The last stage is the result: what is stiff is not only damped but gone in one long step.
BOOST_AUTO_TEST_CASE(is_stiffly_accurate) {
    const Square gamma = with_diagonal();
    for (std::size_t k = 0; k < method::stages; ++k) {
        BOOST_CHECK_SMALL(method::weight[3][k] + gamma[3][k] - method::result[k], 1e-15);
    }
}

// The sums in which the method is run are those of the parts, and give what the parts give.
BOOST_AUTO_TEST_CASE(is_the_same_method_in_sums) {
    const Square gamma = with_diagonal();
    const auto holds = [&](const Row& of_sums, const Row& of_parts, const char* what) {
        for (std::size_t k = 0; k < method::stages; ++k) {
            double sum = 0.0;
            for (std::size_t i = 0; i < method::stages; ++i) sum += of_sums[i] * gamma[i][k];
            BOOST_TEST(std::abs(sum - of_parts[k]) < 1e-14, what << " of part " << k);
        }
    };
    for (std::size_t i = 0; i < method::stages; ++i) {
        holds(method::in_sums::point[i], method::weight[i], "point");
        Row unit{};
        unit[i] = 1.0;
        Row part = method::in_sums::carried[i];
        for (double& of_sum : part) of_sum = -of_sum;
        part[i] = 1.0 / method::diagonal;
        holds(part, unit, "part");
    }
    Row last = method::in_sums::point[3];
    last[3] = 1.0;
    holds(last, method::result, "result");
    Row difference{};
    for (std::size_t k = 0; k < method::stages; ++k) {
        difference[k] = method::result[k] - method::second_opinion[k];
    }
    holds(method::in_sums::error, difference, "error");
}

// (C / step - G) y = right: what elimination along the loop finds is put back into the equation.
BOOST_AUTO_TEST_CASE(the_equations_of_a_step_are_solved) {
    for (const bool pump_on : {false, true}) {
        for (const double tap_kg_s : {0.0, 0.15}) {
            Plant plant = make_plant(Parameters{}, 18.0, 50.0, 8.0);
            const Circuit& circuit = *plant.circuit;
            const Layout& at = circuit.layout;
            // a store upside down, so that plumes stand in the equations as well
            for (int k = 0; k < at.layers; ++k) {
                const int cell = at.layers_first + k;
                plant.amounts[static_cast<std::size_t>(cell)] =
                    cell_energy_j(circuit, cell, 50.0 - 1.5 * k);
            }
            const CivilSeconds noon = CivilSeconds{12} * 3600;
            const WeatherSpan sun = april_span(noon, 3600);
            Actions actions;
            actions.pump_relay = pump_on;
            const Tick tick = make_tick(circuit, plant.levers, plant.modes,
                                        {noon, actions, tap_kg_s}, plant.amounts);
            Linear linear;
            linearise(circuit, tick, outside_at(sun, circuit, noon, 0.0), plant.amounts, linear);
            constexpr double step_s = 17.0;
            const StepEquations equations(circuit, tick, linear, step_s);
            Amounts right{};
            for (int i = 0; i < at.row_kg_first; ++i) {
                right[static_cast<std::size_t>(i)] = 100.0 * std::sin(1.0 + i);
            }
            Amounts y_k{};
            equations.solve(right.data(), y_k.data());
            Amounts answer{};
            linear_rates(circuit, tick, linear, y_k.data(), answer.data());
            double worst = 0.0;
            const auto holds = [&](int i, double capacity) {
                const auto k = static_cast<std::size_t>(i);
                worst =
                    std::max(worst, std::abs(capacity * y_k[k] / step_s - answer[k] - right[k]));
            };
            for (int i = 0; i < at.bodies; ++i) {
                holds(i, linear.capacity_j_k[static_cast<std::size_t>(i)]);
            }
            holds(at.vessel, linear.capacity_j_k[static_cast<std::size_t>(at.vessel)]);
            for (int i = at.row_sensor; i < at.row_kg_first; ++i) holds(i, 1.0);
            std::array<double, edge_count> edges{};
            add_linear_edges(circuit, linear, y_k.data(), edges.data());
            for (std::size_t e = 0; e < edges.size(); ++e) {
                const double booked_w = answer[static_cast<std::size_t>(at.edges_first) + e];
                worst = std::max(worst, std::abs(edges[e] - booked_w));
            }
            BOOST_TEST(worst < 1e-9, "off by " << worst << " W with pump " << pump_on << ", tap "
                                               << tap_kg_s << " kg/s");
        }
    }
}

// The linear answer is the right-hand side's own slope where it claims to be: everything but what
// it says is left out stands still here.
BOOST_AUTO_TEST_CASE(the_linear_answer_is_the_slope_of_the_rates) {
    Plant plant = make_plant(Parameters{}, 18.0, 50.0, 8.0);
    const Circuit& circuit = *plant.circuit;
    const Layout& at = circuit.layout;
    const CivilSeconds noon = CivilSeconds{12} * 3600;
    const WeatherSpan sun = april_span(noon, 3600);
    Actions actions;
    actions.pump_relay = true;
    for (CivilSeconds s = 0; s < 600; ++s) advance(plant, sun, noon + s, actions, 0.0);
    const Tick tick =
        make_tick(circuit, plant.levers, plant.modes, {noon + 600, actions, 0.0}, plant.amounts);
    const Outside outside = outside_at(sun, circuit, noon + 600, 0.0);
    Linear linear;
    linearise(circuit, tick, outside, plant.amounts, linear);
    Amounts before{};
    rates(circuit, tick, outside, plant.amounts.data(), before.data());
    constexpr double nudge_k = 1e-3;
    double worst = 0.0;
    for (int cell = 0; cell < at.bodies; ++cell) {
        const auto i = static_cast<std::size_t>(cell);
        Amounts nudged = plant.amounts;
        nudged[i] += nudge_k * linear.capacity_j_k[i];
        Amounts after{};
        rates(circuit, tick, outside, nudged.data(), after.data());
        Amounts y_k{};
        y_k[i] = nudge_k;
        Amounts answer{};
        linear_rates(circuit, tick, linear, y_k.data(), answer.data());
        for (int k = 0; k < at.bodies; ++k) {
            const auto j = static_cast<std::size_t>(k);
            const double slope_w_k = (after[j] - before[j]) / nudge_k;
            worst = std::max(worst, std::abs(slope_w_k - answer[j] / nudge_k));
        }
    }
    BOOST_TEST(worst < 0.1, "a slope is off by " << worst << " W/K");
}

BOOST_AUTO_TEST_SUITE_END()
