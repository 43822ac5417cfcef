// SPDX-License-Identifier: MIT
#include "plant/irradiance.hpp"
#include "plant/calendar.hpp"
#include "plant/clear_sky.hpp"
#include "plant/incidence.hpp"
#include "plant/si.hpp"
#include "plant/skyline.hpp"
#include "plant/sun.hpp"
#include "plant/transposition.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

BOOST_AUTO_TEST_SUITE(irradiance)

namespace {

using namespace noonbench::plant;

/// Rounding of a dozen operations on numbers around 1000.
constexpr double rounding_w_m2 = 1e-9;

constexpr std::array<SkyModel, 4> all_models{SkyModel::isotropic, SkyModel::hay_davies,
                                             SkyModel::hdkr, SkyModel::perez};

SkyState sky(double beam, double diffuse, double zenith_deg) {
    const double elevation = radians(90.0 - zenith_deg);
    return {beam, diffuse, 1361.0, relative_air_mass(elevation), std::cos(radians(zenith_deg))};
}

PlaneView plane(double slope_deg, double facing_deg, double zenith_deg, double sun_deg) {
    const Direction sun = direction_of(radians(90.0 - zenith_deg), radians(sun_deg));
    const Direction normal = normal_of_plane(radians(slope_deg), radians(facing_deg));
    return {radians(slope_deg), dot(sun, normal), 0.2};
}

Row row_of(double slope_deg, double azimuth_deg) {
    Row row;
    row.slope_rad = radians(slope_deg);
    row.azimuth_rad = radians(azimuth_deg);
    return row;
}

SkyKnot knot(const CivilDate& date, double hour, double beam, double diffuse) {
    SkyKnot k;
    k.at_s = midnight_of(date) + static_cast<CivilSeconds>(hour * 3600.0);
    k.beam_normal_w_m2 = beam;
    k.diffuse_horizontal_w_m2 = diffuse;
    return k;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_level_plane_receives_the_global_irradiance) {
    for (const SkyModel model : all_models) {
        for (int zenith = 0; zenith < 85; zenith += 4) {
            for (const double diffuse : {0.0, 30.0, 300.0}) {
                const SkyState state = sky(600.0, diffuse, zenith);
                const double global = 600.0 * state.cos_zenith + diffuse;
                const double total = on_plane(model, state, plane(0, 0, zenith, 130)).total();
                BOOST_TEST_CONTEXT("zenith " << zenith << " diffuse " << diffuse)
                BOOST_CHECK_SMALL(total - global, rounding_w_m2);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(under_an_overcast_sky_hay_davies_is_isotropic) {
    for (int slope = 0; slope <= 90; slope += 15) {
        const PlaneView view = plane(slope, 160, 55, 200);
        const SkyState grey = sky(0.0, 140.0, 55);
        BOOST_TEST(on_plane(SkyModel::hay_davies, grey, view).total() ==
                   on_plane(SkyModel::isotropic, grey, view).total());
        BOOST_TEST(on_plane(SkyModel::hdkr, grey, view).total() ==
                   on_plane(SkyModel::isotropic, grey, view).total());
    }
}

BOOST_AUTO_TEST_CASE(a_wall_sees_half_of_the_ground) {
    const SkyState state = sky(700.0, 90.0, 40);
    const double global = 700.0 * state.cos_zenith + 90.0;
    for (const SkyModel model : all_models) {
        const double ground = on_plane(model, state, plane(90, 180, 40, 180)).ground;
        BOOST_CHECK_SMALL(ground - 0.2 * global / 2.0, rounding_w_m2);
    }
}

// North and south change places, winter and summer with them.
BOOST_AUTO_TEST_CASE(mirrored_at_the_equator_everything_is_the_same) {
    for (const SkyModel model : all_models) {
        for (int sun = 0; sun < 360; sun += 30) {
            const SkyState state = sky(500.0, 120.0, 48);
            const double north = on_plane(model, state, plane(40, 170, 48, sun)).total();
            const double south =
                on_plane(model, state, plane(40, 180 - 170, 48, 180 - sun)).total();
            BOOST_CHECK_SMALL(north - south, rounding_w_m2);
        }
    }
}

// Everything a sky could be, and more: tilt, sun behind the plane or below the horizon, no diffuse,
// diffuse brighter than any. Nothing is negative, nothing is not a number, nothing overflows.
BOOST_AUTO_TEST_CASE(no_sky_gives_a_negative_or_endless_irradiance) {
    double worst = 0.0;
    for (const SkyModel model : all_models) {
        for (double zenith = 0.0; zenith <= 100.0; zenith += 1.3) {
            for (const double beam : {0.0, 5.0, 400.0, 1100.0}) {
                for (const double diffuse : {0.0, 0.3, 60.0, 500.0}) {
                    const PlaneIrradiance on =
                        on_plane(model, sky(beam, diffuse, zenith), plane(80, 210, zenith, 220));
                    BOOST_REQUIRE(on.beam >= 0.0 && on.circumsolar >= 0.0 && on.dome >= 0.0);
                    BOOST_REQUIRE(on.total() >= 0.0);
                    worst = std::max(worst, on.sky() / std::max(diffuse, 0.1));
                }
            }
        }
    }
    BOOST_TEST_MESSAGE("most sky on the plane per diffuse on the horizontal: " << worst);
    // The ratio of the cosines is at most 1/cos 89 deg = 57.3 in Hay & Davies, times their share of
    // 1100/1361, and the even part adds less than 1.
    BOOST_TEST(worst < 57.3 * 1100.0 / 1361.0 + 1.0);
}

BOOST_AUTO_TEST_CASE(the_cloudless_sky_is_never_brighter_than_the_sun_allows) {
    for (int zenith = 0; zenith < 90; ++zenith) {
        const double cosine = std::cos(radians(zenith));
        const double air_mass = relative_air_mass(radians(90.0 - zenith));
        double before = 1e9;
        for (const double turbidity : {2.0, 3.0, 4.0, 6.0}) {
            const HorizontalSky clear = clear_sky({turbidity, 300.0}, cosine, air_mass, 1361.0);
            BOOST_TEST(clear.global_horizontal_w_m2 < 1361.0 * cosine);
            BOOST_TEST(clear.beam_normal_w_m2 < before);  // murkier air, less beam
            BOOST_TEST(clear.diffuse_horizontal_w_m2 >= 0.0);
            before = clear.beam_normal_w_m2;
        }
    }
    BOOST_TEST(clear_sky({3.0, 0.0}, -0.1, 38.0, 1361.0).global_horizontal_w_m2 == 0.0);
}

BOOST_AUTO_TEST_CASE(a_split_keeps_the_global_irradiance) {
    for (double cosine = 0.001; cosine < 1.0; cosine += 0.037) {
        for (const double global : {0.0, 20.0, 300.0, 1200.0}) {
            const HorizontalSky split = split_global(global, cosine, 1361.0);
            const double again = split.beam_normal_w_m2 * cosine + split.diffuse_horizontal_w_m2;
            BOOST_CHECK_SMALL(again - global, rounding_w_m2);
            BOOST_TEST(split.beam_normal_w_m2 <= 1361.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(the_two_projected_angles_make_up_the_incidence) {
    for (int sun = 90; sun <= 270; sun += 20) {
        const IncidenceAngles at = incidence_angles(radians(40.0), radians(190.0),
                                                    direction_of(radians(35.0), radians(sun)));
        if (at.cos_incidence <= 0.01) continue;
        const double tan_squared = 1.0 / (at.cos_incidence * at.cos_incidence) - 1.0;
        const double sum = std::pow(std::tan(at.longitudinal_rad), 2.0) +
                           std::pow(std::tan(at.transversal_rad), 2.0);
        BOOST_TEST(sum == tan_squared, boost::test_tools::tolerance(1e-9));
    }
}

BOOST_AUTO_TEST_CASE(a_skyline_runs_around_through_north) {
    const std::vector<HorizonPoint> hills{{radians(90.0), radians(10.0)},
                                          {radians(180.0), radians(20.0)},
                                          {radians(270.0), radians(10.0)}};
    const auto at = [&](double azimuth) { return degrees(skyline_rad(hills, radians(azimuth))); };
    BOOST_CHECK_SMALL(at(135.0) - 15.0, 1e-9);
    BOOST_CHECK_SMALL(at(180.0) - 20.0, 1e-9);
    BOOST_CHECK_SMALL(at(0.0) - 10.0, 1e-9);
    BOOST_CHECK_SMALL(at(359.0) - 10.0, 1e-9);
    const std::vector<HorizonPoint> even{{0.0, radians(30.0)}, {radians(180.0), radians(30.0)}};
    BOOST_CHECK_SMALL(sky_view(even) - 0.75, 1e-9);  // cos^2 30
    BOOST_TEST(sky_view({}) == 1.0);
    // Against the plain sum over the circle; its own step leaves 1e-6.
    double sum = 0.0;
    for (int i = 0; i < 36000; ++i) {
        sum += std::pow(std::cos(skyline_rad(hills, radians((i + 0.5) / 100.0))), 2.0) / 36000.0;
    }
    BOOST_CHECK_SMALL(sky_view(hills) - sum, 1e-6);
}

BOOST_AUTO_TEST_CASE(a_hill_before_the_sun_takes_the_beam_and_some_of_the_sky) {
    Site open;
    Site valley = open;
    valley.horizon = {{0.0, radians(25.0)}};
    const Row rows[] = {row_of(45.0, 180.0)};
    const SkyKnot morning = knot({2023, 3, 20}, 9.0, 500.0, 80.0);  // sun about 23 degrees up
    const SkyKnot noon = knot({2023, 3, 20}, 12.5, 800.0, 100.0);   // about 42
    const double open_morning = on_planes(open, rows, morning).received_w_m2[0];
    const double hidden = on_planes(valley, rows, morning).received_w_m2[0];
    BOOST_TEST(hidden < 0.25 * open_morning);
    BOOST_TEST(hidden > 0.0);
    const double lost = on_planes(open, rows, noon).received_w_m2[0] -
                        on_planes(valley, rows, noon).received_w_m2[0];
    BOOST_TEST(lost > 0.0);
    BOOST_TEST(lost < 100.0 * std::pow(std::sin(radians(25.0)), 2.0) + 1.0);
}

BOOST_AUTO_TEST_CASE(each_row_has_its_own_plane_and_the_weather_passes_through) {
    const Row rows[] = {row_of(0.0, 180.0), row_of(40.0, 90.0), row_of(40.0, 270.0)};
    SkyKnot morning = knot({2023, 6, 10}, 8.0, 700.0, 90.0);
    morning.air_c = 17.0;
    morning.sky_c = 3.0;
    morning.wind_m_s = 4.0;
    const PlaneKnot at = on_planes(Site{}, rows, morning);
    BOOST_TEST(at.received_w_m2[1] > at.received_w_m2[0]);
    BOOST_TEST(at.received_w_m2[0] > at.received_w_m2[2]);
    BOOST_TEST(at.received_w_m2[3] == 0.0);
    BOOST_TEST(at.at_s == morning.at_s);
    BOOST_TEST(at.air_c == 17.0);
    BOOST_TEST(at.sky_c == 3.0);
    BOOST_TEST(at.wind_m_s == 4.0);
    for (int i = 0; i < 3; ++i) {
        BOOST_TEST(at.absorbable_w_m2[i] > 0.0);
        BOOST_TEST(at.absorbable_w_m2[i] < at.received_w_m2[i]);
    }
}

// With modifiers of 1 everywhere what is received is absorbed.
BOOST_AUTO_TEST_CASE(a_collector_without_incidence_losses_absorbs_what_it_receives) {
    Row row = row_of(35.0, 200.0);
    row.collector.incidence.b0 = 0.0;
    row.collector.incidence.longitudinal.fill(1.0);
    row.collector.incidence.transversal.fill(1.0);
    row.collector.incidence.diffuse = 1.0;
    for (double hour = 7.0; hour < 18.0; hour += 0.5) {
        const PlaneKnot at =
            on_planes(Site{}, std::span(&row, 1), knot({2023, 5, 2}, hour, 600.0, 120.0));
        BOOST_CHECK_SMALL(at.absorbable_w_m2[0] - at.received_w_m2[0], rounding_w_m2);
    }
}

BOOST_AUTO_TEST_CASE(too_many_rows_are_refused) {
    const std::vector<Row> rows(most_rows + 1);
    BOOST_CHECK_THROW((void)on_planes(Site{}, rows, SkyKnot{}), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
