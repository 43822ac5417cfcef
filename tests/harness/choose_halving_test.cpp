// SPDX-License-Identifier: MIT
// How the search for settings goes about: it follows ridges and edges, keeps to its budget, runs
// nothing twice, repeats itself, and refuses what it cannot search.
#include "choose_halving_planted.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_halving)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

/// The same in every world, saving 1000 kWh: the tolerance is 4 kWh.
RunTrials without_worlds(const Grid& grid,
                         const std::function<Score(const std::vector<double>&)>& score) {
    return [&grid, score](std::span<const Trial> trials) {
        std::vector<Score> scores;
        for (const Trial& trial : trials) scores.push_back(score(shares_of(grid, trial.candidate)));
        return scores;
    };
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_flat_ridge_between_two_settings_is_found_along_its_length) {
    const Grid grid{{6, 6, 3, 3, 3}, {}};
    const auto ridge = [](const std::vector<double>& x) {
        const double off = x[0] - x[1];
        const double other = x[2] - 0.5;
        return Score{1000.0, 1000.0 - 300.0 * off * off - 100.0 * other * other, {}};
    };
    const HalvingResult found =
        search_settings(request_of(grid, 300, 4, 1), without_worlds(grid, ridge));
    BOOST_TEST(found.set.members[0].objective_kwh == 1000.0);
    const std::vector<LevelRange> ranges = level_ranges(grid, found.set);
    BOOST_TEST(ranges[0].present.size() >= 4U);  // any value of one,
    BOOST_TEST(ranges[0].alone.size() == 1U);    // provided that the other goes with it
    BOOST_TEST(ranges[2].present == std::vector<std::size_t>{1}, boost::test_tools::per_element());
    BOOST_TEST(ranges[3].every_level);
    BOOST_TEST(ranges[4].every_level);
}

BOOST_AUTO_TEST_CASE(a_constraint_that_cuts_off_the_top_leaves_the_best_at_its_edge) {
    const Grid grid{{7, 7, 4, 4}, {}};
    const auto hill = [](const std::vector<double>& x) {
        double value = 1000.0;
        for (const double share : x) value -= 100.0 * (share - 0.9) * (share - 0.9);
        return Score{1000.0, value, {1.05 - x[0] - x[1], 5.0}};
    };
    double best = 0.0;
    for (const std::size_t candidate : grid.possible()) {
        const Score score = hill(shares_of(grid, candidate));
        if (score.margins[0] >= 0.0) best = std::max(best, score.objective_kwh);
    }
    const HalvingResult found =
        search_settings(request_of(grid, 250, 4, 1), without_worlds(grid, hill));
    BOOST_TEST(found.set.members[0].objective_kwh == best);
    for (const Member& member : found.set.members) BOOST_TEST(member.margins[0] >= 0.0);
    BOOST_TEST(best < 970.0);  // far below what the constraint cuts off
}

BOOST_AUTO_TEST_CASE(no_trial_runs_twice_and_none_beyond_the_budget) {
    for (const std::size_t budget : {16U, 40U, 150U, 333U}) {
        const Planted planted(seven_hundred, 31);
        Runner runner([&](const Trial& trial) { return planted.score(trial); });
        HalvingRequest request = request_of(planted.grid, budget, 8, 5);
        request.delivered = {17, 400};
        std::vector<RungReport> reports;
        request.progress = [&](const RungReport& report) { reports.push_back(report); };
        const HalvingResult found = search_settings(request, runner.run());
        BOOST_TEST_CONTEXT("budget " << budget) {
            BOOST_TEST(runner.twice() == 0U);
            BOOST_TEST(runner.ran() == found.trials);
            BOOST_TEST(found.trials <= budget);
            BOOST_TEST(found.possible == 720U);
            std::size_t scores = 0;
            for (const Tried& one : found.tried) {
                scores += one.by_world.size();
                if (one.candidate == 17 || one.candidate == 400)
                    BOOST_TEST(one.by_world.size() == 8U);
            }
            BOOST_TEST(scores == found.trials);
            for (std::size_t i = 1; i < reports.size(); ++i) {
                BOOST_TEST(reports[i].rung >= reports[i - 1].rung);
                BOOST_TEST(reports[i].worlds >= reports[i - 1].worlds);
                BOOST_TEST(reports[i].trials_done >= reports[i - 1].trials_done);
            }
            BOOST_TEST(reports.back().trials_done == found.trials);
            BOOST_TEST(reports.back().trials_expected == budget);
            BOOST_TEST(reports.back().alive == found.set.ran_everywhere);
        }
    }
}

BOOST_AUTO_TEST_CASE(the_same_seed_searches_the_same_way) {
    const Planted planted(seven_hundred, 32);
    const auto tried = [&](std::uint64_t seed) {
        std::vector<std::size_t> found;
        for (const Tried& one : search(planted, 200, 6, seed).tried) {
            found.push_back(one.candidate);
            found.push_back(one.by_world.size());
        }
        return found;
    };
    const std::vector<std::size_t> once = tried(4);
    BOOST_TEST(once == tried(4), boost::test_tools::per_element());
    BOOST_TEST((once != tried(5)));
}

BOOST_AUTO_TEST_CASE(what_the_budget_pays_for_is_run_completely) {
    const Planted planted({4, 3, 3}, 33);
    const HalvingResult found = search(planted, 36 * 5, 5, 1);
    BOOST_TEST(found.trials == 36U * 5U);
    BOOST_TEST(found.set.ran_everywhere == 36U);
    BOOST_TEST(found.neighbours_unrun.empty());
    BOOST_TEST(found.set.members[0].objective_kwh == best_of_all(planted, 5).objective_kwh,
               boost::test_tools::tolerance(1e-12));
}

BOOST_AUTO_TEST_CASE(neighbours_that_the_budget_did_not_pay_for_are_named) {
    const Planted planted(seven_hundred, 34);
    const HalvingResult found = search(planted, 40, 8, 1);
    BOOST_TEST(!found.neighbours_unrun.empty());
    for (const std::size_t unrun : found.neighbours_unrun)
        for (const Tried& one : found.tried)
            if (one.candidate == unrun) BOOST_TEST(one.by_world.size() < 8U);
}

BOOST_AUTO_TEST_CASE(impossible_points_are_never_run) {
    Planted planted(seven_hundred, 35);
    planted.grid.exists = [](std::span<const std::size_t> point) { return point[0] > point[1]; };
    HalvingRequest request = request_of(planted.grid, 200, 6, 1);
    request.delivered = {planted.grid.candidate_of(GridPoint{4, 0, 0, 0, 0})};
    Runner runner([&](const Trial& trial) { return planted.score(trial); });
    for (const Tried& one : search_settings(request, runner.run()).tried)
        BOOST_TEST(planted.grid.is_possible(one.candidate));
    request.delivered = {0};
    BOOST_CHECK_THROW((void)search_settings(request, runner.run()), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(what_cannot_be_searched_is_refused) {
    const Planted planted(seven_hundred, 36);
    Runner runner([&](const Trial& trial) { return planted.score(trial); });
    const auto refuses = [&](const HalvingRequest& request) {
        BOOST_CHECK_THROW((void)search_settings(request, runner.run()), std::invalid_argument);
    };
    refuses(request_of(planted.grid, 7, 8, 1));
    refuses(request_of(planted.grid, 100, 1, 1));
    HalvingRequest nothing = request_of(planted.grid, 100, 4, 1);
    nothing.grid.exists = [](std::span<const std::size_t>) { return false; };
    refuses(nothing);
    BOOST_TEST(runner.ran() == 0U);
    const auto broken = [](std::span<const Trial> trials) {
        return std::vector<Score>(trials.size(), {1.0, std::nan(""), {}});
    };
    BOOST_CHECK_THROW((void)search_settings(request_of(planted.grid, 100, 4, 1), broken),
                      std::runtime_error);
    const auto too_few = [](std::span<const Trial>) { return std::vector<Score>(1); };
    BOOST_CHECK_THROW((void)search_settings(request_of(planted.grid, 100, 4, 1), too_few),
                      std::runtime_error);
}

BOOST_AUTO_TEST_SUITE_END()
