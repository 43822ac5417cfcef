// SPDX-License-Identifier: MIT
// noonbench choose SITE
#include "choose_answer.hpp"
#include "command.hpp"

#include "traces/file.hpp"

#include "harness/choose/instead.hpp"
#include "harness/choose/launch.hpp"
#include "harness/choose/put_back.hpp"
#include "harness/choose/ranks/trial_ranks.hpp"
#include "harness/choose/results_file.hpp"
#include "harness/choose/settings_sheet.hpp"
#include "harness/choose/trade_off.hpp"
#include "harness/scenario/problem.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/yaml_tree.hpp"

#include <fmt/format.h>

#include <unistd.h>
#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <memory>
#include <numeric>
#include <optional>
#include <string>
#include <thread>
#include <vector>

namespace noonbench::cli {
namespace {

struct ChooseOptions {
    std::string site;
    std::string into;
    std::vector<std::string> sets;
    std::string climate;
    std::uint64_t seed = 1;
    std::size_t budget = 60;
    std::size_t fresh_worlds = 8;
    unsigned jobs = 0;
    harness::Weights weights{};
    bool resume = false;
    bool full_years = false;
    bool quiet = false;
};

/// Rewrites one line on standard error, where somebody looks. Times are guessed from what the years
/// so far took; nothing of it reaches a file.
class ProgressLine {
  public:
    explicit ProgressLine(bool shown) : shown_(shown && isatty(STDERR_FILENO) == 1) {}

    /// A part of the work begins: `expected` trials, of which each year takes alike.
    void begin(std::string what, double expected) {
        what_ = std::move(what);
        expected_ = expected;
        before_ = 0.0;
        done_here_ = 0.0;
        since_ = std::chrono::steady_clock::now();
    }
    /// What the search has done in all, looked up or run.
    void trials_done(double trials) { before_ = trials; }
    void year_done(const harness::YearsUnderway& now) {
        done_here_ += 1.0;
        if (!shown_) return;
        const double left = std::max(static_cast<double>(now.expected - now.done),
                                     expected_ - before_ - static_cast<double>(now.done));
        const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - since_;
        const double left_min = left * passed.count() / done_here_ / 60.0;
        std::cerr << fmt::format("\r{}: {:.0f} of about {:.0f}, {} left\x1b[K", what_,
                                 before_ + static_cast<double>(now.done),
                                 before_ + static_cast<double>(now.done) + left,
                                 left_min < 1.0 ? std::string("less than a minute")
                                                : fmt::format("about {:.0f} min", left_min))
                  << std::flush;
    }
    void clear() const {
        if (shown_) std::cerr << "\r\x1b[K" << std::flush;
    }

  private:
    bool shown_;
    std::string what_;
    double expected_ = 0.0;
    double before_ = 0.0;
    double done_here_ = 0.0;
    std::chrono::steady_clock::time_point since_{};
};

std::string bytes_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// The command that gives the same again, by the name of the site alone.
std::string repeat_text(const ChooseOptions& options) {
    std::string text = fmt::format("noonbench choose {} --seed {} --budget {} --fresh-worlds {}",
                                   std::filesystem::path(options.site).filename().string(),
                                   options.seed, options.budget, options.fresh_worlds);
    if (options.full_years) text += " --full-years";
    if (!options.climate.empty()) text += " --climate " + options.climate;
    if (!(options.weights == harness::Weights{})) {
        text += fmt::format(" --backup-weight {} --pump-weight {}", options.weights.backup,
                            options.weights.pump);
    }
    for (const std::string& set : options.sets) text += fmt::format(" --set '{}'", set);
    return text;
}

/// From a site's file to the answer in its folder.
class Choose {
  public:
    explicit Choose(const ChooseOptions& options)
        : options_(options), progress_(!options.quiet), site_(read_site()) {}

    /// Runs years as told; on the threads of this process without `run_years`.
    int run(const harness::RunYears& run_years = {}) {
        run_years_ = run_years;
        const std::filesystem::path folder =
            options_.into.empty() ? std::filesystem::path("out") / (site_.name + "_settings")
                                  : std::filesystem::path(options_.into);
        const std::filesystem::path file = folder / "results.sqlite";
        refuse_what_is_there(file);
        std::filesystem::create_directories(folder);
        harness::ResultsFile results(file, question());
        const harness::Chosen chosen = search(results);
        traces::write_whole(folder / "settings_sheet.html", harness::settings_sheet_html(chosen));
        traces::write_whole(folder / "trade_off.html", harness::trade_off_html(chosen));
        if (!options_.quiet) {
            std::cout << chosen_text(chosen) << "sheet  "
                      << (folder / "settings_sheet.html").string() << "\nall    "
                      << (folder / "trade_off.html").string() << "\nrows   " << file.string()
                      << '\n';
        }
        return exit_done;
    }

    /// All that a year follows from, and the site as this process has read it.
    [[nodiscard]] harness::RankSite for_rank() const {
        const harness::SearchQuestion asked = question();
        return {site_,
                fmt::format("{}\n{}\n{}", asked.program, asked.weather_digest, asked.scenario)};
    }

  private:
    harness::Scenario read_site() {
        std::vector<std::string> sets;
        if (!options_.climate.empty()) {
            sets.push_back("sky.seeded_year.climate=" + options_.climate);
        }
        sets.insert(sets.end(), options_.sets.begin(), options_.sets.end());
        tree_ = harness::composed_tree(options_.site, sets);
        return harness::read_scenario_tree(tree_, options_.site);
    }

    void refuse_what_is_there(const std::filesystem::path& file) const {
        if (options_.resume || !std::filesystem::exists(file)) return;
        throw harness::InputRefused({{file.string(), 0, 0, "holds the rows of an earlier search",
                                      "--resume to go on with them, or another --into"}});
    }

    [[nodiscard]] harness::SearchQuestion question() const {
        harness::SearchQuestion asked;
        asked.program = std::string("noonbench ") + NOONBENCH_VERSION;
        asked.scenario = harness::yaml_text(tree_);
        if (site_.sky.kind == harness::SkyKind::file) {
            asked.weather_digest = harness::digest_of(bytes_of(site_.sky.weather_file.path));
        }
        asked.seed = options_.seed;
        asked.weights = options_.weights;
        return asked;
    }

    [[nodiscard]] harness::TrialRunner runner(harness::TrialLength length,
                                              const harness::SearchSpace& space,
                                              const harness::Grid& grid,
                                              harness::ResultsFile& results) {
        harness::TrialGround ground;
        ground.site = site_;
        ground.settings_of = [&](std::size_t candidate) {
            return harness::settings_at(space, grid.point_of(candidate));
        };
        ground.seed = options_.seed;
        ground.weights = options_.weights;
        ground.length = length;
        const auto told = [this](const harness::YearsUnderway& now) { progress_.year_done(now); };
        if (run_years_) return {std::move(ground), results, run_years_, told};
        const unsigned threads =
            options_.jobs != 0 ? options_.jobs : std::max(1U, std::thread::hardware_concurrency());
        return {std::move(ground), results, threads, told};
    }

    void run_instead(harness::TrialRunner& weeks, std::size_t winner,
                     const std::vector<std::optional<std::size_t>>& instead, std::size_t worlds) {
        std::vector<harness::Trial> trials;
        trials.reserve((instead.size() + 1) * worlds);
        for (std::size_t world = 0; world < worlds; ++world) {
            trials.push_back({winner, world});
            for (const std::optional<std::size_t>& candidate : instead) {
                if (candidate) trials.push_back({*candidate, world});
            }
        }
        (void)weeks.run(trials);
    }

    harness::Chosen search(harness::ResultsFile& results) {
        const harness::SearchSpace space = harness::search_space(site_);
        harness::HalvingRequest request;
        request.grid = harness::grid_of(space);
        const std::size_t delivered = request.grid.candidate_of(harness::delivered_point(space));
        request.delivered = {delivered};
        request.budget = options_.budget;
        request.worlds = harness::worlds_for(options_.budget);
        request.seed = options_.seed;
        request.promise.seed = options_.seed;
        request.progress = [this](const harness::RungReport& report) {
            progress_.trials_done(static_cast<double>(report.trials_done));
        };
        harness::TrialRunner weeks =
            runner(harness::TrialLength::typical_weeks, space, request.grid, results);
        progress_.begin("trials", static_cast<double>(options_.budget));
        harness::HalvingResult found = harness::search_settings(request, weeks.as_function());
        progress_.begin("each setting by itself", 0.0);
        harness::put_back_what_changes_nothing(request.grid, delivered, weeks.as_function(), found);

        // What each setting does by itself, told in the worlds of the search.
        const std::vector<std::optional<std::size_t>> instead = harness::instead_candidates(
            request.grid, found.set.winner, delivered, found.tried, request.worlds);
        run_instead(weeks, found.set.winner, instead, request.worlds);

        // Worlds that played no part in the search.
        std::vector<std::size_t> fresh(options_.fresh_worlds);
        std::iota(fresh.begin(), fresh.end(), request.worlds);
        harness::TrialRunner years =
            runner(options_.full_years ? harness::TrialLength::full_year
                                       : harness::TrialLength::typical_weeks,
                   space, request.grid, results);
        progress_.begin("fresh worlds", 3.0 * static_cast<double>(fresh.size()));
        harness::FreshRequest again;
        again.chosen = found.set.winner;
        again.delivered = delivered;
        again.worlds = fresh;
        again.seed = options_.seed;
        const harness::FreshGain gain = harness::fresh_gain(again, years.as_function());
        progress_.clear();
        return chosen_from({.site = site_,
                            .space = space,
                            .grid = request.grid,
                            .search = found,
                            .fresh = gain,
                            .fresh_worlds = fresh,
                            .weeks = weeks,
                            .years = years,
                            .weights = options_.weights,
                            .seed = options_.seed,
                            .delivered = delivered,
                            .instead = instead,
                            .repeat = repeat_text(options_)});
    }

    const ChooseOptions& options_;
    ProgressLine progress_;
    harness::Node tree_;
    harness::Scenario site_;
    harness::RunYears run_years_;
};

void refuse_jobs_of_ranks(const ChooseOptions& options) {
    if (options.jobs == 0) return;
    throw harness::InputRefused({{"--jobs", 0, 0, "does not go with the ranks of mpirun",
                                  "none: each rank but the first runs one trial at a time"}});
}

int choose_for(const ChooseOptions& options) {
    const harness::Launch launch = harness::launch_from_environment();
    if (launch.ranks == 1) return Choose(options).run();
    std::optional<Choose> choose;
    return harness::search_on_ranks(
        launch, {[&] {
                     refuse_jobs_of_ranks(options);
                     choose.emplace(options);
                     return choose->for_rank();
                 },
                 [&](const harness::RunYears& run_years) { return choose->run(run_years); }});
}

}  // namespace

void add_choose(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<ChooseOptions>();
    CLI::App* choose = app.add_subcommand(
        "choose", "Find controller settings for a site before it is set up, and say how sure");
    choose->add_option("SITE", options->site, "a site or scenario file (YAML)")->required();
    choose->add_option("--into,--out", options->into,
                       "folder for the sheet and the rows (default: out/NAME_settings)");
    choose->add_option("--seed", options->seed, "another draw of weather, household, tolerances")
        ->check(CLI::NonNegativeNumber)
        ->capture_default_str();
    choose
        ->add_option("--budget", options->budget,
                     "how many trials of the search; each is a year told from four typical weeks. "
                     "The sheet's reasons take up to one more choice a setting")
        ->check(CLI::Range(10, 1'000'000))
        ->capture_default_str();
    choose
        ->add_option("--fresh-worlds", options->fresh_worlds,
                     "in how many more worlds the winner is run")
        ->check(CLI::Range(2, 1000))
        ->capture_default_str();
    choose->add_flag("--full-years", options->full_years,
                     "run those day by day instead of a typical week of each quarter");
    choose->add_option("--jobs", options->jobs, "how many at a time (default: one a core)")
        ->check(CLI::Range(1U, 1024U));
    choose->add_flag("--resume", options->resume, "go on with the rows of the folder");
    choose->add_option("--climate", options->climate, "of the seeded years, instead of the site's")
        ->check(CLI::IsMember({"average", "colder", "warmer"}));
    choose
        ->add_option("--backup-weight", options->weights.backup,
                     "what a kilowatt-hour of backup saved counts")
        ->check(CLI::Range(0.0, 1000.0))
        ->capture_default_str();
    choose
        ->add_option("--pump-weight", options->weights.pump,
                     "what a kilowatt-hour of the pump's electricity costs")
        ->check(CLI::Range(0.0, 1000.0))
        ->capture_default_str();
    choose->add_option("--set", options->sets, "overrides, as path.to.key=VALUE; may be repeated")
        ->take_all()
        ->allow_extra_args(false);
    choose->add_flag("--quiet", options->quiet, "print nothing but errors");
    choose->footer(
        "The same site, seed and budget give the same answer; a search that was broken off goes on "
        "with --resume.\n"
        "Under mpirun -n N (a program configured with -D NOONBENCH_MPI=ON) all ranks but the first "
        "run its trials.\n"
        "Example:  noonbench choose scenarios/sites/mill_row_12.yaml --budget 200");
    choose->callback([options, &exit_code] { exit_code = choose_for(*options); });
}

}  // namespace noonbench::cli
