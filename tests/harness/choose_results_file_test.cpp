// SPDX-License-Identifier: MIT
// The results file keeps what it was given through kills, refuses what is not its own, and does not
// know how many threads filled it.
#include "harness/choose/results_file.hpp"
#include "harness/choose/trial_runner.hpp"
#include "harness/scenario/problem.hpp"
#include "harness/scenario/read.hpp"
#include "plant/random.hpp"
#include "tests/scratch.hpp"

#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <span>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_results_file)

namespace {

using namespace noonbench::harness;
using noonbench::firmware::Setting;
using noonbench::testing::ScratchFolder;

SearchQuestion question() {
    return {"noonbench 0.1.0", "title: a house\n", "", 42, {}};
}

/// Figures that no other year has, to the last bit.
YearFigures figures_from(std::string_view name) {
    YearFigures figures;
    std::uint64_t count = 0;
    const auto stream = noonbench::plant::random_stream(1, name);
    for (const FigureInfo& each : figure_table())
        figures.*each.value = 3000.0 * noonbench::plant::random_uniform(stream, count++);
    figures.advice = "it said \"" + std::string(name) + "\"; twice";
    return figures;
}

RowKey key_of(std::size_t world, const std::string& settings) {
    return {TrialLength::typical_weeks, world, settings};
}

std::string refusal(const std::filesystem::path& file, const SearchQuestion& asked) {
    try {
        const ResultsFile opened(file, asked);
    } catch (const InputRefused& refused) {
        return refused.what();
    }
    return "no refusal";
}

bool holds(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

Scenario site() {
    Scenario scenario;
    scenario.title = "a house";
    return scenario;
}

/// Candidate n starts at 4 K and n half-kelvins.
noonbench::firmware::Settings settings_of(std::size_t candidate) {
    auto settings = noonbench::firmware::default_settings();
    settings[Setting::start_difference] = static_cast<std::int16_t>(400 + 50 * candidate);
    return settings;
}

/// A year that takes a moment and comes out as its job says.
YearFigures quick_year(const YearJob& job) {
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
    const int start = job.settings ? (*job.settings)[Setting::start_difference] : 0;
    return figures_from(std::to_string(job.world.seed) + " " + std::to_string(start));
}

TrialGround quick_ground() {
    TrialGround ground;
    ground.site = site();
    ground.settings_of = settings_of;
    ground.seed = question().seed;
    ground.run_year = [](const Scenario&, const YearJob& job) { return quick_year(job); };
    return ground;
}

/// 12 candidates in 4 worlds: 4 of them are as delivered, so 48 years with those without the sun.
std::vector<Trial> grid_of_trials() {
    std::vector<Trial> trials;
    for (std::size_t candidate = 0; candidate < 12; ++candidate)
        for (std::size_t world = 0; world < 4; ++world) trials.push_back({candidate, world});
    return trials;
}
constexpr std::size_t years_of_grid = 48 + 4;

/// Runs the grid; each year begun leaves a byte in `begun`, if that is named.
std::string dump_after(const std::filesystem::path& file, unsigned threads,
                       const std::filesystem::path& begun = {}) {
    ResultsFile results(file, question());
    TrialGround ground = quick_ground();
    ground.run_year = [&](const Scenario&, const YearJob& job) {
        if (!begun.empty()) std::ofstream(begun, std::ios::app) << '.';
        return quick_year(job);
    };
    TrialRunner runner(std::move(ground), results, threads);
    (void)runner.run(grid_of_trials());
    return results.dump();
}

/// Runs the grid in a child process and kills it `wait_us` after it has begun so many years more.
/// False if it came to its end before.
bool killed_after(const std::filesystem::path& file, const std::filesystem::path& begun,
                  std::size_t years, useconds_t wait_us) {
    const std::uintmax_t until = std::filesystem::file_size(begun) + years;
    const pid_t child = fork();
    BOOST_TEST_REQUIRE(child >= 0);
    if (child == 0) {
        try {
            (void)dump_after(file, 2, begun);
            _exit(0);
        } catch (...) {
            _exit(1);
        }
    }
    const auto has_ended = [&] {  // left for waitpid() below, so that its number stays taken
        siginfo_t info{};
        return waitid(P_PID, static_cast<id_t>(child), &info, WEXITED | WNOHANG | WNOWAIT) != 0 ||
               info.si_pid == child;
    };
    while (std::filesystem::file_size(begun) < until && !has_ended()) usleep(200);
    usleep(wait_us);
    kill(child, SIGKILL);  // of a child that has ended and waits for its parent: nothing
    int status = 0;
    BOOST_TEST_REQUIRE(waitpid(child, &status, 0) == child);
    if (!WIFEXITED(status)) return true;
    BOOST_TEST(WEXITSTATUS(status) == 0);
    return false;
}

}  // namespace

BOOST_AUTO_TEST_CASE(what_is_added_is_found_again_to_the_last_bit) {
    const ScratchFolder folder;
    const YearFigures figures = figures_from("a year");
    {
        ResultsFile results(folder / "r.sqlite", question());
        BOOST_TEST(!results.find(key_of(3, "store_limit=65 degC")).has_value());
        results.add(key_of(3, "store_limit=65 degC"), world_of(42, 3), figures);
    }
    const ResultsFile again(folder / "r.sqlite", question());
    const auto found = again.find(key_of(3, "store_limit=65 degC"));
    BOOST_TEST_REQUIRE(found.has_value());
    BOOST_TEST((*found == figures));
    BOOST_TEST(!again.find(key_of(2, "store_limit=65 degC")).has_value());
    BOOST_TEST(!again.find(key_of(3, "as delivered")).has_value());
    RowKey longer = key_of(3, "store_limit=65 degC");
    longer.length = TrialLength::full_year;
    BOOST_TEST(!again.find(longer).has_value());
    BOOST_TEST(again.rows() == 1U);
}

BOOST_AUTO_TEST_CASE(a_dump_does_not_know_the_order_of_writing) {
    const ScratchFolder folder;
    std::vector<std::string> dumps;
    for (const bool forward : {true, false}) {
        ResultsFile results(folder / (forward ? "f.sqlite" : "b.sqlite"), question());
        for (int i = 0; i < 6; ++i) {
            const int n = forward ? i : 5 - i;
            const auto world = static_cast<std::size_t>(n % 2);
            const std::string settings = "start_difference=" + std::to_string(n) + " K";
            results.add(key_of(world, settings), world_of(42, world), figures_from(settings));
        }
        dumps.push_back(results.dump());
    }
    BOOST_TEST(dumps[0] == dumps[1]);
    BOOST_TEST(holds(dumps[0], "year|typical_weeks|1|start_difference=5 K|"));
    BOOST_TEST(holds(dumps[0], "question|scenario|title: a house\n"));
    BOOST_TEST(std::count(dumps[0].begin(), dumps[0].end(), '\n') == 7 + 1 + 2 + 6);
}

BOOST_AUTO_TEST_CASE(only_the_same_question_may_go_on) {
    const ScratchFolder folder;
    const auto file = folder / "r.sqlite";
    { const ResultsFile results(file, question()); }
    BOOST_TEST(refusal(file, question()) == "no refusal");
    SearchQuestion other = question();
    other.seed = 43;
    BOOST_TEST(holds(refusal(file, other), "holds results with seed 42, here it is 43"));
    other = question();
    other.scenario += "store: {volume: 300 l}\n";
    BOOST_TEST(holds(refusal(file, other), "holds results of another scenario (digest "));
    other = question();
    other.weights.pump = 3.0;
    BOOST_TEST(holds(refusal(file, other), "with pump_weight 2.5, here it is 3"));
    other.weights.backup = 2.0;
    BOOST_TEST(holds(refusal(file, other), "backup_weight"));  // all at once
    BOOST_TEST(holds(refusal(file, other), "pump_weight"));
    other = question();
    other.program = "noonbench 0.2.0";
    BOOST_TEST(holds(refusal(file, other), "program noonbench 0.1.0, here it is noonbench 0.2.0"));
    other = question();
    other.weather_digest = "0123456789abcdef";
    BOOST_TEST(holds(refusal(file, other), "weather_digest none, here it is 0123456789abcdef"));
}

BOOST_AUTO_TEST_CASE(what_is_no_results_file_is_refused_and_left_alone) {
    const ScratchFolder folder;
    const std::string letter(5000, 'x');
    const auto text = folder.write("letter.sqlite", letter);
    BOOST_TEST(holds(refusal(text, question()), "letter.sqlite: is no SQLite file"));
    std::ifstream in(text, std::ios::binary);
    const std::string after((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    BOOST_TEST(after == letter);

    const auto run_sql = [&](const std::filesystem::path& file, const char* sql) {
        sqlite3* db = nullptr;
        BOOST_TEST_REQUIRE(sqlite3_open(file.c_str(), &db) == SQLITE_OK);
        BOOST_TEST_REQUIRE(sqlite3_exec(db, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
        sqlite3_close(db);
    };
    run_sql(folder / "music.sqlite", "CREATE TABLE songs (name TEXT)");
    BOOST_TEST(holds(refusal(folder / "music.sqlite", question()), "written by another program"));
    { const ResultsFile results(folder / "old.sqlite", question()); }
    run_sql(folder / "old.sqlite", "PRAGMA user_version = 7");
    BOOST_TEST(holds(refusal(folder / "old.sqlite", question()), "has layout 7 of its tables"));
}

BOOST_AUTO_TEST_CASE(an_empty_file_is_a_file_not_yet_begun) {
    const ScratchFolder folder;
    const auto file = folder.write("r.sqlite", "");
    BOOST_TEST(refusal(file, question()) == "no refusal");
    BOOST_TEST(ResultsFile(file, question()).rows() == 0U);
}

BOOST_AUTO_TEST_CASE(a_file_in_use_is_refused) {
    const ScratchFolder folder;
    const ResultsFile results(folder / "r.sqlite", question());
    BOOST_TEST(holds(refusal(folder / "r.sqlite", question()), "held by another program"));
}

BOOST_AUTO_TEST_CASE(the_same_rows_and_scores_whatever_the_number_of_threads) {
    const ScratchFolder folder;
    std::vector<std::string> dumps;
    std::vector<std::vector<double>> objectives;
    for (const unsigned threads : {1U, 2U, 8U}) {
        ResultsFile results(folder / (std::to_string(threads) + ".sqlite"), question());
        TrialRunner runner(quick_ground(), results, threads);
        std::vector<double> values;
        for (const Score& score : runner.run(grid_of_trials())) {
            values.push_back(score.objective_kwh);
            values.insert(values.end(), score.margins.begin(), score.margins.end());
        }
        objectives.push_back(values);
        dumps.push_back(results.dump());
        BOOST_TEST(results.rows() == years_of_grid);
    }
    BOOST_TEST(dumps[1] == dumps[0]);
    BOOST_TEST(dumps[2] == dumps[0]);
    BOOST_TEST(objectives[1] == objectives[0], boost::test_tools::per_element());
    BOOST_TEST(objectives[2] == objectives[0], boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(the_same_rows_and_scores_whoever_runs_the_years_in_whatever_order) {
    const ScratchFolder folder;
    const auto backwards = [](std::span<const WantedYear> years, const YearDone& done) {
        YearBench bench(site(), quick_ground().run_year);
        for (std::size_t i = years.size(); i-- > 0;) done(i, bench.run(years[i]));
    };
    ResultsFile results(folder / "r.sqlite", question());
    TrialRunner runner(quick_ground(), results, backwards);
    const std::vector<Score> scores = runner.run(grid_of_trials());
    BOOST_TEST(results.dump() == dump_after(folder / "threads.sqlite", 2));
    ResultsFile other(folder / "other.sqlite", question());
    const std::vector<Score> wanted = TrialRunner(quick_ground(), other, 2).run(grid_of_trials());
    BOOST_TEST_REQUIRE(scores.size() == wanted.size());
    for (std::size_t i = 0; i < scores.size(); ++i)
        BOOST_TEST(scores[i].objective_kwh == wanted[i].objective_kwh, "trial " << i);
}

BOOST_AUTO_TEST_CASE(scores_stand_in_the_order_of_the_trials_and_compare_within_a_world) {
    const ScratchFolder folder;
    ResultsFile results(folder / "r.sqlite", question());
    TrialRunner runner(quick_ground(), results, 3);
    const std::vector<Trial> trials{{5, 1}, {2, 0}, {5, 0}};
    const std::vector<Score> scores = runner.run(trials);
    BOOST_TEST_REQUIRE(scores.size() == 3U);
    for (std::size_t i = 0; i < trials.size(); ++i) {
        const std::size_t world = trials[i].world;
        const auto job = [&](bool sun, std::size_t candidate) {
            YearJob j;
            if (sun) j.settings = settings_of(candidate);
            j.world = world_of(question().seed, world);
            return quick_year(j);
        };
        const Score wanted = score_of(
            {job(true, trials[i].candidate), job(true, 8), job(false, 0)},  // 8: as delivered, 8 K
            {});
        BOOST_TEST(scores[i].objective_kwh == wanted.objective_kwh, "trial " << i);
        BOOST_TEST(scores[i].margins == wanted.margins, boost::test_tools::per_element());
        BOOST_TEST((runner.figures_of_trial(trials[i]) == job(true, trials[i].candidate)));
        BOOST_TEST((runner.figures_without_sun(world) == job(false, 0)));
    }
    BOOST_CHECK_THROW((void)runner.figures_of_trial({6, 0}), std::out_of_range);
}

BOOST_AUTO_TEST_CASE(nothing_is_run_twice_and_progress_counts_what_is_missing) {
    const ScratchFolder folder;
    ResultsFile results(folder / "r.sqlite", question());
    std::atomic<int> runs{0};
    TrialGround ground = quick_ground();
    ground.run_year = [&](const Scenario&, const YearJob& job) {
        ++runs;
        return quick_year(job);
    };
    std::vector<YearsUnderway> told;
    TrialRunner runner(ground, results, 4, [&](const YearsUnderway& now) { told.push_back(now); });
    const std::vector<Trial> some{{1, 0}, {2, 0}, {1, 0}};
    (void)runner.run(some);
    BOOST_TEST(runs == 4);  // two candidates, as delivered, without the sun
    BOOST_TEST_REQUIRE(told.size() == 4U);
    for (std::size_t i = 0; i < told.size(); ++i) {
        BOOST_TEST(told[i].done == i + 1);
        BOOST_TEST(told[i].expected == 4U);
    }
    (void)runner.run(some);
    BOOST_TEST(runs == 4);
    const std::vector<Trial> more{{1, 0}, {3, 0}};
    (void)runner.run(more);
    BOOST_TEST(runs == 5);
}

BOOST_AUTO_TEST_CASE(a_year_that_fails_ends_the_call_and_keeps_what_is_done) {
    const ScratchFolder folder;
    ResultsFile results(folder / "r.sqlite", question());
    TrialGround ground = quick_ground();
    ground.run_year = [&](const Scenario&, const YearJob& job) {
        if (job.settings && (*job.settings)[Setting::start_difference] == 700)
            throw std::domain_error("no such weather");
        return quick_year(job);
    };
    TrialRunner runner(ground, results, 2);
    BOOST_CHECK_EXCEPTION(
        (void)runner.run(grid_of_trials()), std::domain_error,
        [](const auto& error) { return std::string(error.what()) == "no such weather"; });
    BOOST_TEST(results.rows() > 0U);
    BOOST_TEST(results.rows() < years_of_grid);
}

BOOST_AUTO_TEST_CASE(killed_at_any_moment_it_goes_on_where_it_was) {
    const ScratchFolder folder;
    const std::string uninterrupted = dump_after(folder / "whole.sqlite", 2);
    for (const std::uint64_t round : {1U, 2U, 3U}) {
        const auto file = folder / ("killed_" + std::to_string(round) + ".sqlite");
        const auto begun = folder.write("begun_" + std::to_string(round), "");
        noonbench::plant::RandomSequence moments(round);
        std::size_t kills = 0;
        std::size_t rows_before = 0;
        BOOST_TEST_CONTEXT("round " << round) {
            // The first kills come while the file is being made, the others after a few years more.
            for (std::size_t turn = 0; turn < 12; ++turn) {
                const std::size_t years = turn < 4 ? 0 : 1 + moments.below(9);
                const auto wait_us = static_cast<useconds_t>(6000.0 * moments.uniform());
                if (!killed_after(file, begun, years, wait_us)) break;
                ++kills;
                const std::size_t rows = ResultsFile(file, question()).rows();
                BOOST_TEST(rows >= rows_before);  // what was written stays written
                rows_before = rows;
            }
            BOOST_TEST(kills >= 5U);
            BOOST_TEST(rows_before > 0U);
            BOOST_TEST(dump_after(file, 2, begun) == uninterrupted);
            // A kill costs the years under way, one a thread, and none that was done.
            const std::uintmax_t years_begun = std::filesystem::file_size(begun);
            BOOST_TEST(years_begun >= years_of_grid);
            BOOST_TEST(years_begun <= years_of_grid + 2 * kills);
        }
    }
}

BOOST_AUTO_TEST_CASE(the_bench_itself_gives_the_same_rows_on_two_threads) {
    // Half an hour of a morning for each year, from the bench as it is.
    const ScratchFolder folder;
    const Scenario orchard =
        read_scenario(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/sites/orchard_lane_3.yaml");
    std::vector<std::string> dumps;
    for (const unsigned threads : {1U, 2U}) {
        ResultsFile results(folder / (std::to_string(threads) + ".sqlite"), question());
        TrialGround ground;
        ground.site = orchard;
        ground.settings_of = settings_of;
        ground.seed = question().seed;
        ground.run_year = [](const Scenario& house, const YearJob& job) {
            Scenario there = scenario_of(house, job);
            there.sky = house.sky;  // a clear day: no year of weather need be drawn
            const CivilSeconds from_s = civil_seconds(2026, 5, 12) + 9 * 3600;
            return figures_of(there, std::vector{TrialStretch{from_s, 1800, from_s, 100.0}},
                              SkyFeed(there));
        };
        TrialRunner runner(ground, results, threads);
        const std::vector<Trial> trials{{0, 0}, {0, 1}, {3, 0}};
        (void)runner.run(trials);
        dumps.push_back(results.dump());
        BOOST_TEST(results.rows() == 7U);
    }
    BOOST_TEST(dumps[0] == dumps[1]);
}

BOOST_AUTO_TEST_SUITE_END()
