// SPDX-License-Identifier: MIT
// The steps of a lesson that have no file of their own: text, watch, try, task.
#include "lesson_draft.hpp"
#include "lesson_unit.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

namespace noonbench::harness {
namespace {

using Keys = std::string_view;

TextStep read_text_step(const Node& node, LessonDraft& draft) {
    return {lesson_word(node, "text", draft.findings).text};
}

void check_signals(std::span<const LessonWord> words, const HouseAtHand& house,
                   Findings& findings) {
    if (!house.sound()) return;
    std::vector<std::string_view> names;
    names.reserve(house.signals.size());
    for (const traces::Signal& signal : house.signals) names.emplace_back(signal.name);
    for (const LessonWord& word : words)
        if (std::find(names.begin(), names.end(), word.text) == names.end())
            refuse_lesson_word(word, "a signal", names, findings);
}

WatchStep read_watch(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 4> keys{"of", "until", "look_at", "say"};
    const LessonMap map(node, "watch", keys, draft.findings);
    WatchStep step;
    step.house = house_of(map, draft);
    const std::array houses{step.house};
    step.until = until_of(map, houses, draft);
    static_cast<void>(map.need("until", "HH:MM, the first such moment; or a date with a time"));
    const std::vector<LessonWord> signals = map.texts("look_at", "a list of signals");
    check_signals(signals, draft.houses[step.house], draft.findings);
    step.look_at = lesson_texts(signals);
    step.say = map.text("say", "what there is to see").text;
    return step;
}

Compared read_compared(const Node& node, const TryStep& step, LessonDraft& draft) {
    static constexpr std::array<Keys, 3> keys{"name", "number", "unit"};
    const LessonMap map(node, "compare", keys, draft.findings);
    Compared compared;
    compared.name = map.text("name", "what is compared").text;
    const LessonWord number = map.text("number", "such as over the run: starts of pump_relay");
    compared.number = {number.text, number.place};
    const LessonWord unit = map.text_if("unit");
    compared.unit = unit.text;
    const auto measure = measure_in(compared.number, step.houses, step.until, draft);
    if (measure && !unit_fits(*measure, unit.text))
        draft.findings.add(
            unit.place,
            fmt::format("{} is no unit of {}", in_quotes(unit.text), in_quotes(number.text)),
            fitting_units(*measure));
    return compared;
}

TryStep read_try(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 4> keys{"say", "forks", "until", "compare"};
    const LessonMap map(node, "try", keys, draft.findings);
    TryStep step;
    step.say = map.text("say", "what to try").text;
    step.houses = houses_named(map.texts("forks", "names of houses, run side by side"), draft);
    step.until = until_of(map, step.houses, draft);
    for (const Node& item : map.items("compare", "a list of name, number and unit"))
        step.compare.push_back(read_compared(item, step, draft));
    return step;
}

TaskPart read_task_part(const Node& node, std::size_t house, LessonDraft& draft) {
    static constexpr std::array<Keys, 3> keys{"name", "that", "hint"};
    const LessonMap map(node, "require", keys, draft.findings);
    TaskPart part;
    part.name = map.text("name", "a few words").text;
    const LessonWord that = map.text("that", "a requirement, see `noonbench list phrases`");
    part.that = {that.text, that.place};
    part.hint = map.text("hint", "what helps somebody who is stuck").text;
    const std::array houses{house};
    check_sentence(part.that, houses, draft);
    return part;
}

TaskStep read_task(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 5> keys{"say", "of", "until", "require", "solution"};
    const LessonMap map(node, "task", keys, draft.findings);
    TaskStep step;
    step.place = map.place();
    step.say = map.text("say", "what is to be reached").text;
    step.house = house_of(map, draft);
    const std::array houses{step.house};
    step.until = until_of(map, houses, draft);
    for (const Node& item : map.items("require", "a list of name, that and hint"))
        step.require.push_back(read_task_part(item, step.house, draft));
    const std::vector<LessonWord> solution =
        map.texts("solution", "path.to.key=VALUE, with which it is met");
    check_overrides(solution, step.house, draft);
    step.solution = lesson_texts(solution);
    return step;
}

}  // namespace

void read_step(const Node& node, LessonDraft& draft) {
    static constexpr std::array<Keys, 6> kinds{"text", "predict", "watch", "try", "task", "hunt"};
    const LessonMap map(node, "steps", kinds, draft.findings);
    const std::size_t before = draft.lesson.steps.size();
    const auto add = [&](LessonStep step) { draft.lesson.steps.push_back(std::move(step)); };
    if (const Node* of = map.find("text")) add(read_text_step(*of, draft));
    if (const Node* of = map.find("predict")) add(read_predict(*of, draft));
    if (const Node* of = map.find("watch")) add(read_watch(*of, draft));
    if (const Node* of = map.find("try")) add(read_try(*of, draft));
    if (const Node* of = map.find("task")) add(read_task(*of, draft));
    if (const Node* of = map.find("hunt")) add(read_hunt(*of, draft));
    const std::size_t added = draft.lesson.steps.size() - before;
    if (added == 1) return;
    draft.findings.add(map.place(), fmt::format("steps: {} kinds stand in one step", added),
                       "one of " + joined(kinds));
    if (added == 0) add(TextStep{});  // it counts: timing has a number for it
}

}  // namespace noonbench::harness
