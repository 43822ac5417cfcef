// SPDX-License-Identifier: MIT
#include "task_parts.hpp"

#include "lesson_house.hpp"
#include "lesson_time.hpp"

#include <array>
#include <utility>

namespace noonbench::harness {

Requirement understood_sentence(std::string name, const LessonPhrase& that,
                                const Scenario& scenario, AtEnd at_end) {
    std::array texts{sentence_text(std::move(name), that)};
    texts.front().at_end = at_end;
    return understood_requirements(texts, judged_signals(scenario)).front();
}

std::vector<JudgedPart> judged_task_parts(const TaskStep& step, const Scenario& scenario) {
    CutRequirements cut;
    cut.end_s = end_of_run(step.until, scenario);
    cut.requirements.reserve(step.require.size());
    for (const TaskPart& part : step.require)
        cut.requirements.push_back(understood_sentence(part.name, part.that, scenario, AtEnd::cut));
    RunQuestions questions;
    questions.cut.push_back(std::move(cut));
    const RunAnswers answers = answered_by_run(scenario, questions);
    std::vector<JudgedPart> parts;
    parts.reserve(step.require.size());
    for (const Outcome& outcome : answers.outcomes.front())
        parts.push_back({outcome.truth == Truth::held, verdict_words(outcome)});
    return parts;
}

}  // namespace noonbench::harness
