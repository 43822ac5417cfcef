// SPDX-License-Identifier: MIT
// What the search for settings is made of, each part by itself: the grid, evenly spread points, the
// surface through what was measured, and estimates from candidates that met different worlds.
#include "choose_halving_planted.hpp"

#include "harness/choose/halving_surface.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_halving_parts)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

}  // namespace

BOOST_AUTO_TEST_CASE(a_grid_counts_its_points_and_knows_their_neighbours) {
    Grid grid{{3, 4, 2}, {}};
    BOOST_TEST(grid.size() == 24U);
    for (std::size_t i = 0; i < grid.size(); ++i)
        BOOST_TEST(grid.candidate_of(grid.point_of(i)) == i);
    const GridPoint corner = {0, 3, 1};
    const std::size_t at = grid.candidate_of(corner);
    BOOST_TEST(at == 7U);
    std::vector<std::size_t> around = {grid.candidate_of(GridPoint{0, 2, 1}),
                                       grid.candidate_of(GridPoint{0, 3, 0}),
                                       grid.candidate_of(GridPoint{1, 3, 1})};
    std::sort(around.begin(), around.end());
    BOOST_TEST(grid.neighbours(at) == around, boost::test_tools::per_element());
    grid.exists = [](std::span<const std::size_t> point) { return point[0] <= point[2]; };
    BOOST_TEST(grid.neighbours(at).size() == 2U + 1U);
    BOOST_TEST(!grid.is_possible(grid.candidate_of(GridPoint{2, 0, 1})));
    BOOST_TEST(!grid.is_possible(24));
    BOOST_TEST(grid.possible().size() == 4U * 3U);
}

BOOST_AUTO_TEST_CASE(spread_points_are_different_possible_and_even) {
    const Grid grid{{5, 5, 4, 4, 3}, {}};
    const std::vector<std::size_t> spread = evenly_spread(grid, grid.possible(), 60, 3);
    BOOST_TEST(std::set(spread.begin(), spread.end()).size() == 60U);
    for (std::size_t d = 0; d < grid.levels.size(); ++d) {
        std::map<std::size_t, double> count;
        for (const std::size_t candidate : spread) ++count[grid.point_of(candidate)[d]];
        BOOST_TEST(count.size() == grid.levels[d]);
        const double even = 60.0 / static_cast<double>(grid.levels[d]);
        for (const auto& [level, times] : count) BOOST_TEST(std::abs(times - even) <= 0.3 * even);
    }
    Grid diagonal{{30, 30}, [](std::span<const std::size_t> p) { return p[0] == p[1]; }};
    const std::vector<std::size_t> few = evenly_spread(diagonal, diagonal.possible(), 100, 3);
    BOOST_TEST(std::set(few.begin(), few.end()).size() == 30U);
    for (const std::size_t candidate : few) BOOST_TEST(diagonal.is_possible(candidate));
}

BOOST_AUTO_TEST_CASE(a_surface_through_few_points_guesses_a_bowl_with_a_twist) {
    const Grid grid{{5, 5, 5, 5}, {}};
    const auto value = [&](std::size_t candidate) {
        const std::vector<double> x = shares_of(grid, candidate);
        return -3.0 * (x[0] - 0.4) * (x[0] - 0.4) - (x[1] - 0.8) * (x[1] - 0.8) + x[0] * x[2];
    };
    std::vector<Measured> measured;
    for (const std::size_t candidate : evenly_spread(grid, grid.possible(), 40, 1))
        measured.push_back({grid.point_of(candidate), value(candidate), 1.0});
    SurfaceShape shape;
    const Surface surface(grid.levels, measured, shape);
    double square = 0.0;
    double spread = 0.0;
    for (const std::size_t candidate : grid.possible()) {
        const double error = surface.mean(grid.point_of(candidate)) - value(candidate);
        square += error * error;
        spread += value(candidate) * value(candidate);
    }
    BOOST_TEST_MESSAGE("error " << std::sqrt(square / spread) << " of the spread");
    BOOST_TEST(square < 0.02 * 0.02 * spread);
    BOOST_TEST(shape.reach[3] > shape.reach[0]);  // the fourth dimension does nothing
    // Where it was measured it is sure, far from there it is not.
    const Surface::Joint joint =
        surface.joint(std::vector<GridPoint>{measured[0].point, {4, 0, 0, 4}});
    BOOST_TEST(joint.covariance[0] < joint.covariance[3]);
    BOOST_TEST(joint.covariance[1] == joint.covariance[2]);
}

BOOST_AUTO_TEST_CASE(estimates_take_out_what_the_worlds_give) {
    // Candidate 1 ran in the good world only.
    const std::vector<Tried> tried = {{0, {{0, 110.0, {1.0}}, {0, 90.0, {-1.0}}}},
                                      {1, {{0, 115.0, {2.0}}}},
                                      {2, {{0, 112.0, {1.5}}, {0, 92.0, {-0.5}}}}};
    const std::vector<Estimate> found = estimates(tried, 2);
    BOOST_TEST(found[0].objective_kwh == 100.0);
    BOOST_TEST(found[1].objective_kwh == 105.0, boost::test_tools::tolerance(1e-9));
    BOOST_TEST(found[1].margins[0] == 1.0, boost::test_tools::tolerance(1e-9));
    BOOST_TEST(found[2].margins[0] == 0.5);
}

BOOST_AUTO_TEST_SUITE_END()
