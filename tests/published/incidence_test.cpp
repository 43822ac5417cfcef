// SPDX-License-Identifier: MIT
// Incidence angles and modifiers against published and closed-form values.
#include "within.hpp"

#include "plant/incidence.hpp"
#include "plant/si.hpp"
#include "plant/sun.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cmath>
#include <string>

BOOST_AUTO_TEST_SUITE(incidence)

namespace {

using namespace noonbench::plant;
using noonbench::published::check_within;

double modifier(double b0, double incidence_deg) {
    return modifier_from_b0(b0, std::cos(radians(incidence_deg)));
}

/// Where the sun stands for a latitude, declination and hour angle, as in the textbook's chapter 1.
Direction sun_at(double latitude_deg, double declination_deg, double hour_angle_deg) {
    const double f = radians(latitude_deg);
    const double d = radians(declination_deg);
    const double w = radians(hour_angle_deg);
    return {-std::cos(d) * std::sin(w),
            std::cos(f) * std::sin(d) - std::sin(f) * std::cos(d) * std::cos(w),
            std::sin(f) * std::sin(d) + std::cos(f) * std::cos(d) * std::cos(w)};
}

}  // namespace

// pvlib-python tests/test_iam.py: b0 0.05 at 22.5, 45, 67.5 and 89 degrees.
BOOST_AUTO_TEST_CASE(one_coefficient_gives_the_published_modifiers) {
    check_within("22.5", modifier(0.05, 22.5), 0.99588039, 1e-7);
    check_within("45", modifier(0.05, 45.0), 0.97928932, 1e-7);
    check_within("67.5", modifier(0.05, 67.5), 0.9193437, 1e-7);
    BOOST_TEST(modifier(0.05, 89.0) == 0.0);
    // At 60 degrees the form is 1 - b0 exactly (a public calculator's tests: 0.95).
    for (const double b0 : {0.05, 0.10, 0.15, 0.18}) {
        check_within("60", modifier(b0, 60.0), 1.0 - b0, 1e-12);
    }
    // Closed form.
    const double at_50[] = {0.97221, 0.94443, 0.91664, 0.89997};
    const double b0_of[] = {0.05, 0.10, 0.15, 0.18};
    for (int i = 0; i < 4; ++i) check_within("50", modifier(b0_of[i], 50.0), at_50[i], 1e-5);
    check_within("70", modifier(0.10, 70.0), 0.80762, 1e-5);
    check_within("80", modifier(0.10, 80.0), 0.52412, 1e-5);
    // It meets zero where cos = b0 / (1 + b0).
    const double zero_at[] = {84.784, 82.505, 81.226};
    for (int i = 1; i < 4; ++i) {
        BOOST_TEST(modifier(b0_of[i], zero_at[i - 1] + 1e-3) == 0.0);
        BOOST_TEST(modifier(b0_of[i], zero_at[i - 1] - 1e-3) > 0.0);
    }
}

// The mean over an even hemisphere of the clipped form is 1 / (1 + b0), derived by integration: the
// default K_d of the collector's data sheet.
BOOST_AUTO_TEST_CASE(the_even_sky_sees_one_over_one_plus_b0) {
    for (const double b0 : {0.10, 0.15}) {
        double sum = 0.0;
        constexpr int bands = 100000;
        for (int i = 0; i < bands; ++i) {  // weight: d(sin^2) = 2 sin cos
            const double sine_squared = (i + 0.5) / bands;
            sum += modifier_from_b0(b0, std::sqrt(1.0 - sine_squared)) / bands;
        }
        check_within("hemisphere", sum, 1.0 / (1.0 + b0), 1e-5);
    }
}

// ISO 9806 form, values every ten degrees; shape of an evacuated tube from memory, not a product.
BOOST_AUTO_TEST_CASE(tables_are_read_linearly_and_multiplied) {
    IncidenceModifier tubes;
    tubes.b0 = 0.0;
    tubes.transversal = {1.0, 1.01, 1.03, 1.08, 1.17, 1.30, 1.38, 1.30, 0.90, 0.0};
    tubes.longitudinal = {1.0, 1.0, 0.99, 0.97, 0.95, 0.91, 0.84, 0.71, 0.43, 0.0};
    check_within("node", modifier_from_table(tubes.transversal, radians(40.0)), 1.17, 1e-12);
    check_within("between", modifier_from_table(tubes.transversal, radians(45.0)), 1.235, 1e-12);
    check_within("end", modifier_from_table(tubes.transversal, radians(90.0)), 0.0, 1e-12);
    const IncidenceAngles at{0.5, radians(15.0), radians(55.0)};
    check_within("product", beam_modifier(tubes, at), 0.995 * 1.34, 1e-12);
    BOOST_TEST(beam_modifier(tubes, {-0.1, 0.0, 0.0}) == 0.0);
}

// Vector geometry, projected angles: slope 45 south with the sun at zenith 60, azimuth 240; slope
// 35 south with zenith 35, azimuth 120.
BOOST_AUTO_TEST_CASE(the_sun_is_projected_along_and_across_the_tubes) {
    const IncidenceAngles one = incidence_angles(radians(45.0), radians(180.0),
                                                 direction_of(radians(30.0), radians(240.0)));
    check_within("incidence", degrees(std::acos(one.cos_incidence)), 48.720, 1e-3);
    check_within("transversal", degrees(one.transversal_rad), 48.663, 1e-3);
    check_within("longitudinal", degrees(one.longitudinal_rad), 4.107, 1e-3);
    const IncidenceAngles two = incidence_angles(radians(35.0), radians(180.0),
                                                 direction_of(radians(55.0), radians(120.0)));
    check_within("incidence", degrees(std::acos(two.cos_incidence)), 33.332, 1e-3);
    check_within("transversal", degrees(two.transversal_rad), 30.733, 1e-3);
    check_within("longitudinal", degrees(two.longitudinal_rad), 15.705, 1e-3);
}

// Duffie & Beckman, examples 1.6.1 and 1.6.2 (as quoted on a public page and in public tests):
// latitude 43, declination -14, hour angle -22.5, slope 45 facing 15 degrees west of south.
BOOST_AUTO_TEST_CASE(the_textbook_angles_come_out) {
    const Direction sun = sun_at(43.0, -14.0, -22.5);
    const Direction plane = normal_of_plane(radians(45.0), radians(195.0));
    check_within("cosine", dot(sun, plane), 0.817, 5e-4);
    check_within("1.8.1 beam ratio", dot(sun, plane) / sun.up, 1.66, 0.007);
    const Direction morning = sun_at(43.0, -14.0, -37.5);
    check_within("1.6.2a zenith", degrees(std::acos(morning.up)), 66.5, 0.1);
    check_within("1.6.2a azimuth", degrees(std::atan2(morning.east, morning.north)), 180.0 - 40.0,
                 0.1);
    const Direction evening = sun_at(43.0, 23.1, 97.5);
    check_within("1.6.2b zenith", degrees(std::acos(evening.up)), 79.6, 0.1);
    check_within("1.6.2b azimuth", degrees(std::atan2(evening.east, evening.north)) + 360.0,
                 180.0 + 112.0, 0.1);
}

BOOST_AUTO_TEST_SUITE_END()
