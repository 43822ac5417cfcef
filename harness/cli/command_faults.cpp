// SPDX-License-Identifier: MIT
// noonbench faults [PATH...]
#include "command.hpp"
#include "judge_screen.hpp"
#include "judge_tasks.hpp"

#include "traces/file.hpp"

#include "harness/judge/children.hpp"
#include "harness/judge/judge.hpp"
#include "harness/report/fault_card.hpp"
#include "harness/report/fault_page.hpp"
#include "harness/report/fault_seen.hpp"
#include "harness/scenario/problem.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/twin.hpp"

#include <fmt/format.h>
#include <boost/json.hpp>

#include <unistd.h>
#include <algorithm>
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

namespace json = boost::json;
using harness::Problem;

struct FaultsOptions {
    std::vector<std::string> paths;
    std::string into = "out/faults";
    std::string shelf = "scenarios";
    unsigned jobs = 0;
    bool quiet = false;
};

struct Side {
    harness::Scenario scenario;
    std::vector<harness::Requirement> requirements;
};

struct FaultTask {
    std::string file;
    Side fault;
    std::optional<Side> twin;
};

/// What one fault left: its card and what is wrong with it.
struct Done {
    std::string card;
    std::vector<std::string> complaints;
};

Side understood_side(harness::Scenario scenario) {
    auto requirements = harness::requirements_of(scenario);
    return {std::move(scenario), std::move(requirements)};
}

FaultTask task_of(const std::string& file) {
    harness::Scenario scenario = harness::read_scenario(file);
    if (!scenario.fault)
        throw harness::InputRefused(
            {{file, 0, 0, "tells of no fault", "a scenario with a section fault:"}});
    const bool twin = harness::has_twin(scenario);
    FaultTask task{file, understood_side(std::move(scenario)), {}};
    if (twin) task.twin = understood_side(harness::healthy_twin(file));
    return task;
}

/// Links and the names of cards would be of two minds.
void refuse_one_name_twice(const std::vector<FaultTask>& tasks, std::vector<Problem>& problems) {
    for (std::size_t i = 0; i < tasks.size(); ++i) {
        const std::string& name = tasks[i].fault.scenario.name;
        for (std::size_t earlier = 0; earlier < i; ++earlier) {
            if (tasks[earlier].fault.scenario.name != name) continue;
            problems.push_back(
                {tasks[i].file, 0, 0,
                 "has the name of " + tasks[earlier].file + ": both are called " + name,
                 "another file name"});
            break;
        }
    }
}

/// All is read and understood before the first run.
std::vector<FaultTask> tasks_of(const FaultsOptions& options) {
    std::vector<std::string> paths = options.paths;
    if (paths.empty()) {
        const auto shelf = std::filesystem::path(options.shelf) / "faults";
        if (!std::filesystem::is_directory(shelf))
            throw harness::InputRefused({{shelf.string(), 0, 0, "is no folder",
                                          "files or folders of faults, or a folder of scenarios "
                                          "with the folder faults in it (--shelf)"}});
        paths.push_back(shelf.string());
    }
    std::vector<FaultTask> tasks;
    std::vector<Problem> problems;
    for (const std::string& file : files_to_judge(paths)) {
        try {
            tasks.push_back(task_of(file));
        } catch (const harness::InputRefused& refused) {
            problems.insert(problems.end(), refused.problems().begin(), refused.problems().end());
        }
    }
    if (problems.empty()) refuse_one_name_twice(tasks, problems);
    if (!problems.empty()) throw harness::InputRefused(std::move(problems));
    return tasks;
}

/// Runs one side; its trace is gone before the next one runs.
harness::SeenRun seen_side(const Side& side, const std::function<void(double)>& tell) {
    return harness::seen_run(harness::judge(side.scenario, side.requirements, tell),
                             side.requirements);
}

json::object seen_task(const FaultTask& task, const harness::FaultTitles& titles,
                       const std::function<void(double)>& tell) {
    const double share = task.twin ? 0.5 : 1.0;
    harness::SeenFault seen;
    seen.fault = seen_side(task.fault, [&](double done) { tell(share * done); });
    if (task.twin)
        seen.twin = seen_side(*task.twin, [&](double done) { tell(share * (1.0 + done)); });
    json::array complaints;
    for (const std::string& complaint : harness::complaints_of(seen))
        complaints.push_back(json::value(complaint));
    return {{"card", harness::fault_card(seen, titles)}, {"complaints", std::move(complaints)}};
}

Done done_of(const FaultTask& task, const harness::Left& left) {
    const harness::Scenario& scenario = task.fault.scenario;
    if (!left.failure.empty())
        return {harness::failed_card(scenario.name, scenario.title, left.failure),
                {"NOT RUN: " + left.failure}};
    const json::object object = json::parse(left.bytes).as_object();
    Done done{std::string(object.at("card").as_string()), {}};
    for (const json::value& complaint : object.at("complaints").as_array())
        done.complaints.emplace_back(complaint.as_string());
    return done;
}

/// Each fault with its twin in a process of its own, as `judge` does it.
std::vector<Done> run_all(const FaultsOptions& options, const std::vector<FaultTask>& tasks) {
    harness::FaultTitles titles;
    std::vector<std::string> names;
    names.reserve(tasks.size());
    for (const FaultTask& task : tasks) {
        names.push_back(task.fault.scenario.name);
        titles[names.back()] = task.fault.scenario.title;
    }
    const harness::Work work = [&](std::size_t i, const std::function<void(double)>& tell) {
        return json::serialize(seen_task(tasks[i], titles, tell));
    };
    std::function<void(const harness::Underway&)> watch;
    if (!options.quiet && isatty(STDERR_FILENO) == 1) watch = judge_progress(std::move(names));
    const unsigned jobs =
        options.jobs != 0 ? options.jobs : std::max(1U, std::thread::hardware_concurrency());
    const std::vector<harness::Left> left = harness::in_children(tasks.size(), jobs, work, watch);
    std::vector<Done> done;
    done.reserve(tasks.size());
    for (std::size_t i = 0; i < tasks.size(); ++i) done.push_back(done_of(tasks[i], left[i]));
    return done;
}

std::vector<harness::FaultEntry> entries_of(const std::vector<FaultTask>& tasks,
                                            const std::vector<Done>& done) {
    std::vector<harness::FaultEntry> entries;
    entries.reserve(tasks.size());
    for (std::size_t i = 0; i < tasks.size(); ++i) {
        const harness::Scenario& scenario = tasks[i].fault.scenario;
        entries.push_back({scenario.name, scenario.title, scenario.fault->looks_like, done[i].card,
                           done[i].complaints.empty()});
    }
    return entries;
}

int show_faults(const FaultsOptions& options) {
    const std::vector<FaultTask> tasks = tasks_of(options);
    const std::vector<Done> done = run_all(options, tasks);
    const std::filesystem::path page = std::filesystem::path(options.into) / "index.html";
    std::filesystem::create_directories(options.into);
    traces::write_whole(page, harness::fault_page_html(entries_of(tasks, done)));
    std::string text;
    bool as_claimed = true;
    for (std::size_t i = 0; i < tasks.size(); ++i) {
        for (const std::string& complaint : done[i].complaints) {
            as_claimed = false;
            text += fmt::format("!!  {}: {}\n", tasks[i].file, complaint);
        }
    }
    text += fmt::format("{} {}: {}\n", tasks.size(), tasks.size() == 1 ? "fault" : "faults",
                        page.string());
    if (!options.quiet) std::cout << text;
    return as_claimed ? exit_done : exit_not_held;
}

}  // namespace

void add_faults(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<FaultsOptions>();
    CLI::App* faults = app.add_subcommand(
        "faults", "Run faults and their healthy twins; leave one page with a picture of each");
    faults->add_option("PATH", options->paths,
                       "fault files or folders of them (default: those of the shelf)");
    faults->add_option("--into", options->into, "folder for the page, index.html")
        ->capture_default_str();
    faults->add_option("--shelf", options->shelf, "folder of the scenarios")->capture_default_str();
    faults->add_option("--jobs", options->jobs, "how many at a time (default: one a core)")
        ->check(CLI::Range(1U, 1024U));
    faults->add_flag("--quiet", options->quiet, "print nothing but errors");
    faults->footer("Example:  noonbench faults scenarios/faults --into out/faults");
    faults->callback([options, &exit_code] { exit_code = show_faults(*options); });
}

}  // namespace noonbench::cli
