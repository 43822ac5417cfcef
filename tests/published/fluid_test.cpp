// SPDX-License-Identifier: MIT
#include "plant/fluid.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(fluid)

using namespace noonbench::plant;

BOOST_AUTO_TEST_CASE(mixtures_agree_with_two_independent_implementations_of_melinder) {
    // Viscosity at 0.6, -20 degC: documentation of the CoolProp project, 17 digits, 1e-12 asked.
    // The rest: tests of the SecondaryCoolantProps project (commit f4ae2db4), five digits printed.
    BOOST_CHECK_CLOSE(viscosity_pa_s(0.6, -20.0), 0.13907391053938878, 1e-10);
    struct Row {
        double share;
        double t_c;
        double mu_pa_s;
        double rho_kg_m3;
        double cp_j_kgk;
        double lambda_w_mk;
    };
    constexpr double five_digits_percent = 0.005;
    for (const Row& row : {Row{0.0, 5, 1.5364e-3, 1000.3, 4204.8, 0.57124},
                           Row{0.0, 20, 1.0072e-3, 998.52, 4186.6, 0.59913},
                           Row{0.0, 40, 6.5033e-4, 992.53, 4178.3, 0.63007},
                           Row{0.2, 5, 3.4941e-3, 1019.1, 3945.9, 0.47647},
                           Row{0.2, 20, 2.0301e-3, 1014.8, 3976.8, 0.49221},
                           Row{0.2, 40, 1.1693e-3, 1006.4, 4019.0, 0.51228},
                           Row{0.4, 5, 8.9817e-3, 1040.1, 3658.0, 0.39089},
                           Row{0.4, 40, 2.1408e-3, 1020.1, 3770.8, 0.41321}}) {
        BOOST_TEST_CONTEXT("share " << row.share << ", " << row.t_c << " degC") {
            BOOST_CHECK_CLOSE(viscosity_pa_s(row.share, row.t_c), row.mu_pa_s, five_digits_percent);
            BOOST_CHECK_CLOSE(density_kg_m3(row.share, row.t_c), row.rho_kg_m3,
                              five_digits_percent);
            BOOST_CHECK_CLOSE(specific_heat_j_kgk(row.share, row.t_c), row.cp_j_kgk,
                              five_digits_percent);
            BOOST_CHECK_CLOSE(conductivity_w_mk(row.share, row.t_c), row.lambda_w_mk,
                              five_digits_percent);
        }
    }
}

BOOST_AUTO_TEST_CASE(freezing_points_agree_with_the_published_ones) {
    struct Row {
        double share;
        double freezing_c;
    };
    // Same two implementations; printed to 0.01 K.
    for (const Row& row : {Row{0.1, -2.867}, Row{0.2, -7.173}, Row{0.3, -12.789}, Row{0.4, -20.568},
                           Row{0.5, -32.193}, Row{0.6, -50.003}}) {
        BOOST_TEST_CONTEXT("share " << row.share) {
            BOOST_CHECK_SMALL(freezing_point_c(row.share) - row.freezing_c, 0.01);
        }
    }
    // Table of Melinder's set in the SecCool program (mass %), ASHRAE Fundamentals 2001 (mass %):
    // sources differ by up to a kelvin among each other.
    for (const Row& row : {Row{0.15, -5.00}, Row{0.25, -9.97}, Row{0.35, -16.58}, Row{0.45, -26.17},
                           Row{0.10, -3.3}, Row{0.20, -7.1}, Row{0.30, -12.7}, Row{0.40, -21.1}}) {
        BOOST_TEST_CONTEXT("share " << row.share << ", published " << row.freezing_c) {
            BOOST_CHECK_SMALL(freezing_point_c(row.share) - row.freezing_c, 1.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(mixtures_agree_with_the_ashrae_tables) {
    // ASHRAE Handbook Fundamentals 2001, by volume; mass share by its own conversion. Tolerances:
    // how far the two sources differ, 0.7 % density, 0.5 % specific heat, 3 % conductivity to
    // 60 degC and 6 % above, 7 % viscosity above 0 degC.
    struct Row {
        double share;
        double t_c;
        double rho_kg_m3;
        double cp_j_kgk;
        double lambda_w_mk;
        double mu_mpa_s;
    };
    for (const Row& row :
         {Row{0.2059, 20, 1019.01, 3973, 0.492, 2.02}, Row{0.2059, 60, 999.31, 4060, 0.529, 0.78},
          Row{0.3061, 20, 1028.35, 3848, 0.445, 3.06}, Row{0.3061, 60, 1006.44, 3958, 0.475, 1.01},
          Row{0.4043, 20, 1036.24, 3702, 0.402, 4.57}, Row{0.4043, 40, 1025.30, 3768, 0.415, 2.21},
          Row{0.4043, 60, 1012.30, 3834, 0.425, 1.30}, Row{0.4043, 80, 997.25, 3900, 0.430, 0.88},
          Row{0.4043, 100, 980.14, 3966, 0.432, 0.66}, Row{0.5012, 20, 1042.87, 3532, 0.362, 6.65},
          Row{0.5012, 60, 1017.04, 3686, 0.378, 1.75}}) {
        BOOST_TEST_CONTEXT("share " << row.share << ", " << row.t_c << " degC") {
            BOOST_CHECK_CLOSE(density_kg_m3(row.share, row.t_c), row.rho_kg_m3, 0.7);
            BOOST_CHECK_CLOSE(specific_heat_j_kgk(row.share, row.t_c), row.cp_j_kgk, 0.5);
            BOOST_CHECK_CLOSE(conductivity_w_mk(row.share, row.t_c), row.lambda_w_mk,
                              row.t_c > 60.0 ? 6.0 : 3.0);
            BOOST_CHECK_CLOSE(1e3 * viscosity_pa_s(row.share, row.t_c), row.mu_mpa_s, 7.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(water_boils_where_iapws_says) {
    struct Row {
        double t_c;
        double p_pa;
    };
    // IAPWS R7-97(2012), Table 35: 300, 500, 600 K, nine digits.
    for (const Row& row :
         {Row{26.85, 3536.58941}, Row{226.85, 2.63889776e6}, Row{326.85, 12.3443146e6}}) {
        BOOST_TEST_CONTEXT(row.t_c << " degC") {
            BOOST_CHECK_CLOSE(water_vapour_pressure_pa(row.t_c), row.p_pa, 1e-6);
        }
    }
    // Boiling points rounded in web tables and IF97, bar absolute.
    BOOST_CHECK_SMALL(boiling_point_c(0.0, 1.01325e5) - 99.974, 1e-3);
    BOOST_CHECK_SMALL(boiling_point_c(0.0, 3e5) - 133.525, 1e-3);
    BOOST_CHECK_SMALL(boiling_point_c(0.0, 6e5) - 158.832, 1e-3);
}

BOOST_AUTO_TEST_CASE(glycol_vapour_pressure_agrees_with_the_equation_of_state) {
    // Evaluations of the ancillary of Eisenbach et al. (2021), four digits.
    BOOST_CHECK_CLOSE(glycol_vapour_pressure_pa(20.0), 11.21, 0.05);
    BOOST_CHECK_CLOSE(glycol_vapour_pressure_pa(100.0), 2972.0, 0.05);
    BOOST_CHECK_CLOSE(glycol_vapour_pressure_pa(150.0), 27498.0, 0.05);
    // Normal boiling point of propylene glycol, average of NIST WebBook: 460 +- 2 K.
    BOOST_CHECK_SMALL(boiling_point_c(1.0, 101325.0) - 186.9, 2.0);
}

BOOST_AUTO_TEST_CASE(mixtures_boil_where_practice_says) {
    struct Row {
        double share;
        double p_pa;
        double boiling_c;
        double within_k;
    };
    // Siegenthaler, PM Engineer (40 % by volume: 58, 118, 14.9 psia); a course page (60/40);
    // ASHRAE Fundamentals ch. 31 table 5, from memory (20..60 % by mass at 100.7 kPa).
    for (const Row& row : {Row{0.4043, 4.00e5, 148.9, 1.0}, Row{0.4043, 8.14e5, 176.7, 1.0},
                           Row{0.4043, 1.0273e5, 103.9, 1.0}, Row{0.40, 5.0e5, 160.0, 3.0},
                           Row{0.40, 3.1e5, 140.0, 3.0}, Row{0.2, 1.007e5, 100.6, 1.0},
                           Row{0.3, 1.007e5, 102.2, 1.0}, Row{0.4, 1.007e5, 103.9, 1.0},
                           Row{0.5, 1.007e5, 105.6, 1.0}, Row{0.6, 1.007e5, 107.2, 1.1}}) {
        BOOST_TEST_CONTEXT("share " << row.share << ", " << row.p_pa << " Pa") {
            BOOST_CHECK_SMALL(boiling_point_c(row.share, row.p_pa) - row.boiling_c, row.within_k);
        }
    }
    // Raoult's law evaluated elsewhere, 40 % by volume at 1.01325, 2, 3, 4, 6 bar: 0.02 K as a
    // check of the formula (the share is rounded to four digits).
    const double p_bar[] = {1.01325, 2.0, 3.0, 4.0, 6.0};
    const double expected_c[] = {104.06, 124.77, 138.40, 148.73, 164.31};
    for (int i = 0; i < 5; ++i) {
        BOOST_CHECK_SMALL(boiling_point_c(0.4043, p_bar[i] * 1e5) - expected_c[i], 0.02);
    }
}

BOOST_AUTO_TEST_CASE(store_water_holds_the_enthalpy_of_iapws) {
    struct Row {
        double t_c;
        double h_kj_kg;
    };
    // IAPWS-IF97 at 3 bar, h(0 degC) = 0.263 kJ/kg; the fit's own bound is 201 J/kg.
    for (const Row& row : {Row{10, 42.312}, Row{20, 84.200}, Row{40, 167.800}, Row{60, 251.390},
                           Row{80, 335.150}, Row{100, 419.248}}) {
        BOOST_TEST_CONTEXT(row.t_c << " degC") {
            BOOST_CHECK_SMALL(water_heat_content.energy_j_kg(row.t_c) - 1e3 * (row.h_kj_kg - 0.263),
                              201.0);
        }
    }
    // Density at 20 degC, 3 bar.
    BOOST_CHECK_SMALL(water_density_kg_m3 - 998.297, 0.01);
}

BOOST_AUTO_TEST_SUITE_END()
