// SPDX-License-Identifier: MIT
#include "house_found.hpp"

#include "lesson_house.hpp"
#include "lesson_time.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <variant>

namespace noonbench::harness {
namespace {

constexpr std::array<const char*, 3> always_drawn{"collector_reading_c", "store_bottom_reading_c",
                                                  "pump_relay"};

void add_once(std::vector<std::string>& names, const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

}  // namespace

double HouseFound::value_of(const LessonPhrase& phrase, const LessonUntil& until) const {
    const auto found = values.find({phrase.text, end_of_run(until, scenario)});
    if (found == values.end()) throw std::logic_error("not asked: " + phrase.text);
    return found->second;
}

const traces::Signal& HouseFound::signal(const std::string& name) const {
    const auto found = std::find_if(signals.begin(), signals.end(),
                                    [&](const traces::Signal& s) { return s.name == name; });
    if (found == signals.end()) throw std::logic_error("no signal " + name);
    return *found;
}

std::vector<std::string> drawn_signals(const LessonPhrase* truth,
                                       std::span<const traces::Signal> signals) {
    std::vector<std::string> names(always_drawn.begin(), always_drawn.end());
    if (truth == nullptr) return names;
    for (const std::size_t used : parse_number(truth->text, truth->place, signals).signals) {
        const traces::Signal& signal = signals[used];
        if (signal.kind != traces::SignalKind::number) continue;
        const std::size_t before = names.size();
        add_once(names, signal.name);
        if (names.size() > before) break;
    }
    return names;
}

HouseFound found_in_house(Scenario scenario, std::span<const PhraseAsked> phrases) {
    HouseFound found;
    found.signals = judged_signals(scenario);
    RunQuestions questions;
    questions.courses = drawn_signals(nullptr, found.signals);
    questions.numbers.reserve(phrases.size());
    std::vector<std::pair<std::string, CivilSeconds>> keys;
    keys.reserve(phrases.size());
    for (const auto& [phrase, until] : phrases) {
        const CivilSeconds end = end_of_run(until, scenario);
        questions.courses_end_s = std::max(questions.courses_end_s, end);
        if (phrase.text.empty()) continue;
        NumberPhrase understood = parse_number(phrase.text, phrase.place, found.signals);
        const CivilSeconds tick = tick_of(understood, until, scenario);
        questions.numbers.push_back(
            {std::move(understood.number), std::move(understood.condition), tick});
        keys.emplace_back(phrase.text, end);
        for (const std::string& name : drawn_signals(&phrase, found.signals))
            add_once(questions.courses, name);
    }
    RunAnswers answers = answered_by_run(scenario, questions);
    for (std::size_t i = 0; i < keys.size(); ++i) found.values[keys[i]] = answers.numbers[i];
    for (std::size_t i = 0; i < questions.courses.size(); ++i)
        found.courses[questions.courses[i]] = std::move(answers.courses[i]);
    found.scenario = std::move(scenario);
    return found;
}

std::vector<PhraseAsked> phrases_of_house(const Lesson& lesson, std::size_t house) {
    std::vector<PhraseAsked> asked;
    const auto is_among = [house](const std::vector<std::size_t>& houses) {
        return std::find(houses.begin(), houses.end(), house) != houses.end();
    };
    for (const LessonStep& step : lesson.steps) {
        if (const auto* predict = std::get_if<PredictStep>(&step)) {
            if (predict->house == house)
                asked.push_back({predict->truth.value_or(LessonPhrase{}), predict->until});
        } else if (const auto* attempt = std::get_if<TryStep>(&step)) {
            if (!is_among(attempt->houses)) continue;
            for (const Compared& each : attempt->compare)
                asked.push_back({each.number, attempt->until});
        } else if (const auto* hunt = std::get_if<HuntStep>(&step)) {
            if (!is_among(hunt->hidden)) continue;
            for (const HuntMeasurement& each : hunt->measurements)
                if (!each.phrase.text.empty()) asked.push_back({each.phrase, {}});
        }
    }
    return asked;
}

}  // namespace noonbench::harness
