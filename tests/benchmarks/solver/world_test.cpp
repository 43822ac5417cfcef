// SPDX-License-Identifier: MIT
#include "world.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(world)

using namespace noonbench::benchmarks;

BOOST_AUTO_TEST_CASE(stretches_end_at_knots_and_at_the_edges_of_draws) {
    World world = april_world(1, 3600);
    world.draws = {{7 * 3600 + 900, 7 * 3600 + 1800, 0.1}};
    WorldReader reader(world);
    BOOST_TEST(reader.at(7 * 3600).until_s == 7 * 3600 + 900);
    BOOST_TEST(reader.at(7 * 3600).tap_flow_kg_s == 0.0);
    BOOST_TEST(reader.at(7 * 3600 + 900).until_s == 7 * 3600 + 1800);
    BOOST_TEST(reader.at(7 * 3600 + 900).tap_flow_kg_s == 0.1);
    BOOST_TEST(reader.at(7 * 3600 + 1800).until_s == 8 * 3600);
}

BOOST_AUTO_TEST_CASE(an_hourly_sky_keeps_the_sun_of_the_day) {
    const World minutes = april_world(1, 60);
    const World coarse = hourly(minutes);
    double fine = 0.0;
    double rough = 0.0;
    for (const PlaneKnot& knot : minutes.knots) fine += knot.received_w_m2[0] / 60.0;
    for (const PlaneKnot& knot : coarse.knots) rough += knot.received_w_m2[0];
    BOOST_TEST(coarse.knots.size() == 25U);
    BOOST_TEST(rough == fine, boost::test_tools::tolerance(0.001));
}

BOOST_AUTO_TEST_CASE(one_day_of_a_world_begins_at_nought_and_ends_at_midnight) {
    const World day = one_day(april_world(3, 3600), 1);
    BOOST_TEST(day.knots.size() == 25U);
    BOOST_TEST(day.knots.front().at_s == 0);
    BOOST_TEST(day.knots.back().at_s == seconds_a_day);
}

BOOST_AUTO_TEST_SUITE_END()
