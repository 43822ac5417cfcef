// SPDX-License-Identifier: MIT
#include "plant/fluid.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>

BOOST_AUTO_TEST_SUITE(fluid)

using namespace noonbench::plant;

BOOST_AUTO_TEST_CASE(temperature_comes_back_from_energy_to_the_last_digits) {
    constexpr double rounding = 1e-13;  // a few spacings of a double
    for (double share : {0.0, 0.2, 0.4, 0.6}) {
        const HeatContent content = loop_heat_content(share);
        for (double t_c = -30.0; t_c <= 250.0; t_c += 7.3) {
            BOOST_TEST_CONTEXT("share " << share << ", " << t_c << " degC") {
                const double back_c = content.temperature_c(content.energy_j_kg(t_c));
                BOOST_CHECK_SMALL(back_c - t_c, rounding * 300.0);
            }
        }
    }
    BOOST_TEST(water_heat_content.temperature_c(0.0) == 0.0);
}

BOOST_AUTO_TEST_CASE(fitted_heat_content_follows_the_specific_heat) {
    struct Row {
        double share;
        double within;  // what a straight line must miss of the polynomial, most at the cold end
    };
    // Water's specific heat falls to 40 degC and rises again; mixtures are nearly straight.
    for (const Row& row : {Row{0.0, 0.007}, Row{0.1, 0.003}, Row{0.2, 0.0015}, Row{0.3, 0.0015},
                           Row{0.4, 0.0015}, Row{0.5, 0.0015}, Row{0.6, 0.0015}}) {
        const HeatContent content = loop_heat_content(row.share);
        for (double t_c = std::fmax(-20.0, freezing_point_c(row.share)); t_c <= 100.0; t_c += 5.0) {
            const double exact = specific_heat_j_kgk(row.share, t_c);
            BOOST_TEST_CONTEXT("share " << row.share << ", " << t_c << " degC, exact " << exact) {
                BOOST_CHECK_SMALL(content.specific_heat_j_kgk(t_c) / exact - 1.0, row.within);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(properties_go_on_in_a_straight_line_above_100_degrees) {
    constexpr double share = 0.4;
    const auto bend = [](double (*property)(double, double), double t_c) {
        return property(share, t_c + 10.0) - 2.0 * property(share, t_c) +
               property(share, t_c - 10.0);
    };
    BOOST_CHECK_SMALL(bend(density_kg_m3, 150.0), 1e-9);
    BOOST_CHECK_SMALL(bend(specific_heat_j_kgk, 150.0), 1e-9);
    BOOST_CHECK_SMALL(bend(conductivity_w_mk, 150.0), 1e-12);
    BOOST_TEST(std::abs(bend(density_kg_m3, 60.0)) > 1e-3);  // and are curved below
    BOOST_TEST(!is_extrapolated(100.0));
    BOOST_TEST(is_extrapolated(100.1));
    // No jump at the joint.
    BOOST_CHECK_SMALL(density_kg_m3(share, 100.0 + 1e-9) - density_kg_m3(share, 100.0), 1e-6);
}

BOOST_AUTO_TEST_CASE(properties_stay_physical_as_far_as_a_collector_can_get) {
    for (double share : {0.0, 0.3, 0.6}) {
        for (double t_c = 0.0; t_c <= 250.0; t_c += 10.0) {
            BOOST_TEST_CONTEXT("share " << share << ", " << t_c << " degC") {
                BOOST_TEST(density_kg_m3(share, t_c) > 750.0);
                BOOST_TEST(specific_heat_j_kgk(share, t_c) > 3000.0);
                BOOST_TEST(viscosity_pa_s(share, t_c) > 0.0);
                BOOST_TEST(viscosity_pa_s(share, t_c) > viscosity_pa_s(share, t_c + 10.0));
                BOOST_TEST(conductivity_w_mk(share, t_c) > 0.2);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(more_glycol_freezes_later_and_boils_hotter) {
    for (double share = 0.0; share < 0.55; share += 0.1) {
        BOOST_TEST(freezing_point_c(share + 0.1) < freezing_point_c(share));
        BOOST_TEST(boiling_point_c(share + 0.1, 2e5) > boiling_point_c(share, 2e5));
    }
    BOOST_TEST(boiling_point_c(0.4, 3e5) > boiling_point_c(0.4, 2e5));
}

BOOST_AUTO_TEST_SUITE_END()
