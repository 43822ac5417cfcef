// SPDX-License-Identifier: MIT
// The hunt for the worst day: the search on functions whose answer is known, and a planted
// weakness.
#include "program.hpp"
#include "short_form.hpp"

#include "harness/hunt/hunt.hpp"
#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(hunt)

namespace {

using namespace noonbench::harness;
using noonbench::harness::testing::Bay;
using noonbench::harness::testing::content_of;

const std::filesystem::path cloud_rhythm =
    std::filesystem::path(NOONBENCH_SOURCE_DIR) / "tests/harness/weakness/cloud_rhythm.yaml";

double distance(std::span<const double> a, const std::vector<double>& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < b.size(); ++i) sum += (a[i] - b[i]) * (a[i] - b[i]);
    return std::sqrt(sum);
}

/// Negative within `radius` of a point, rising with the distance from it.
MarginAt hollow(std::vector<double> at, double radius) {
    return [=](std::span<const double> point) { return 10.0 * (distance(point, at) - radius); };
}

SearchProblem problem_of(MarginAt margin_at, std::size_t dimensions) {
    return {std::vector<double>(dimensions, 0.5), std::move(margin_at), {}};
}

/// A quarter of a day under a clear sky, in which the pump's flow and the scale on the coil decide
/// how warm the collector gets.
constexpr const char* quarter_day = R"(title: A quarter of a day
start: 2026-04-15 08:00
length: 90 min
store: {start_bottom: 30 degC}
household: {profile: none}
require:
  - {name: collector stays cool, that: always row_1_outlet_c is below 49 degC, scale: 1 K}
  - {name: never too hot, that: always row_1_outlet_c is below 150 degC, scale: 1 K}
uncertain:
  - {key: loop.pump.full_flow, least: 2 l/min, most: 3 l/min}
  - {lever: coil_fouling, least: 50 %, most: 100 %}
  - {key: wiring.collector.offset, least: -1 K, most: 1 K}
)";

HuntRequest request_of(const std::filesystem::path& scenario, const std::string& requirement) {
    HuntRequest request;
    request.scenario = scenario;
    request.requirement = requirement;
    return request;
}

Outcome judged(const std::filesystem::path& file, const std::string& requirement) {
    const Scenario scenario = read_scenario(file);
    const auto requirements = requirements_of(scenario);
    const auto outcomes = outcomes_of(scenario, requirements);
    for (std::size_t i = 0; i < requirements.size(); ++i)
        if (requirements[i].name == requirement) return outcomes[i];
    throw std::runtime_error("no requirement " + requirement);
}

std::string refusal(const HuntRequest& request) {
    try {
        (void)noonbench::harness::hunt(request);
    } catch (const InputRefused& refused) {
        return refused.what();
    }
    return "no refusal";
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_hollow_in_a_slope_is_found_and_its_mildest_point_is_its_near_edge) {
    const std::vector<double> at = {0.9, 0.2, 0.7, 0.4};
    const SearchProblem problem = problem_of(hollow(at, 0.1), 4);
    // The ball holds 5e-4 of the cube: two thousand random points would be needed.
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        const SearchResult found = search(problem, {400, seed});
        BOOST_TEST_CONTEXT("seed " << seed) {
            BOOST_TEST(found.broken);
            BOOST_TEST(found.margin < 0.0);
            BOOST_TEST(found.margin == problem.margin_at(found.point));
            BOOST_TEST(found.runs_to_break <= 150);
            // The nearest broken point lies 0.1 before the centre, on the straight line.
            const double nearest = distance(problem.nominal, at) - 0.1;
            const double reached = distance(problem.nominal, found.point);
            BOOST_TEST(reached > nearest);
            BOOST_TEST(reached < 1.05 * nearest);  // a simplex ends near, not at, the edge
        }
    }
}

BOOST_AUTO_TEST_CASE(what_does_not_matter_goes_back_to_usual) {
    const auto only_first = [](std::span<const double> p) { return 0.8 - p[0]; };
    const SearchResult found = search(problem_of(only_first, 5), {300, 4});
    BOOST_TEST(found.broken);
    BOOST_TEST(found.point[0] > 0.8);
    BOOST_TEST(found.point[0] < 0.82);
    for (std::size_t i = 1; i < 5; ++i) BOOST_TEST(found.point[i] == 0.5);
}

BOOST_AUTO_TEST_CASE(what_cannot_be_broken_gives_the_smallest_margin_and_the_effort) {
    const std::vector<double> at = {0.3, 0.6};
    const SearchResult found = search(problem_of(hollow(at, -0.5), 2), {300, 1});
    BOOST_TEST(!found.broken);
    BOOST_TEST(found.runs_to_break == 0);
    BOOST_TEST(found.runs == 300);
    // The bottom is 5; steps end at 0.4 % of a band, which is worth 0.04 here.
    BOOST_TEST(found.margin >= 5.0);
    BOOST_TEST(found.margin < 5.1);
}

BOOST_AUTO_TEST_CASE(a_plateau_is_searched_to_the_last_run_and_no_further) {
    int runs = 0;
    const auto flat = [&](std::span<const double>) {
        ++runs;
        return 1e6;
    };
    const SearchResult found = search(problem_of(flat, 6), {123, 9});
    BOOST_TEST(!found.broken);
    BOOST_TEST(runs == 123);
    BOOST_TEST(found.runs == 123);
    BOOST_TEST((found.point == std::vector<double>(6, 0.5)));  // nothing is smaller than usual
}

BOOST_AUTO_TEST_CASE(a_hole_in_a_plateau_is_found_where_it_is_wide) {
    const auto hole = [](std::span<const double> p) {
        return p[0] > 0.8 && p[1] > 0.7 ? -1.0 : 1.0;
    };
    for (const std::uint64_t seed : {1U, 2U, 3U, 4U, 5U})
        BOOST_TEST(search(problem_of(hole, 2), {400, seed}).broken);
}

BOOST_AUTO_TEST_CASE(the_usual_point_itself_may_be_broken) {
    const auto broken = [](std::span<const double>) { return -3.0; };
    const SearchResult found = search(problem_of(broken, 3), {50, 1});
    BOOST_TEST(found.broken);
    BOOST_TEST(found.runs == 1);
    BOOST_TEST(mean_move(found.point, std::vector<double>(3, 0.5)) == 0.0);
}

BOOST_AUTO_TEST_CASE(no_point_outside_the_cube_or_off_its_grid_is_ever_run) {
    SearchProblem problem = problem_of({}, 3);
    problem.snap = [](std::span<const double> p) {
        std::vector<double> out(p.begin(), p.end());
        for (double& each : out) each = std::round(each * 10.0) / 10.0;
        return out;
    };
    std::vector<std::vector<double>> seen;
    problem.margin_at = [&](std::span<const double> p) {
        for (const double each : p) {
            BOOST_TEST((each >= 0.0 && each <= 1.0));
            BOOST_TEST(each == std::round(each * 10.0) / 10.0);
        }
        seen.emplace_back(p.begin(), p.end());
        return hollow({0.95, 0.95, 0.95}, 0.2)(p);
    };
    const SearchResult found = search(problem, {200, 5});
    BOOST_TEST(found.broken);
    std::sort(seen.begin(), seen.end());
    BOOST_TEST((std::adjacent_find(seen.begin(), seen.end()) == seen.end()));  // never twice
}

BOOST_AUTO_TEST_CASE(a_grid_smaller_than_the_budget_comes_to_an_end) {
    SearchProblem problem = problem_of([](std::span<const double>) { return 1.0; }, 1);
    problem.snap = [](std::span<const double> p) { return std::vector{p[0] < 0.5 ? 0.0 : 1.0}; };
    const SearchResult found = search(problem, {1000, 1});
    BOOST_TEST(found.runs == 2);
    BOOST_TEST(!found.broken);
}

BOOST_AUTO_TEST_CASE(a_seed_gives_the_same_points_and_another_seed_others) {
    const auto points = [](std::uint64_t seed) {
        std::vector<std::vector<double>> all;
        const auto margin = hollow({0.9, 0.1, 0.8}, 0.05);
        const auto note = [&](std::span<const double> p) {
            all.emplace_back(p.begin(), p.end());
            return margin(p);
        };
        (void)search(problem_of(note, 3), {200, seed});
        return all;
    };
    BOOST_TEST((points(11) == points(11)));
    BOOST_TEST((points(11) != points(12)));
}

BOOST_AUTO_TEST_CASE(the_history_falls_until_the_first_break) {
    const SearchResult found = search(problem_of(hollow({0.9, 0.2, 0.7}, 0.05), 3), {400, 2});
    BOOST_REQUIRE(found.broken);
    BOOST_TEST(found.history.front().runs == 1);
    BOOST_TEST(found.history.back().runs == found.runs_to_break);
    BOOST_TEST(found.history.back().margin < 0.0);
    for (std::size_t i = 1; i < found.history.size(); ++i) {
        BOOST_TEST(found.history[i].runs > found.history[i - 1].runs);
        BOOST_TEST(found.history[i].margin < found.history[i - 1].margin);
    }
}

BOOST_AUTO_TEST_CASE(what_the_margin_throws_comes_through) {
    int runs = 0;
    const auto margin = [&](std::span<const double>) -> double {
        if (++runs == 20) throw std::domain_error("run 20");
        return 1.0;
    };
    BOOST_CHECK_THROW((void)search(problem_of(margin, 2), {100, 1}), std::domain_error);
    BOOST_CHECK_THROW((void)search(problem_of(margin, 0), {100, 1}), std::invalid_argument);
    BOOST_CHECK_THROW((void)search(problem_of(margin, 2), {0, 1}), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(the_margin_for_the_search_has_the_sign_of_the_verdict) {
    constexpr double endless = std::numeric_limits<double>::infinity();
    const auto outcome = [](Truth truth, double lo, double hi) {
        return Outcome{truth, true, {{MarginClass{}, lo, hi, 0}}};
    };
    BOOST_TEST(search_margin(outcome(Truth::held, 3.0, 3.0), 2.0) == 1.5);
    BOOST_TEST(search_margin(outcome(Truth::not_held, -3.0, -3.0), 2.0) == -1.5);
    BOOST_TEST(search_margin(outcome(Truth::not_held, 0.0, 0.0), 2.0) < 0.0);
    BOOST_TEST(search_margin(outcome(Truth::held, endless, endless), 2.0) == 1e6);
    BOOST_TEST(search_margin(outcome(Truth::not_held, -endless, -endless), 2.0) == -1e6);
    BOOST_TEST(search_margin(outcome(Truth::not_known, -endless, 4.0), 2.0) == 2.0);
    BOOST_TEST(search_margin(outcome(Truth::not_known, -5.0, 4.0), 2.0) == 0.0);
    BOOST_TEST(search_margin(Outcome{Truth::not_held, true, {}}, 2.0) < 0.0);
}

BOOST_AUTO_TEST_CASE(a_warm_collector_is_hunted_on_a_real_scenario) {
    const Bay bay;
    HuntRequest request =
        request_of(bay.write("quarter.yaml", quarter_day), "collector stays cool");
    request.budget = 120;
    int told = 0;
    const HuntResult result =
        ::noonbench::harness::hunt(request, [&](int runs) { BOOST_TEST(runs == ++told); });
    BOOST_TEST(told == result.search.runs);
    BOOST_TEST_CONTEXT(hunt_text(result)) {
        BOOST_TEST((result.usual.truth == Truth::held));
        BOOST_TEST(result.search.broken);
        BOOST_TEST(result.search.runs <= 120);
        write_worst_day(result, bay / "out/found/day.yaml");
        const Outcome again = judged(bay / "out/found/day.yaml", "collector stays cool");
        BOOST_TEST((again.truth == Truth::not_held));
        BOOST_TEST(again.margins.at(0).lo == result.found.margins.at(0).lo);
    }
}

BOOST_AUTO_TEST_CASE(what_holds_everywhere_is_said_with_the_smallest_margin) {
    const Bay bay;
    HuntRequest request = request_of(bay.write("quarter.yaml", quarter_day), "never too hot");
    request.budget = 25;
    const HuntResult result = ::noonbench::harness::hunt(request);
    BOOST_TEST(!result.search.broken);
    BOOST_TEST(result.search.runs == 25);
    const std::string text = hunt_text(result);
    BOOST_TEST(text.find("not broken in 25 runs, seed 1") != std::string::npos, text);
    BOOST_TEST(result.found.margins.at(0).lo < result.usual.margins.at(0).lo);
    write_worst_day(result, bay / "day.yaml");
    BOOST_TEST(content_of(bay / "day.yaml").starts_with("title: \"Tightest day found: "));
    BOOST_TEST(judged(bay / "day.yaml", "never too hot").margins.at(0).lo ==
               result.found.margins.at(0).lo);
}

BOOST_AUTO_TEST_CASE(points_that_make_no_scenario_are_counted_and_passed_by) {
    const Bay bay;
    std::string yaml = quarter_day;
    yaml += "  - {key: loop.pipes.outdoor_length, least: 1 m, most: 30 m}\n";  // of 12 m in all
    HuntRequest request = request_of(bay.write("quarter.yaml", yaml), "never too hot");
    request.budget = 25;
    const HuntResult result = ::noonbench::harness::hunt(request);
    BOOST_TEST(result.refused > 0);
    BOOST_TEST(result.refused < 25);
    BOOST_TEST(hunt_text(result).find("is above loop.hot_pipe.length") != std::string::npos,
               hunt_text(result));
}

BOOST_AUTO_TEST_CASE(a_hunt_that_cannot_begin_says_why) {
    const Bay bay;
    const auto file = bay.write("quarter.yaml", quarter_day);
    BOOST_TEST(refusal(request_of(file, "never to hot")).find("did you mean \"never too hot\"?") !=
               std::string::npos);
    HuntRequest request = request_of(file, "never too hot");
    request.sets = {"uncertain=[]"};
    BOOST_TEST(refusal(request).find("nothing is uncertain here") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_planted_rhythm_of_clouds_is_found_and_its_file_shows_it) {
    // Random search needs some hundred to some thousand runs (tests/benchmarks/hunt_benchmark).
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        if (seed > 1 && is_short_form()) break;
        const Bay bay;
        HuntRequest request = request_of(cloud_rhythm, "each start is worth it");
        request.seed = seed;
        request.budget = 250;
        const HuntResult result = ::noonbench::harness::hunt(request);
        BOOST_TEST_CONTEXT("seed " << seed << "\n" << hunt_text(result)) {
            BOOST_TEST((result.usual.truth == Truth::held));
            BOOST_TEST(result.search.broken);
            BOOST_TEST(result.search.runs_to_break <= 150);
            write_worst_day(result, bay / "worst.yaml");
            const Outcome again = judged(bay / "worst.yaml", "each start is worth it");
            BOOST_TEST((again.truth == Truth::not_held));
            BOOST_TEST(again.margins.at(0).lo == result.found.margins.at(0).lo);
        }
    }
}

BOOST_AUTO_TEST_CASE(the_same_seed_writes_the_same_bytes) {
    const Bay bay;
    HuntRequest request = request_of(cloud_rhythm, "each start is worth it");
    request.budget = 60;
    for (const char* name : {"one/day.yaml", "two/day.yaml"})
        write_worst_day(::noonbench::harness::hunt(request), bay / name);
    BOOST_TEST(content_of(bay / "one/day.yaml") == content_of(bay / "two/day.yaml"));
}

BOOST_AUTO_TEST_SUITE_END()
