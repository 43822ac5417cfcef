// SPDX-License-Identifier: MIT
// What the solved flow owes at every bound: monotone, continuous, one root, no NaN.
#include "plant/random.hpp"
#include "tests/plant/loop_cases.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

BOOST_AUTO_TEST_SUITE(hydraulics_bounds)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

// What any solution owes whatever it was asked: finite, in few steps, rows that add up and agree in
// their direction, and no flow against the drive.
bool is_sound(const LoopHydraulics& h, const LoopFluids& fluids, double level,
              const Levers& levers) {
    const LoopFlow flow = solve_loop(h, fluids, level, levers);
    const double drive_pa = drive_at_rest_pa(h, fluids, level, levers);
    double rows = 0.0;
    bool one_way = true;
    for (double row : flow.row_kg_s) {
        rows += row;
        one_way = one_way && row * flow.total_kg_s >= 0.0;
    }
    return std::isfinite(flow.total_kg_s) && flow.evaluations <= 40 && one_way &&
           std::abs(rows - flow.total_kg_s) <= 1e-12 * std::abs(flow.total_kg_s) &&
           flow.total_kg_s * drive_pa >= 0.0;
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_resistance_takes_flow_away_and_every_level_adds_some) {
    const LoopHydraulics h = make_hydraulics(with_rows(2, 2));
    struct Step {
        std::string lever;
        double from;
        double to;
    };
    for (double t_c : {-20.0, 20.0, 90.0}) {
        for (const Step& step :
             {Step{"strainer_clogging", 0.0, 0.98}, Step{"loop_valve_opening", 1.0, 0.02},
              Step{"fluid_thickening", 1.0, 20.0}, Step{"row_1_flow_factor", 1.0, 0.0}}) {
            // Hot fluid that thickens leaves the transition, and laminar flow has the smaller
            // factor there: the one resistance that may fall for a while.
            if (step.lever == "fluid_thickening" && t_c > 50.0) continue;
            double last = 1e9;
            for (int i = 0; i <= 20; ++i) {
                Levers levers;
                set_lever(levers, step.lever, step.from + (step.to - step.from) * i / 20.0);
                const double flow = mass_flow(h, t_c, 1.0, levers);
                BOOST_TEST_CONTEXT(step.lever << " step " << i << " at " << t_c << " degC") {
                    BOOST_TEST(flow < last);
                    BOOST_TEST(flow > 0.0);
                }
                last = flow;
            }
        }
        double last = -1.0;
        for (double level : {0.2, 0.3, 0.5, 0.7, 1.0}) {
            const double flow = mass_flow(h, t_c, level);
            BOOST_TEST(flow > last);
            last = flow;
        }
    }
}

BOOST_AUTO_TEST_CASE(flow_is_continuous_where_the_drive_changes_its_sign) {
    const LoopHydraulics h = make_hydraulics(with_rows(2, 2));
    Levers levers;
    levers.check_valve_held_open = 1.0;
    LoopFluids fluids = uniform_fluids(h, 40.0);
    fluids.rows[1] = h.fluid.at(41.0);
    double last = solve_loop(h, fluids, 0.0, levers).total_kg_s;
    int turns = 0;
    for (int i = -2000; i <= 2000; ++i) {  // hot pipe 38 .. 42 degC in millikelvins
        fluids.hot_pipe = h.fluid.at(40.0 + 0.001 * i);
        const double flow = solve_loop(h, fluids, 0.0, levers).total_kg_s;
        // 1 mK on 8 m is 0.05 Pa; the loop's laminar slope is below 1e-4 kg/s a pascal.
        if (i > -2000) BOOST_CHECK_SMALL(flow - last, 5e-6);
        turns += i > -2000 && flow <= 0.0 && last > 0.0 ? 1 : 0;
        last = flow;
    }
    BOOST_TEST(turns == 1);
    BOOST_TEST(last < 0.0);
}

BOOST_AUTO_TEST_CASE(a_root_exists_at_every_corner_of_levers_temperatures_and_levels) {
    const LoopHydraulics h = make_hydraulics(with_rows(2, 3));
    const std::array names{"strainer_clogging", "loop_valve_opening",    "fluid_thickening",
                           "check_valve_leak",  "check_valve_held_open", "row_1_flow_factor",
                           "row_2_flow_factor", "coil_ports_crossed",    "collector_pipes_crossed"};
    int unsound = 0;
    for (unsigned corner = 0; corner < 1U << names.size(); ++corner) {
        Levers levers;
        for (std::size_t i = 0; i < names.size(); ++i) {
            const LeverInfo* lever = find_lever(names[i]);
            set_lever(levers, names[i], (corner >> i & 1U) != 0U ? lever->most : lever->least);
        }
        for (const auto& t_c : {sunny_c, frosty_c}) {
            for (double level : {0.0, 0.15, 0.5, 1.0}) {
                unsound += is_sound(h, fluids_at(h, t_c), level, levers) ? 0 : 1;
            }
        }
        for (double t_c : {-25.0, 20.0, 180.0}) {
            for (double level : {0.0, 1.0}) {
                unsound += is_sound(h, uniform_fluids(h, t_c), level, levers) ? 0 : 1;
            }
        }
    }
    BOOST_TEST(unsound == 0);
}

BOOST_AUTO_TEST_CASE(a_root_exists_at_a_hundred_thousand_random_points) {
    RandomSequence random(20240607);
    LoopHydraulics h;
    int unsound = 0;
    int forward = 0;
    int backward = 0;
    for (int n = 0; n < 100'000; ++n) {
        if (n % 1000 == 0) {
            Parameters p = with_rows(1 + random.bits() % 5, 1 + static_cast<int>(n / 1000 % 5));
            p.loop.glycol_mass_share = 0.6 * random.uniform();
            p.loop.height_m = 40.0 * random.uniform();
            p.loop.check_valve_opening_pa = 20000.0 * random.uniform() * random.uniform();
            p.loop.pump.full_flow_m3_s = (0.2 + 19.8 * random.uniform()) / 60000.0;
            h = make_hydraulics(p);
        }
        Levers levers;
        for (const LeverInfo& lever : lever_table) {
            if (random.uniform() < 0.5) continue;
            set_lever(levers, lever.name,
                      lever.least + (lever.most - lever.least) * random.uniform());
        }
        std::array<double, 10> t_c{};
        for (double& each : t_c) each = -25.0 + 205.0 * random.uniform();
        const double level = random.uniform() < 0.5 ? 0.0 : random.uniform();
        const LoopFluids fluids = fluids_at(h, t_c);
        unsound += is_sound(h, fluids, level, levers) ? 0 : 1;
        const double flow = solve_loop(h, fluids, level, levers).total_kg_s;
        forward += flow > 0.0 ? 1 : 0;
        backward += flow < 0.0 ? 1 : 0;
    }
    BOOST_TEST(unsound == 0);
    BOOST_TEST(forward > 10'000);  // the points are no empty ones
    BOOST_TEST(backward > 10'000);
}

BOOST_AUTO_TEST_SUITE_END()
