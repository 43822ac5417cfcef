// SPDX-License-Identifier: MIT
#include "plant/friction.hpp"

#include "plant/fluid.hpp"
#include "plant/fluid_table.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>

BOOST_AUTO_TEST_SUITE(friction)

using namespace noonbench::plant;

BOOST_AUTO_TEST_CASE(drop_rises_strictly_with_flow_through_the_transition) {
    for (double roughness : {0.0, 1e-5, 1e-4, 1e-3, 1e-2, 0.05}) {
        const double term = haaland_roughness_term(roughness);
        double last_drop = 0.0;
        double last_phi = 64.0;
        for (int re = 10; re <= 20000; re += 10) {
            const FrictionProduct product = friction_product(re, term);
            const double drop = product.phi * re;  // dp at constant viscosity
            BOOST_TEST_CONTEXT("Re " << re << ", roughness " << roughness << ", phi "
                                     << product.phi) {
                BOOST_TEST(drop > last_drop);
                BOOST_TEST(product.phi >= last_phi);
                BOOST_TEST(product.slope >= 0.0);
            }
            last_drop = drop;
            last_phi = product.phi;
        }
    }
}

BOOST_AUTO_TEST_CASE(blend_has_no_step_and_no_kink_at_its_ends) {
    constexpr double beside = 1e-6;
    for (double end : {laminar_end_reynolds, turbulent_start_reynolds}) {
        const FrictionProduct below = friction_product(end - beside, 0.0);
        const FrictionProduct above = friction_product(end + beside, 0.0);
        BOOST_CHECK_SMALL(above.phi - below.phi, 1e-6);      // slope below 0.1 times 2e-6
        BOOST_CHECK_SMALL(above.slope - below.slope, 1e-9);  // curvature below 1e-4 times 2e-6
    }
}

BOOST_AUTO_TEST_CASE(slope_is_the_derivative) {
    for (double re : {100.0, 1999.0, 2100.0, 3000.0, 3900.0, 4100.0, 1e4, 1e6}) {
        for (double roughness : {0.0, 1e-3}) {
            const double term = haaland_roughness_term(roughness);
            const double step = 1e-4 * re;
            const double found =
                (friction_product(re + step, term).phi - friction_product(re - step, term).phi) /
                (2.0 * step);
            BOOST_TEST_CONTEXT("Re " << re << ", roughness " << roughness) {
                if (re < 1999.5) {
                    BOOST_TEST(friction_product(re, term).slope == 0.0);
                } else {
                    // Central difference: error step^2/6 of the third derivative, below 1e-4.
                    BOOST_CHECK_CLOSE(friction_product(re, term).slope, found, 1e-2);
                }
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(standing_fluid_has_the_laminar_product) {
    BOOST_TEST(friction_product(0.0, 0.0).phi == 64.0);
    BOOST_TEST(friction_product(0.0, 1e-3).slope == 0.0);
}

BOOST_AUTO_TEST_CASE(table_of_fluid_meets_the_formulas_within_a_thousandth) {
    for (double share : {0.0, 0.2, 0.4, 0.6}) {
        const FluidTable table(share);
        for (double t_c = -40.0; t_c <= 300.0; t_c += 0.13) {
            const FluidProperties found = table.at(t_c);
            BOOST_TEST_CONTEXT("share " << share << ", " << t_c << " degC") {
                BOOST_CHECK_CLOSE(found.viscosity_pa_s, viscosity_pa_s(share, t_c), 0.1);
                BOOST_CHECK_CLOSE(found.density_kg_m3, density_kg_m3(share, t_c), 1e-3);
            }
        }
        BOOST_TEST(table.at(-90.0).viscosity_pa_s == table.at(-40.0).viscosity_pa_s);
        BOOST_TEST(table.at(900.0).density_kg_m3 == table.at(300.0).density_kg_m3);
        BOOST_TEST(std::isfinite(table.at(std::nan("")).viscosity_pa_s));
    }
}

BOOST_AUTO_TEST_SUITE_END()
