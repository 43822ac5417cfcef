// SPDX-License-Identifier: MIT
// What a class asks of a session: to be held, kept, restored, shown to others.
#include "opened.hpp"
#include "session.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/seal.hpp"
#include "harness/bench/words.hpp"
#include "harness/scenario/problem.hpp"

#include <algorithm>
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

}  // namespace

void Session::hold(bool held) {
    held_ = held;
    owed_s_ = 0.0;
    frame_due_ = open_;
}

void Session::put_on_bench(const ShelfItem& item) {
    Scenario scenario = shelf_.read(item);
    if (hidden_) {
        scenario = sealed(std::move(scenario));
        scenario.title = hidden_title;
    }
    LiveBench bench{Bench(std::move(scenario))};
    sides_.clear();
    sides_.push_back({std::move(bench), {}, {}});
    item_ = &item;
    open_ = true;
    pace_ = 0;
    jumps_ = false;
    catching_up_ = false;
    owed_s_ = 0.0;
    sun_of_ = -1;
}

/// The path of a run that was sent sealed would name the fault.
json::object Session::opened() const {
    json::object message =
        opened_message(sides_.front().bench, hidden_ && sent_ ? std::string() : item_->path);
    message["hidden"] = hidden_;
    message["sent"] = sent_;
    return message;
}

std::vector<std::string> Session::open_sent(const std::string& path, bool sealed) {
    answers_.clear();
    try {
        open({{"path", path}, {"hidden", sealed}});
    } catch (const std::runtime_error& refused) {
        return {json::serialize(
            json::object{{"is", "error"}, {"of", "class_send"}, {"what", refused.what()}})};
    }
    sent_ = true;
    answers_.front() = json::serialize(opened());
    answers_.push_back(frame());
    return std::exchange(answers_, {});
}

json::object Session::kept() const {
    if (!open_) return {};
    const CivilSeconds to = catching_up_ && jump_to_ ? *jump_to_ : shown();
    json::array sides;
    for (const Side& side : sides_) sides.emplace_back(kept_moves(side.by_hand, start()));
    return {{"path", item_->path}, {"hidden", hidden_},
            {"sent", sent_},       {"at_s", to - start()},
            {"sides", sides},      {"pace", catching_up_ ? pace_after_ : pace_}};
}

void Session::restore(const json::object& kept) {
    open_ = false;
    if (kept.empty()) return;
    try {
        const ShelfItem* item = shelf_.find(kept.at("path").as_string());
        if (item == nullptr) throw std::runtime_error("it is not on the shelf");
        hidden_ = kept.at("hidden").as_bool();
        sent_ = kept.at("sent").as_bool();
        put_on_bench(*item);
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
        if (!catching_up_) pace_ = pace_after_;
        frame_due_ = true;
    } catch (const std::exception& error) {
        open_ = false;
        sides_.clear();
        throw InputRefused({{"", 0, 0, std::string("a kept run is no good: ") + error.what(),
                             "one that this program has kept, with the same shelf"}});
    }
}

// What a lesson has to tell one that joins comes here.
std::vector<std::string> Session::picture() const {
    if (!open_) return {};
    const LiveBench& bench = sides_.front().bench;
    std::string full = frame_head();
    for (const Side& side : sides_) {
        if (&side != &sides_.front()) full += ',';
        append_bench(full, side.bench, {}, wiring_wanted_);
    }
    return {json::serialize(opened()), json::serialize(sun_message(bench, day_start(shown()))),
            full + "]}"};
}

SessionGlance Session::glance() const {
    SessionGlance glance;
    if (!open_) return glance;
    const SeenTick& seen = sides_.front().bench.seen();
    glance.path = item_->path;
    glance.title = item_->title;
    glance.clock = clock_text(seen.at_s).substr(0, 5);
    glance.pump_words =
        seen.powered ? std::string(short_words(seen.outputs.pump_reason)) : "no mains";
    glance.collector_c = read_c(seen, firmware::Sensor::collector);
    glance.store_c = read_c(seen, firmware::Sensor::store_bottom);
    return glance;
}

}  // namespace noonbench::harness
