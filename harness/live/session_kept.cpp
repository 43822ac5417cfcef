// SPDX-License-Identifier: MIT
// What a class asks of a session: to be held, kept, restored, shown to others.
#include "opened.hpp"
#include "session.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/seal.hpp"
#include "harness/bench/words.hpp"
#include "harness/scenario/problem.hpp"

#include <array>
#include <stdexcept>
#include <string_view>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

constexpr std::string_view hidden_title = "A house with something wrong";

json::array kept_moves(const std::vector<HandMoveText>& moves, CivilSeconds start_s) {
    json::array list;
    list.reserve(moves.size());
    for (const HandMoveText& move : moves) {
        list.emplace_back(json::object{{"at_s", move.at_s - start_s},
                                       {"kind", move.kind},
                                       {"name", move.name},
                                       {"to", move.to},
                                       {"over_s", move.over_s}});
    }
    return list;
}

std::vector<HandMoveText> moves_kept(const json::array& list, CivilSeconds start_s) {
    std::vector<HandMoveText> moves;
    moves.reserve(list.size());
    for (const json::value& item : list) {
        const json::object& move = item.as_object();
        moves.push_back(
            {start_s + move.at("at_s").to_number<CivilSeconds>(),
             std::string(move.at("kind").as_string()), std::string(move.at("name").as_string()),
             std::string(move.at("to").as_string()), move.at("over_s").to_number<std::int32_t>()});
    }
    return moves;
}

std::optional<double> read_c(const SeenTick& seen, firmware::Sensor sensor) {
    const firmware::Reading& reading = seen.outputs.readings[static_cast<std::size_t>(sensor)];
    if (!seen.powered || reading.status != firmware::SensorStatus::good) return std::nullopt;
    return reading.temperature.centicelsius / 100.0;
}

std::string_view kind_of_step(const LessonStep& step) {
    constexpr std::array<std::string_view, 6> kinds{"text", "predict", "watch",
                                                    "try",  "task",    "hunt"};
    return kinds[step.index()];
}

/// What is asked at present; of a choice the words that were chosen.
std::optional<GlanceQuestion> question_at(const LessonPlace& place) {
    const LessonStep* step = present_step(place);
    const auto* predict = step != nullptr ? std::get_if<PredictStep>(step) : nullptr;
    if (predict == nullptr) return std::nullopt;
    GlanceQuestion question{static_cast<int>(place.step), predict->question, predict->unit, {}, {}};
    const json::value& result = place.results[place.step];
    if (!result.is_object()) return question;
    const json::object& told = result.get_object();
    const json::value& answer = told.at("answer");
    if (!answer.is_string() || answer.get_string().empty()) return question;  // a show of hands
    question.answer = std::string(answer.get_string());
    question.right = told.at("right").as_bool();
    if (predict->form != PredictStep::Form::choice) return question;
    std::size_t chosen = 0;
    for (std::size_t i = 0; i < predict->choices.size(); ++i) {
        if (std::to_string(i + 1) == *question.answer) chosen = i + 1;
    }
    if (chosen > 0) question.answer = predict->choices[chosen - 1];
    return question;
}

void glance_at_lesson(SessionGlance& glance, const LessonPlace& place) {
    glance.step = static_cast<int>(place.step);
    glance.steps = static_cast<int>(place.lesson->steps.size());
    if (const LessonStep* step = present_step(place)) {
        glance.step_kind = kind_of_step(*step);
        glance.unsettled = !is_settled(place, place.step);
    }
    const LessonMarks marks = marks_of(place);
    glance.asked = marks.asked;
    glance.right = marks.right;
    glance.tasks = marks.tasks;
    glance.tasks_met = marks.tasks_met;
    glance.hunts = marks.hunts;
    glance.hunts_right = marks.hunts_right;
    glance.question = question_at(place);
}

}  // namespace

void Session::hold(bool held) {
    held_ = held;
    owed_s_ = 0.0;
    frame_due_ = open_;
}

void Session::refuse_at_this_time(std::string_view wish) const {
    const bool moves_time = wish == "pace" || wish == "step" || wish == "jump" || wish == "fork";
    if (held_ && moves_time) throw WishRefused("the trainer holds time");
    if (catching_up_ && (moves_time || wish == "move" || wish == "unfork" || wish == "lesson_go")) {
        throw WishRefused("the bench still runs to where it stood");
    }
}

std::pair<Scenario, Session::Origin> Session::fetched(const ShelfItem& item, bool hidden) const {
    Scenario scenario = shelf_->read(item);
    Origin origin{shelf_->file_of(item), {}, item.path, item.title, item.about, hidden, false};
    if (!hidden) return {std::move(scenario), std::move(origin)};
    origin.title = hidden_title;
    origin.about.clear();
    return {sealed(std::move(scenario)), std::move(origin)};
}

void Session::put_on_bench(const Scenario& scenario, Origin origin) {
    LiveBench bench{Bench(scenario)};
    sides_.clear();
    sides_.push_back({std::move(bench), {}, {}, {}});
    origin_ = std::move(origin);
    open_ = true;
    pace_ = 0;
    jumps_ = false;
    catching_up_ = false;
    owed_s_ = 0.0;
    sun_of_ = -1;
}

/// The path of a run that was sent sealed would name the fault.
json::object Session::opened() const {
    const bool is_nameless = origin_.hidden && origin_.sent;
    json::object message =
        opened_message(sides_.front().bench, is_nameless ? std::string() : origin_.path);
    message["title"] = origin_.title;
    message["about"] = origin_.about;
    message["hidden"] = origin_.hidden;
    message["sent"] = origin_.sent;
    return message;
}

std::vector<std::string> Session::open_sent(const std::string& path, bool sealed) {
    answers_.clear();
    try {
        open({{"path", path}, {"hidden", sealed}});
    } catch (const std::runtime_error& refused) {
        answers_.clear();
        return {error_message("class_send", refused.what())};
    }
    origin_.sent = true;
    answers_.front() = json::serialize(opened());
    answers_.push_back(frame());
    return std::exchange(answers_, {});
}

json::object Session::kept() const {
    if (!open_) return {};
    const CivilSeconds to = catching_up_ && jump_to_ ? *jump_to_ : shown();
    json::array sides;
    for (const Side& side : sides_) sides.emplace_back(kept_moves(side.by_hand, start()));
    return {{"path", origin_.path},
            {"hidden", origin_.hidden},
            {"sent", origin_.sent},
            {"at_s", to - start()},
            {"sides", std::move(sides)},
            {"pace", catching_up_ ? pace_after_ : pace_},
            {"lesson", lesson_ ? json::value(kept_place(*lesson_)) : json::value()}};
}

void Session::restore(const json::object& kept) {
    open_ = false;
    lesson_.reset();
    working_ = false;
    ++opened_;
    if (kept.empty()) return;
    try {
        restore_run(kept);
    } catch (const std::exception& error) {
        open_ = false;
        sides_.clear();
        lesson_.reset();
        throw InputRefused({{"", 0, 0, std::string("a kept run is no good: ") + error.what(),
                             "one that this program has kept, with the same shelf"}});
    }
}

void Session::restore_run(const json::object& kept) {
    const ShelfItem* item = shelf_->find(kept.at("path").as_string());
    const json::value& place = kept.at("lesson");
    if (item == nullptr || (item->lesson != nullptr) != place.is_object()) {
        throw std::runtime_error("it is not on the shelf");
    }
    if (item->lesson != nullptr) {
        lesson_ = place_kept(*item->lesson, place.as_object());
        Origin origin{{}, {}, item->path, item->title, item->about, false, false};
        const Scenario scenario = fetched_house(*lesson_, lesson_->house, origin);
        put_on_bench(scenario, std::move(origin));
    } else {
        auto [scenario, origin] = fetched(*item, kept.at("hidden").as_bool());
        put_on_bench(scenario, std::move(origin));
    }
    origin_.sent = kept.at("sent").as_bool();
    const json::array& sides = kept.at("sides").as_array();
    if (sides.empty() || sides.size() > 2) throw std::runtime_error("it has one side or two");
    if (sides.size() == 2) sides_.push_back(sides_.front());
    for (std::size_t i = 0; i < sides.size(); ++i) {
        for (const HandMoveText& each : moves_kept(sides[i].as_array(), start())) {
            make(sides_[i], each);
        }
    }
    jump_to_ = start() + kept.at("at_s").to_number<CivilSeconds>();
    pace_after_ = kept.at("pace").to_number<int>();
    jumps_ = catching_up_ = *jump_to_ > shown();
    if (!catching_up_) pace_ = shown() < stops_at() ? pace_after_ : 0;
    frame_due_ = true;
}

std::vector<std::string> Session::picture() const {
    if (!open_) return {};
    const LiveBench& bench = sides_.front().bench;
    std::vector<std::string> told{json::serialize(opened()),
                                  json::serialize(sun_message(bench, day_start(shown())))};
    if (lesson_) {
        told.push_back(json::serialize(lesson_message(*lesson_, origin_.path, start())));
        told.push_back(json::serialize(lesson_state_message(*lesson_, start(), stops_at())));
    }
    std::string full = frame_head();
    for (const Side& side : sides_) {
        if (&side != &sides_.front()) full += ',';
        append_bench(full, side.bench, side.past, wiring_wanted_, true);
    }
    told.push_back(full + "]}");
    return told;
}

SessionGlance Session::glance() const {
    SessionGlance glance;
    if (!open_) return glance;
    const SeenTick& seen = sides_.front().bench.seen();
    const ShelfItem* item = shelf_->find(origin_.path);
    glance.path = origin_.path;
    glance.title = item != nullptr ? item->title : origin_.title;
    glance.clock = clock_text(seen.at_s).substr(0, 5);
    glance.pump_words =
        seen.powered ? std::string(short_words(seen.outputs.pump_reason)) : "no mains";
    glance.collector_c = read_c(seen, firmware::Sensor::collector);
    glance.store_c = read_c(seen, firmware::Sensor::store_bottom);
    if (lesson_) glance_at_lesson(glance, *lesson_);
    return glance;
}

}  // namespace noonbench::harness
