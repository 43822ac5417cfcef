// SPDX-License-Identifier: MIT
// noonbench run SCENARIO...
#include "command.hpp"
#include "screen.hpp"

#include "harness/bench/seal.hpp"
#include "harness/judge/judge.hpp"
#include "harness/report/outputs.hpp"
#include "harness/report/summary.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/read_checks.hpp"
#include "harness/scenario/twin.hpp"

#include <unistd.h>
#include <atomic>
#include <exception>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace noonbench::cli {
namespace {

struct RunOptions {
    std::vector<std::string> files;
    std::string into;
    std::vector<std::string> sets;
    std::vector<std::string> checks;
    std::optional<std::uint64_t> seed;
    unsigned jobs = 0;
    bool vcd = false;
    bool netcdf = false;
    bool quiet = false;
    bool json = false;
    bool healthy = false;
    bool sealed = false;
    bool every_tick = false;
};

/// What one scenario left, or what stopped it.
struct Outcome {
    std::string text;  // for people
    std::string json;
    std::exception_ptr failure;
    bool all_held = true;
};

std::filesystem::path folder_for(const RunOptions& options, const harness::Scenario& scenario) {
    if (options.into.empty()) return std::filesystem::path("out") / scenario.name;
    if (options.files.size() == 1) return options.into;
    return std::filesystem::path(options.into) / scenario.name;
}

Outcome run_one(const RunOptions& options, harness::Scenario scenario,
                const harness::Progress& progress) {
    Outcome outcome;
    try {
        if (options.seed) scenario.seed = *options.seed;
        scenario.record.vcd |= options.vcd;
        scenario.record.netcdf |= options.netcdf;
        const std::filesystem::path folder = folder_for(options, scenario);
        const auto requirements = harness::requirements_of(scenario);
        const harness::Judged judged = harness::judge(
            scenario, requirements, progress,
            options.every_tick ? harness::Passing::every_tick : harness::Passing::skipping);
        harness::write_outputs(judged.result, judged.verdicts, folder);
        outcome.text = screen_text(judged, folder);
        outcome.json = harness::summary_json(judged.result, judged.verdicts);
        outcome.all_held = harness::all_held(judged.verdicts);
    } catch (...) {
        outcome.failure = std::current_exception();
    }
    return outcome;
}

/// Results would overwrite each other where two files have one name.
void refuse_twins(const RunOptions& options, const std::vector<harness::Scenario>& scenarios,
                  std::vector<harness::Problem>& problems) {
    for (std::size_t i = 0; i < scenarios.size(); ++i) {
        for (std::size_t earlier = 0; earlier < i; ++earlier) {
            if (scenarios[i].name != scenarios[earlier].name) continue;
            problems.push_back({options.files[i], 0, 0,
                                "leaves its results where " + options.files[earlier] +
                                    " does: both are called " + scenarios[i].name,
                                "another file name, or a run of its own with --into"});
            break;
        }
    }
}

/// The scenario of a file, or its healthy twin. Sealed, its name says no more than its place in the
/// row of files.
harness::Scenario read_one(const RunOptions& options, std::size_t index) {
    const std::string& file = options.files[index];
    harness::Scenario scenario = options.healthy ? harness::healthy_twin(file, options.sets)
                                                 : harness::read_scenario(file, options.sets);
    if (!options.sealed) return scenario;
    scenario = harness::sealed(std::move(scenario));
    if (options.files.size() > 1) scenario.name += "_" + std::to_string(index + 1);
    return scenario;
}

/// All scenarios are read before the first one runs: a typing error in the last file costs nothing.
std::vector<harness::Scenario> read_all(const RunOptions& options) {
    std::vector<harness::RequirementText> checks;
    for (const std::string& file : options.checks) {
        const auto read = harness::read_checks(file).require;
        checks.insert(checks.end(), read.begin(), read.end());
    }
    std::vector<harness::Scenario> scenarios;
    std::vector<harness::Problem> problems;
    for (std::size_t i = 0; i < options.files.size(); ++i) {
        try {
            scenarios.push_back(read_one(options, i));
            auto& require = scenarios.back().require;
            require.insert(require.end(), checks.begin(), checks.end());
            static_cast<void>(harness::requirements_of(scenarios.back()));  // before any run
        } catch (const harness::InputRefused& refused) {
            problems.insert(problems.end(), refused.problems().begin(), refused.problems().end());
        }
    }
    if (problems.empty()) refuse_twins(options, scenarios, problems);
    if (!problems.empty()) throw harness::InputRefused(problems);
    return scenarios;
}

/// Results stand in the order of the files whatever the number of threads.
std::vector<Outcome> run_all(const RunOptions& options,
                             const std::vector<harness::Scenario>& scenarios) {
    std::vector<Outcome> outcomes(scenarios.size());
    std::atomic<std::size_t> next = 0;
    const bool alone = scenarios.size() == 1;
    const harness::Progress progress = alone && !options.quiet && isatty(STDERR_FILENO) == 1
                                           ? progress_line()
                                           : harness::Progress{};
    const auto work = [&] {
        for (std::size_t i = next++; i < scenarios.size(); i = next++) {
            outcomes[i] = run_one(options, scenarios[i], progress);
        }
    };
    const unsigned wanted = options.jobs != 0 ? options.jobs : std::thread::hardware_concurrency();
    const auto workers = std::min<std::size_t>(std::max(wanted, 1U), scenarios.size());
    std::vector<std::jthread> threads;
    for (std::size_t t = 1; t < workers; ++t) threads.emplace_back(work);
    work();
    threads.clear();
    return outcomes;
}

int run_files(const RunOptions& options) {
    const std::vector<harness::Scenario> scenarios = read_all(options);
    const std::vector<Outcome> outcomes = run_all(options, scenarios);
    std::string all;
    bool all_held = true;
    for (const Outcome& outcome : outcomes) {
        all_held &= outcome.all_held;
        if (outcome.failure) std::rethrow_exception(outcome.failure);
        if (options.json) {
            all += (all.empty() ? "" : ",\n") + outcome.json;
        } else if (!options.quiet) {
            std::cout << outcome.text;
        }
    }
    if (options.json) std::cout << (outcomes.size() > 1 ? "[\n" + all + "]\n" : all);
    return all_held ? exit_done : exit_not_held;
}

}  // namespace

void add_run(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<RunOptions>();
    CLI::App* run =
        app.add_subcommand("run", "Run scenarios; leave trace, events, summary and report");
    run->add_option("SCENARIO", options->files, "scenario files (YAML)")->required();
    run->add_option("--into", options->into, "folder for the results (default: out/NAME)");
    run->add_option("--set", options->sets, "overrides, as path.to.key=VALUE; may be repeated")
        ->take_all()
        ->allow_extra_args(false);
    run->add_option("--check", options->checks, "a file of requirements laid over each scenario")
        ->take_all()
        ->allow_extra_args(false);
    run->add_option("--seed", options->seed, "weather and noise number instead of the scenario's")
        ->check(CLI::NonNegativeNumber);  // else -1 wraps to a large number
    run->add_option("--jobs", options->jobs, "how many at a time (default: one a core)")
        ->check(CLI::Range(1U, 1024U));
    run->add_flag("--vcd", options->vcd, "also trace.vcd, for any wave viewer (IEEE 1364)");
    run->add_flag("--netcdf", options->netcdf, "also trace.nc (netCDF classic, CF conventions)");
    run->add_flag("--healthy", options->healthy,
                  "run the healthy twin of a fault file: the same day without the fault");
    run->add_flag("--sealed", options->sealed,
                  "leave out of all results what the faults move and what the file tells of them "
                  "(into out/sealed)");
    run->add_flag("--every-tick", options->every_tick,
                  "let the controller run each second, also those on which nothing can change; the "
                  "results are the same");
    run->add_flag("--quiet", options->quiet, "print nothing but errors");
    run->add_flag("--json", options->json, "print the summary as JSON and nothing else");
    run->footer(
        "Example:  noonbench run scenarios/days/*.yaml --set controller.start_difference='10 K'");
    run->callback([options, &exit_code] { exit_code = run_files(*options); });
}

}  // namespace noonbench::cli
