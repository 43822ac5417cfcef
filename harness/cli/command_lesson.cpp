// SPDX-License-Identifier: MIT
// noonbench lesson [FILE...]
#include "command.hpp"
#include "judge_screen.hpp"
#include "judge_tasks.hpp"

#include "traces/file.hpp"

#include "harness/judge/children.hpp"
#include "harness/lesson/asked.hpp"
#include "harness/lesson/lesson.hpp"
#include "harness/lesson/sheet.hpp"
#include "harness/scenario/problem.hpp"

#include <fmt/format.h>
#include <boost/json.hpp>

#include <unistd.h>
#include <algorithm>
#include <filesystem>
#include <functional>
#include <iostream>
#include <memory>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace noonbench::cli {
namespace {

namespace fs = std::filesystem;
namespace json = boost::json;
using harness::Lesson;
using harness::Problem;

struct LessonOptions {
    std::vector<std::string> paths;
    std::string into = "out/lessons";
    std::string shelf = "scenarios";
    unsigned jobs = 0;
    bool quiet = false;
};

/// All are read and understood before the first run.
std::vector<Lesson> lessons_of(const LessonOptions& options) {
    std::vector<std::string> paths = options.paths;
    if (paths.empty()) {
        const fs::path shelf = fs::path(options.shelf) / "lessons";
        if (!fs::is_directory(shelf))
            throw harness::InputRefused({{shelf.string(), 0, 0, "is no folder",
                                          "files or folders of lessons, or a folder of scenarios "
                                          "with the folder lessons in it (--shelf)"}});
        paths.push_back(shelf.string());
    }
    std::vector<Lesson> lessons;
    std::vector<Problem> problems;
    for (const std::string& file : files_to_judge(paths)) {
        try {
            lessons.push_back(harness::read_lesson(file));
        } catch (const harness::InputRefused& refused) {
            problems.insert(problems.end(), refused.problems().begin(), refused.problems().end());
        }
    }
    for (std::size_t i = 0; i < lessons.size(); ++i)
        for (std::size_t earlier = 0; earlier < i; ++earlier)
            if (lessons[earlier].file.stem() == lessons[i].file.stem())
                problems.push_back({lessons[i].file.string(), 0, 0,
                                    "its sheets would have the names of those of " +
                                        lessons[earlier].file.string(),
                                    "another file name"});
    if (!problems.empty()) throw harness::InputRefused(std::move(problems));
    return lessons;
}

/// What is off, one line each: a child's answer.
std::string replayed_lines(const Lesson& lesson) {
    json::array lines;
    for (const Problem& problem : harness::replayed(lesson))
        lines.push_back(json::value(harness::text(problem)));
    return json::serialize(lines);
}

std::vector<std::string> lines_of(const Lesson& lesson, const harness::Left& left) {
    if (!left.failure.empty()) return {lesson.file.string() + ": NOT RUN: " + left.failure};
    const json::array found = json::parse(left.bytes).as_array();
    std::vector<std::string> lines;
    lines.reserve(found.size());
    for (const json::value& line : found) lines.emplace_back(line.as_string());
    return lines;
}

/// Each lesson in a process of its own, as `judge` does it.
std::vector<std::vector<std::string>> replay_all(const LessonOptions& options,
                                                 const std::vector<Lesson>& lessons) {
    std::vector<std::string> names;
    names.reserve(lessons.size());
    for (const Lesson& lesson : lessons) names.push_back(lesson.file.stem().string());
    const harness::Work work = [&](std::size_t i, const std::function<void(double)>& /*tell*/) {
        return replayed_lines(lessons[i]);
    };
    std::function<void(const harness::Underway&)> watch;
    if (!options.quiet && isatty(STDERR_FILENO) == 1) watch = judge_progress(std::move(names));
    const unsigned jobs =
        options.jobs != 0 ? options.jobs : std::max(1U, std::thread::hardware_concurrency());
    const std::vector<harness::Left> left = harness::in_children(lessons.size(), jobs, work, watch);
    std::vector<std::vector<std::string>> lines;
    lines.reserve(lessons.size());
    for (std::size_t i = 0; i < lessons.size(); ++i) lines.push_back(lines_of(lessons[i], left[i]));
    return lines;
}

void write_sheets(const Lesson& lesson, const fs::path& into) {
    const std::string name = lesson.file.stem().string();
    traces::write_whole(into / (name + "_learner.html"), harness::learner_sheet(lesson));
    traces::write_whole(into / (name + "_instructor.html"), harness::instructor_sheet(lesson));
}

int show_lessons(const LessonOptions& options) {
    const std::vector<Lesson> lessons = lessons_of(options);
    const auto lines = replay_all(options, lessons);
    fs::create_directories(options.into);
    std::string text;
    bool as_written = true;
    for (std::size_t i = 0; i < lessons.size(); ++i) {
        write_sheets(lessons[i], options.into);
        for (const std::string& line : lines[i]) text += line + "\n";
        as_written = as_written && lines[i].empty();
    }
    text += fmt::format(
        "{} {}, {}; sheets in {}\n", lessons.size(), lessons.size() == 1 ? "lesson" : "lessons",
        as_written ? "as the bench shows it" : "not all as the bench shows it", options.into);
    if (!options.quiet || !as_written) std::cout << text;
    return as_written ? exit_done : exit_not_held;
}

}  // namespace

void add_lesson(CLI::App& app, int& exit_code) {
    auto options = std::make_shared<LessonOptions>();
    CLI::App* lesson = app.add_subcommand(
        "lesson", "Hold lessons against the bench; leave a sheet for learner and instructor");
    lesson->add_option("PATH", options->paths,
                       "lesson files or folders of them (default: those of the shelf)");
    lesson->add_option("--into", options->into, "folder for the sheets")->capture_default_str();
    lesson->add_option("--shelf", options->shelf, "folder of the scenarios")->capture_default_str();
    lesson->add_option("--jobs", options->jobs, "how many at a time (default: one a core)")
        ->check(CLI::Range(1U, 1024U));
    lesson->add_flag("--quiet", options->quiet, "print only what is off");
    lesson->footer("Example:  noonbench lesson scenarios/lessons --into out/lessons");
    lesson->callback([options, &exit_code] { exit_code = show_lessons(*options); });
}

}  // namespace noonbench::cli
