// SPDX-License-Identifier: MIT
#include "replay_house.hpp"

#include "answer.hpp"
#include "asked.hpp"
#include "lesson_house.hpp"
#include "lesson_time.hpp"
#include "lesson_unit.hpp"
#include "task_parts.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>
#include <variant>

namespace noonbench::harness {
namespace {

constexpr double seen_rounding = 1e-9;

Problem problem_at(const Place& place, std::string what, std::string allowed) {
    return {place.file, place.line, place.column, std::move(what), std::move(allowed)};
}

void ask_seen(const Lesson& lesson, const Seen& seen, HouseReplay& replay,
              std::vector<Problem>& problems) {
    const std::string_view unit = kept_unit(replay.measure_of(seen.number));
    replay.ask(seen.number, seen.until, [&lesson, &seen, &problems, unit](double value) {
        if (std::abs(value - seen.is) <= seen.give + seen_rounding) return;
        problems.push_back(problem_at(
            seen.number.place,
            fmt::format("\"{}\" is {}{} in {}, and {} was seen when the lesson was written",
                        seen.number.text, shown_text(value, unit), unit_behind(unit),
                        in_quotes(lesson.houses[seen.house].name), seen.is_text),
            fmt::format("within {} of it", seen.give_text)));
    });
}

void judge_check(const Lesson& lesson, const LessonCheck& check, std::size_t house,
                 HouseReplay& replay, std::vector<Problem>& problems) {
    const bool must_hold = house == check.house;
    const std::string& name = lesson.houses[house].name;
    replay.judge(check.that, check.until, AtEnd::unknown,
                 [&check, &name, &problems, must_hold](const Outcome& outcome) {
                     if (outcome.truth == (must_hold ? Truth::held : Truth::not_held)) return;
                     problems.push_back(
                         problem_at(check.that.place,
                                    fmt::format("{} in {}: {}", in_quotes(check.name),
                                                in_quotes(name), verdict_words(outcome)),
                                    must_hold ? "a sentence that holds there"
                                              : "a sentence that does not hold there (fails_in)"));
                 });
}

/// Something must be left to do.
void judge_unmet(const TaskStep& task, HouseReplay& replay, std::vector<Problem>& problems) {
    const auto held = std::make_shared<std::size_t>(0);
    for (const TaskPart& part : task.require)
        replay.judge(
            part.that, task.until, AtEnd::cut, [&task, &problems, held](const Outcome& outcome) {
                if (outcome.truth == Truth::held) ++*held;
                if (*held < task.require.size()) return;
                problems.push_back(problem_at(task.place,
                                              "the task is met before anybody has done anything",
                                              "at least one part that does not hold as opened"));
            });
}

/// Nobody who is near the truth may be told that he is on one side of it and is on the other.
void ask_truth(const PredictStep& step, HouseReplay& replay, std::vector<Problem>& problems) {
    const Measure measure = replay.measure_of(*step.truth);
    replay.ask(*step.truth, step.until, [&step, &problems, measure](double value) {
        const ToldTruth truth = told_truth(step, shown_value(value, measure, step.unit));
        if (std::isnan(truth.value)) {
            problems.push_back(problem_at(step.truth->place,
                                          in_quotes(step.truth->text) + " comes to nothing",
                                          "something that happens in this run"));
            return;
        }
        for (const WrongAnswer& wrong : step.wrong) {
            const bool low = wrong.kind == WrongAnswer::Kind::below &&
                             wrong.bound > truth.value + step.tolerance + seen_rounding;
            const bool high = wrong.kind == WrongAnswer::Kind::above &&
                              wrong.bound < truth.value - step.tolerance - seen_rounding;
            if (!low && !high) continue;
            problems.push_back(problem_at(
                wrong.place,
                fmt::format("answers that are too {} are taken for too {}: the truth is {}",
                            low ? "high" : "low", low ? "low" : "high", truth.text),
                fmt::format("a bound {} the truth, or within {} of it", low ? "below" : "above",
                            step.tolerance_text)));
        }
    });
}

}  // namespace

HouseReplay::HouseReplay(Scenario scenario)
    : scenario_(std::move(scenario)), signals_(judged_signals(scenario_)) {}

void HouseReplay::ask(const LessonPhrase& phrase, const LessonUntil& until,
                      std::function<void(double)> take) {
    NumberPhrase understood = parse_number(phrase.text, phrase.place, signals_);
    const CivilSeconds tick = tick_of(understood, until, scenario_);
    questions_.numbers.push_back(
        {std::move(understood.number), std::move(understood.condition), tick});
    takers_.push_back(std::move(take));
}

void HouseReplay::judge(const LessonPhrase& that, const LessonUntil& until, AtEnd at_end,
                        std::function<void(const Outcome&)> take) {
    CutRequirements cut;
    cut.end_s = end_of_run(until, scenario_);
    cut.requirements.push_back(understood_sentence("sentence", that, scenario_, at_end));
    questions_.cut.push_back(std::move(cut));
    judges_.push_back(std::move(take));
}

void HouseReplay::run() const {
    if (takers_.empty() && judges_.empty()) return;
    const RunAnswers answers = answered_by_run(scenario_, questions_);
    for (std::size_t i = 0; i < takers_.size(); ++i) takers_[i](answers.numbers[i]);
    for (std::size_t i = 0; i < judges_.size(); ++i) judges_[i](answers.outcomes[i].front());
}

Measure HouseReplay::measure_of(const LessonPhrase& phrase) const {
    return parse_number(phrase.text, phrase.place, signals_).number->measure;
}

void replay_house(const Lesson& lesson, std::size_t house, std::vector<Problem>& problems) {
    HouseReplay replay(scenario_of(lesson, house));
    for (const Seen& seen : lesson.seen)
        if (seen.house == house) ask_seen(lesson, seen, replay, problems);
    for (const LessonStep& step : lesson.steps) {
        const auto* predict = std::get_if<PredictStep>(&step);
        if (predict != nullptr && predict->house == house && predict->truth)
            ask_truth(*predict, replay, problems);
        const auto* task = std::get_if<TaskStep>(&step);
        if (task != nullptr && task->house == house) judge_unmet(*task, replay, problems);
    }
    for (const LessonCheck& check : lesson.checks) {
        const auto& fails_in = check.fails_in;
        if (check.house == house ||
            std::find(fails_in.begin(), fails_in.end(), house) != fails_in.end())
            judge_check(lesson, check, house, replay, problems);
    }
    replay.run();
}

}  // namespace noonbench::harness
