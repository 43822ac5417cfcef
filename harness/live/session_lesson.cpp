// SPDX-License-Identifier: MIT
// The part of a session that leads through a lesson.
#include "lesson_answers.hpp"
#include "mailbox.hpp"
#include "opened.hpp"
#include "session.hpp"

#include "harness/bench/seal.hpp"

#include <algorithm>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

constexpr std::array moves_time{"pace", "step", "jump", "fork", "move"};
constexpr std::array shows_the_house{"course", "wiring", "save"};

// A house of a lesson is shown once its controller has read its sensors.
constexpr CivilSeconds sensors_are_read_s = 60;

template <std::size_t count>
bool is_one_of(const std::array<const char*, count>& words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace

void Session::open_lesson(const ShelfItem& item) {
    const Lesson& lesson = *item.lesson;
    LessonPlace place = begun(lesson, ++desk_->lessons_begun);
    const Scenario scenario = scenario_of(lesson, 0);
    lesson_ = std::move(place);
    begin(scenario,
          {lesson.houses[0].open, lesson.houses[0].with, item.path, item.title, item.about});
    play(start() + sensors_are_read_s);
    answers_.push_back(json::serialize(lesson_message(*lesson_, item.path, start())));
    tell_lesson_state();
}

/// Another house of the lesson comes on the bench, at its first minute.
void Session::put_house(std::size_t house) {
    Origin origin = origin_;
    const Scenario scenario = fetched_house(*lesson_, house, origin);
    lesson_->house = house;
    begin(scenario, std::move(origin));
    play(start() + sensors_are_read_s);
}

/// The scenario, and where it came from; sealed while a hunt still asks for its name.
Scenario Session::fetched_house(const LessonPlace& place, std::size_t house, Origin& origin) {
    const LessonHouse& of = place.lesson->houses[house];
    origin.file = of.open;
    origin.sets = of.with;
    origin.hidden = is_secret_still(place, house);
    Scenario scenario = scenario_of(*place.lesson, house);
    return origin.hidden ? sealed(std::move(scenario)) : scenario;
}

/// Before a prediction nothing moves, and in a hunt only its looks tell.
void Session::refuse_what_must_wait(const PageMessage& message) const {
    const bool moving = is_one_of(moves_time, message.what);
    if (is_hunting(*lesson_) && (moving || is_one_of(shows_the_house, message.what))) {
        throw WishRefused("in the hunt only your looks tell; name the cause first");
    }
    if (!moving) return;
    if (must_commit(*lesson_)) throw WishRefused("first commit to your prediction");
    const bool winds_back = message.what == "jump" && message.body.contains("to_s") &&
                            start() + whole_in(message.body, "to_s") < shown();
    const bool stands = message.what == "pace" && whole_in(message.body, "times") == 0;
    if (winds_back || stands || message.what == "move" || message.what == "fork") return;
    if (shown() >= stops_at() && shown() < sides_.front().bench.last_s()) {
        throw WishRefused("the lesson looks no further here; go on to its next step");
    }
}

bool Session::obey_in_lesson(const PageMessage& message) {
    if (message.what == "lesson_go") {
        go(message.body);
    } else if (message.what == "predict") {
        predict(message.body);
    } else if (message.what == "try") {
        try_out(message.body);
    } else if (message.what == "judge_task") {
        judge_task(message.body);
    } else if (message.what == "look") {
        look(message.body);
    } else if (message.what == "name_causes") {
        name_causes(message.body);
    } else {
        return false;
    }
    return true;
}

/// The step that a message speaks of: the present one, if it is of that kind.
template <class Step>
const Step& Session::step_at(const json::object& body) const {
    const LessonStep* step = present_step(*lesson_);
    const auto* wanted = step != nullptr ? std::get_if<Step>(step) : nullptr;
    if (wanted == nullptr || static_cast<std::size_t>(whole_in(body, "step")) != lesson_->step) {
        throw WishRefused("the lesson does not ask that at the step where it stands");
    }
    return *wanted;
}

void Session::go(const json::object& body) {
    const auto to = static_cast<std::size_t>(whole_in(body, "step"));
    const std::size_t from = lesson_->step;
    if (to > lesson_->lesson->steps.size() || to > from + 1 || to == from) {
        throw WishRefused("one step on, or back to any before it");
    }
    if (to == from + 1 && !is_settled(*lesson_, from)) {
        throw WishRefused(must_commit(*lesson_) ? "first commit to your prediction"
                                                : "first name the cause");
    }
    lesson_->step = to;
    pace_ = 0;
    jumps_ = false;
    const LessonStep* step = present_step(*lesson_);
    const auto house = house_wanted(*lesson_);
    const bool anew = step != nullptr && std::holds_alternative<TaskStep>(*step);
    if (house && (*house != lesson_->house || anew)) put_house(*house);
    tell_lesson_state();
}

std::vector<Move> Session::own_moves(std::size_t house) const {
    std::vector<Move> moves;
    if (lesson_->house != house) return moves;
    moves.reserve(sides_.front().by_hand.size());
    for (const HandMoveText& text : sides_.front().by_hand) {
        moves.push_back(understood_move(text, sides_.front().bench.scenario()));
    }
    return moves;
}

void Session::predict(const json::object& body) {
    const PredictStep& step = step_at<PredictStep>(body);
    if (is_settled(*lesson_, lesson_->step)) throw WishRefused("you have committed already");
    std::vector<RaisedHands> hands;
    if (const json::value* raised = body.if_contains("hands")) {
        for (const json::value& each : raised->get_array()) {
            hands.push_back({word_in(each.get_object(), "answer"),
                             whole_in(each.get_object(), "count"), false});
        }
    } else {
        hands.push_back({word_in(body, "answer"), 0, false});
    }
    for (const RaisedHands& each : hands) {
        const std::string wrong = no_answer(step, each.answer);
        if (!wrong.empty()) throw WishRefused(wrong);
    }
    work_out(
        "predict", [&asked = desk_->asked, &lesson = *lesson_->lesson, &step, place = lesson_->step,
                    hands, moves = own_moves(step.house), start_s = start()]() mutable {
            // What is said is said to those who are most.
            const auto most = std::max_element(
                hands.begin(), hands.end(),
                [](const RaisedHands& a, const RaisedHands& b) { return a.count < b.count; });
            const Answered said = asked.predicted(lesson, step, most->answer, moves);
            const bool alone = most->count == 0;
            for (RaisedHands& each : hands) {
                each.right =
                    alone ? said.right : asked.predicted(lesson, step, each.answer, moves).right;
            }
            return predicted_message(place, step, most->answer, said,
                                     alone ? std::span<const RaisedHands>() : hands, start_s);
        });
}

void Session::try_out(const json::object& body) {
    const TryStep& step = step_at<TryStep>(body);
    work_out("try", [&asked = desk_->asked, &lesson = *lesson_->lesson, &step,
                     place = lesson_->step, start_s = start()] {
        return compared_message(place, lesson, step, asked.compared(lesson, step), start_s);
    });
}

void Session::judge_task(const json::object& body) {
    const TaskStep& step = step_at<TaskStep>(body);
    work_out("judge_task", [&asked = desk_->asked, &lesson = *lesson_->lesson, &step,
                            place = lesson_->step, moves = own_moves(step.house)] {
        return task_judged_message(place, step, asked.task(lesson, step, moves));
    });
}

void Session::look(const json::object& body) {
    const HuntStep& hunt = step_at<HuntStep>(body);
    if (!is_hunting(*lesson_)) throw WishRefused("the hunt is over");
    const auto which = static_cast<std::size_t>(whole_in(body, "measurement"));
    if (which >= hunt.measurements.size()) throw WishRefused("there is no such look");
    const json::value& before = lesson_->results[lesson_->step];
    const int left = hunt.budget_min - spent_min(before);
    if (hunt.measurements[which].price_min > left) {
        throw WishRefused("that look takes longer than the " + std::to_string(left) +
                          " minutes that are left");
    }
    work_out("look", [&asked = desk_->asked, &lesson = *lesson_->lesson, &hunt, which,
                      place = lesson_->step, before, house = lesson_->drawn[lesson_->step]] {
        return hunting_message(place, hunt, before, which, asked.look(lesson, hunt, which, house));
    });
}

void Session::name_causes(const json::object& body) {
    const HuntStep& hunt = step_at<HuntStep>(body);
    if (!is_hunting(*lesson_)) throw WishRefused("the hunt is over");
    if (working_) throw WishRefused("the last look is still being taken");
    std::vector<std::size_t> named;
    for (const json::value& cause : body.at("causes").get_array()) {
        named.push_back(cause.to_number<std::size_t>());
        if (named.back() >= hunt.causes.size()) throw WishRefused("there is no such cause");
    }
    if (named.size() != hunt.right.front().size()) {
        throw WishRefused("causes to name: " + std::to_string(hunt.right.front().size()));
    }
    const std::size_t step = lesson_->step;
    settle(hunt_over_message(step, *lesson_->lesson, hunt, lesson_->drawn[step],
                             lesson_->results[step], named));
}

void Session::work_out(std::string of, std::function<json::object()> work) {
    if (working_) throw WishRefused("the bench is still working on your last question");
    working_ = true;
    answers_.push_back(json::serialize(json::object{{"is", "working"}, {"of", of}}));
    desk_->aside([mail = mail_, run = opened_, of = std::move(of), work = std::move(work)] {
        try {
            mail->put({run, work()});
        } catch (const std::exception& failed) {
            mail->put({run, json::object{{"is", "error"}, {"of", of}, {"what", failed.what()}}});
        }
    });
}

void Session::fetch_mail() {
    for (Letter& letter : mail_->fetch()) {
        if (letter.run != opened_ || !lesson_) continue;
        working_ = false;
        if (letter.content.at("is").get_string() == "error") {
            answers_.push_back(json::serialize(letter.content));
        } else {
            settle(std::move(letter.content));
        }
    }
}

/// What came of a step is told, and kept.
void Session::settle(json::object result) {
    const auto step = result.at("step").to_number<std::size_t>();
    json::object told = result;
    if (result.at("is").get_string() == "hunting") {
        const json::object& newest = result.at("looks").get_array().back().get_object();
        told = {{"is", "looked"},
                {"step", step},
                {"measurement", newest.at("measurement")},
                {"reads", newest.at("reads")},
                {"spent", result.at("spent")},
                {"left", result.at("left")}};
    }
    answers_.push_back(json::serialize(told));
    lesson_->results[step] = std::move(result);
    tell_lesson_state();
}

void Session::tell_lesson_state() {
    answers_.push_back(json::serialize(lesson_state_message(*lesson_, start(), stops_at())));
}

CivilSeconds Session::stops_at() const {
    const LiveBench& bench = sides_.front().bench;
    if (!lesson_) return bench.last_s();
    return time_stops_at(*lesson_, start(), shown(), bench.last_s());
}

}  // namespace noonbench::harness
