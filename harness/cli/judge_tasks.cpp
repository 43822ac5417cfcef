// SPDX-License-Identifier: MIT
#include "judge_tasks.hpp"

#include "read_files.hpp"

#include "harness/judge/log.hpp"
#include "harness/report/verdict_json.hpp"
#include "harness/scenario/problem.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/read_checks.hpp"
#include "harness/scenario/twin.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>
#include <stdexcept>
#include <utility>

namespace noonbench::cli {
namespace {

namespace fs = std::filesystem;
namespace json = boost::json;
using harness::Problem;
using harness::RequirementText;

/// Collects the problems of several readings into one refusal.
class Readings {
  public:
    template <typename Read>
    void attempt(Read read) {
        try {
            read();
        } catch (const harness::InputRefused& refused) {
            problems_.insert(problems_.end(), refused.problems().begin(), refused.problems().end());
        }
    }
    void refuse_if_any() {
        if (!problems_.empty()) throw harness::InputRefused(std::move(problems_));
    }

  private:
    std::vector<Problem> problems_;
};

bool is_healthy(const std::vector<std::string>& changes) {
    return changes.size() == 1 && changes.front() == harness::healthy_word;
}

/// With changes on top, or as the healthy twin if that is the change.
harness::Scenario changed_scenario(const JudgeRequest& request, const std::string& file,
                                   const std::vector<std::string>& changes) {
    if (request.healthy || is_healthy(changes)) return harness::healthy_twin(file, request.sets);
    std::vector<std::string> sets = request.sets;
    sets.insert(sets.end(), changes.begin(), changes.end());
    return harness::read_scenario(file, sets);
}

JudgeTask task_of(const JudgeRequest& request, const std::string& file,
                  const std::vector<RequirementText>& checks,
                  const std::vector<std::string>& changes) {
    JudgeTask task{file, {}, changed_scenario(request, file, changes), {}, {}, changes};
    task.name = task.scenario.name;
    if (request.seed) task.scenario.seed = *request.seed;
    auto& require = task.scenario.require;
    require.insert(require.end(), checks.begin(), checks.end());
    task.requirements = harness::requirements_of(task.scenario);
    return task;
}

/// A log is judged by checks alone: nobody wrote requirements into it.
JudgeTask log_task_of(const std::string& file, const std::vector<RequirementText>& checks) {
    if (checks.empty()) {
        throw harness::InputRefused(
            {{file, 0, 0, "is a log, and nothing is required of it", "--check FILE beside it"}});
    }
    JudgeTask task{file, fs::path(file).stem().string(), {}, {}, {}, {}};
    try {
        task.log = {harness::with_known_signals(read_trace(file)), {}};
    } catch (const std::invalid_argument& wrong) {
        throw harness::InputRefused(
            {{file, 0, 0, wrong.what(), "the words that a trace of noonbench has"}});
    }
    if (task.log->trace.row_count() == 0) {
        throw harness::InputRefused({{file, 0, 0, "holds no rows", "the trace of a run"}});
    }
    const fs::path folder = fs::path(file).parent_path();
    if (fs::exists(folder / "events.csv")) task.log->events = read_events(folder);
    if (task.name == "trace" && !folder.empty()) task.name = folder.filename().string();
    task.requirements = harness::understood_requirements(checks, task.log->trace.signals());
    return task;
}

/// The changes that are named, each with the requirements that must fail with it. Requirements laid
/// over from a check need not name one: they do not know the scenario.
std::map<std::vector<std::string>, std::vector<std::string>> changes_of(const JudgeTask& task,
                                                                        std::size_t laid_over) {
    std::map<std::vector<std::string>, std::vector<std::string>> changes;
    std::vector<Problem> problems;
    const auto& require = task.scenario.require;
    for (std::size_t i = 0; i < require.size(); ++i) {
        const RequirementText& r = require[i];
        if (!r.fails_with.empty()) {
            changes[r.fails_with].push_back(r.name);
        } else if (i + laid_over < require.size()) {
            problems.push_back({r.place.file, r.place.line, r.place.column,
                                "\"" + r.name + "\" names no change with which it fails",
                                "fails_with: [path.to.key=VALUE], or [healthy]"});
        }
    }
    if (!problems.empty()) throw harness::InputRefused(std::move(problems));
    return changes;
}

void keep_named(std::vector<harness::Requirement>& requirements,
                const std::vector<std::string>& names) {
    std::erase_if(requirements, [&](const harness::Requirement& r) {
        return std::find(names.begin(), names.end(), r.name) == names.end();
    });
}

json::object head_of(const JudgeTask& task) {
    json::object head{{"scenario", task.name}, {"title", task.scenario.title}, {"file", task.file}};
    if (!task.fails_with.empty()) {
        json::array changes;
        for (const std::string& change : task.fails_with) changes.push_back(json::value(change));
        head["fails_with"] = std::move(changes);
    }
    return head;
}

}  // namespace

std::vector<std::string> files_to_judge(const std::vector<std::string>& paths) {
    std::vector<std::string> files;
    std::vector<Problem> problems;
    for (const std::string& path : paths) {
        if (!fs::is_directory(path)) {
            files.push_back(path);
            continue;
        }
        if (fs::exists(fs::path(path) / "trace.csv")) {
            files.push_back((fs::path(path) / "trace.csv").string());
            continue;
        }
        std::vector<std::string> inside;
        for (const auto& entry : fs::directory_iterator(path)) {
            if (entry.path().extension() == ".yaml") inside.push_back(entry.path().string());
        }
        if (inside.empty()) {
            problems.push_back(
                {path, 0, 0, "holds no scenario",
                 "a scenario file, a folder such as scenarios/days, or the folder of a run"});
        }
        std::sort(inside.begin(), inside.end());
        std::move(inside.begin(), inside.end(), std::back_inserter(files));
    }
    if (!problems.empty()) throw harness::InputRefused(std::move(problems));
    return files;
}

std::vector<JudgeTask> judge_tasks(const JudgeRequest& request) {
    Readings readings;
    std::vector<RequirementText> checks;
    for (const std::string& file : request.checks) {
        readings.attempt([&] {
            auto read = harness::read_checks(file).require;
            std::move(read.begin(), read.end(), std::back_inserter(checks));
        });
    }
    readings.refuse_if_any();  // else each scenario would repeat them
    std::vector<JudgeTask> tasks;
    for (const std::string& file : files_to_judge(request.paths)) {
        readings.attempt([&] {
            if (fs::path(file).extension() == ".csv") {
                if (request.healthy)
                    throw harness::InputRefused({{file, 0, 0, "is a log and has no healthy twin",
                                                  "scenario files with --healthy"}});
                tasks.push_back(log_task_of(file, checks));
                return;
            }
            tasks.push_back(task_of(request, file, checks, {}));
            if (!request.could_fail) return;
            for (const auto& [change, names] : changes_of(tasks.back(), checks.size())) {
                tasks.push_back(task_of(request, file, checks, change));
                keep_named(tasks.back().requirements, names);
            }
        });
    }
    readings.refuse_if_any();
    return tasks;
}

json::object judged_task(const JudgeTask& task, const std::function<void(double)>& tell) {
    const std::vector<harness::Verdict> verdicts =
        task.log ? harness::judge_log(task.log->trace, task.log->events, task.requirements)
                 : harness::judge(task.scenario, task.requirements, tell).verdicts;
    json::object done = head_of(task);
    done["requirements"] = harness::verdicts_json(verdicts);
    return done;
}

json::object failed_task(const JudgeTask& task, const std::string& failure) {
    json::object done = head_of(task);
    done["failure"] = failure;
    done["requirements"] = json::array();
    return done;
}

bool is_as_wanted(const json::object& done) {
    if (done.contains("failure")) return false;
    const std::string_view wanted = done.contains("fails_with") ? "not_held" : "held";
    const json::array& verdicts = done.at("requirements").as_array();
    return std::all_of(verdicts.begin(), verdicts.end(), [&](const json::value& verdict) {
        return verdict.at("verdict").as_string() == wanted;
    });
}

}  // namespace noonbench::cli
