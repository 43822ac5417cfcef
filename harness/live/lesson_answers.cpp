// SPDX-License-Identifier: MIT
#include "lesson_answers.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

json::array places_json(std::span<const std::size_t> places) {
    json::array list;
    for (const std::size_t place : places) list.emplace_back(place);
    return list;
}

json::array points_json(const ShortTrace::Course& course, CivilSeconds start_s) {
    json::array points;
    for (const auto& [at_s, value] : course.points) {
        points.emplace_back(json::array{at_s - start_s, std::round(value * 1000.0) / 1000.0});
    }
    return points;
}

json::value trace_json(const ShortTrace& trace, CivilSeconds start_s) {
    if (trace.courses.empty()) return nullptr;
    json::array signals;
    for (const ShortTrace::Course& course : trace.courses) {
        signals.emplace_back(json::object{{"name", course.signal},
                                          {"unit", course.unit},
                                          {"points", points_json(course, start_s)}});
    }
    return json::object{
        {"from_s", trace.from_s - start_s}, {"to_s", trace.to_s - start_s}, {"signals", signals}};
}

json::value from_start(const std::optional<CivilSeconds>& at_s, CivilSeconds start_s) {
    if (!at_s) return nullptr;
    return *at_s - start_s;
}

}  // namespace

json::object predicted_message(std::size_t step, const PredictStep& question,
                               const std::string& answer, const Answered& answered,
                               std::span<const RaisedHands> hands, CivilSeconds start_s) {
    json::object message{
        {"is", "predicted"},       {"step", step},
        {"answer", nullptr},       {"right", answered.right},
        {"truth", answered.truth}, {"unit", question.unit},
        {"say", answered.say},     {"truth_s", from_start(answered.truth_at_s, start_s)},
        {"answer_s", nullptr},     {"trace", trace_json(answered.trace, start_s)}};
    if (hands.empty()) {
        message["answer"] = answer;
        message["answer_s"] = from_start(answered.answer_at_s, start_s);
        return message;
    }
    json::array groups;
    for (const RaisedHands& group : hands) {
        groups.emplace_back(
            json::object{{"answer", group.answer}, {"count", group.count}, {"right", group.right}});
    }
    message["hands"] = groups;
    return message;
}

json::object compared_message(std::size_t step, const Lesson& lesson, const TryStep& tried,
                              const ComparedRuns& runs, CivilSeconds start_s) {
    json::array rows;
    json::array cells;
    for (std::size_t row = 0; row < tried.houses.size(); ++row) {
        rows.emplace_back(lesson.houses[tried.houses[row]].name);
        json::array line;
        for (const std::string& cell : runs.cells[row]) line.emplace_back(cell);
        cells.emplace_back(line);
    }
    json::array columns;
    for (const Compared& each : tried.compare) {
        columns.emplace_back(json::object{{"name", each.name}, {"unit", each.unit}});
    }
    json::array traces;
    for (std::size_t c = 0; !runs.traces.empty() && c < runs.traces.front().courses.size(); ++c) {
        json::array each;
        for (const ShortTrace& trace : runs.traces) {
            each.emplace_back(points_json(trace.courses[c], start_s));
        }
        const ShortTrace::Course& first = runs.traces.front().courses[c];
        traces.emplace_back(
            json::object{{"signal", first.signal}, {"unit", first.unit}, {"each", each}});
    }
    return {{"is", "compared"},   {"step", step},   {"rows", rows},
            {"columns", columns}, {"cells", cells}, {"traces", traces}};
}

json::object task_judged_message(std::size_t step, const TaskStep& task,
                                 const std::vector<JudgedPart>& parts) {
    json::array told;
    bool met = true;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        met = met && parts[i].held;
        told.emplace_back(
            json::object{{"name", task.require[i].name},
                         {"held", parts[i].held},
                         {"words", parts[i].words},
                         {"hint", parts[i].held ? std::string() : task.require[i].hint}});
    }
    return {{"is", "task_judged"}, {"step", step}, {"met", met}, {"parts", told}};
}

int spent_min(const json::value& hunting) {
    return hunting.is_object() ? hunting.get_object().at("spent").to_number<int>() : 0;
}

json::object hunting_message(std::size_t step, const HuntStep& hunt, const json::value& before,
                             std::size_t measurement, const std::string& reads) {
    json::array looks;
    if (before.is_object()) looks = before.get_object().at("looks").get_array();
    looks.emplace_back(json::object{{"measurement", measurement}, {"reads", reads}});
    const int spent = spent_min(before) + hunt.measurements[measurement].price_min;
    return {{"is", "hunting"},
            {"step", step},
            {"looks", looks},
            {"spent", spent},
            {"left", hunt.budget_min - spent}};
}

json::object hunt_over_message(std::size_t step, const Lesson& lesson, const HuntStep& hunt,
                               std::size_t drawn, const json::value& before,
                               std::vector<std::size_t> named) {
    std::sort(named.begin(), named.end());
    const auto at = std::find(hunt.hidden.begin(), hunt.hidden.end(), drawn);
    const auto& were = hunt.right[static_cast<std::size_t>(at - hunt.hidden.begin())];
    json::array feedback;
    for (std::size_t cause = 0; cause < hunt.causes.size(); ++cause) {
        feedback.emplace_back(json::object{{"cause", cause}, {"say", hunt.feedback[cause]}});
    }
    const int spent = spent_min(before);
    return {{"is", "hunt_over"},
            {"step", step},
            {"right", named == were},
            {"named", places_json(named)},
            {"were", places_json(were)},
            {"house", lesson.houses[drawn].name},
            {"feedback", feedback},
            {"looks", before.is_object() ? before.get_object().at("looks") : json::array()},
            {"spent", spent},
            {"left", hunt.budget_min - spent}};
}

}  // namespace noonbench::harness
