// SPDX-License-Identifier: MIT
// A scripted learner goes through every lesson of the shelf: once giving each wrong answer that the
// lesson has words for, once the right ones. Nothing here knows a truth but from the bench.
#include "short_form.hpp"

#include "harness/live/session.hpp"
#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/yaml_tree.hpp"

#include <fmt/format.h>

#include <boost/json.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

BOOST_AUTO_TEST_SUITE(live_lesson)

using namespace noonbench;
using namespace noonbench::harness;
namespace json = boost::json;

namespace {

const Shelf& shelf() {
    static const Shelf all(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios");
    return all;
}

/// One for all learners, as on a server: each house is run once.
LessonDesk& desk() {
    static LessonDesk one;
    return one;
}

/// All of them; where time is dear, one in four.
bool is_due(int number) {
    return !is_short_form() || number % 4 == 0;
}

std::vector<const ShelfItem*> lessons() {
    std::vector<const ShelfItem*> all;
    for (const ShelfItem& item : shelf().items()) {
        if (item.lesson != nullptr) all.push_back(&item);
    }
    return all;
}

/// A page without a screen: says things, and remembers what it was told last of each kind.
struct Learner {
    Session session{shelf(), desk()};
    json::object heard;
    LessonPlace lots;  // the same lots, to know what is hidden

    explicit Learner(const ShelfItem& lesson) {
        say({{"do", "open"}, {"path", lesson.path}});
        lots = begun(*lesson.lesson, desk().lessons_begun);
    }

    /// The words of an error, empty if there was none.
    std::string say(const json::object& message) {
        std::string error;
        for (const std::string& answer : session.take(json::serialize(message))) {
            const json::object told = json::parse(answer).as_object();
            if (told.at("is").as_string() == "error") error = told.at("what").as_string();
            heard[told.at("is").as_string()] = told;
        }
        return error;
    }
    json::object told(std::string_view is) {
        BOOST_TEST_REQUIRE(heard.contains(is), "heard of " << is);
        return heard.at(is).as_object();
    }
    std::size_t step() { return told("lesson_state").at("step").to_number<std::size_t>(); }
    void go_on() { BOOST_TEST_REQUIRE(say({{"do", "lesson_go"}, {"step", step() + 1}}) == ""); }
    json::object predict(const std::string& answer) {
        const std::string error = say({{"do", "predict"}, {"step", step()}, {"answer", answer}});
        BOOST_TEST_REQUIRE(error == "", error << " (" << answer << ")");
        return told("predicted");
    }
    void run_to(std::int64_t at_s) {
        BOOST_TEST_REQUIRE(say({{"do", "jump"}, {"to_s", at_s}}) == "");
        for (int beats = 0; session.moves() && beats < 10000; ++beats) {
            static_cast<void>(session.pass(0.1));
        }
    }
};

std::string number_text(const PredictStep& step, double value) {
    if (step.form == PredictStep::Form::clock) {
        return time_of_day_text(static_cast<std::int32_t>(value) / 60 * 60);
    }
    return step.form == PredictStep::Form::choice ? std::to_string(static_cast<int>(value))
                                                  : fmt::format("{:.6g}", value);
}

double number_of(const PredictStep& step, const std::string& text) {
    if (step.form == PredictStep::Form::clock) return *parse_time_of_day(text).value;
    return std::stod(text);
}

bool fits(const WrongAnswer& wrong, double answer) {
    switch (wrong.kind) {
        case WrongAnswer::Kind::below:
            return answer < wrong.bound;
        case WrongAnswer::Kind::above:
            return answer > wrong.bound;
        case WrongAnswer::Kind::choice:
            return answer == wrong.bound;
        case WrongAnswer::Kind::any:
            break;
    }
    return true;
}

/// An answer that is wrong and is met by the words at `which`, if there is one.
std::optional<double> answer_for(const PredictStep& step, std::size_t which, double truth) {
    const double unit = step.form == PredictStep::Form::clock ? 60.0 : 0.1;
    std::vector<double> candidates;
    for (const WrongAnswer& wrong : step.wrong) {
        for (const double off : {-unit, 0.0, unit}) candidates.push_back(wrong.bound + off);
    }
    for (const double off : {-2.0, -1.2, 1.2, 2.0}) {
        candidates.push_back(truth + off * std::max(step.tolerance, unit));
    }
    for (double& candidate : candidates) {
        candidate = number_of(
            step,
            number_text(step, std::max(candidate,
                                       step.form == PredictStep::Form::clock ? 0.0 : candidate)));
    }
    for (const double candidate : candidates) {
        // Near the edge of the tolerance the rounding of the truth as shown would decide.
        if (std::abs(candidate - truth) <= 1.1 * step.tolerance + 0.01) continue;
        const auto first = std::find_if(step.wrong.begin(), step.wrong.end(),
                                        [&](const WrongAnswer& w) { return fits(w, candidate); });
        if (static_cast<std::size_t>(first - step.wrong.begin()) == which) return candidate;
    }
    return std::nullopt;
}

std::string filled_in(std::string words, std::string_view slot, const std::string& value) {
    for (std::size_t at = words.find(slot); at != std::string::npos; at = words.find(slot, at)) {
        words.replace(at, slot.size(), value);
        at += value.size();
    }
    return words;
}

/// Makes the task's solution by hand: settings and levers, each at its moment.
void solve(Learner& learner, const TaskStep& task) {
    for (const std::string& set : task.solution) {
        const std::size_t equals = set.find('=');
        const std::string key = set.substr(0, equals);
        const std::string value = set.substr(equals + 1);
        if (key.starts_with("controller.")) {
            const std::string error = learner.say(
                {{"do", "move"}, {"kind", "setting"}, {"name", key.substr(11)}, {"to", value}});
            BOOST_TEST_REQUIRE(error == "", set << ": " << error);
            continue;
        }
        BOOST_TEST_REQUIRE(key == "moves");
        for (const Node& move : parse_yaml(value, "solution").items) {
            const Node* setting = find(move, "setting");
            const Node* at = find(move, "at");
            if (at != nullptr) learner.run_to(*parse_time_of_day(at->text).value - 1);
            const std::string error =
                learner.say({{"do", "move"},
                             {"kind", setting != nullptr ? "setting" : "lever"},
                             {"name", (setting != nullptr ? setting : find(move, "lever"))->text},
                             {"to", find(move, "to")->text}});
            BOOST_TEST_REQUIRE(error == "", set << ": " << error);
        }
    }
}

/// What is said to an answer; of a choice it is followed by why the true one is true.
std::string words_for(const PredictStep& step, const std::string& words, const std::string& answer,
                      const std::string& truth) {
    const bool choice = step.form == PredictStep::Form::choice && !step.because.empty();
    return filled_in(filled_in(choice ? words + " " + step.because : words, "{answer}", answer),
                     "{truth}", truth);
}

/// Each wrong answer that the question has words for is met by just these words.
void hold_to_its_words(const Lesson& lesson, const PredictStep& step, const std::string& truth) {
    int met = 0;
    for (std::size_t which = 0; which < step.wrong.size(); ++which) {
        const auto answer = answer_for(step, which, number_of(step, truth));
        if (!answer) continue;
        ++met;
        const std::string text = number_text(step, *answer);
        const Answered answered = desk().asked.predicted(lesson, step, text, {});
        BOOST_TEST(!answered.right, text << " taken for right, truth " << truth);
        BOOST_TEST(answered.say == words_for(step, step.wrong[which].say, text, truth));
    }
    BOOST_TEST(met > 0, "no wrong answer found for: " << step.question);
}

void predict_rightly(Learner& learner, const Lesson& lesson, const PredictStep& step) {
    BOOST_TEST(learner.told("lesson_state").at("must_commit").as_bool());
    BOOST_TEST(learner.say({{"do", "pace"}, {"times", 60}}) == "first commit to your prediction");
    const std::string truth =
        desk()
            .asked
            .predicted(lesson, step, step.form == PredictStep::Form::clock ? "00:00" : "1", {})
            .truth;
    const json::object predicted = learner.predict(truth);
    BOOST_TEST(predicted.at("right").as_bool(), "the truth " << truth << " is not right");
    BOOST_TEST(predicted.at("say").as_string() == words_for(step, step.right, truth, truth));
    BOOST_TEST(!learner.told("lesson_state").at("must_commit").as_bool());
    BOOST_TEST(learner.say({{"do", "predict"}, {"step", learner.step()}, {"answer", truth}}) ==
               "you have committed already");
    hold_to_its_words(lesson, step, truth);
}

void predict_wrongly(Learner& learner, const PredictStep& step, const std::string& truth) {
    for (std::size_t which = 0; which < step.wrong.size(); ++which) {
        const auto answer = answer_for(step, which, number_of(step, truth));
        if (!answer) continue;
        const std::string text = number_text(step, *answer);
        const json::object predicted = learner.predict(text);
        BOOST_TEST(!predicted.at("right").as_bool());
        BOOST_TEST(predicted.at("say").as_string() ==
                   words_for(step, step.wrong[which].say, text, truth));
        return;
    }
    BOOST_TEST(false, "no wrong answer found");
}

json::object judged(Learner& learner) {
    BOOST_TEST_REQUIRE(learner.say({{"do", "judge_task"}, {"step", learner.step()}}) == "");
    return learner.told("task_judged");
}

bool has_hint(const json::object& task) {
    return std::any_of(task.at("parts").as_array().begin(), task.at("parts").as_array().end(),
                       [](const json::value& part) {
                           return !part.at("held").as_bool() &&
                                  !part.at("hint").as_string().empty();
                       });
}

json::array places(const std::vector<std::size_t>& causes) {
    json::array list;
    for (const std::size_t cause : causes) list.emplace_back(cause);
    return list;
}

/// Looks while the minutes last, then names so many causes.
json::object name_causes(Learner& learner, const HuntStep& hunt, bool rightly) {
    BOOST_TEST(learner.say({{"do", "pace"}, {"times", 60}}) != "", "time moves in a hunt");
    int left = hunt.budget_min;
    for (std::size_t k = 0; k < hunt.measurements.size(); ++k) {
        const std::string error =
            learner.say({{"do", "look"}, {"step", learner.step()}, {"measurement", k}});
        const bool affordable = hunt.measurements[k].price_min <= left;
        BOOST_TEST((error == "") == affordable, hunt.measurements[k].name << ": " << error);
        if (!affordable) continue;
        left -= hunt.measurements[k].price_min;
        const json::object looked = learner.told("looked");
        BOOST_TEST(looked.at("left").to_number<int>() == left);
        BOOST_TEST(!looked.at("reads").as_string().empty(),
                   hunt.measurements[k].name << " reads nothing");
    }
    const std::size_t drawn = learner.lots.drawn[learner.step()];
    const auto place = std::find(hunt.hidden.begin(), hunt.hidden.end(), drawn);
    const auto& right = hunt.right[static_cast<std::size_t>(place - hunt.hidden.begin())];
    std::vector<std::size_t> named = right;
    for (std::size_t cause = 0; !rightly && named == right; ++cause) {
        const bool spare = std::find(right.begin(), right.end(), cause) == right.end();
        if (spare) named.front() = cause;
    }
    BOOST_TEST_REQUIRE(
        learner.say({{"do", "name_causes"}, {"step", learner.step()}, {"causes", places(named)}}) ==
        "");
    return learner.told("hunt_over");
}

}  // namespace

BOOST_AUTO_TEST_CASE(there_are_at_least_fourteen_lessons_of_at_most_25_minutes) {
    BOOST_TEST(lessons().size() >= 14U);
    for (const ShelfItem* item : lessons()) BOOST_TEST(item->lesson->minutes <= 25, item->path);
}

BOOST_DATA_TEST_CASE(right_answers_lead_to_the_take_away, boost::unit_test::data::xrange(15),
                     number) {
    if (!is_due(number)) return;
    const ShelfItem& item = *lessons().at(static_cast<std::size_t>(number));
    const Lesson& lesson = *item.lesson;
    Learner learner(item);
    BOOST_TEST(learner.told("lesson").at("steps").as_array().size() == lesson.steps.size());
    for (std::size_t at = 0; at < lesson.steps.size(); at = learner.step()) {
        BOOST_TEST_CONTEXT(item.path << ", step " << at) {
            const LessonStep& step = lesson.steps[at];
            if (const auto* predict = std::get_if<PredictStep>(&step)) {
                predict_rightly(learner, lesson, *predict);
            } else if (const auto* task = std::get_if<TaskStep>(&step)) {
                solve(learner, *task);
                BOOST_TEST(judged(learner).at("met").as_bool());
            } else if (const auto* hunt = std::get_if<HuntStep>(&step)) {
                BOOST_TEST(name_causes(learner, *hunt, true).at("right").as_bool());
            } else if (const auto* tried = std::get_if<TryStep>(&step)) {
                BOOST_TEST_REQUIRE(learner.say({{"do", "try"}, {"step", at}}) == "");
                BOOST_TEST(learner.told("compared").at("cells").as_array().size() ==
                           tried->houses.size());
            } else if (const auto* watch = std::get_if<WatchStep>(&step)) {
                const json::value until =
                    learner.told("lesson").at("steps").as_array()[at].at("until_s");
                if (!until.is_null()) learner.run_to(until.to_number<std::int64_t>() + 3600);
                if (watch->until.time_of_day_s)
                    BOOST_TEST(learner.told("lesson_state").at("time_stops_s") == until);
            }
            learner.go_on();
        }
    }
    BOOST_TEST(learner.told("lesson_state").at("take_away").as_string() == lesson.take_away);
}

BOOST_DATA_TEST_CASE(wrong_answers_are_told_so_in_the_lesson_s_words,
                     boost::unit_test::data::xrange(15), number) {
    if (!is_due(number)) return;
    const ShelfItem& item = *lessons().at(static_cast<std::size_t>(number));
    const Lesson& lesson = *item.lesson;
    Learner learner(item);
    for (std::size_t at = 0; at < lesson.steps.size(); at = learner.step()) {
        BOOST_TEST_CONTEXT(item.path << ", step " << at) {
            const LessonStep& step = lesson.steps[at];
            if (const auto* predict = std::get_if<PredictStep>(&step)) {
                const std::string any = predict->form == PredictStep::Form::clock ? "00:00" : "1";
                predict_wrongly(learner, *predict,
                                desk().asked.predicted(lesson, *predict, any, {}).truth);
            } else if (std::holds_alternative<TaskStep>(step)) {
                const json::object task = judged(learner);
                BOOST_TEST(!task.at("met").as_bool(), "met without doing anything");
                BOOST_TEST(has_hint(task));
            } else if (const auto* hunt = std::get_if<HuntStep>(&step)) {
                const json::object over = name_causes(learner, *hunt, false);
                BOOST_TEST(!over.at("right").as_bool());
                BOOST_TEST(over.at("feedback").as_array().size() == hunt->causes.size());
            }
            learner.go_on();
        }
    }
    const LessonMarks marks = marks_of(learner.session.lesson_place());
    BOOST_TEST(marks.right + marks.tasks_met + marks.hunts_right == 0);
}

BOOST_AUTO_TEST_CASE(a_show_of_hands_is_judged_group_by_group) {
    const ShelfItem& item = *lessons().front();
    Learner learner(item);
    learner.go_on();
    const json::array hands{{{"answer", "06:30"}, {"count", 9}},
                            {{"answer", "07:40"}, {"count", 2}}};
    BOOST_TEST_REQUIRE(learner.say({{"do", "predict"}, {"step", 1}, {"hands", hands}}) == "");
    const json::object predicted = learner.told("predicted");
    const json::array& groups = predicted.at("hands").as_array();
    BOOST_TEST_REQUIRE(groups.size() == 2U);
    BOOST_TEST(!groups[0].at("right").as_bool());
    BOOST_TEST(groups[1].at("right").as_bool());
    BOOST_TEST(predicted.at("answer").is_null());
    const auto& step = std::get<PredictStep>(item.lesson->steps[1]);
    BOOST_TEST(predicted.at("say").as_string() ==
                   words_for(step, step.wrong.front().say, "06:30",
                             std::string(predicted.at("truth").as_string())),
               "the feedback is for the most");
}

BOOST_AUTO_TEST_CASE(a_prediction_is_held_against_the_learner_s_own_run) {
    const ShelfItem& item = *lessons().front();
    const auto started = [&](const char* start_difference) {
        Learner learner(item);
        BOOST_TEST_REQUIRE(learner.say({{"do", "move"},
                                        {"kind", "setting"},
                                        {"name", "start_difference"},
                                        {"to", start_difference}}) == "");
        learner.go_on();
        return number_of(std::get<PredictStep>(item.lesson->steps[1]),
                         std::string(learner.predict("07:00").at("truth").as_string()));
    };
    BOOST_TEST(started("16 K") > started("8 K") + 600);
}

BOOST_AUTO_TEST_CASE(what_is_no_answer_is_refused_and_the_question_stays_open) {
    Learner learner(*lessons().front());
    learner.go_on();
    for (const char* answer : {"noon", "25:00", "7", "-1", "07:43:12:9"}) {
        BOOST_TEST(learner.say({{"do", "predict"}, {"step", 1}, {"answer", answer}}) != "", answer);
    }
    BOOST_TEST(learner.told("lesson_state").at("must_commit").as_bool());
    BOOST_TEST(learner.say({{"do", "lesson_go"}, {"step", 2}}) ==
               "first commit to your prediction");
    BOOST_TEST(learner.say({{"do", "try"}, {"step", 1}}) != "");
    BOOST_TEST(learner.say({{"do", "predict"}, {"step", 4}, {"answer", "07:00"}}) != "");
}

BOOST_AUTO_TEST_SUITE_END()
