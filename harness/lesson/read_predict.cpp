// SPDX-License-Identifier: MIT
// A question with its truth and what is said to each answer.
#include "lesson_draft.hpp"
#include "lesson_house.hpp"
#include "lesson_unit.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace noonbench::harness {
namespace {

using Form = PredictStep::Form;
using Kind = WrongAnswer::Kind;

constexpr std::array<std::string_view, 3> forms{"clock", "number", "choice"};
constexpr int most_choices = 9;

std::vector<std::string_view> predict_keys_of(Form form) {
    std::vector<std::string_view> keys{"question", "kind",  "of",   "until",
                                       "truth",    "right", "wrong"};
    if (form == Form::choice) keys.insert(keys.end(), {"choices", "because"});
    if (form != Form::choice) keys.push_back("tolerance");
    if (form == Form::number) keys.push_back("unit");
    return keys;
}

/// The form; a number where it is not told, which is refused.
Form form_of(const Node& node, Findings& findings) {
    const Node* kind = node.kind == Node::Kind::map ? find(node, "kind") : nullptr;
    if (kind == nullptr) {
        findings.add(node.place, "predict.kind is missing", joined(forms));
        return Form::number;
    }
    const LessonWord word = lesson_word(*kind, "predict.kind", findings);
    const auto found = std::find(forms.begin(), forms.end(), word.text);
    if (found != forms.end()) return static_cast<Form>(found - forms.begin());
    refuse_lesson_word(word, "a kind of question", forms, findings);
    return Form::number;
}

/// Only {answer} and {truth} are put in.
void check_blanks(const LessonWord& word, Findings& findings) {
    static constexpr std::array<std::string_view, 2> known{"answer", "truth"};
    std::string_view rest = word.text;
    while (true) {
        const std::size_t open = rest.find('{');
        if (open == std::string_view::npos) return;
        rest.remove_prefix(open + 1);
        const std::string_view name = rest.substr(0, rest.find('}'));
        if (std::find(known.begin(), known.end(), name) != known.end()) continue;
        findings.add(word.place, fmt::format("{{{}}} is not put in", name), "{answer} and {truth}");
    }
}

std::string_view unit_asked(const PredictStep& step) {
    return step.form == Form::clock ? clock_unit : std::string_view(step.unit);
}

/// A time of day is told within a day only.
void check_one_day(const PredictStep& step, const LessonMap& map, LessonDraft& draft) {
    const HouseAtHand& house = draft.houses[step.house];
    if (step.form != Form::clock || !house.sound()) return;
    if (end_of_run(step.until, house.scenario) <= house.scenario.start_s + plant::seconds_a_day)
        return;
    draft.findings.add(map.place(), "the run is longer than a day, and a time of day is asked",
                       "until: a moment within the first 24 hours");
}

void read_truth(PredictStep& step, const LessonMap& map, LessonDraft& draft) {
    const LessonWord truth = map.text("truth", "such as over the run: starts of pump_relay");
    step.truth = LessonPhrase{truth.text, truth.place};
    const LessonWord unit = map.text_if("unit");
    step.unit = unit.text;
    const std::array houses{step.house};
    const auto measure = measure_in(*step.truth, houses, step.until, draft);
    if (measure && !unit_fits(*measure, unit_asked(step))) {
        const bool clock = step.form == Form::clock;
        draft.findings.add(
            clock || unit.text.empty() ? truth.place : unit.place,
            clock ? in_quotes(truth.text) + " is no time of day"
                  : fmt::format("{} is no unit of {}", in_quotes(unit.text), in_quotes(truth.text)),
            clock ? "such as over the run: first time with (pump_relay is on)"
                  : fitting_units(*measure));
    }
    check_one_day(step, map, draft);
    const LessonWord tolerance = map.text("tolerance", "how far off is still right");
    step.tolerance_text = tolerance.text;
    if (tolerance.text.empty()) return;
    const Parsed<double> parsed = parse_distance(tolerance.text, unit_asked(step));
    if (!parsed.value) draft.findings.add(tolerance.place, parsed.what, parsed.allowed);
    step.tolerance = parsed.value.value_or(0.0);
}

void read_choices(PredictStep& step, const LessonMap& map, LessonDraft& draft) {
    const std::vector<LessonWord> choices = map.texts("choices", "a list of two to nine");
    step.choices = lesson_texts(choices);
    const auto count = static_cast<int>(choices.size());
    if (const Node* list = map.find("choices");
        list != nullptr && (count < 2 || count > most_choices))
        draft.findings.add(list->place, fmt::format("predict.choices: {} stand here", count),
                           "two to nine");
    step.true_choice =
        static_cast<std::size_t>(map.count("truth", 1, std::clamp(count, 1, most_choices)));
    step.because = map.text("because", "why it is so").text;
}

WrongAnswer read_wrong(const Node& node, const PredictStep& step, LessonDraft& draft) {
    static constexpr std::array<std::string_view, 3> of_numbers{"below", "above", "say"};
    static constexpr std::array<std::string_view, 2> of_choices{"choice", "say"};
    const bool choice = step.form == Form::choice;
    const LessonMap map(node, "wrong",
                        choice ? std::span<const std::string_view>(of_choices) : of_numbers,
                        draft.findings);
    WrongAnswer wrong;
    wrong.place = map.place();
    const LessonWord say = map.text("say", "what is said to such an answer");
    check_blanks(say, draft.findings);
    wrong.say = say.text;
    if (choice && map.find("choice") != nullptr) {
        wrong.kind = Kind::choice;
        const auto count = static_cast<int>(step.choices.size());
        wrong.bound = double(map.count("choice", 1, std::max(1, count)));
        if (wrong.bound == static_cast<double>(step.true_choice))
            draft.findings.add(map.find("choice")->place, "that choice is the right one",
                               "one of the others");
    }
    const LessonWord below = choice ? LessonWord{} : map.text_if("below");
    const LessonWord above = choice ? LessonWord{} : map.text_if("above");
    if (!below.text.empty() && !above.text.empty())
        draft.findings.add(map.place(), "wrong: below and above stand in one",
                           "one of them, or none where it fits all");
    const LessonWord& bound = below.text.empty() ? above : below;
    if (bound.text.empty()) return wrong;
    wrong.kind = below.text.empty() ? Kind::above : Kind::below;
    const Parsed<double> parsed = step.form == Form::clock ? parse_in_unit(bound.text, clock_unit)
                                                           : parse_in_unit(bound.text, "");
    if (!parsed.value)
        draft.findings.add(
            bound.place, parsed.what,
            step.form == Form::clock ? parsed.allowed : "a number in the question's unit");
    wrong.bound = parsed.value.value_or(0.0);
    return wrong;
}

/// Whether every wrong choice has its words.
bool all_choices_have_words(const PredictStep& step) {
    std::vector<bool> has(step.choices.size() + 1, false);
    has[std::min(step.true_choice, step.choices.size())] = true;
    for (const WrongAnswer& wrong : step.wrong)
        if (wrong.kind == Kind::choice && wrong.bound <= double(step.choices.size()))
            has[static_cast<std::size_t>(wrong.bound)] = true;
    return std::all_of(has.begin() + 1, has.end(), [](bool each) { return each; });
}

void read_all_wrong(PredictStep& step, const LessonMap& map, LessonDraft& draft) {
    const auto items = map.items("wrong", "a list of below or above or choice, and say");
    step.wrong.reserve(items.size());
    for (const Node& item : items) {
        if (!step.wrong.empty() && step.wrong.back().kind == Kind::any)
            draft.findings.add(item.place,
                               "wrong: nothing is left for this, the one before fits all",
                               "the one without below, above and choice last");
        step.wrong.push_back(read_wrong(item, step, draft));
    }
    if (items.empty() || step.wrong.back().kind == Kind::any) return;
    if (step.form == Form::choice && all_choices_have_words(step)) return;
    draft.findings.add(map.find("wrong")->place, "wrong: some answers would be left without words",
                       step.form == Form::choice
                           ? "one for each wrong choice, or a last one with say alone"
                           : "a last one with say alone, which fits all");
}

}  // namespace

PredictStep read_predict(const Node& node, LessonDraft& draft) {
    PredictStep step;
    step.form = form_of(node, draft.findings);
    const std::vector<std::string_view> keys = predict_keys_of(step.form);
    const LessonMap map(node, "predict", keys, draft.findings);
    step.question = map.text("question", "one question").text;
    step.house = house_of(map, draft);
    const std::array houses{step.house};
    step.until = until_of(map, houses, draft);
    if (step.form == Form::choice)
        read_choices(step, map, draft);
    else
        read_truth(step, map, draft);
    const LessonWord right = map.text("right", "what is said to a right answer");
    check_blanks(right, draft.findings);
    step.right = right.text;
    read_all_wrong(step, map, draft);
    return step;
}

}  // namespace noonbench::harness
