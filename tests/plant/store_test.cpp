// SPDX-License-Identifier: MIT
#include "plant/store.hpp"
#include "plant/coil.hpp"
#include "plant/mixing_valve.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstddef>

BOOST_AUTO_TEST_SUITE(store)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

const WeatherSpan mild = constant_weather(0.0, 20.0, 20.0);

double layer_c(const Plant& plant, int layer) {
    return temperature_c(plant, layout_of(plant).layers_first + layer);
}

// Largest excess of any layer over any layer above it.
double worst_inversion_k(const Plant& plant) {
    const View shown = view(plant);
    double worst_k = -1e9;
    double hottest_below_c = shown.layer_c[0];
    for (std::size_t k = 1; k < static_cast<std::size_t>(shown.layers); ++k) {
        worst_k = std::fmax(worst_k, hottest_below_c - shown.layer_c[k]);
        hottest_below_c = std::fmax(hottest_below_c, shown.layer_c[k]);
    }
    return worst_k;
}

double store_energy_j(const Plant& plant) {
    double sum_j = 0.0;
    for (int k = 0; k < layout_of(plant).layers; ++k) {
        sum_j += plant.amounts[static_cast<std::size_t>(layout_of(plant).layers_first + k)];
    }
    return sum_j;
}

}  // namespace

BOOST_AUTO_TEST_CASE(store_left_alone_cools_exponentially) {
    Parameters p = lossless();
    p.store.side_ua_w_k = 2.0;
    p.store.volume_m3 = 0.05;
    p.store.solar_coil.content_m3 = 1e-5;  // nearly nothing beside the water
    Plant plant = make_plant(p, 60.0, 60.0, 20.0);
    const double capacity_j_k = 0.05 * water_density_kg_m3 * 4187.9;  // mean of 60 and 32.7 degC
    const int tau_s = static_cast<int>(capacity_j_k / 2.0);
    run(plant, mild, Actions{}, tau_s);
    // Cooling from outside leaves all layers alike; the coil's 10 g of fluid weigh 0.02 %.
    BOOST_CHECK_CLOSE(layer_c(plant, 6) - 18.0, 42.0 * std::exp(-1.0), 0.2);
    BOOST_CHECK_SMALL(layer_c(plant, 11) - layer_c(plant, 5), 0.01);
}

BOOST_AUTO_TEST_CASE(mixing_two_layers_keeps_their_energy) {
    Plant plant = make_plant(lossless(), 60.0, 20.0, 20.0);  // hot below
    const double before_j = plant.books.net_in_j() + stored(layout_of(plant), plant.amounts).sum_j;
    run(plant, mild, Actions{}, 3600);
    const double after_j = stored(layout_of(plant), plant.amounts).sum_j;
    BOOST_CHECK_SMALL((after_j - before_j) / before_j, 1e-12);
    BOOST_TEST(worst_inversion_k(plant) < 0.05);
}

BOOST_AUTO_TEST_CASE(no_inversion_stands_while_the_coil_heats_nor_after) {
    for (double power_w_m2 : {300.0, 1000.0}) {
        for (int layers : {6, 12, 20}) {
            Parameters p;
            p.layers = layers;
            p.rows.front().collectors_in_series = 4;  // 8 m2 on 300 l
            p.loop.pump.full_flow_m3_s *= 2.0;
            Plant plant = make_plant(p, 15.0, 45.0, 20.0);
            double worst_k = 0.0;
            for (int s = 0; s < 4 * 3600; ++s) {
                run(plant, constant_weather(power_w_m2, 20.0, 10.0), pump_running(), 1, s);
                worst_k = std::fmax(worst_k, worst_inversion_k(plant));
            }
            run(plant, mild, Actions{}, 120);
            BOOST_TEST_CONTEXT(power_w_m2 << " W/m2, " << layers << " layers, worst " << worst_k) {
                BOOST_TEST(worst_k < 0.5);
                BOOST_TEST(worst_inversion_k(plant) < 0.05);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(no_inversion_stands_while_the_boiler_heats_nor_after) {
    Parameters p;
    Plant plant = make_plant(p, 10.0, 12.0, 20.0);
    Actions actions;
    actions.backup_asked = true;
    double worst_k = 0.0;
    for (int s = 0; s < 3600; ++s) {
        run(plant, mild, actions, 1, s);
        worst_k = std::fmax(worst_k, worst_inversion_k(plant));
    }
    run(plant, mild, Actions{}, 120);
    BOOST_TEST(worst_k < 0.5);
    BOOST_TEST(worst_inversion_k(plant) < 0.05);
    BOOST_TEST(layer_c(plant, 11) > 50.0);
    BOOST_TEST(layer_c(plant, 0) < 14.0);
}

BOOST_AUTO_TEST_CASE(coil_cools_the_fluid_by_its_effectiveness) {
    Parameters p = with_constant_source();
    p.store.volume_m3 = 3000.0;  // keeps its temperature
    p.store.solar_coil.ua_w_k = 280.0;
    for (double fouling : {1.0, 0.25}) {
        Plant plant = make_plant(p, 20.0, 20.0, 60.0);
        plant.levers.coil_fouling = fouling;
        run(plant, constant_weather(0.0, 60.0, 60.0), pump_running(), 3600);
        const double in_c = temperature_c(plant, layout_of(plant).station_hot);
        const double out_c = temperature_c(plant, layout_of(plant).station_cold);
        const double flow_w_k = plant.last.flow_m3_s * plant.circuit->loop_density_kg_m3 *
                                plant.circuit->loop_fluid.specific_heat_j_kgk(0.5 * (in_c + out_c));
        const double exact = isothermal_effectiveness(280.0 * fouling, flow_w_k);
        BOOST_TEST_CONTEXT("fouling " << fouling << ", in " << in_c << ", out " << out_c) {
            // The exchanger takes the specific heat at 50 degC; at the mean it differs by 0.5 %.
            BOOST_CHECK_CLOSE((in_c - out_c) / (in_c - 20.0), exact, 0.5);
        }
    }
}

BOOST_AUTO_TEST_CASE(coil_slivers_go_to_the_other_layers) {
    const auto reached = layers_between(0.05, 0.40, 12);  // 0.6 .. 4.8 layers
    BOOST_TEST(reached.size() == 5U);
    BOOST_CHECK_CLOSE(reached.front().share, 0.4 / 4.2, 1e-9);
    BOOST_CHECK_CLOSE(reached.back().share, 0.8 / 4.2, 1e-9);
    const auto whole = layers_between(0.0, 0.51, 4);  // 2.04 layers: the 0.04 is a sliver
    BOOST_TEST(whole.size() == 2U);
    BOOST_CHECK_CLOSE(whole.front().share, 0.5, 1e-9);
    BOOST_TEST(layers_between(0.50, 0.52, 4).size() == 1U);
}

BOOST_AUTO_TEST_CASE(draw_takes_from_the_top_and_cools_the_bottom) {
    Plant plant = make_plant(lossless(), 50.0, 50.0, 20.0);
    Actions actions;
    actions.mains_c = 10.0;
    for (int s = 0; s < 400; ++s) advance(plant, mild, s, actions, 0.1);
    BOOST_CHECK_SMALL(plant.last.delivered_c - 50.0, 0.01);  // 40 kg of 300
    BOOST_TEST(layer_c(plant, 0) < 20.0);
    BOOST_CHECK_CLOSE(plant.books.of(Edge::hot_mass), 40.0, 1e-9);
    BOOST_CHECK_CLOSE(
        plant.books.tapped_j(),
        40.0 * (water_heat_content.energy_j_kg(50.0) - water_heat_content.energy_j_kg(10.0)), 0.01);
}

BOOST_AUTO_TEST_CASE(stirring_inlet_costs_the_top_its_warmth) {
    Actions actions;
    actions.mains_c = 10.0;
    double last_top_c = 100.0;
    for (double jet : {0.0, 0.3, 1.0}) {
        Plant plant = make_plant(lossless(), 50.0, 50.0, 20.0);
        plant.levers.inlet_jet = jet;
        for (int s = 0; s < 400; ++s) advance(plant, mild, s, actions, 0.1);
        BOOST_TEST_CONTEXT("jet " << jet << ", top " << layer_c(plant, 11)) {
            BOOST_TEST(layer_c(plant, 11) < last_top_c);
        }
        last_top_c = layer_c(plant, 11);
    }
    BOOST_TEST(last_top_c < 47.0);
}

BOOST_AUTO_TEST_CASE(mixing_valve_delivers_its_setting_while_the_store_is_hotter) {
    Parameters p = lossless();
    p.tap.mixer_fitted = true;
    Actions actions;
    actions.mains_c = 12.0;
    Plant hot = make_plant(p, 30.0, 65.0, 20.0);
    advance(hot, mild, 0, actions, 0.2);
    BOOST_CHECK_SMALL(hot.last.delivered_c - 50.0, 1e-6);
    const double expected_share =
        (water_heat_content.energy_j_kg(50.0) - water_heat_content.energy_j_kg(12.0)) /
        (water_heat_content.energy_j_kg(65.0) - water_heat_content.energy_j_kg(12.0));
    // The top layer cools by some hundredths of a kelvin of 53 within the second.
    BOOST_CHECK_CLOSE(hot.last.hot_draw_kg_s, 0.2 * expected_share, 0.05);
    Plant cool = make_plant(p, 20.0, 42.0, 20.0);
    advance(cool, mild, 0, actions, 0.2);
    BOOST_CHECK_SMALL(cool.last.delivered_c - 42.0, 0.02);
    BOOST_CHECK_CLOSE(cool.last.hot_draw_kg_s, 0.2, 1e-9);
    Plant stuck = make_plant(p, 65.0, 65.0, 20.0);
    stuck.levers.mixer_stuck_share = 0.5;
    advance(stuck, mild, 0, actions, 0.2);
    BOOST_CHECK_SMALL(stuck.last.delivered_c - 38.5, 0.05);
    BOOST_TEST(hot_share(100.0, 60.0, 50.0) == 0.0);  // cold alone too warm
}

BOOST_AUTO_TEST_CASE(circulation_ruins_the_layers_and_loses_its_loops_heat) {
    Parameters p = lossless();
    p.circulation.fitted = true;
    p.circulation.loop_ua_w_k = 6.0;
    p.circulation.flow_kg_s = 0.05;
    Plant plant = make_plant(p, 20.0, 60.0, 20.0);
    plant.levers.circulation_forced = 1.0;
    const double spread_before_k = layer_c(plant, 11) - layer_c(plant, 7);
    advance(plant, mild, 0, Actions{}, 0.0);
    // UA 6 W/K along a loop of 0.05 kg/s: m cp (1 - exp(-UA/(m cp))) x 42 K
    const double flow_w_k = 0.05 * 4187.0;
    BOOST_CHECK_CLOSE(plant.last.edges[static_cast<std::size_t>(Edge::circulation_loss)],
                      flow_w_k * -std::expm1(-6.0 / flow_w_k) * 42.0, 0.1);
    run(plant, mild, Actions{}, 2 * 3600, 1);
    BOOST_TEST(layer_c(plant, 11) - layer_c(plant, 7) < 0.2 * spread_before_k);
    BOOST_TEST(layer_c(plant, 0) < 21.0);  // below the return nothing moves
}

BOOST_AUTO_TEST_CASE(backup_gives_what_power_and_flow_temperature_allow) {
    Parameters p = lossless();
    p.backup.kind = BackupKind::boiler;
    p.backup.power_w = 12000.0;
    p.backup.flow_temperature_c = 70.0;
    p.backup.coil_ua_w_k = 350.0;
    Actions actions;
    actions.backup_asked = true;
    Plant cold = make_plant(p, 10.0, 10.0, 20.0);
    advance(cold, mild, 0, actions, 0.0);
    BOOST_CHECK_CLOSE(view(cold).backup_w, 12000.0, 1e-6);  // 350 W/K x 60 K is more
    Plant warm = make_plant(p, 60.0, 60.0, 20.0);
    advance(warm, mild, 0, actions, 0.0);
    BOOST_CHECK_CLOSE(view(warm).backup_w, 350.0 * 10.0, 0.5);
    Plant hot = make_plant(p, 71.0, 71.0, 20.0);
    advance(hot, mild, 0, actions, 0.0);
    BOOST_TEST(view(hot).backup_w == 0.0);
    p.backup.kind = BackupKind::immersion;
    p.backup.power_w = 3000.0;
    Plant element = make_plant(p, 60.0, 60.0, 20.0);
    advance(element, mild, 0, actions, 0.0);
    BOOST_CHECK_CLOSE(view(element).backup_w, 3000.0, 1e-6);
}

BOOST_AUTO_TEST_CASE(own_thermostat_holds_between_its_limits_and_in_its_window) {
    Parameters p;
    p.backup.by_controller = false;
    p.backup.own_windows_s = {3600, 7200, 0, 0};
    Plant plant = make_plant(p, 30.0, 50.5, 20.0);
    run(plant, mild, Actions{}, 3600);
    BOOST_TEST(plant.books.of(Edge::backup) == 0.0);
    run(plant, mild, Actions{}, 3600, 3600);
    BOOST_TEST(plant.books.of(Edge::backup) > 1e6);
    BOOST_TEST(layer_c(plant, 8) > 49.0);
    BOOST_TEST(layer_c(plant, 8) < 56.0);
    const double until_now_j = plant.books.of(Edge::backup);
    run(plant, mild, Actions{}, 3600, 7200);
    BOOST_TEST(plant.books.of(Edge::backup) == until_now_j);
}

BOOST_AUTO_TEST_CASE(losses_are_those_of_the_installers_sheet) {
    Parameters p = lossless();
    p.store.side_ua_w_k = 1.6;
    p.store.connection_ua_w_k = 0.5;
    Plant plant = make_plant(p, 60.0, 60.0, 20.0);
    const double before_j = store_energy_j(plant);
    advance(plant, mild, 0, Actions{}, 0.0);
    BOOST_CHECK_CLOSE(view(plant).store_loss_w, 2.1 * 42.0, 1e-3);
    BOOST_CHECK_CLOSE(before_j - store_energy_j(plant), 2.1 * 42.0, 0.1);
    plant.levers.connection_loss_factor = 4.0;
    advance(plant, mild, 1, Actions{}, 0.0);
    // The first second's cooling is some 1e-5 of 42 K.
    BOOST_CHECK_CLOSE(view(plant).store_loss_w, (1.6 + 2.0) * 42.0, 5e-3);
}

BOOST_AUTO_TEST_SUITE_END()
