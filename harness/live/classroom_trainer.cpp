// SPDX-License-Identifier: MIT
// What a trainer asks of a class.
#include "class_secrets.hpp"
#include "class_told.hpp"
#include "classroom.hpp"
#include "seat_name.hpp"

#include "harness/lesson/sheet.hpp"
#include "harness/scenario/problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

std::string optional_text(const json::object& body, std::string_view key) {
    const json::value* value = body.if_contains(key);
    return value != nullptr && value->is_string() ? std::string(value->get_string())
                                                  : std::string();
}

}  // namespace

void Classroom::class_open(const Wish& wish) {
    if (!guard_.may_try(wish.now_s)) throw WishRefused("one try a second; try once more");
    judge_guess(wish, is_same_typed(wish.body.at("secret").as_string(), wishes_.secret),
                "that is not the class secret");
    if (count(Role::trainer) >= most_trainers) throw WishRefused("there are trainers enough");
    const bool is_new = !class_;
    if (is_new) {
        KeptClass opened{optional_text(wish.body, "title"), drawn_class_word(), false, {}};
        if (keeper_ != nullptr) {
            try {
                keeper_->keep(opened);
            } catch (const std::runtime_error& error) {
                throw WishRefused(std::string("the class cannot be kept: ") + error.what());
            }
        }
        class_ = std::move(opened);
    }
    wish.from.role = Role::trainer;
    say(wish.line, json::serialize(json::object{{"is", "class"},
                                                {"title", class_->title},
                                                {"word", class_->word},
                                                {"address", wishes_.address}}));
    told_state_.clear();  // the newcomer has heard none
    tell_state(wish.now_s);
    if (!wishes_.must_join) return;
    say(wish.line, welcome(wish.from));
    if (!is_new) return;
    for (const auto& [line, state] : at_) {
        if (state.role == Role::visitor) say(line, welcome(state));  // that wait for it
    }
}

void Classroom::class_hold(const Wish& wish) {
    class_->held = wish.body.at("held").as_bool();
    keep([&] { keeper_->keep(*class_); });
    for (const auto& seat : seats_) {
        if (seat->bench) seat->bench->hold(class_->held);
    }
    say_to_all(Role::learner, fmt::format(R"({{"is":"held","held":{}}})", class_->held));
    tell_state(wish.now_s);
}

/// They are opened one after the other by open_next(), so that those who have theirs can go on.
void Classroom::class_send(const Wish& wish) {
    const std::string path(wish.body.at("path").as_string());
    if (shelf_.find(path) == nullptr)
        throw WishRefused("there is nothing of that name on the shelf");
    const bool sealed = wish.body.at("sealed").as_bool();
    const std::string to = optional_text(wish.body, "to");
    const Seat* only = to.empty() ? nullptr : seat_named(seats_, to);
    if (!to.empty() && only == nullptr) throw WishRefused("nobody of that name has a seat");
    for (const auto& seat : seats_) {
        if (only != nullptr && only != seat.get()) continue;
        std::erase_if(sent_runs_, [&](const SentRun& each) { return each.seat == seat->name; });
        sent_runs_.push_back({seat->name, path, sealed});
    }
}

bool Classroom::open_next() {
    if (sent_runs_.empty()) return false;
    const SentRun run = std::move(sent_runs_.front());
    sent_runs_.pop_front();
    Seat* seat = seat_named(seats_, run.seat);
    if (seat == nullptr) return true;
    if (!seat->bench) {
        seat->kept.clear();  // another run takes its place
        static_cast<void>(bench_of(*seat));
    }
    std::vector<std::string> said = seat->bench->open_sent(run.path, run.sealed);
    keep_seat(*seat);
    say_from(*seat, std::move(said));
    state_wanted_ = true;
    return true;
}

void Classroom::class_show(const Wish& wish) {
    const std::string name = optional_text(wish.body, "seat");
    const Seat* seat = name.empty() ? nullptr : seat_named(seats_, name);
    if (!name.empty() && seat == nullptr) throw WishRefused("nobody of that name has a seat");
    class_->shown = seat != nullptr ? seat->name : std::string();
    keep([&] { keeper_->keep(*class_); });
    for (auto& [line, state] : at_) {
        if (state.role == Role::projector) show_to(line, state);
    }
    tell_state(wish.now_s);
}

/// Who is shown, and all that one needs to see it.
void Classroom::show_to(LineId line, LineState& state) {
    state.behind = false;
    Seat* seat = class_->shown.empty() ? nullptr : seat_named(seats_, class_->shown);
    const json::value name = seat != nullptr ? json::value(seat->name) : json::value();
    say(line, json::serialize(json::object{{"is", "showing"}, {"seat", name}}));
    if (seat == nullptr) return;
    try {
        for (std::string& text : bench_of(*seat).picture()) say(line, std::move(text));
    } catch (const InputRefused& refused) {
        say(line, error_message("class_show", refused.what()));
    }
}

void Classroom::class_marks(const Wish& wish) {
    for (const auto& seat : seats_) look_at(*seat, wish.now_s, 0.0);
    say(wish.line, json::serialize(json::object{{"is", "marks"},
                                                {"name", marks_file_name(class_->title)},
                                                {"csv", harness::class_marks(seats_)}}));
}

void Classroom::class_dismiss(const Wish& wish) {
    Seat* seat = seat_named(seats_, wish.body.at("seat").as_string());
    if (seat == nullptr) throw WishRefused("nobody of that name has a seat");
    const std::string name = seat->name;
    keep([&] { keeper_->forget_seat(name); });
    unseat(*seat);
    std::erase_if(seats_, [&](const auto& each) { return each.get() == seat; });
    if (class_->shown == name) {
        class_->shown.clear();
        keep([&] { keeper_->keep(*class_); });
        for (auto& [line, state] : at_) {
            if (state.role == Role::projector) show_to(line, state);
        }
    }
    tell_state(wish.now_s);
}

void Classroom::class_end(const Wish& /*wish*/) {
    keep([&] { keeper_->forget(); });
    for (const auto& seat : seats_) unseat(*seat);
    seats_.clear();
    sent_runs_.clear();
    class_.reset();
    for (auto& [line, state] : at_) {
        if (state.role == Role::visitor) continue;
        state.role = Role::visitor;
        if (wishes_.must_join) state.bench.reset();
        say(line, R"({"is":"class_over"})");
    }
    if (!wishes_.must_join) return;
    for (const auto& [line, state] : at_) say(line, welcome(state));
}

void Classroom::instructor_sheet(const Wish& wish) {
    const ShelfItem* item = shelf_.find(wish.body.at("path").as_string());
    if (item == nullptr || item->lesson == nullptr) throw WishRefused("there is no sheet for that");
    const std::string stem = item->path.substr(item->path.rfind('/') + 1);
    say(wish.line,
        json::serialize(json::object{{"is", "sheet"},
                                     {"name", stem + "_instructor.html"},
                                     {"html", harness::instructor_sheet(*item->lesson)}}));
}

/// To every trainer, where there is something new.
void Classroom::tell_state(double now_s) {
    if (!class_ || count(Role::trainer) == 0) return;
    std::string state = class_state(*class_, seats_, now_s);
    if (state == told_state_) return;
    const auto said = std::make_shared<const std::string>(state);
    told_state_ = std::move(state);
    for (const auto& [line, at] : at_) {
        if (at.role != Role::trainer) continue;
        if (lines_.waiting(line) < most_waiting_at_trainer) {
            lines_.say(line, said);
        } else {
            told_state_.clear();  // once more when it is due next
        }
    }
}

}  // namespace noonbench::harness
