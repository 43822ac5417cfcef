// SPDX-License-Identifier: MIT
#include "plant/friction.hpp"

#include "plant/hydraulics.hpp"
#include "plant/pipe.hpp"
#include "plant/si.hpp"
#include "tests/published/within.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <numbers>
#include <string>

BOOST_AUTO_TEST_SUITE(friction)

using namespace noonbench::plant;
using noonbench::published::check_within;

namespace {

std::string point(double reynolds, double roughness) {
    return "Re " + std::to_string(reynolds) + ", e " + std::to_string(roughness);
}

// Pressure drop of one metre by the plant's own tube, Pa.
double metre_pa(double bore_m, double mass_kg_s, const FluidProperties& fluid) {
    const Tube tube = make_tube(1.0, bore_m, 1.5e-6);  // drawn tubing 0.0015 mm, Moody's chart
    const double reynolds = tube.reynolds_1_m * mass_kg_s / fluid.viscosity_pa_s;
    return friction_product(reynolds, tube.roughness_term).phi * tube.friction_1_m3 *
           fluid.viscosity_pa_s * mass_kg_s / fluid.density_kg_m3;
}

}  // namespace

BOOST_AUTO_TEST_CASE(factors_of_haaland_and_colebrook) {
    // Computed from the named formulas by the library fluids 1.3.1 (Haaland, Colebrook), 8
    // decimals.
    struct Row {
        double reynolds;
        double roughness;
        double colebrook;
        double haaland;
    };
    for (const Row& row :
         {Row{4000, 0, 0.03990701, 0.04042285}, Row{4000, 1e-3, 0.04091039, 0.04121615},
          Row{1e4, 0, 0.03088295, 0.03088620}, Row{1e4, 1e-4, 0.03103721, 0.03099034},
          Row{1e4, 1e-3, 0.03238181, 0.03217489}, Row{1e5, 0, 0.01798977, 0.01782494},
          Row{1e5, 1e-5, 0.01804380, 0.01786039}, Row{1e5, 1e-4, 0.01851387, 0.01826505},
          Row{1e5, 1e-3, 0.02217454, 0.02196621}, Row{1e5, 1e-2, 0.03850354, 0.03853851},
          Row{1e6, 1e-4, 0.01344144, 0.01332616}, Row{1e7, 0, 0.00810267, 0.00813076},
          Row{2300, 0, 0.04728331, 0.04849112}, Row{2500, 0, 0.04605383, 0.04712849},
          Row{3000, 0, 0.04351919, 0.04434205}}) {
        const std::string where = point(row.reynolds, row.roughness);
        const double haaland = haaland_friction(row.reynolds, row.roughness);
        check_within("Colebrook " + where, colebrook_friction(row.reynolds, row.roughness),
                     row.colebrook, 5.1e-9);
        check_within("Haaland " + where, haaland, row.haaland, 5.1e-9);
        if (row.reynolds < turbulent_start_reynolds) continue;
        // What the plant runs on: Haaland from Re 4000 up, at most 2.1 % from Colebrook.
        const double term = haaland_roughness_term(row.roughness);
        const double used = friction_product(row.reynolds, term).phi / row.reynolds;
        check_within("in the plant " + where, used, row.haaland, 5.1e-9);
        check_within("against Colebrook " + where, used / row.colebrook, 1.0, 0.021);
    }
}

BOOST_AUTO_TEST_CASE(factors_printed_in_documents_and_books) {
    // Documentation of the library fluids, as printed there.
    check_within("Colebrook", colebrook_friction(1e5, 1e-4), 0.018513866077471, 1e-14);
    check_within("Haaland", haaland_friction(1e5, 1e-4), 0.018265053014793857, 1e-14);
    check_within("smooth at 1e7", colebrook_friction(1e7, 0.0), 0.008102669430, 1e-12);
    check_within("laminar", laminar_friction(128.0), 0.5, 0.0);
    // Smooth pipe, White, Fluid Mechanics, ch. 6, four decimals; from memory.
    check_within("smooth 4e3", colebrook_friction(4e3, 0.0), 0.0399, 5.1e-5);
    check_within("smooth 1e4", colebrook_friction(1e4, 0.0), 0.0309, 5.1e-5);
    check_within("smooth 1e5", colebrook_friction(1e5, 0.0), 0.0180, 5.1e-5);
    check_within("smooth 1e6", colebrook_friction(1e6, 0.0), 0.0116, 5.1e-5);
    check_within("smooth 1e7", colebrook_friction(1e7, 0.0), 0.0081, 5.1e-5);
    // Crane TP-410, metric example 7.1 as quoted in the documentation of fluids: water of 30 degC,
    // 200 l/min in a smooth 50 mm pipe, Re 100600, f 0.0179; 1 %.
    check_within("Crane 7.1, Colebrook", colebrook_friction(100600, 0.0) / 0.0179, 1.0, 0.01);
    check_within("Crane 7.1, plant", friction_product(100600, 0.0).phi / 100600 / 0.0179, 1.0,
                 0.01);
}

BOOST_AUTO_TEST_CASE(laminar_factors_are_those_of_hagen_and_poiseuille) {
    // 64/Re exactly: 0.128, 0.064, 0.032 at 500, 1000, 2000.
    for (double reynolds : {500.0, 1000.0, 2000.0}) {
        check_within(point(reynolds, 0.0), laminar_friction(reynolds), 64.0 / reynolds, 0.0);
        check_within(point(reynolds, 0.0), friction_product(reynolds, 0.0).phi, 64.0, 0.0);
    }
    check_within("64/2300", laminar_friction(2300.0), 0.02782609, 5.1e-9);
    check_within("64/2500", laminar_friction(2500.0), 0.0256, 1e-12);
    check_within("64/3000", laminar_friction(3000.0), 0.02133333, 5.1e-9);
}

BOOST_AUTO_TEST_CASE(a_metre_of_pipe_in_one_call_of_a_library) {
    // Documentation of fluids: 10 kg/s, 1000 kg/m3, 1e-5 Pa s, 0.1 m smooth: 63.43447321097365 Pa.
    const double section_m2 = std::numbers::pi / 4.0 * 0.01;
    const double v_m_s = 10.0 / 1000.0 / section_m2;
    const double reynolds = 1000.0 * v_m_s * 0.1 / 1e-5;
    const double drop_pa = colebrook_friction(reynolds, 0.0) / 0.1 * 500.0 * v_m_s * v_m_s;
    check_within("one metre", drop_pa / 63.43447321097365, 1.0, 1e-9);
}

BOOST_AUTO_TEST_CASE(pressure_drop_of_a_metre_of_copper_tube) {
    // Computed from the named formulas with ASHRAE's glycol (40 % by volume) and IAPWS water,
    // roughness 0.0015 mm, in four to five digits: 0.1 %.
    struct Row {
        std::string what;
        FluidProperties fluid;
        double bore_m;
        double litres_h;
        double reynolds;
        double drop_pa;
    };
    for (const Row& row : {Row{"40 degC", {1025.30, 2.21e-3}, 0.020, 240, 1969.0, 37.518},
                           Row{"20 degC", {1036.24, 4.57e-3}, 0.020, 240, 962.35, 77.583},
                           Row{"-10 degC", {1048.79, 23.27e-3}, 0.020, 240, 191.29, 395.04},
                           Row{"60 degC", {1012.30, 1.30e-3}, 0.020, 500, 6885.2, 170.04},
                           Row{"15 x 1", {1012.30, 1.30e-3}, 0.013, 300, 6355.5, 540.50},
                           Row{"water", {983.297, 0.46609e-3}, 0.0202, 600, 22163, 166.01}}) {
        const double mass_kg_s = row.litres_h / 3.6e6 * row.fluid.density_kg_m3;
        const double reynolds =
            4.0 * mass_kg_s / (std::numbers::pi * row.bore_m * row.fluid.viscosity_pa_s);
        check_within(row.what + ", Re", reynolds / row.reynolds, 1.0, 1e-4);
        check_within(row.what + ", Pa", metre_pa(row.bore_m, mass_kg_s, row.fluid) / row.drop_pa,
                     1.0, 1e-3);
    }
    // The same rows by Colebrook: 169.48, 538.34 and 167.30 Pa; Haaland lies within 1 %.
    check_within("60 degC", colebrook_friction(6885.2, 1.5e-6 / 0.020), 0.034263, 5.1e-6);
    check_within("15 x 1", colebrook_friction(6355.5, 1.5e-6 / 0.013), 0.035078, 5.1e-6);
    check_within("water", colebrook_friction(22163, 1.5e-6 / 0.0202), 0.025414, 5.1e-6);
}

BOOST_AUTO_TEST_CASE(velocities_fittings_and_heads) {
    // 300 l/h through copper tube of EN 1057: m/s, computed from the bore.
    struct Row {
        double outer_m;
        double wall_m;
        double velocity_m_s;
    };
    for (const Row& row :
         {Row{0.012, 0.0006, 0.9097}, Row{0.015, 0.0007, 0.5737}, Row{0.015, 0.001, 0.6278},
          Row{0.018, 0.001, 0.4145}, Row{0.022, 0.0009, 0.2600}, Row{0.022, 0.001, 0.2653},
          Row{0.028, 0.0009, 0.1546}, Row{0.028, 0.001, 0.1570}}) {
        PipeRun run;
        run.outer_diameter_m = row.outer_m;
        run.wall_m = row.wall_m;
        const double velocity_m_s = 300.0 / 3.6e6 / pipe_content_m3_m(run);
        check_within("m/s", velocity_m_s, row.velocity_m_s, 5.1e-5);
    }
    // zeta = 1 is one velocity head: 126.54 Pa at 0.5 m/s and 1012.3 kg/m3 (rho v^2/2).
    Parameters p;
    const double mass_kg_s = 0.5 * pipe_content_m3_m(p.loop.cold_pipe) * 1012.3;
    const double head_pa = make_hydraulics(p).zeta_1_m4 * mass_kg_s * mass_kg_s / 1012.3;
    check_within("one velocity head", head_pa, 126.54, 5.1e-3);
    // rho g h: 10 m of 1036.24 kg/m3 are 1.016204 bar, 1 m of 1000 kg/m3 is 0.0980665 bar.
    p.loop.pump.shut_off_head_m = 10.0;
    check_within("10 m", make_hydraulics(p).shut_off_j_kg * 1036.24, 1.016204e5, 0.06);
    p.loop.pump.shut_off_head_m = 1.0;
    check_within("1 m", make_hydraulics(p).shut_off_j_kg * 1000.0, 9806.65, 1e-9);
    check_within("1 bar", 1e5 / (1000.0 * standard_gravity_m_s2), 10.19716, 1e-5);
    // 6 l/min lifted by 4 m at 1036 kg/m3: 4.064 W (rho g H Q).
    check_within("6 l/min, 4 m", 1036.0 * standard_gravity_m_s2 * 4.0 * 1e-4, 4.064, 1e-3);
}

BOOST_AUTO_TEST_SUITE_END()
