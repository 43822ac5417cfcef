// SPDX-License-Identifier: MIT
// A learner's place in a lesson, as it is kept and found again.
#include "lesson_place.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

void must_fit(bool fits) {
    if (!fits) throw std::runtime_error("the lesson has other steps than were kept");
}

/// Null, or what an answer to the step may be.
bool may_be_result(const LessonStep& step, const json::value& result) {
    if (result.is_null()) return true;
    if (!result.is_object() || !result.get_object().contains("is")) return false;
    const json::value& is = result.get_object().at("is");
    if (!is.is_string()) return false;
    const auto has = [&](std::string_view word) { return is.get_string() == word; };
    if (std::holds_alternative<PredictStep>(step)) return has("predicted");
    if (std::holds_alternative<TryStep>(step)) return has("compared");
    if (std::holds_alternative<TaskStep>(step)) return has("task_judged");
    return std::holds_alternative<HuntStep>(step) && (has("hunting") || has("hunt_over"));
}

}  // namespace

bool is_secret_still(const LessonPlace& place, std::size_t house) {
    if (house == 0) return false;
    const std::vector<LessonStep>& steps = place.lesson->steps;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto* hunt = std::get_if<HuntStep>(&steps[i]);
        if (hunt == nullptr || is_settled(place, i)) continue;
        const auto found = std::find(hunt->hidden.begin(), hunt->hidden.end(), house);
        if (found != hunt->hidden.end()) return true;
    }
    return false;
}

json::object kept_place(const LessonPlace& place) {
    json::array results(place.results.begin(), place.results.end());
    json::array drawn(place.drawn.begin(), place.drawn.end());
    return {{"step", place.step},
            {"results", std::move(results)},
            {"drawn", std::move(drawn)},
            {"house", place.house}};
}

LessonPlace place_kept(const Lesson& lesson, const json::object& kept) {
    LessonPlace place = begun(lesson, 0);
    const std::size_t steps = lesson.steps.size();
    const json::array& results = kept.at("results").as_array();
    const json::array& drawn = kept.at("drawn").as_array();
    place.step = kept.at("step").to_number<std::size_t>();
    place.house = kept.at("house").to_number<std::size_t>();
    must_fit(results.size() == steps && drawn.size() == steps && place.step <= steps &&
             place.house < lesson.houses.size());
    for (std::size_t i = 0; i < steps; ++i) {
        must_fit(may_be_result(lesson.steps[i], results[i]));
        place.results[i] = results[i];
        place.drawn[i] = drawn[i].to_number<std::size_t>();
        const auto* hunt = std::get_if<HuntStep>(&lesson.steps[i]);
        must_fit(hunt == nullptr || std::find(hunt->hidden.begin(), hunt->hidden.end(),
                                              place.drawn[i]) != hunt->hidden.end());
    }
    static_cast<void>(marks_of(place));  // what it counts is there
    static_cast<void>(lesson_state_message(place, 0, 0));
    return place;
}

}  // namespace noonbench::harness
