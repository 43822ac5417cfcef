// SPDX-License-Identifier: MIT
// The search beside an exhaustive one in the same worlds, on planted surfaces; on the bench itself
// choose_twin_test does the same. Takes three seconds.
#include "choose_halving_planted.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_halving_exhaustive)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

struct Twins {
    std::size_t searches = 0;
    std::size_t within = 0;      // the set holds a setting within 0.4 % of the best of all
    std::size_t the_best = 0;    // it holds the best of all
    std::size_t sure = 0;        // of 95 % at least
    std::size_t all_around = 0;  // all neighbours of the winner ran everywhere
    std::size_t most_trials = 0;
    double worst_kwh = 0.0;  // behind the best of all
    double members = 0.0;
};

Twins beside_exhaustive(const std::vector<std::size_t>& levels, std::size_t budget,
                        std::size_t worlds, std::uint64_t first_seed, std::uint64_t last_seed) {
    Twins twins;
    for (std::uint64_t seed = first_seed; seed <= last_seed; ++seed) {
        const Planted planted(levels, seed);
        const HalvingResult found = search(planted, budget, worlds, seed);
        const Score best = best_of_all(planted, worlds);
        double of_set = -std::numeric_limits<double>::infinity();
        for (const Member& member : found.set.members)
            of_set = std::max(of_set, member.objective_kwh);
        const double behind = best.objective_kwh - of_set;
        ++twins.searches;
        twins.within += behind <= 0.004 * best.saving_kwh ? 1 : 0;
        twins.the_best += behind <= 1e-6 ? 1 : 0;
        twins.sure += found.set.sure ? 1 : 0;
        twins.all_around += found.neighbours_unrun.empty() ? 1 : 0;
        twins.most_trials = std::max(twins.most_trials, found.trials);
        twins.worst_kwh = std::max(twins.worst_kwh, behind);
        twins.members += static_cast<double>(found.set.members.size());
    }
    twins.members /= static_cast<double>(twins.searches);
    BOOST_TEST_MESSAGE("seeds " << first_seed << " to " << last_seed << ", budget " << budget
                                << ", " << worlds << " worlds: within 0.4 % of exhaustive "
                                << twins.within << " of " << twins.searches << ", the very best "
                                << twins.the_best << ", worst " << twins.worst_kwh
                                << " kWh behind; 95 % reached " << twins.sure
                                << ", all neighbours run " << twins.all_around << "; most trials "
                                << twins.most_trials << ", members " << twins.members);
    return twins;
}

boost::test_tools::assertion_result asked_for_more(boost::unit_test::test_unit_id /*test*/) {
    return std::getenv("NOONBENCH_CHOOSE_SEEDS") != nullptr;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_set_holds_what_an_exhaustive_search_of_the_same_worlds_finds) {
    // 720 points in 8 worlds are 5760 trials. The seeds were fixed before the first search of them.
    const Twins twins = beside_exhaustive(seven_hundred, 400, 8, 1, 20);
    BOOST_TEST(twins.within >= 19U);
    BOOST_TEST(twins.most_trials <= 576U);
    BOOST_TEST(twins.members < 72.0);  // a set that holds everything would be no answer
}

BOOST_AUTO_TEST_CASE(spread_points_alone_would_not_do) {
    // What 50 evenly spread points in all worlds would find: so the search is worth its name.
    std::size_t within = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const Planted planted(seven_hundred, seed);
        const Score best = best_of_all(planted, 8);
        bool found = false;
        for (const std::size_t c : evenly_spread(planted.grid, planted.grid.possible(), 50, seed)) {
            Score mean{0.0, 0.0, {0.0}};
            for (std::size_t w = 0; w < 8; ++w) {
                mean.objective_kwh += planted.score({c, w}).objective_kwh / 8.0;
                mean.margins[0] += planted.score({c, w}).margins[0];
            }
            found = found || (mean.margins[0] >= 0.0 &&
                              mean.objective_kwh >= best.objective_kwh - 0.004 * best.saving_kwh);
        }
        within += found ? 1 : 0;
    }
    BOOST_TEST_MESSAGE("fifty spread points: within 0.4 % in " << within << " of 20");
    BOOST_TEST(within < 19U);
}

// A minute: NOONBENCH_CHOOSE_SEEDS=1 harness_tests --run_test=choose_halving_exhaustive
// --log_level=message
BOOST_AUTO_TEST_CASE(two_hundred_other_seeds, *boost::unit_test::precondition(asked_for_more)) {
    BOOST_TEST(beside_exhaustive(seven_hundred, 400, 8, 101, 300).within >= 190U);
    BOOST_TEST(beside_exhaustive(seven_hundred, 150, 5, 101, 300).within >= 180U);
    BOOST_TEST(beside_exhaustive({5, 5, 4, 4, 3, 3, 3}, 400, 8, 101, 160).within >= 54U);
}

BOOST_AUTO_TEST_SUITE_END()
