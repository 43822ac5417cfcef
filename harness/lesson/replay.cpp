// SPDX-License-Identifier: MIT
#include "asked.hpp"
#include "lesson_house.hpp"
#include "replay_house.hpp"
#include "task_parts.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>
#include <variant>

namespace noonbench::harness {
namespace {

void replay_solution(const Lesson& lesson, const TaskStep& task, std::vector<Problem>& problems) {
    const Scenario scenario = house_with(lesson, task.house, task.solution, task.place);
    const std::vector<JudgedPart> parts = judged_task_parts(task, scenario);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (parts[i].held) continue;
        const TaskPart& part = task.require[i];
        problems.push_back(
            {part.that.place.file, part.that.place.line, part.that.place.column,
             fmt::format("{} with the solution: {}", in_quotes(part.name), parts[i].words),
             "a solution that meets every part"});
    }
}

void replay_changed(const Lesson& lesson, const LessonCheck& check,
                    std::vector<Problem>& problems) {
    if (check.fails_with.empty()) return;
    HouseReplay replay(house_with(lesson, check.house, check.fails_with, check.that.place));
    replay.judge(check.that, check.until, AtEnd::unknown, [&](const Outcome& outcome) {
        if (outcome.truth == Truth::not_held) return;
        problems.push_back({check.that.place.file, check.that.place.line, check.that.place.column,
                            fmt::format("{} with the change that it names: {}",
                                        in_quotes(check.name), verdict_words(outcome)),
                            "a sentence that does not hold then (fails_with)"});
    });
    replay.run();
}

}  // namespace

std::vector<Problem> replayed(const Lesson& lesson) {
    std::vector<Problem> problems;
    for (std::size_t house = 0; house < lesson.houses.size(); ++house)
        replay_house(lesson, house, problems);
    for (const LessonStep& step : lesson.steps)
        if (const auto* task = std::get_if<TaskStep>(&step))
            replay_solution(lesson, *task, problems);
    for (const LessonCheck& check : lesson.checks) replay_changed(lesson, check, problems);
    replay_hunts(lesson, problems);
    std::stable_sort(problems.begin(), problems.end(), [](const Problem& a, const Problem& b) {
        return std::tie(a.line, a.column) < std::tie(b.line, b.column);
    });
    return problems;
}

}  // namespace noonbench::harness
