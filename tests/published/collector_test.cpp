// SPDX-License-Identifier: MIT
#include "plant/collector.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(collector)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

Collector sheet(double eta0, double a1, double a2) {
    Collector c;
    c.eta0 = eta0;
    c.a1_w_m2k = a1;
    c.a2_w_m2k2 = a2;
    c.a4 = 0.0;
    return c;
}

}  // namespace

BOOST_AUTO_TEST_CASE(stagnation_temperatures_of_published_coefficient_sets) {
    // 1000 W/m2, 30 degC. Sets: Energies 2012, 5, 4110; IEA SHC Task 26 (from memory); defaults of
    // the UK government's annual method, flat and evacuated (from memory). Last digit printed.
    BOOST_CHECK_SMALL(stagnation_c(sheet(0.80, 3.6, 0.014), 1000.0, 30.0) - 172.857, 5e-4);
    BOOST_CHECK_SMALL(stagnation_c(sheet(0.80, 3.5, 0.015), 1000.0, 30.0) - 172.07, 5e-3);
    BOOST_CHECK_SMALL(stagnation_c(sheet(0.75, 6.0, 0.0), 1000.0, 30.0) - 155.0, 1e-9);
    BOOST_CHECK_SMALL(stagnation_c(sheet(0.60, 3.0, 0.0), 1000.0, 30.0) - 230.0, 1e-9);
}

BOOST_AUTO_TEST_CASE(whole_plant_stagnates_where_the_sets_say) {
    struct Row {
        Collector collector;
        double stagnation_c;
    };
    for (const Row& row :
         {Row{sheet(0.80, 3.6, 0.014), 172.857}, Row{sheet(0.80, 3.5, 0.015), 172.07},
          Row{sheet(0.75, 6.0, 0.0), 155.0}, Row{sheet(0.60, 3.0, 0.0), 230.0}}) {
        Parameters p;
        p.rows.front().collector = row.collector;
        Plant plant = make_plant(p, 30.0, 30.0, 30.0);
        run(plant, constant_weather(1000.0, 30.0, 30.0), Actions{}, 12 * 3600);
        BOOST_TEST_CONTEXT("expected " << row.stagnation_c) {
            BOOST_CHECK_SMALL(view(plant).row_hottest_c[0] - row.stagnation_c, 0.01);
        }
    }
}

BOOST_AUTO_TEST_CASE(loss_terms_of_iso_9806_add_up_one_by_one) {
    // Per square metre, x = 50 K, by hand from the equation of ISO 9806 (2017 names).
    Collector c = sheet(0.8, 3.6, 0.014);
    const RowWeather calm{1000.0, 20.0, 3.0, -100.0};
    BOOST_CHECK_SMALL(collector_power_w_m2(c, calm, 70.0) - (800.0 - 180.0 - 35.0), 1e-9);
    c.a4 = 0.4;  // E_L - sigma T^4 = -100 W/m2, the standard's reference for power curves
    BOOST_CHECK_SMALL(collector_power_w_m2(c, calm, 70.0) - (800.0 - 180.0 - 35.0 - 40.0), 1e-9);
    c.a3_j_m3k = 0.2;  // u' = wind - 3 m/s
    const RowWeather windy{1000.0, 20.0, 8.0, -100.0};
    BOOST_CHECK_SMALL(collector_power_w_m2(c, windy, 70.0) - (800.0 - 180.0 - 35.0 - 50.0 - 40.0),
                      1e-9);
    BOOST_CHECK_SMALL(collector_power_w_m2(c, calm, 20.0) - (800.0 - 40.0), 1e-9);
}

BOOST_AUTO_TEST_CASE(sky_at_ten_below_and_air_at_ten_radiate_by_stefan_boltzmann) {
    // sigma (263.15^4 - 283.15^4) = 5.670374419e-8 (4.795275e9 - 6.427858e9), CODATA 2018.
    BOOST_CHECK_SMALL(sky_balance_w_m2(-10.0, 10.0) - (-92.5736), 1e-3);
    BOOST_TEST(sky_balance_w_m2(10.0, 10.0) == 0.0);
}

BOOST_AUTO_TEST_CASE(real_flat_plates_pass_170_degrees_with_the_pump_stopped) {
    // Processes 2020, 8, 621: mean fluid may exceed 170 degC; and never above the glass's limit
    // that the coefficient sets give.
    Parameters p;
    p.rows.front().collector = sheet(0.80, 3.6, 0.014);
    Plant plant = make_plant(p, 30.0, 30.0, 30.0);
    run(plant, constant_weather(1000.0, 30.0, 30.0), Actions{}, 4 * 3600);
    BOOST_TEST(view(plant).row_hottest_c[0] > 170.0);
    BOOST_TEST(view(plant).row_hottest_c[0] < 172.9);
}

BOOST_AUTO_TEST_SUITE_END()
