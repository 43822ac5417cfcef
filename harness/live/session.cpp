// SPDX-License-Identifier: MIT
#include "session.hpp"

#include "mailbox.hpp"
#include "opened.hpp"
#include "saved.hpp"
#include "text.hpp"

#include "harness/bench/clock.hpp"
#include "harness/scenario/problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

constexpr CivilSeconds ticks_a_hurry = 7200;  // about a fiftieth of a second of work
constexpr std::size_t rows_of_a_frame = 12;
constexpr std::size_t rows_of_the_past = 360;
constexpr std::size_t events_of_the_past = 600;
constexpr std::size_t rows_of_a_jump = 120;  // the only ones that a chart will have of it
constexpr std::size_t most_moves_by_hand = 2000;
constexpr double longest_pass_s = 0.5;  // a machine that slept does not catch up

}  // namespace

Session::Session(const Shelf& shelf, LessonDesk& desk)
    : shelf_(&shelf), desk_(&desk), mail_(std::make_shared<Mailbox>()) {}

std::string Session::greeting() const {
    json::array shelf;
    for (const ShelfItem& item : shelf_->items()) {
        json::object& told = shelf
                                 .emplace_back(json::object{{"kind", item.kind},
                                                            {"path", item.path},
                                                            {"title", item.title},
                                                            {"about", item.about}})
                                 .get_object();
        if (item.lesson == nullptr) continue;
        told["number"] = item.lesson->number;
        told["minutes"] = item.lesson->minutes;
    }
    return json::serialize(json::object{{"is", "welcome"}, {"shelf", shelf}});
}

std::vector<std::string> Session::take(std::string_view text) {
    answers_.clear();
    const auto read = read_message(text);
    if (const auto* bad = std::get_if<BadMessage>(&read)) {
        return {error_message(bad->of, bad->what)};
    }
    const auto& message = std::get<PageMessage>(read);
    try {
        obey(message);
        fetch_mail();
        if (frame_due_ && open_) answers_.push_back(frame());
    } catch (const WishRefused& refused) {
        answers_.push_back(error_message(message.what, refused.what()));
    } catch (const InputRefused& refused) {
        answers_.push_back(error_message(message.what, refused.what()));
    }
    return std::exchange(answers_, {});
}

void Session::obey(const PageMessage& message) {
    const json::object& body = message.body;
    if (message.what == "open") return open(body);
    if (!open_) throw WishRefused("no run is open yet");
    refuse_at_this_time(message.what);
    if (lesson_) {
        refuse_what_must_wait(message);
        if (obey_in_lesson(message)) return;
    }
    if (message.what == "close") {
        open_ = false;
        sides_.clear();
        lesson_.reset();
    } else if (message.what == "pace") {
        pace_ = static_cast<int>(whole_in(body, "times"));
        jumps_ = false;
        owed_s_ = 0.0;
        frame_due_ = true;
    } else if (message.what == "step") {
        pace_ = 0;
        jumps_ = false;
        play(shown() + 1);
    } else if (message.what == "jump") {
        jump(body);
    } else if (message.what == "move") {
        move(body);
    } else if (message.what == "fork") {
        fork(body);
    } else if (message.what == "unfork") {
        sides_.erase(sides_.begin() + 1, sides_.end());
        frame_due_ = true;
    } else if (message.what == "course") {
        course(body);
    } else if (message.what == "wiring") {
        wiring_wanted_ = body.at("wanted").get_bool();
        frame_due_ = true;
    } else if (message.what == "save") {
        save();
    }
}

void Session::open(const json::object& body) {
    const ShelfItem* item = shelf_->find(word_in(body, "path"));
    if (item == nullptr) throw WishRefused("there is nothing of that name on the shelf");
    working_ = false;
    ++opened_;
    if (item->lesson != nullptr) return open_lesson(*item);
    const json::value* hidden = body.if_contains("hidden");
    auto [scenario, origin] = fetched(*item, hidden != nullptr && hidden->get_bool());
    lesson_.reset();
    begin(scenario, std::move(origin));
}

void Session::begin(const Scenario& scenario, Origin origin) {
    put_on_bench(scenario, std::move(origin));
    answers_.push_back(json::serialize(opened()));
    tell_sun();
    frame_due_ = true;
}

void Session::tell_sun() {
    const CivilSeconds midnight = day_start(shown());
    if (midnight == sun_of_) return;
    sun_of_ = midnight;
    answers_.push_back(json::serialize(sun_message(sides_.front().bench, midnight)));
}

void Session::jump(const json::object& body) {
    pace_ = 0;
    if (body.contains("to")) {
        jumps_ = true;
        jump_to_.reset();
        return;
    }
    const CivilSeconds to =
        std::min(start() + whole_in(body, "to_s"), std::max(stops_at(), shown()));
    if (to < shown()) return rewind(to, LiveBench::Later::forgotten);
    jumps_ = to > shown();
    jump_to_ = to;
}

void Session::rewind(CivilSeconds to, LiveBench::Later later) {
    for (Side& side : sides_) {
        side.bench.rewind(to, later);
        side.since.clear();
        side.past.forget_after(to);
        if (later == LiveBench::Later::kept) continue;
        std::erase_if(side.by_hand, [&](const HandMoveText& m) { return m.at_s > to; });
    }
    jumps_ = false;
    answers_.push_back(fmt::format(R"({{"is":"rewound","at_s":{}}})", shown() - start()));
    tell_sun();
    frame_due_ = true;
}

void Session::make(Side& side, const HandMoveText& move) {
    if (side.by_hand.size() >= most_moves_by_hand) {
        throw WishRefused("so many moves by hand are enough");
    }
    side.bench.make(understood_move(move, side.bench.scenario()));
    side.by_hand.push_back(move);
}

/// It shows at the next tick; where time stands still, that tick is taken at once.
void Session::move(const json::object& body) {
    HandMoveText text = move_text(body);
    text.at_s = shown() + 1;
    if (word_in(body, "on") == "other" && sides_.size() < 2) {
        throw WishRefused("there is no other morning yet");
    }
    make(word_in(body, "on") == "other" ? sides_[1] : sides_[0], text);
    if (!moves()) play(shown() + 1);
}

/// The same morning with another setting: both stand at its moment, later moves by hand are made
/// on both again.
void Session::fork(const json::object& body) {
    const CivilSeconds at = start() + whole_in(body, "at_s");
    const Scenario& scenario = sides_.front().bench.scenario();
    if (at + 1 > sides_.front().bench.last_s()) throw WishRefused("that moment lies after the run");
    std::vector<HandMoveText> texts;
    for (const json::value& item : body.at("moves").get_array()) {
        texts.push_back(move_text(item.get_object()));
        texts.back().at_s = at + 1;
        static_cast<void>(understood_move(texts.back(), scenario));  // refused before all else
    }
    if (sides_.front().by_hand.size() + texts.size() > most_moves_by_hand) {
        throw WishRefused("so many moves by hand are enough");
    }
    pace_ = 0;
    sides_.erase(sides_.begin() + 1, sides_.end());
    if (at <= shown()) {
        rewind(at, LiveBench::Later::kept);
    } else {
        play(at);
    }
    sides_.push_back(sides_.front());
    for (const HandMoveText& text : texts) make(sides_[1], text);
    play(at + 1);
}

/// One signal's course as least and greatest of each stretch, by running it again.
void Session::course(const json::object& body) {
    const auto which = static_cast<std::size_t>(whole_in(body, "bench"));
    if (which >= sides_.size()) throw WishRefused("there is no other morning yet");
    const LiveBench& bench = sides_[which].bench;
    const std::string name = word_in(body, "signal");
    const auto& columns = bench.columns();
    const auto column = std::find_if(columns.begin(), columns.end(),
                                     [&](const Column& each) { return each.signal.name == name; });
    if (column == columns.end()) throw WishRefused("there is no signal of that name");
    const auto index = static_cast<std::size_t>(column - columns.begin());
    const std::int64_t from_s = whole_in(body, "from_s");
    const std::int64_t to_s = std::min(whole_in(body, "to_s"), shown() - start());
    const std::int64_t points = whole_in(body, "points", 600);
    if (to_s <= from_s) throw WishRefused("to_s must lie after from_s");
    const std::int64_t width_s = std::max<std::int64_t>(1, (to_s - from_s + points - 1) / points);
    struct Stretch {
        double least = 0.0;
        double most = 0.0;
        bool any = false;
    };
    std::vector<Stretch> stretches(static_cast<std::size_t>((to_s - from_s) / width_s + 1));
    bench.tell_again(std::max<std::int64_t>(1, width_s / 8), [&](const SeenTick& tick) {
        const std::int64_t at_s = tick.at_s - start();
        const auto value = static_cast<double>(tick.values[index]);
        if (at_s < from_s || at_s > to_s || value != value) return;
        Stretch& stretch = stretches[static_cast<std::size_t>((at_s - from_s) / width_s)];
        stretch.least = stretch.any ? std::min(stretch.least, value) : value;
        stretch.most = stretch.any ? std::max(stretch.most, value) : value;
        stretch.any = true;
    });
    std::string out = fmt::format(R"({{"is":"course","bench":{},"signal":)", which);
    append_quoted(out, name);
    out += R"(,"points":[)";
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        if (!stretches[i].any) continue;
        if (out.back() != '[') out += ',';
        fmt::format_to(std::back_inserter(out), "[{},",
                       from_s + static_cast<std::int64_t>(i) * width_s);
        append_number(out, stretches[i].least, column->signal.decimals);
        out += ',';
        append_number(out, stretches[i].most, column->signal.decimals);
        out += ']';
    }
    answers_.push_back(out + "]}");
}

void Session::save() {
    if (origin_.hidden) throw WishRefused("its file would tell what is wrong with the house");
    const Side& side = sides_.front();
    answers_.push_back(json::serialize(
        json::object{{"is", "saved"},
                     {"name", "my_" + side.bench.scenario().name + ".yaml"},
                     {"yaml", saved_scenario(origin_.file, origin_.sets, side.by_hand)}}));
}

void Session::play(CivilSeconds to) {
    const std::size_t rows = jumps_ ? rows_of_a_jump : rows_of_a_frame;
    for (Side& side : sides_) {
        side.bench.play(to, [&](const SeenTick& tick) {
            side.since.take(tick, rows);
            side.past.take(tick, rows_of_the_past);
        });
        side.past.keep_newest_events(events_of_the_past);
    }
    if (shown() >= stops_at()) pace_ = 0;
    frame_due_ = true;
}

/// A part of a jump: on to its moment, or tick by tick until something happens on any side.
void Session::hurry() {
    const CivilSeconds last = catching_up_ ? sides_.front().bench.last_s() : stops_at();
    const CivilSeconds most = std::min(shown() + ticks_a_hurry, last);
    if (jump_to_) {
        play(std::min(most, *jump_to_));
        if (shown() >= std::min(*jump_to_, last)) jumps_ = false;
        return;
    }
    while (shown() < most && jumps_) {
        std::size_t before = 0;
        for (const Side& side : sides_) before += side.since.events().size();
        play(shown() + 1);
        std::size_t after = 0;
        for (const Side& side : sides_) after += side.since.events().size();
        if (after > before) jumps_ = false;
    }
    if (shown() >= last) jumps_ = false;
}

std::vector<std::string> Session::pass(double seconds) {
    if (!open_) return {};
    answers_.clear();
    fetch_mail();
    if (catching_up_ || (jumps_ && !held_)) {
        hurry();
        if (catching_up_ && !jumps_) {
            catching_up_ = false;
            pace_ = shown() < stops_at() ? pace_after_ : 0;
        }
    } else if (pace_ > 0 && !held_) {
        owed_s_ += pace_ * std::min(seconds, longest_pass_s);
        const auto whole = static_cast<CivilSeconds>(owed_s_);
        owed_s_ -= static_cast<double>(whole);
        if (whole > 0) play(std::min(shown() + whole, std::max(stops_at(), shown())));
    }
    if (frame_due_) {
        tell_sun();
        answers_.push_back(frame());
    }
    return std::exchange(answers_, {});
}

std::string Session::frame() {
    frame_due_ = false;
    std::string out = frame_head();
    for (Side& side : sides_) {
        if (&side != &sides_.front()) out += ',';
        append_bench(out, side.bench, side.since, wiring_wanted_);
        side.since.clear();
    }
    return out + "]}";
}

std::string Session::frame_head() const {
    return fmt::format(
        R"({{"is":"frame","at_s":{},"pace":{},"jumping":{},"back_to_s":0,"benches":[)",
        shown() - start(), pace_, jumps_);
}

}  // namespace noonbench::harness
