// SPDX-License-Identifier: MIT
// noonbench judge PATH...
#include "command.hpp"
#include "hunt_screen.hpp"
#include "judge_screen.hpp"
#include "judge_tasks.hpp"

#include "traces/file.hpp"

#include "harness/judge/children.hpp"
#include "harness/report/json_text.hpp"
#include "harness/report/junit.hpp"
#include "harness/scenario/problem.hpp"

#include <unistd.h>
#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <memory>
#include <string>
#include <thread>
#include <vector>

namespace noonbench::cli {
namespace {

namespace json = boost::json;

struct JudgeOptions {
    JudgeRequest request;
    HuntOptions hunt;
    std::string junit;
    unsigned jobs = 0;
    bool json = false;
    bool quiet = false;
};

/// Each task in a process of its own; what crashes is one red row.
std::vector<json::object> run_all(const JudgeOptions& options,
                                  const std::vector<JudgeTask>& tasks) {
    const harness::Work work = [&](std::size_t i, const std::function<void(double)>& tell) {
        return json::serialize(judged_task(tasks[i], tell));
    };
    std::function<void(const harness::Underway&)> watch;
    if (!options.quiet && isatty(STDERR_FILENO) == 1) {
        std::vector<std::string> names;
        names.reserve(tasks.size());
        for (const JudgeTask& task : tasks) names.push_back(task.name);
        watch = judge_progress(std::move(names));
    }
    const unsigned jobs =
        options.jobs != 0 ? options.jobs : std::max(1U, std::thread::hardware_concurrency());
    const std::vector<harness::Left> left = harness::in_children(tasks.size(), jobs, work, watch);
    std::vector<json::object> done;
    for (std::size_t i = 0; i < tasks.size(); ++i) {
        done.push_back(left[i].failure.empty() ? json::parse(left[i].bytes).as_object()
                                               : failed_task(tasks[i], left[i].failure));
    }
    return done;
}

int hunt_in(const JudgeOptions& options) {
    HuntOptions hunt = options.hunt;
    if (options.request.paths.size() != 1) {
        throw harness::InputRefused(
            {{"--hunt", 0, 0, "hunts in one scenario at a time", "one scenario file"}});
    }
    hunt.scenario = options.request.paths.front();
    hunt.sets = options.request.sets;
    hunt.checks = options.request.checks;
    if (options.request.seed) hunt.sets.push_back("seed=" + std::to_string(*options.request.seed));
    return hunt_worst_day(hunt);
}

int judge_paths(const JudgeOptions& options) {
    if (!options.hunt.requirement.empty()) return hunt_in(options);
    const std::vector<JudgeTask> tasks = judge_tasks(options.request);
    const std::vector<json::object> done = run_all(options, tasks);
    const json::array all(done.begin(), done.end());
    if (!options.junit.empty()) traces::write_whole(options.junit, harness::junit_xml(all));
    if (options.json) {
        std::cout << harness::json_lines(all);
    } else if (!options.quiet) {
        const bool colour = isatty(STDOUT_FILENO) == 1 && std::getenv("NO_COLOR") == nullptr;
        std::cout << verdict_table(done, colour);
    }
    return std::all_of(done.begin(), done.end(), is_as_wanted) ? exit_done : exit_not_held;
}

}  // namespace

void add_judge(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<JudgeOptions>();
    JudgeRequest& request = options->request;
    CLI::App* judge = app.add_subcommand(
        "judge", "Run scenarios and say which requirements held, and by how much");
    judge
        ->add_option(
            "PATH", request.paths,
            "scenario files or folders of them; with --check also folders of runs, or logs (CSV)")
        ->required();
    judge->add_option("--check", request.checks, "a file of requirements laid over each scenario")
        ->take_all()
        ->allow_extra_args(false);
    judge->add_option("--set", request.sets, "overrides, as path.to.key=VALUE; may be repeated")
        ->take_all()
        ->allow_extra_args(false);
    judge->add_option("--seed", request.seed, "weather and noise number instead of the scenario's")
        ->check(CLI::NonNegativeNumber);
    judge->add_flag("--could-fail", request.could_fail,
                    "also show that each requirement fails with the change it names");
    judge
        ->add_flag("--healthy", request.healthy,
                   "judge the healthy twins of fault files: the same days without the faults")
        ->excludes("--could-fail");
    judge
        ->add_option("--hunt", options->hunt.requirement,
                     "look for the mildest day that breaks the requirement of this name")
        ->excludes("--healthy");
    judge->add_option("--bands", options->hunt.bands,
                      "for --hunt: a file of what is uncertain, such as "
                      "scenarios/bands/usual_site.yaml");
    judge->add_option("--budget", options->hunt.budget, "for --hunt: how many runs at most")
        ->check(CLI::Range(1, 1'000'000))
        ->capture_default_str();
    judge
        ->add_option("--hunt-seed", options->hunt.seed, "for --hunt: another way through the bands")
        ->check(CLI::NonNegativeNumber)
        ->capture_default_str();
    judge->add_option("--into", options->hunt.into,
                      "for --hunt: folder of the day found (default: out/NAME_worst_day)");
    judge->add_option("--junit", options->junit, "file for the verdicts as JUnit XML");
    judge->add_option("--jobs", options->jobs, "how many at a time (default: one a core)")
        ->check(CLI::Range(1U, 1024U));
    judge->add_flag("--quiet", options->quiet, "print nothing but errors");
    judge->add_flag("--json", options->json, "print the verdicts as JSON and nothing else");
    judge->footer("Example:  noonbench judge scenarios/days --check scenarios/checks/frost.yaml");
    judge->callback([options, &exit_code] { exit_code = judge_paths(*options); });
}

}  // namespace noonbench::cli
