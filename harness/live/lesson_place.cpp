// SPDX-License-Identifier: MIT
#include "lesson_place.hpp"

#include "plant/calendar.hpp"
#include "plant/random.hpp"

#include "harness/bench/clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

constexpr CivilSeconds after_the_truth_s = 600;  // seen of it, before the next question

template <class Step>
const Step* as(const LessonStep* step) {
    return step != nullptr ? std::get_if<Step>(step) : nullptr;
}

json::array texts(const std::vector<std::string>& lines) {
    json::array list;
    for (const std::string& line : lines) list.emplace_back(line);
    return list;
}

json::value seconds_or_null(const LessonUntil& until, CivilSeconds start_s) {
    if (!until.time_of_day_s && !until.moment_s) return nullptr;
    return moment_of(until, start_s, start_s) - start_s;
}

/// The steps as a page is told of them: nothing that would answer a question.
struct ToldStep {
    const Lesson& lesson;
    CivilSeconds start_s;

    json::object operator()(const TextStep& step) const {
        return {{"kind", "text"}, {"text", step.text}};
    }
    json::object operator()(const PredictStep& step) const {
        constexpr std::array<std::string_view, 3> forms{"clock", "number", "choice"};
        return {{"kind", "predict"},
                {"question", step.question},
                {"form", json::string(forms[static_cast<std::size_t>(step.form)])},
                {"unit", step.unit},
                {"tolerance", step.tolerance_text},
                {"choices", texts(step.choices)}};
    }
    json::object operator()(const WatchStep& step) const {
        return {{"kind", "watch"},
                {"say", step.say},
                {"until_s", seconds_or_null(step.until, start_s)},
                {"look_at", texts(step.look_at)}};
    }
    json::object operator()(const TryStep& step) const {
        json::array forks;
        for (const std::size_t house : step.houses) forks.emplace_back(lesson.houses[house].name);
        json::array compare;
        for (const Compared& each : step.compare) {
            compare.emplace_back(json::object{{"name", each.name}, {"unit", each.unit}});
        }
        return {{"kind", "try"},
                {"say", step.say},
                {"forks", forks},
                {"until_s", seconds_or_null(step.until, start_s)},
                {"compare", compare}};
    }
    json::object operator()(const TaskStep& step) const {
        json::array parts;
        for (const TaskPart& part : step.require) parts.emplace_back(part.name);
        return {{"kind", "task"}, {"say", step.say}, {"require", parts}};
    }
    json::object operator()(const HuntStep& step) const {
        json::array looks;
        for (const HuntMeasurement& each : step.measurements) {
            looks.emplace_back(json::object{{"name", each.name}, {"price", each.price_min}});
        }
        return {{"kind", "hunt"},
                {"say", step.say},
                {"budget", step.budget_min},
                {"measurements", looks},
                {"causes", texts(step.causes)},
                {"how_many", step.right.front().size()}};
    }
};

bool is_word(const json::value& result, std::string_view word) {
    return result.is_object() && result.get_object().at("is").get_string() == word;
}

bool flag(const json::value& result, std::string_view key) {
    return result.is_object() && result.get_object().contains(key) &&
           result.get_object().at(key).get_bool();
}

}  // namespace

LessonPlace begun(const Lesson& lesson, std::uint64_t seed) {
    const plant::RandomStream lots = plant::sub_stream(plant::random_stream(seed, "lesson.lot"),
                                                       static_cast<std::uint64_t>(lesson.number));
    LessonPlace place{&lesson, 0, std::vector<json::value>(lesson.steps.size()),
                      std::vector<std::size_t>(lesson.steps.size()), 0};
    for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
        const auto* hunt = std::get_if<HuntStep>(&lesson.steps[i]);
        if (hunt == nullptr) continue;
        const std::uint64_t lot = plant::random_bits(lots, i);
        place.drawn[i] = hunt->hidden[lot % hunt->hidden.size()];
    }
    return place;
}

const LessonStep* present_step(const LessonPlace& place) {
    return place.step < place.lesson->steps.size() ? &place.lesson->steps[place.step] : nullptr;
}

bool is_settled(const LessonPlace& place, std::size_t step) {
    const LessonStep& it = place.lesson->steps[step];
    if (std::holds_alternative<PredictStep>(it)) return !place.results[step].is_null();
    if (std::holds_alternative<HuntStep>(it)) return is_word(place.results[step], "hunt_over");
    return true;
}

bool must_commit(const LessonPlace& place) {
    return as<PredictStep>(present_step(place)) != nullptr && !is_settled(place, place.step);
}

bool is_hunting(const LessonPlace& place) {
    return as<HuntStep>(present_step(place)) != nullptr && !is_settled(place, place.step);
}

std::optional<std::size_t> house_wanted(const LessonPlace& place) {
    const LessonStep* step = present_step(place);
    if (const auto* predict = as<PredictStep>(step)) return predict->house;
    if (const auto* watch = as<WatchStep>(step)) return watch->house;
    if (const auto* task = as<TaskStep>(step)) return task->house;
    return std::nullopt;
}

bool is_secret(const Lesson& lesson, std::size_t house) {
    if (house == 0) return false;
    return std::any_of(lesson.steps.begin(), lesson.steps.end(), [&](const LessonStep& step) {
        const auto* hunt = std::get_if<HuntStep>(&step);
        return hunt != nullptr &&
               std::find(hunt->hidden.begin(), hunt->hidden.end(), house) != hunt->hidden.end();
    });
}

CivilSeconds moment_of(const LessonUntil& until, CivilSeconds start_s, CivilSeconds otherwise) {
    if (until.moment_s) return *until.moment_s;
    if (!until.time_of_day_s) return otherwise;
    const CivilSeconds moment = day_start(start_s) + *until.time_of_day_s;
    return moment > start_s ? moment : moment + plant::seconds_a_day;
}

CivilSeconds time_stops_at(const LessonPlace& place, CivilSeconds start_s, CivilSeconds shown_s,
                           CivilSeconds last_s) {
    const LessonStep* step = present_step(place);
    if (step == nullptr) return last_s;
    if (must_commit(place) || is_hunting(place)) return shown_s;
    if (const auto* watch = as<WatchStep>(step)) return moment_of(watch->until, start_s, last_s);
    const std::size_t next = place.step + 1;
    if (next >= place.lesson->steps.size()) return last_s;
    const auto* question = std::get_if<PredictStep>(&place.lesson->steps[next]);
    if (question == nullptr || is_settled(place, next) || question->house != place.house) {
        return last_s;
    }
    const json::value& result = place.results[place.step];
    if (!result.is_object() || !result.get_object().contains("truth_s")) return shown_s;
    const json::value& truth_s = result.get_object().at("truth_s");
    if (truth_s.is_null()) return shown_s;
    return std::min(last_s, start_s + truth_s.to_number<CivilSeconds>() + after_the_truth_s);
}

json::object lesson_message(const LessonPlace& place, const std::string& path,
                            CivilSeconds start_s) {
    const Lesson& lesson = *place.lesson;
    json::array steps;
    for (const LessonStep& step : lesson.steps) {
        steps.emplace_back(std::visit(ToldStep{lesson, start_s}, step));
    }
    return {{"is", "lesson"},
            {"path", path},
            {"number", lesson.number},
            {"title", lesson.title},
            {"minutes", lesson.minutes},
            {"aim", lesson.aim},
            {"cautions", texts(lesson.cautions)},
            {"interesting_s",
             seconds_or_null(LessonUntil{lesson.interesting_s, std::nullopt}, start_s)},
            {"steps", steps}};
}

json::object lesson_state_message(const LessonPlace& place, CivilSeconds start_s,
                                  CivilSeconds stops_s) {
    json::array results;
    for (const json::value& result : place.results) results.emplace_back(result);
    const bool finished = present_step(place) == nullptr;
    return {{"is", "lesson_state"},
            {"step", place.step},
            {"results", results},
            {"must_commit", must_commit(place)},
            {"time_stops_s", stops_s - start_s},
            {"take_away", finished ? place.lesson->take_away : std::string()}};
}

LessonMarks marks_of(const LessonPlace& place) {
    LessonMarks marks;
    for (std::size_t i = 0; i < place.results.size(); ++i) {
        const json::value& result = place.results[i];
        const LessonStep& step = place.lesson->steps[i];
        if (std::holds_alternative<PredictStep>(step) && !result.is_null()) {
            ++marks.asked;
            marks.right += flag(result, "right");
        } else if (std::holds_alternative<TaskStep>(step)) {
            ++marks.tasks;
            marks.tasks_met += flag(result, "met");
        } else if (std::holds_alternative<HuntStep>(step)) {
            ++marks.hunts;
            marks.hunts_right += flag(result, "right");
            if (result.is_object())
                marks.spent_min += result.get_object().at("spent").to_number<int>();
        }
    }
    return marks;
}

}  // namespace noonbench::harness
