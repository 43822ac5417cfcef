// SPDX-License-Identifier: MIT
#include "plant/collector.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cmath>
#include <cstddef>

BOOST_AUTO_TEST_SUITE(collector)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

Parameters cold_climate_plate() {
    Parameters p;
    Collector& plate = p.rows.front().collector;
    plate.eta0 = 0.8;
    plate.a1_w_m2k = 3.6;
    plate.a2_w_m2k2 = 0.014;
    plate.a4 = 0.0;
    return p;
}

double row_mean_c(const Plant& plant) {
    const Layout& at = layout_of(plant);
    const auto t_c = temperatures_c(plant);
    double sum_c = 0.0;
    for (int i = 0; i < at.row_cells[0]; ++i) {
        sum_c += t_c[static_cast<std::size_t>(at.row_first[0] + i)];
    }
    return sum_c / at.row_cells[0];
}

}  // namespace

BOOST_AUTO_TEST_CASE(standing_in_full_sun_it_climbs_to_the_closed_form) {
    const Parameters p = cold_climate_plate();
    Plant plant = make_plant(p, 40.0, 40.0, 30.0);
    run(plant, constant_weather(1000.0, 30.0, 30.0), Actions{}, 8 * 3600);
    // 30 + (-3.6 + sqrt(3.6^2 + 4 x 0.014 x 800)) / (2 x 0.014); eight hours are 25 time constants
    BOOST_CHECK_SMALL(view(plant).row_hottest_c[0] - 172.857142857, 1e-3);
    BOOST_CHECK_SMALL(stagnation_c(p.rows[0].collector, 1000.0, 30.0) - 172.857142857, 1e-8);
    BOOST_TEST(view(plant).extrapolated);
}

BOOST_AUTO_TEST_CASE(without_flow_it_cools_with_capacity_over_loss) {
    Parameters p = cold_climate_plate();
    p.loop.glycol_mass_share = 0.0;
    Collector& plate = p.rows.front().collector;
    plate.a2_w_m2k2 = 0.0;
    plate.a5_j_m2k = 10000.0;
    Plant plant = make_plant(p, 40.0, 40.0, 55.0);
    run(plant, constant_weather(0.0, 45.0, 45.0), Actions{}, 2778);
    // One time constant a5/a1 = 2777.8 s from 10 K over the air. The water's specific heat differs
    // from its 50 degC value by less than 0.1 % here.
    BOOST_CHECK_CLOSE(row_mean_c(plant) - 45.0, 10.0 * std::exp(-1.0), 0.1);
}

BOOST_AUTO_TEST_CASE(capacity_of_a_row_is_that_of_the_data_sheet) {
    Parameters p;
    p.rows.front().collector.area_m2 = 2.0;
    p.rows.front().collector.a5_j_m2k = 7000.0;
    const Plant plant = make_plant(p, 40.0, 40.0, 50.0);
    const Circuit& c = *plant.circuit;
    double rise_j = 0.0;
    for (int i = 0; i < layout_of(plant).row_cells[0]; ++i) {
        const int cell = layout_of(plant).row_first[0] + i;
        rise_j += cell_energy_j(c, cell, 50.5) - cell_energy_j(c, cell, 49.5);
    }
    BOOST_CHECK_CLOSE(rise_j, 7000.0 * 2.0 * 2.0, 1e-9);  // two collectors of 2 m2
}

BOOST_AUTO_TEST_CASE(content_that_exceeds_the_capacity_is_refused) {
    Parameters p;
    p.rows.front().collector.content_m3 = 6e-3;
    BOOST_CHECK_THROW(static_cast<void>(make_plant(p, 40.0, 40.0, 10.0)), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(outlet_answers_a_cloud_like_cells_in_a_row) {
    // Sun off at constant flow and inlet: the rise of a lossless row of N cells falls as
    // (1/N) sum_{j<N} (N - j) x^j e^-x / j!, x = N t / transit. Its 36.8 % point lies between the
    // one-node model of the mean temperature (half a transit) and the plug (0.632 transits of a
    // ramp, which the mixing of four cells lengthens).
    Parameters p = lossless();
    p.store.volume_m3 = 1000.0;  // keeps the inlet where it is
    Plant plant = make_plant(p, 40.0, 40.0, 40.0);
    run(plant, constant_weather(800.0, 40.0, 40.0), pump_running(), 7200);
    const double rise_k = view(plant).row_outlet_c[0] - view(plant).row_inlet_c[0];
    const double flow_w_k = plant.last.flow_m3_s * plant.circuit->loop_density_kg_m3 *
                            plant.circuit->loop_fluid.specific_heat_j_kgk(45.0);
    const double transit_s = 4.0 * p.rows.front().collector.a5_j_m2k / flow_w_k;
    for (int s = 1; s <= 120; ++s) {
        run(plant, constant_weather(0.0, 40.0, 40.0), pump_running(), 1);
        if (s % 30 != 0) continue;
        const int cells = plant.circuit->rows[0].cells;
        const double x = cells * s / transit_s;
        double term = std::exp(-x);
        double expected = 0.0;
        for (int j = 0; j < cells; ++j) {
            expected += term * (cells - j) / cells;
            term *= x / (j + 1);
        }
        const double left = (view(plant).row_outlet_c[0] - view(plant).row_inlet_c[0]) / rise_k;
        BOOST_TEST_CONTEXT(s << " s, left " << left << ", expected " << expected) {
            BOOST_CHECK_SMALL(left - expected, 0.005);  // specific heat varies by 0.5 % here
        }
    }
    BOOST_TEST(transit_s > 160.0);
}

BOOST_AUTO_TEST_CASE(clear_sky_draws_it_below_the_air_at_night) {
    Parameters p = cold_climate_plate();
    p.rows.front().collector.a4 = 0.12;
    Plant plant = make_plant(p, 40.0, 40.0, 10.0);
    run(plant, constant_weather(0.0, 10.0, -10.0), Actions{}, 6 * 3600);
    // Stationary: a1 x + a2 x|x| = a4 (E_L - sigma T^4)
    const double expected_k =
        -(-3.6 + std::sqrt(3.6 * 3.6 + 4.0 * 0.014 * 0.12 * -sky_balance_w_m2(-10.0, 10.0))) /
        (2.0 * 0.014);
    BOOST_TEST(expected_k < -2.0);
    BOOST_CHECK_SMALL(view(plant).row_outlet_c[0] - 10.0 - expected_k, 0.01);
}

BOOST_AUTO_TEST_CASE(running_row_gives_the_power_curve_at_its_mean_cell) {
    Parameters p = cold_climate_plate();
    p.rows.front().collector.a4 = 0.12;
    p.store.volume_m3 = 1000.0;  // keeps the inlet where it is
    Plant plant = make_plant(p, 40.0, 40.0, 40.0);
    const WeatherSpan weather = constant_weather(800.0, 15.0, 5.0);
    run(plant, weather, pump_running(), 7200);
    const View shown = view(plant);
    const Collector& sheet = p.rows[0].collector;
    const RowWeather outside{800.0, 15.0, 3.0, sky_balance_w_m2(5.0, 15.0)};
    const double curve_w = 4.0 * collector_power_w_m2(sheet, outside, row_mean_c(plant));
    // Steady. The curve at the mean misses a2 x variance of the cells (9.5 K2) x 4 m2 = 0.5 W.
    BOOST_CHECK_CLOSE(shown.collector_to_loop_w, curve_w, 0.05);
    // The cells' mean lies above the mean of inlet and outlet by a share of the rise, 1/(2 cells):
    // that is the model's bias against the standard's equation. Losses grow by 8 % of the gain from
    // the first cell to the last, which bends the profile and adds as much to the bias.
    const double rise_k = shown.row_outlet_c[0] - shown.row_inlet_c[0];
    const double middle_c = 0.5 * (shown.row_outlet_c[0] + shown.row_inlet_c[0]);
    BOOST_CHECK_CLOSE(row_mean_c(plant) - middle_c, rise_k / 8.0, 10.0);
}

BOOST_AUTO_TEST_SUITE_END()
