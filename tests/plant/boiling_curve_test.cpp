// SPDX-License-Identifier: MIT
#include "plant/boiling_curve.hpp"

#include "plant/fluid.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

BOOST_AUTO_TEST_SUITE(boiling_curve)

using namespace noonbench::plant;

BOOST_AUTO_TEST_CASE(curve_keeps_within_a_thousandth_of_a_kelvin_of_the_mixture) {
    for (const double share : {0.0, 0.1, 0.25, 0.4, 0.5, 0.6}) {
        const BoilingCurve curve = noonbench::plant::boiling_curve(share);
        double worst_k = 0.0;
        for (double p_pa = BoilingCurve::first_pa; p_pa < BoilingCurve::last_pa; p_pa *= 1.0037) {
            const double off_k = curve.boiling_c(p_pa) - boiling_point_c(share, p_pa);
            worst_k = std::max(worst_k, std::abs(off_k));
        }
        BOOST_TEST_CONTEXT("share " << share << ", worst " << worst_k << " K")
        BOOST_CHECK_LE(worst_k, 0.001);
    }
}

BOOST_AUTO_TEST_CASE(curve_rises_strictly_within_and_beyond_its_ends) {
    for (const double share : {0.0, 0.4, 0.6}) {
        const BoilingCurve curve = noonbench::plant::boiling_curve(share);
        double before_c = curve.boiling_c(100.0);
        for (double p_pa = 101.0; p_pa < 2e7; p_pa *= 1.01) {
            const double now_c = curve.boiling_c(p_pa);
            BOOST_TEST_CONTEXT("share " << share << ", " << p_pa << " Pa, " << now_c << " degC") {
                BOOST_REQUIRE(now_c > before_c);
                BOOST_REQUIRE(curve.slope_k_per_ln_p(p_pa) > 0.0);
            }
            before_c = now_c;
        }
    }
}

BOOST_AUTO_TEST_CASE(curve_goes_on_straight_in_the_logarithm_beyond_its_ends) {
    const BoilingCurve curve = noonbench::plant::boiling_curve(0.4);
    for (const double end_pa : {BoilingCurve::first_pa, BoilingCurve::last_pa}) {
        const double outward = end_pa == BoilingCurve::last_pa ? 1.0 : -1.0;
        const double end_c = curve.boiling_c(end_pa);
        BOOST_CHECK_SMALL(end_c - boiling_point_c(0.4, end_pa), 1e-9);  // a point of the table
        const double slope_k = curve.slope_k_per_ln_p(end_pa * std::exp(outward));
        for (const double far : {0.5, 1.0, 3.0}) {
            const double there_c = curve.boiling_c(end_pa * std::exp(outward * far));
            BOOST_CHECK_SMALL(there_c - (end_c + outward * far * slope_k), 1e-9);
        }
    }
}

BOOST_AUTO_TEST_CASE(slope_is_that_of_the_vapour_pressure) {
    // Water by Clausius and Clapeyron: dT/d(ln p) = p (v'' - v') T / (T h_fg) per kelvin, with the
    // values of IAPWS-IF97: 3 bar, 133.525 degC, h_fg 2163.44 kJ/kg, v'' 1/1.6507, v' 1/931.81
    // m3/kg. 0.2 %: slope of a straight piece 2.4 % of pressure wide.
    const double p_pa = 3e5;
    const double by_hand_k = p_pa * (1.0 / 1.6507 - 1.0 / 931.81) * (133.525 + 273.15) / 2163.44e3;
    BOOST_CHECK_CLOSE(noonbench::plant::boiling_curve(0.0).slope_k_per_ln_p(p_pa), by_hand_k, 0.2);
}

BOOST_AUTO_TEST_CASE(a_pressure_that_is_no_number_stays_none) {
    const BoilingCurve curve = noonbench::plant::boiling_curve(0.4);
    BOOST_TEST(std::isnan(curve.boiling_c(std::numeric_limits<double>::quiet_NaN())));
    BOOST_TEST(std::isnan(curve.boiling_c(-1.0)));
}

BOOST_AUTO_TEST_SUITE_END()
