// SPDX-License-Identifier: MIT
#include "plant/pipe.hpp"
#include "tests/plant/still_plant.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstddef>
#include <vector>

BOOST_AUTO_TEST_SUITE(pipes)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

struct Transit {
    std::vector<double> response;  // of the last hot-pipe cell's energy to a step, each second
    double content_changes_per_s = 0.0;
};

// A constant source at 60 degC feeds a hot pipe at 20 degC. Energies per kilogram obey the linear
// equation exactly when the tube itself holds no heat, whatever the specific heat does.
Transit feed_a_step(int cells, Method method, int seconds) {
    Parameters p = with_constant_source();
    p.pipe_cells = cells;
    p.loop.hot_pipe.wall_m = 1e-12;
    p.store.room_c = 20.0;
    Plant plant = make_plant(p, 20.0, 20.0, 60.0);
    plant.method = method;
    const Circuit& c = *plant.circuit;
    const double from_j_kg = c.loop_fluid.energy_j_kg(20.0);
    const double to_j_kg = c.loop_fluid.energy_j_kg(60.0);
    Transit transit;
    transit.content_changes_per_s =
        p.loop.pump.full_flow_m3_s / (pipe_content_m3_m(p.loop.hot_pipe) * 12.0);
    for (int s = 0; s < seconds; ++s) {
        run(plant, constant_weather(0.0, 60.0, 60.0), pump_running(), 1, s);
        const double e_j_kg = c.loop_fluid.energy_j_kg(temperature_c(plant, cells - 1));
        transit.response.push_back((e_j_kg - from_j_kg) / (to_j_kg - from_j_kg));
    }
    return transit;
}

}  // namespace

BOOST_AUTO_TEST_CASE(transit_has_the_gamma_form_of_its_cells) {
    for (int cells : {1, 4, 6, 12}) {
        const Transit transit = feed_a_step(cells, Method::reference, 180);
        double worst = 0.0;
        for (std::size_t s = 0; s < transit.response.size(); ++s) {
            const double changes = transit.content_changes_per_s * static_cast<double>(s + 1);
            worst = std::fmax(
                worst, std::abs(transit.response[s] - transit_step_response(cells, changes)));
        }
        BOOST_TEST_CONTEXT(cells << " cells") {
            BOOST_CHECK_SMALL(worst, 1e-4);
        }
    }
}

BOOST_AUTO_TEST_CASE(everyday_solver_keeps_the_form_within_a_thousandth) {
    const Transit transit = feed_a_step(6, Method::everyday, 180);
    double worst = 0.0;
    for (std::size_t s = 0; s < transit.response.size(); ++s) {
        const double changes = transit.content_changes_per_s * static_cast<double>(s + 1);
        worst = std::fmax(worst, std::abs(transit.response[s] - transit_step_response(6, changes)));
    }
    BOOST_CHECK_SMALL(worst, 1e-3);  // order 2 at 1 s: (6 x 0.018)^2 / 6 of the steepest slope
}

BOOST_AUTO_TEST_CASE(mean_transit_time_is_content_over_flow) {
    for (int cells : {4, 6, 12}) {
        const Transit transit = feed_a_step(cells, Method::everyday, 400);
        double mean_s = 0.5;  // trapezium: all of the step is still to come at time 0
        for (double response : transit.response) mean_s += 1.0 - response;
        BOOST_TEST_CONTEXT(cells << " cells") {
            BOOST_CHECK_CLOSE(mean_s, 1.0 / transit.content_changes_per_s, 0.5);
        }
    }
}

BOOST_AUTO_TEST_CASE(true_plug_is_approached_as_the_cells_grow_in_number) {
    // Spread of the Gamma form: standard deviation 1/sqrt(N) of the mean.
    const auto slope = [](int cells) {
        return transit_step_response(cells, 1.01) - transit_step_response(cells, 0.99);
    };
    BOOST_CHECK_CLOSE(slope(48) / slope(12), 2.0, 2.0);
    BOOST_CHECK_CLOSE(slope(192) / slope(48), 2.0, 2.0);
}

BOOST_AUTO_TEST_CASE(outdoor_metres_lie_at_the_collectors_end) {
    PipeRun run;
    run.length_m = 12.0;
    run.outdoor_m = 3.0;
    const auto cells = pipe_cells(run, 6, 1000.0);
    const double u_w_mk = linear_transmittance_w_mk(0.018, 0.019, 0.040, 10.0);
    BOOST_CHECK_CLOSE(cells[0].to_air_w_k, 2.0 * u_w_mk, 1e-9);
    BOOST_CHECK_CLOSE(cells[1].to_air_w_k, 1.0 * u_w_mk, 1e-9);
    BOOST_CHECK_CLOSE(cells[1].to_room_w_k, 1.0 * u_w_mk, 1e-9);
    BOOST_TEST(cells[2].to_air_w_k == 0.0);
    double total_w_k = 0.0;
    for (const PipeCell& cell : cells) total_w_k += cell.to_air_w_k + cell.to_room_w_k;
    BOOST_CHECK_CLOSE(total_w_k, 12.0 * u_w_mk, 1e-9);
}

BOOST_AUTO_TEST_CASE(standing_pipe_cools_with_its_own_time_constant) {
    Parameters p = with_constant_source();
    p.loop.hot_pipe = PipeRun{};
    p.loop.hot_pipe.outdoor_m = 0.0;
    p.store.room_c = 20.0;
    Plant plant = make_plant(p, 20.0, 20.0, 20.0);
    const Circuit& c = *plant.circuit;
    plant.amounts[2] = cell_energy_j(c, 2, 50.0);
    const double per_k_j = 0.5 * (cell_energy_j(c, 2, 51.0) - cell_energy_j(c, 2, 49.0));
    const double u_w_mk = linear_transmittance_w_mk(0.018, 0.019, 0.040, 10.0);
    const double tau_s = per_k_j / (2.0 * u_w_mk);  // a cell of two metres
    run(plant, constant_weather(0.0, 20.0, 20.0), Actions{}, static_cast<int>(tau_s));
    // The specific heat falls by 1.5 % on the way.
    BOOST_CHECK_CLOSE(temperature_c(plant, 2) - 20.0, 30.0 * std::exp(-1.0), 1.5);
    BOOST_TEST(tau_s > 3600.0);
}

BOOST_AUTO_TEST_SUITE_END()
