// SPDX-License-Identifier: MIT
#include "harness/choose/put_back.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <span>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_put_back)

using namespace noonbench::harness;

namespace {

/// Only the first two dimensions matter, and the second only above its level 1.
RunTrials run_on(const Grid& grid) {
    return [&grid](std::span<const Trial> trials) {
        std::vector<Score> scores;
        for (const Trial& trial : trials) {
            const GridPoint at = grid.point_of(trial.candidate);
            const double second = at[1] > 1 ? 3.0 : 0.0;
            const double value = 1000.0 + 10.0 * static_cast<double>(at[0]) - second;
            scores.push_back({value, value, {1.0}});
        }
        return scores;
    };
}

HalvingResult won_by(std::size_t winner, std::size_t delivered, const RunTrials& run) {
    HalvingResult result;
    for (const std::size_t candidate : {std::min(winner, delivered), std::max(winner, delivered)}) {
        std::vector<Trial> trials;
        for (std::size_t world = 0; world < 3; ++world) trials.push_back({candidate, world});
        result.tried.push_back({candidate, run(trials)});
    }
    result.set.winner = winner;
    result.set.worlds = 3;
    Member member;
    member.candidate = winner;
    member.objective_kwh = 1030.0;
    result.set.members = {member};
    return result;
}

}  // namespace

BOOST_AUTO_TEST_CASE(what_changes_nothing_is_put_back_and_what_changes_something_is_not) {
    const Grid grid{{4, 4, 4}, {}};
    const RunTrials run = run_on(grid);
    const std::size_t delivered = grid.candidate_of(GridPoint{0, 0, 2});
    const std::size_t winner = grid.candidate_of(GridPoint{3, 1, 0});
    HalvingResult result = won_by(winner, delivered, run);
    put_back_what_changes_nothing(grid, delivered, run, result);
    BOOST_TEST((grid.point_of(result.set.winner) == GridPoint{3, 0, 2}));
    BOOST_TEST_REQUIRE(result.set.members.size() == 2U);
    BOOST_TEST(result.set.members[0].candidate == result.set.winner);
    BOOST_TEST(result.set.members[0].objective_kwh == 1030.0);
    BOOST_TEST(result.set.members[1].candidate == winner);
    BOOST_TEST_REQUIRE(result.tried.size() == 3U);
    BOOST_TEST(
        std::is_sorted(result.tried.begin(), result.tried.end(),
                       [](const Tried& a, const Tried& b) { return a.candidate < b.candidate; }));
}

BOOST_AUTO_TEST_CASE(a_winner_of_which_all_matters_stays) {
    const Grid grid{{4, 4, 4}, {}};
    const RunTrials run = run_on(grid);
    const std::size_t delivered = grid.candidate_of(GridPoint{0, 3, 2});
    const std::size_t winner = grid.candidate_of(GridPoint{3, 1, 2});
    HalvingResult result = won_by(winner, delivered, run);
    put_back_what_changes_nothing(grid, delivered, run, result);
    BOOST_TEST(result.set.winner == winner);
    BOOST_TEST(result.tried.size() == 2U);
}

BOOST_AUTO_TEST_CASE(a_point_that_the_grid_leaves_out_is_not_run) {
    Grid grid{{4, 4, 4}, [](std::span<const std::size_t> p) { return p[2] == 0 || p[0] < 2; }};
    const RunTrials run = [&](std::span<const Trial> trials) {
        for (const Trial& trial : trials) BOOST_TEST(grid.is_possible(trial.candidate));
        return run_on(grid)(trials);
    };
    const std::size_t delivered = grid.candidate_of(GridPoint{0, 0, 2});
    const std::size_t winner = grid.candidate_of(GridPoint{3, 0, 0});
    HalvingResult result = won_by(winner, delivered, run);
    put_back_what_changes_nothing(grid, delivered, run, result);
    BOOST_TEST(result.set.winner == winner);
}

BOOST_AUTO_TEST_SUITE_END()
