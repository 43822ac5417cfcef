// SPDX-License-Identifier: MIT
#include "asked.hpp"

#include "answer.hpp"
#include "house_found.hpp"
#include "lesson_house.hpp"
#include "lesson_lever.hpp"
#include "lesson_unit.hpp"
#include "task_parts.hpp"

#include "harness/bench/clock.hpp"
#include "harness/language/number_phrase.hpp"

#include <algorithm>
#include <cmath>
#include <future>
#include <map>
#include <mutex>
#include <stdexcept>
#include <utility>

namespace noonbench::harness {
namespace {

constexpr std::size_t most_points = 240;
constexpr CivilSeconds around_a_clock_s = 3600;

using FoundPtr = std::shared_ptr<const HouseFound>;

ShortTrace short_trace(const HouseFound& found, const std::vector<std::string>& signals,
                       CivilSeconds from_s, CivilSeconds to_s) {
    ShortTrace trace;
    trace.from_s = from_s;
    trace.to_s = to_s;
    trace.courses.reserve(signals.size());
    for (const std::string& name : signals)
        trace.courses.push_back(
            {name, found.signal(name).unit,
             thinned_course(found.courses.at(name), from_s, to_s, most_points)});
    return trace;
}

double number_shown(const HouseFound& found, const LessonPhrase& phrase, const LessonUntil& until,
                    std::string_view unit) {
    const NumberPhrase understood = parse_number(phrase.text, phrase.place, found.signals);
    return shown_value(found.value_of(phrase, until), understood.number->measure, unit);
}

/// Where the moments of a clock question lie, and the stretch to be drawn around them.
void place_moments(Answered& answered, const GivenAnswer& given, double truth,
                   const HouseFound& found, CivilSeconds end_s) {
    const auto moment = [&](double clock_s) {
        return next_time_of_day(static_cast<std::int32_t>(clock_s), found.scenario.start_s);
    };
    answered.answer_at_s = moment(given.value);
    if (!std::isnan(truth)) answered.truth_at_s = moment(truth);
    const CivilSeconds a = *answered.answer_at_s;
    const CivilSeconds b = answered.truth_at_s.value_or(a);
    answered.trace.from_s =
        std::clamp(std::min(a, b) - around_a_clock_s, found.scenario.start_s, end_s);
    answered.trace.to_s =
        std::clamp(std::max(a, b) + around_a_clock_s, found.scenario.start_s, end_s);
}

Answered answered_by(const HouseFound& found, const PredictStep& step, std::string_view answer) {
    const GivenAnswer given = given_answer(step, answer);
    const CivilSeconds start = found.scenario.start_s;
    const CivilSeconds end = end_of_run(step.until, found.scenario);
    const double truth = step.truth ? number_shown(found, *step.truth, step.until, step.unit) : 0.0;
    const ToldTruth told = told_truth(step, truth);
    Reply reply = reply_to(step, given, told, static_cast<double>(second_of_day(start)));

    Answered answered;
    answered.right = reply.right;
    answered.truth = told.text;
    answered.say = std::move(reply.say);
    answered.trace.from_s = start;
    answered.trace.to_s = end;
    if (step.form == PredictStep::Form::clock) place_moments(answered, given, truth, found, end);
    const LessonPhrase* phrase = step.truth ? &*step.truth : nullptr;
    answered.trace = short_trace(found, drawn_signals(phrase, found.signals), answered.trace.from_s,
                                 answered.trace.to_s);
    return answered;
}

const std::string& reading_for(const HuntMeasurement& measurement, std::string_view key) {
    for (const auto& [each, words] : measurement.reads)
        if (each == key) return words;
    throw std::logic_error("nothing is read of " + std::string(key));
}

}  // namespace

struct Asked::Parts {
    using Key = std::pair<std::filesystem::path, std::size_t>;
    std::mutex mutex;
    std::map<Key, std::shared_future<FoundPtr>> known;

    /// A run of the house as it is, once for all that the lesson asks of it.
    FoundPtr found(const Lesson& lesson, std::size_t house);
};

FoundPtr Asked::Parts::found(const Lesson& lesson, std::size_t house) {
    const Key key{lesson.file, house};
    std::promise<FoundPtr> promise;
    {
        std::unique_lock lock(mutex);
        const auto [at, is_new] = known.try_emplace(key);
        if (!is_new) {
            const std::shared_future<FoundPtr> underway = at->second;
            lock.unlock();
            return underway.get();
        }
        at->second = promise.get_future().share();
    }
    try {
        auto made = std::make_shared<const HouseFound>(
            found_in_house(scenario_of(lesson, house), phrases_of_house(lesson, house)));
        promise.set_value(made);
        return made;
    } catch (...) {
        promise.set_exception(std::current_exception());
        const std::lock_guard lock(mutex);
        known.erase(key);
        throw;
    }
}

Asked::Asked() : parts_(std::make_unique<Parts>()) {}
Asked::~Asked() = default;

Answered Asked::predicted(const Lesson& lesson, const PredictStep& step, std::string_view answer,
                          std::span<const Move> by_hand) {
    if (by_hand.empty()) return answered_by(*parts_->found(lesson, step.house), step, answer);
    const std::vector<PhraseAsked> asked{{step.truth.value_or(LessonPhrase{}), step.until}};
    return answered_by(found_in_house(scenario_of(lesson, step.house, by_hand), asked), step,
                       answer);
}

ComparedRuns Asked::compared(const Lesson& lesson, const TryStep& step) {
    ComparedRuns compared;
    compared.cells.reserve(step.houses.size());
    compared.traces.reserve(step.houses.size());
    for (const std::size_t house : step.houses) {
        const FoundPtr found = parts_->found(lesson, house);
        std::vector<std::string>& row = compared.cells.emplace_back();
        row.reserve(step.compare.size());
        for (const Compared& each : step.compare)
            row.push_back(
                shown_text(number_shown(*found, each.number, step.until, each.unit), each.unit));
        compared.traces.push_back(short_trace(*found, drawn_signals(nullptr, found->signals),
                                              found->scenario.start_s,
                                              end_of_run(step.until, found->scenario)));
    }
    return compared;
}

std::vector<JudgedPart> Asked::task(const Lesson& lesson, const TaskStep& step,
                                    std::span<const Move> by_hand) {
    return judged_task_parts(step, scenario_of(lesson, step.house, by_hand));
}

std::string Asked::look(const Lesson& lesson, const HuntStep& step, std::size_t measurement,
                        std::size_t house) {
    const HuntMeasurement& shown = step.measurements.at(measurement);
    switch (shown.shows) {
        case HuntMeasurement::Shows::text:
            return reading_for(shown, lesson.houses.at(house).name);
        case HuntMeasurement::Shows::lever: {
            const double value = lever_at_last(scenario_of(lesson, house), shown.lever);
            const std::string* words = lever_reading(shown, value);
            if (words == nullptr) throw std::logic_error("nothing is read of " + shown.lever);
            return *words;
        }
        case HuntMeasurement::Shows::condition:
            return reading_for(shown, parts_->found(lesson, house)->value_of(shown.phrase, {}) > 0.5
                                          ? "on"
                                          : "off");
        default:
            break;
    }
    const double value = number_shown(*parts_->found(lesson, house), shown.phrase, {}, shown.unit);
    if (std::isnan(value)) return "no reading";
    return shown_text(value, shown.unit) + unit_behind(shown.unit);
}

}  // namespace noonbench::harness
