// SPDX-License-Identifier: MIT
#include "plant/fluid.hpp"
#include "plant/si.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cmath>
#include <cstddef>

BOOST_AUTO_TEST_SUITE(store)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

// Energy over cold of the outlet, 1 at the start, after each of `changes` store volumes drawn.
std::array<double, 5> draw_off(int layers, const std::array<double, 5>& changes) {
    Parameters p = lossless();
    p.layers = layers;
    Plant plant = make_plant(p, 60.0, 60.0, 20.0);
    plant.method = Method::reference;
    // The coil's fluid would lend the layers its heat: cut it off, beyond the lever's range.
    plant.levers.coil_fouling = 0.0;
    Actions actions;
    actions.mains_c = 10.0;
    const double hot_j_kg = water_heat_content.energy_j_kg(60.0);
    const double cold_j_kg = water_heat_content.energy_j_kg(10.0);
    constexpr int seconds_a_change = 2000;
    const double flow_kg_s = 0.3 * water_density_kg_m3 / seconds_a_change;
    std::array<double, 5> left{};
    int second = 0;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const int until = static_cast<int>(std::lround(changes[i] * seconds_a_change));
        for (; second < until; ++second) {
            advance(plant, constant_weather(0.0, 20.0, 20.0), second, actions, flow_kg_s);
        }
        const int top = layout_of(plant).layers_first + layers - 1;
        left[i] = (water_heat_content.energy_j_kg(temperature_c(plant, top)) - cold_j_kg) /
                  (hot_j_kg - cold_j_kg);
    }
    return left;
}

}  // namespace

BOOST_AUTO_TEST_CASE(draw_off_through_equal_layers_has_the_gamma_form) {
    // exp(-N th) sum_{k<N} (N th)^k / k!, four digits: what N stirred layers make of a plug.
    const std::array changes{0.5, 0.9, 1.0, 1.1, 1.5};
    struct Row {
        int layers;
        std::array<double, 5> left;
    };
    for (const Row& row : {Row{1, {0.6065, 0.4066, 0.3679, 0.3329, 0.2231}},
                           Row{5, {0.8912, 0.5321, 0.4405, 0.3575, 0.1321}},
                           Row{10, {0.9682, 0.5874, 0.4579, 0.3405, 0.0699}},
                           Row{20, {0.9965, 0.6509, 0.4703, 0.3060, 0.0219}}}) {
        const auto left = draw_off(row.layers, changes);
        for (std::size_t i = 0; i < left.size(); ++i) {
            BOOST_TEST_CONTEXT(row.layers << " layers, " << changes[i] << " changes") {
                BOOST_CHECK_SMALL(left[i] - row.left[i], 1e-4);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(fully_stirred_store_empties_exponentially) {
    const std::array changes{0.25, 0.5, 1.0, 2.0, 3.0};
    const std::array expected{0.77880, 0.60653, 0.36788, 0.13534, 0.04979};
    const auto left = draw_off(1, changes);
    for (std::size_t i = 0; i < left.size(); ++i) {
        BOOST_TEST_CONTEXT(changes[i] << " changes") {
            BOOST_CHECK_SMALL(left[i] - expected[i], 1e-5);
        }
    }
}

BOOST_AUTO_TEST_CASE(a_litre_of_water_holds_1_16_watt_hours_a_kelvin) {
    // netzwerk-solar.de prints 1.16 Wh per litre and kelvin, and 17.4 kWh for 300 l from 10 to
    // 60 degC (enthalpies: 17.42).
    const double rise_j_kg =
        water_heat_content.energy_j_kg(60.0) - water_heat_content.energy_j_kg(10.0);
    const double store_kwh = kilowatt_hours(0.3 * water_density_kg_m3 * rise_j_kg);
    BOOST_CHECK_SMALL(store_kwh - 17.4, 0.05);
    const double litre_wh_k =
        water_density_kg_m3 * 1e-3 * water_heat_content.specific_heat_j_kgk(20.0) / 3600.0;
    BOOST_CHECK_SMALL(litre_wh_k - 1.1603, 0.002);  // IAPWS-IF97 1.16030; 201 J/kg fit
}

BOOST_AUTO_TEST_CASE(standing_loss_of_the_test_point_is_kept) {
    // EN 12897 test point: 65 degC in 20 degC, 45 K. q kWh a day = q x 1000/24/45 W/K.
    struct Row {
        double kwh_a_day;
        double ua_w_k;
    };
    for (const Row& row :
         {Row{1.0, 0.9259}, Row{1.5, 1.3889}, Row{2.0, 1.8519}, Row{3.0, 2.7778}}) {
        Parameters p = lossless();
        p.store.side_ua_w_k = row.ua_w_k;
        p.store.room_c = 20.0;
        p.store.volume_m3 = 1000.0;  // keeps its temperature for the day
        Plant plant = make_plant(p, 65.0, 65.0, 20.0);
        run(plant, constant_weather(0.0, 20.0, 20.0), Actions{}, 3600);
        BOOST_TEST_CONTEXT(row.kwh_a_day << " kWh a day") {
            BOOST_CHECK_CLOSE(24.0 * kilowatt_hours(plant.books.of(Edge::store_loss)),
                              row.kwh_a_day, 0.01);
        }
    }
}

BOOST_AUTO_TEST_CASE(heat_creeps_down_a_standing_column_as_carslaw_and_jaeger_say) {
    // Two long columns at 60 and 20 degC touch: the interface stays at the mean, the lower profile
    // is erfc(x / sqrt(4 alpha t)) / 2 (Carslaw and Jaeger, Conduction of Heat in Solids, chapter
    // 2).
    Parameters p = lossless();
    p.layers = 32;
    p.store.height_m = 1.28;  // layers of 4 cm
    p.store.conductivity_w_mk = 0.63;
    p.store.solar_coil.content_m3 = 1e-5;
    p.store.solar_coil.from_height = 0.0;
    p.store.solar_coil.to_height = 0.03;
    Plant plant = make_plant(p, 20.0, 20.0, 20.0);
    const Circuit& c = *plant.circuit;
    for (int k = 16; k < 32; ++k) {
        const int cell = layout_of(plant).layers_first + k;
        plant.amounts[static_cast<std::size_t>(cell)] = cell_energy_j(c, cell, 60.0);
    }
    // Layer middles 2, 6, 10, 14 cm below the interface; diffusivity of our water.
    const double alpha =
        0.63 / (water_density_kg_m3 * water_heat_content.specific_heat_j_kgk(40.0));
    run(plant, constant_weather(0.0, 20.0, 20.0), Actions{}, 24 * 3600);
    for (int below = 0; below < 4; ++below) {
        const double x_m = 0.02 + 0.04 * below;
        const double expected = 0.5 * std::erfc(x_m / std::sqrt(4.0 * alpha * 86400.0));
        const int cell = layout_of(plant).layers_first + 15 - below;
        const double risen = (temperature_c(plant, cell) - 20.0) / 40.0;
        BOOST_TEST_CONTEXT(x_m << " m below, risen " << risen << ", expected " << expected) {
            BOOST_CHECK_SMALL(risen - expected, 0.005);  // layers of 4 cm on a front of 23 cm
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
