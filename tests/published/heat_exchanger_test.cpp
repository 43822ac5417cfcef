// SPDX-License-Identifier: MIT
#include "plant/coil.hpp"
#include "plant/plant.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cstddef>

BOOST_AUTO_TEST_SUITE(heat_exchanger)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

BOOST_AUTO_TEST_CASE(effectiveness_follows_kays_and_london) {
    // Closed forms of Kays & London, Compact Heat Exchangers (also Incropera, Table 11.3); four
    // digits. Columns: isothermal side, counterflow at ratio 0.25, 0.5, 0.75, 0.9, 1, parallel at
    // 0.5 and 1.
    struct Row {
        double transfer_units;
        std::array<double, 8> eps;
    };
    constexpr double half_a_digit = 5.1e-5;
    for (const Row& row :
         {Row{0.25, {0.2212, 0.2157, 0.2103, 0.2051, 0.2020, 0.2000, 0.2085, 0.1967}},
          Row{0.5, {0.3935, 0.3776, 0.3623, 0.3475, 0.3389, 0.3333, 0.3518, 0.3161}},
          Row{1.0, {0.6321, 0.5983, 0.5647, 0.5319, 0.5126, 0.5000, 0.5179, 0.4323}},
          Row{1.5, {0.7769, 0.7350, 0.6908, 0.6454, 0.6181, 0.6000, 0.5964, 0.4751}},
          Row{2.0, {0.8647, 0.8228, 0.7746, 0.7218, 0.6889, 0.6667, 0.6335, 0.4908}},
          Row{4.0, {0.9817, 0.9622, 0.9274, 0.8730, 0.8310, 0.8000, 0.6650, 0.4998}},
          Row{5.0, {0.9933, 0.9823, 0.9572, 0.9088, 0.8664, 0.8333, 0.6663, 0.5000}}}) {
        BOOST_TEST_CONTEXT(row.transfer_units << " transfer units") {
            const double n = row.transfer_units;
            BOOST_CHECK_SMALL(isothermal_effectiveness(n, 1.0) - row.eps[0], half_a_digit);
            const std::array ratios{0.25, 0.5, 0.75, 0.9, 1.0};
            for (std::size_t i = 0; i < ratios.size(); ++i) {
                BOOST_CHECK_SMALL(counterflow_effectiveness(n, ratios[i]) - row.eps[i + 1],
                                  half_a_digit);
            }
            BOOST_CHECK_SMALL(parallel_effectiveness(n, 0.5) - row.eps[6], half_a_digit);
            BOOST_CHECK_SMALL(parallel_effectiveness(n, 1.0) - row.eps[7], half_a_digit);
        }
    }
    // Documentation of the `ht` library, and an exercise page (four digits).
    BOOST_CHECK_CLOSE(counterflow_effectiveness(5.0, 0.7), 0.920670368605, 1e-9);
    BOOST_CHECK_CLOSE(counterflow_effectiveness(4.0, 0.1), 0.9753412729761263, 1e-11);
    BOOST_CHECK_CLOSE(parallel_effectiveness(5.0, 0.7), 0.5881156068417585, 1e-11);
    BOOST_CHECK_SMALL(counterflow_effectiveness(2.0, 0.625) - 0.7486, 1e-4);
    // Incropera, example 11.1 (inputs from exercise pages): ratio 0.2550, 0.9259 transfer units.
    BOOST_CHECK_SMALL(counterflow_effectiveness(0.9259, 0.2550) - 0.5714, 1e-4);
}

BOOST_AUTO_TEST_CASE(worked_coil_in_a_store_at_forty_degrees) {
    // 240 l/h of 40 % glycol at 60 degC into a coil of 180 W/K in 40 degC water, capacity flow
    // 257.535 W/K: effectiveness 0.502885, 2590.21 W, out 49.942 degC (closed form).
    BOOST_CHECK_CLOSE(isothermal_effectiveness(180.0, 257.535), 0.502885, 1e-4);
    Parameters p = with_constant_source();
    p.store.volume_m3 = 3000.0;
    p.store.solar_coil.ua_w_k = 180.0;
    Plant plant = make_plant(p, 40.0, 40.0, 60.0);
    const Circuit& c = *plant.circuit;
    // The flow that carries 257.535 W/K in our own fluid at the coil's mean temperature.
    const double cp = c.loop_fluid.specific_heat_j_kgk(55.0);
    plant.levers.flow_factor = 257.535 / (cp * c.loop_density_kg_m3 * p.loop.pump.full_flow_m3_s);
    run(plant, constant_weather(0.0, 60.0, 60.0), pump_running(), 3600);
    const View shown = view(plant);
    BOOST_CHECK_CLOSE(shown.coil_w, 2590.21, 0.3);  // specific heat varies by 0.4 % about the mean
    BOOST_CHECK_SMALL(temperature_c(plant, layout_of(plant).station_cold) - 49.942, 0.05);
}

BOOST_AUTO_TEST_SUITE_END()
