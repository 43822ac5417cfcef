// SPDX-License-Identifier: MIT
// What `noonbench judge` has to do: scenarios as they stand, the same changed so that a requirement
// is known to fail, and logs.
#pragma once
#include "traces/table.hpp"

#include "harness/judge/judge.hpp"
#include "harness/scenario/scenario.hpp"

#include <boost/json.hpp>

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace noonbench::cli {

struct JudgeRequest {
    std::vector<std::string> paths;   // scenario files, folders of them, logs, folders of runs
    std::vector<std::string> checks;  // files of requirements laid over each scenario
    std::vector<std::string> sets;
    std::optional<std::uint64_t> seed;
    bool could_fail = false;  // also run each change named in `fails_with`
    bool healthy = false;     // the healthy twins instead of the scenarios themselves
};

/// What a run or a real controller has logged.
struct JudgedLog {
    traces::Table trace;
    std::vector<traces::Event> events;  // may be empty
};

struct JudgeTask {
    std::string file;
    std::string name;
    harness::Scenario scenario;  // where there is no log
    std::optional<JudgedLog> log;
    std::vector<harness::Requirement> requirements;
    std::vector<std::string>
        fails_with;  // not empty: the requirements must fail with these changes
};

/// All files that the paths name, in order; a folder gives its trace.csv, or the *.yaml in it
/// sorted by name. Throws InputRefused for a folder without any.
[[nodiscard]] std::vector<std::string> files_to_judge(const std::vector<std::string>& paths);

/// Everything is read and understood before the first run. Throws InputRefused with all problems.
[[nodiscard]] std::vector<JudgeTask> judge_tasks(const JudgeRequest& request);

/// Runs one task. {"scenario", "title", "file", "fails_with"?, "requirements": [...]}.
[[nodiscard]] boost::json::object judged_task(const JudgeTask& task,
                                              const std::function<void(double)>& tell);

/// The same object for a task that did not come back.
[[nodiscard]] boost::json::object failed_task(const JudgeTask& task, const std::string& failure);

/// Whether the task came out as it should: all held, or, with changes, all not held.
[[nodiscard]] bool is_as_wanted(const boost::json::object& done);

}  // namespace noonbench::cli
