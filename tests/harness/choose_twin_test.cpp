// SPDX-License-Identifier: MIT
// The search on the bench itself, beside an exhaustive one: choose_twin.csv holds every setting of
// a grid in every world of a pool, so that twenty searches cost nothing and the best of all is
// known. Some of its rows are run again (ten seconds, nearly all that this takes).
#include "choose_twin_table.hpp"

#include "harness/choose/halving.hpp"
#include "harness/choose/halving_proposals.hpp"
#include "plant/random.hpp"
#include "tests/scratch.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <limits>
#include <numeric>
#include <set>
#include <span>
#include <sstream>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_twin)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

/// harness_tests --run_test=choose_twin/a_handful_of_rows_come_out_again_on_todays_bench -- renew
bool renewing() {
    const auto& suite = boost::unit_test::framework::master_test_suite();
    return suite.argc == 2 && std::string(suite.argv[1]) == "renew";
}

struct Twin {
    TwinGround ground;
    TwinTable table;
    Twin() {
        std::ifstream in(twin_file());
        BOOST_TEST_REQUIRE(in.good(), "no table; make it with the target renew_choose_twin");
        table = read_twin(in, ground);
    }
};

const Twin& twin() {
    static const Twin the_only;
    return the_only;
}

/// How far a figure may be from the table's. A tenth of what the search promises (0.4 % of some
/// 1500 kWh) changes no answer. Measured beside it: a sensor off by 0.002 K, which a stride leaves
/// open, moved 5 rows by up to 0.22 kWh and 2.4 l, starts and days not at all.
double repeated_within(const FigureInfo& figure) {
    if (figure.unit == "kWh") return 0.5;
    if (figure.unit == "l") return 5.0;
    if (figure.unit == "h") return 0.1;
    if (figure.unit == "degC") return 0.05;
    return figure.name == "most_starts_a_day" ? 1.0 : 0.0;
}

/// Some worlds of the pool, in the order that a seed gives.
std::vector<std::size_t> worlds_of_seed(std::uint64_t seed, std::size_t count) {
    std::vector<std::size_t> order(twin_worlds);
    std::iota(order.begin(), order.end(), std::size_t{0});
    noonbench::plant::RandomSequence random(
        noonbench::plant::random_stream(seed, "worlds of the twin").key);
    for (std::size_t i = 0; i < count; ++i)
        std::swap(order[i], order[i + random.below(order.size() - i)]);
    order.resize(count);
    return order;
}

/// Means of one candidate over some worlds.
struct Means {
    double saving_kwh = 0.0;
    double objective_kwh = 0.0;
    bool keeps = true;  // every margin in the mean
};

Means means_of(std::size_t candidate, const std::vector<std::size_t>& worlds) {
    Means means;
    std::vector<double> margins(constraint_table().size(), 0.0);
    for (const std::size_t world : worlds) {
        const Score score = twin_score(twin().ground, twin().table, {candidate, world});
        means.saving_kwh += score.saving_kwh / static_cast<double>(worlds.size());
        means.objective_kwh += score.objective_kwh / static_cast<double>(worlds.size());
        for (std::size_t i = 0; i < margins.size(); ++i) margins[i] += score.margins[i];
    }
    means.keeps = std::all_of(margins.begin(), margins.end(), [](double m) { return m >= 0.0; });
    return means;
}

/// The exhaustive search: the best of all that keep the limits in these worlds.
struct Exhaustive {
    Means best{0.0, -std::numeric_limits<double>::infinity(), true};
    std::size_t keep = 0;    // candidates that keep the limits
    std::size_t within = 0;  // of these within the tolerance of the best

    [[nodiscard]] double tolerance_kwh() const { return 0.004 * best.saving_kwh; }
    [[nodiscard]] double behind_kwh(const Means& means) const {
        return best.objective_kwh - means.objective_kwh;
    }
};

Exhaustive exhaustive_of(const std::vector<std::size_t>& worlds) {
    Exhaustive found;
    std::vector<Means> all;
    for (const std::size_t candidate : twin().ground.grid.possible())
        all.push_back(means_of(candidate, worlds));
    for (const Means& means : all) {
        found.keep += means.keeps ? 1 : 0;
        if (means.keeps && means.objective_kwh > found.best.objective_kwh) found.best = means;
    }
    for (const Means& means : all)
        found.within += means.keeps && found.behind_kwh(means) <= found.tolerance_kwh() ? 1 : 0;
    return found;
}

HalvingResult search(std::uint64_t seed, const std::vector<std::size_t>& worlds,
                     std::size_t budget) {
    HalvingRequest request;
    request.grid = twin().ground.grid;
    request.delivered = {twin().ground.delivered};
    request.budget = budget;
    request.worlds = worlds.size();
    request.seed = seed;
    request.promise.seed = seed;
    return search_settings(request, [&](std::span<const Trial> trials) {
        std::vector<Score> scores;
        for (const Trial& trial : trials)
            scores.push_back(
                twin_score(twin().ground, twin().table, {trial.candidate, worlds.at(trial.world)}));
        return scores;
    });
}

struct Searches {
    std::size_t within = 0;       // the set holds a setting within 0.4 % of the best of all
    std::size_t the_best = 0;     // it holds the best of all
    std::size_t winner = 0;       // the winner itself is within 0.4 %
    std::size_t most_trials = 0;  // of a search
    double behind_kwh = 0.0;      // of the winner behind the best of all, mean
    double spread_kwh = 0.0;      // of the best of evenly spread settings, mean
    std::size_t spread = 0;       // seeds in which these have one within 0.4 %
    double members = 0.0;         // mean
    double as_good = 0.0;         // mean count of settings within 0.4 % of the best of all
    double keep = 0.0;            // mean count of settings that keep the limits
};

/// How far behind the best of all the best of as many evenly spread settings is as the budget pays
/// for in all the worlds; keeping the limits.
double spread_behind_kwh(std::uint64_t seed, const std::vector<std::size_t>& worlds,
                         const Exhaustive& all, std::size_t budget) {
    const Grid& grid = twin().ground.grid;
    double behind = std::numeric_limits<double>::infinity();
    for (const std::size_t candidate :
         evenly_spread(grid, grid.possible(), budget / worlds.size(), seed)) {
        const Means means = means_of(candidate, worlds);
        if (means.keeps) behind = std::min(behind, all.behind_kwh(means));
    }
    return behind;
}

/// Seeds 1 to 20, each with this part of the trials that running everything takes.
Searches twenty_searches(std::size_t world_count, std::size_t parts) {
    Searches sum;
    const std::size_t budget = twin().ground.grid.possible().size() * world_count / parts;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const std::vector<std::size_t> worlds = worlds_of_seed(seed, world_count);
        const Exhaustive all = exhaustive_of(worlds);
        const HalvingResult found = search(seed, worlds, budget);
        double behind = std::numeric_limits<double>::infinity();
        for (const Member& member : found.set.members)
            behind = std::min(behind, all.behind_kwh(means_of(member.candidate, worlds)));
        sum.within += behind <= all.tolerance_kwh() ? 1 : 0;
        sum.the_best += behind <= 1e-6 ? 1 : 0;
        const double winner_behind = all.behind_kwh(means_of(found.set.winner, worlds));
        sum.winner += winner_behind <= all.tolerance_kwh() ? 1 : 0;
        sum.behind_kwh += winner_behind / 20.0;
        const double spread = spread_behind_kwh(seed, worlds, all, budget);
        sum.spread_kwh += spread / 20.0;
        sum.spread += spread <= all.tolerance_kwh() ? 1 : 0;
        sum.most_trials = std::max(sum.most_trials, found.trials);
        sum.members += static_cast<double>(found.set.members.size()) / 20.0;
        sum.as_good += static_cast<double>(all.within) / 20.0;
        sum.keep += static_cast<double>(all.keep) / 20.0;
        BOOST_TEST_MESSAGE("seed " << seed << ", " << world_count << " worlds: best of all "
                                   << all.best.objective_kwh << " kWh, tolerance "
                                   << all.tolerance_kwh() << "; set of " << found.set.members.size()
                                   << " is " << behind << " behind, its winner " << winner_behind
                                   << "; " << all.within << " of " << all.keep << " are as good");
    }
    BOOST_TEST_MESSAGE(world_count
                       << " worlds, budget " << budget << ": within 0.4 % " << sum.within
                       << " of 20, winner " << sum.winner << ", the very best " << sum.the_best
                       << ", winner behind by " << sum.behind_kwh << " kWh; spread points alone "
                       << sum.spread << " of 20, behind by " << sum.spread_kwh << "; members "
                       << sum.members << ", as good " << sum.as_good << " of " << sum.keep
                       << " that keep the limits");
    return sum;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_handful_of_rows_come_out_again_on_todays_bench) {
    if (renewing()) {
        const char* rows = std::getenv("NOONBENCH_TWIN_ROWS");
        renew_twin(rows != nullptr ? rows : "choose_twin.sqlite");
        return;
    }
    const TwinGround& ground = twin().ground;
    const TwinTable& table = twin().table;
    BOOST_TEST(table.heading == twin_heading(ground), boost::test_tools::per_element());
    const std::vector<std::size_t> possible = ground.grid.possible();
    const std::vector<Trial> handful{{ground.delivered, 0},
                                     {possible.front(), 1},
                                     {possible[possible.size() / 3], 4},
                                     {possible[2 * possible.size() / 3], 7},
                                     {possible.back(), twin_worlds - 1}};
    for (const Trial& trial : handful) {
        const YearFigures now = run_year(ground.site, {ground.trials().settings_of(trial.candidate),
                                                       world_of(twin_seed, trial.world)});
        for (const FigureInfo& each : twin_figures()) {
            const double then = table.candidate[trial.world][trial.candidate].*each.value;
            BOOST_TEST(std::abs(now.*each.value - then) <= repeated_within(each),
                       each.name << " of candidate " << trial.candidate << " in world "
                                 << trial.world << ": " << now.*each.value << " now, " << then
                                 << " in the table");
        }
    }
}

BOOST_AUTO_TEST_CASE(the_set_holds_what_an_exhaustive_search_on_the_bench_finds) {
    if (renewing()) return;
    // As many worlds as `choose` takes for such budgets. The seeds were fixed before the table was
    // made.
    const Searches found = twenty_searches(5, 10);
    BOOST_TEST(found.within >= 19U);
    BOOST_TEST(found.most_trials <= twin().ground.grid.possible().size() * 5 / 10);
    // A set that holds everything would be no answer, and one setting in seven is within 0.4 %, so
    // that evenly spread ones alone often have one; the search comes nearer by far.
    BOOST_TEST(found.members < 0.25 * found.keep);
    BOOST_TEST(found.winner >= 19U);
    BOOST_TEST(found.behind_kwh < 0.5 * found.spread_kwh);
}

BOOST_AUTO_TEST_CASE(it_does_so_in_the_whole_pool_of_worlds) {
    if (renewing()) return;
    BOOST_TEST(twenty_searches(twin_worlds, 10).within >= 19U);
}

BOOST_AUTO_TEST_CASE(with_a_twentieth_it_comes_nearer_than_spread_settings_still) {
    if (renewing()) return;
    const Searches found = twenty_searches(5, 20);
    BOOST_TEST(found.within >= 19U);
    BOOST_TEST(found.behind_kwh < found.spread_kwh);
}

BOOST_AUTO_TEST_CASE(a_table_that_was_written_reads_back) {
    if (renewing()) return;
    std::ostringstream once;
    write_twin(once, twin().ground, twin().table);
    std::istringstream in(once.str());
    std::ostringstream twice;
    write_twin(twice, twin().ground, read_twin(in, twin().ground));
    BOOST_TEST((once.str() == twice.str()));
    std::ifstream file(twin_file());
    const std::string whole((std::istreambuf_iterator<char>(file)),
                            std::istreambuf_iterator<char>());
    BOOST_TEST((once.str() == whole));
    std::istringstream cut(whole.substr(0, whole.size() / 2));
    BOOST_CHECK_THROW((void)read_twin(cut, twin().ground), std::exception);
}

BOOST_AUTO_TEST_SUITE_END()
