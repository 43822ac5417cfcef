// SPDX-License-Identifier: MIT
#include "classroom.hpp"

#include "class_secrets.hpp"
#include "seat_name.hpp"

#include <algorithm>
#include <array>
#include <exception>
#include <stdexcept>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

constexpr int most_errors_counted = 1000;

/// The word under "is" of what a session says; it stands first.
std::string_view said_is(std::string_view text) {
    constexpr std::string_view before = R"({"is":")";
    if (text.substr(0, before.size()) != before) return {};
    text.remove_prefix(before.size());
    return text.substr(0, text.find('"'));
}

/// Whether a message leaves nothing that would have to be done again: looks, and how time runs,
/// which is saved as it goes.
bool decides_nothing(std::string_view what) {
    constexpr auto looks =
        std::to_array<std::string_view>({"pace", "step", "jump", "course", "wiring", "save"});
    return std::find(looks.begin(), looks.end(), what) != looks.end();
}

}  // namespace

Classroom::Classroom(const Shelf& shelf, RoomWishes wishes, Lines& lines, ClassKeeper* keeper)
    : shelf_(shelf), wishes_(std::move(wishes)), lines_(lines), keeper_(keeper) {
    if (keeper_ == nullptr) return;
    std::optional<KeptAll> kept = keeper_->all();
    if (!kept) return;
    class_ = std::move(kept->of_class);
    seats_.reserve(kept->seats.size());
    for (const KeptSeat& each : kept->seats) seats_.push_back(seat_kept(each));
    if (seat_named(seats_, class_->shown) == nullptr) class_->shown.clear();
}

const std::vector<Classroom::HandlerOf>& Classroom::handlers() {
    static const std::vector<HandlerOf> all{
        {"join", Role::visitor, &Classroom::join},
        {"rejoin", Role::visitor, &Classroom::rejoin},
        {"project", Role::visitor, &Classroom::project},
        {"class_open", Role::visitor, &Classroom::class_open},
        {"class_hold", Role::trainer, &Classroom::class_hold},
        {"class_send", Role::trainer, &Classroom::class_send},
        {"class_show", Role::trainer, &Classroom::class_show},
        {"class_marks", Role::trainer, &Classroom::class_marks},
        {"class_dismiss", Role::trainer, &Classroom::class_dismiss},
        {"class_end", Role::trainer, &Classroom::class_end},
        {"instructor_sheet", Role::trainer, &Classroom::instructor_sheet},
    };
    return all;
}

void Classroom::enter(LineId line, double now_s) {
    LineState& state = at_[line];
    state.beat_s = now_s;
    say(line, welcome(state));
}

void Classroom::leave(LineId line) {
    const auto found = at_.find(line);
    if (found == at_.end()) return;
    Seat* seat = found->second.seat;
    at_.erase(found);
    if (seat == nullptr || seat->line != line) return;
    seat->line.reset();
    keep_seat(*seat);
    state_wanted_ = true;
}

void Classroom::take(LineId line, std::string_view text, double now_s) {
    const auto found = at_.find(line);
    if (found == at_.end()) return;
    LineState& state = found->second;
    if (state.seat != nullptr) state.seat->heard_s = now_s;
    const auto read = read_message(text);
    try {
        if (const auto* bad = std::get_if<BadMessage>(&read)) {
            if (state.seat != nullptr) ++state.seat->errors_in_a_row;
            return say(line, error_message(bad->of, bad->what));
        }
        const auto& message = std::get<PageMessage>(read);
        obey(message, text, {line, state, message.body, now_s});
    } catch (const std::exception& refused) {  // whatever it was, the others go on
        say(line, error_message(std::get<PageMessage>(read).what, refused.what()));
    }
    if (state.wrong_tries >= most_wrong_tries) lines_.hang_up(line);
}

void Classroom::obey(const PageMessage& message, std::string_view text, const Wish& wish) {
    const auto& all = handlers();
    const auto handler = std::find_if(
        all.begin(), all.end(), [&](const HandlerOf& each) { return each.what == message.what; });
    if (handler == all.end()) return to_bench(message, text, wish);
    if (handler->role && wish.from.role != *handler->role) {
        throw WishRefused(*handler->role == Role::trainer
                              ? "only a trainer can ask for that"
                              : "this page already has its place in the class");
    }
    (this->*handler->handler)(wish);
}

void Classroom::to_bench(const PageMessage& message, std::string_view text, const Wish& wish) {
    LineState& from = wish.from;
    if (from.role == Role::projector) throw WishRefused("a projector only looks on");
    if (from.role == Role::visitor && wishes_.must_join) throw WishRefused("join the class first");
    if (from.seat == nullptr) {
        if (!from.bench) from.bench = wishes_.new_bench();
        for (std::string& answer : from.bench->take(text)) say(wish.line, std::move(answer));
        return;
    }
    Seat& seat = *from.seat;
    std::vector<std::string> answers = bench_of(seat).take(text);
    const bool went_wrong = std::any_of(answers.begin(), answers.end(), [](const auto& answer) {
        return said_is(answer) == "error";
    });
    seat.errors_in_a_row = went_wrong ? std::min(seat.errors_in_a_row + 1, most_errors_counted) : 0;
    seat.unsaved = true;
    if (!went_wrong && !decides_nothing(message.what)) {  // kept before it is answered
        look_at(seat, wish.now_s, 0.0);
        keep_seat(seat);
    }
    say_from(seat, std::move(answers));
}

std::string Classroom::welcome(const LineState& line) const {
    json::object message = json::parse(wishes_.new_bench()->greeting()).as_object();
    message["class"] = {{"open", class_.has_value()}, {"must_join", wishes_.must_join}};
    const bool is_outside = line.role == Role::visitor || line.role == Role::projector;
    if (wishes_.must_join && is_outside) message["shelf"] = json::array();
    return json::serialize(message);
}

// ---------------------------------------------------------------- coming in

void Classroom::judge_guess(const Wish& wish, bool is_right, const std::string& wrong) {
    if (is_right) {
        wish.from.wrong_tries = 0;
        return;
    }
    const bool is_last = ++wish.from.wrong_tries >= most_wrong_tries;
    guard_.was_wrong(wish.now_s, is_last);
    throw WishRefused(wrong);
}

void Classroom::join(const Wish& wish) {
    if (!class_) throw WishRefused("no class is open");
    if (!guard_.may_try(wish.now_s)) throw WishRefused("one try a second; try once more");
    judge_guess(wish, is_same_typed(wish.body.at("word").as_string(), class_->word),
                "that is not the word of this class");
    Parsed<std::string> name = understood_seat_name(wish.body.at("seat").as_string());
    if (!name.value) throw WishRefused(name.what + "; allowed: " + name.allowed);
    if (seat_named(seats_, *name.value) != nullptr) throw WishRefused("that name is taken");
    if (seats_.size() >= most_seats) throw WishRefused("the class is full");
    seats_.push_back(std::make_unique<Seat>());
    Seat& seat = *seats_.back();
    seat.name = std::move(*name.value);
    seat.ticket = drawn_ticket();
    seat.bench = wish.from.bench ? std::move(wish.from.bench) : wishes_.new_bench();
    sit_down(wish, seat);
    if (!wishes_.must_join) say(wish.line, welcome(wish.from));  // back from the form to the shelf
}

void Classroom::rejoin(const Wish& wish) {
    Seat* seat = seat_with_ticket(seats_, wish.body.at("ticket").as_string());
    if (seat == nullptr) {
        ++wish.from.wrong_tries;
        throw WishRefused("nobody has that ticket");
    }
    if (seat->line) {  // the newer page has it
        LineState& other = at_.at(*seat->line);
        other.seat = nullptr;
        other.role = Role::visitor;
        say(*seat->line, R"({"is":"taken_over"})");
        lines_.hang_up(*seat->line);
    }
    sit_down(wish, *seat);
    for (std::string& text : bench_of(*seat).picture()) say(wish.line, std::move(text));
}

void Classroom::sit_down(const Wish& wish, Seat& seat) {
    wish.from.role = Role::learner;
    wish.from.seat = &seat;
    wish.from.bench.reset();
    wish.from.wrong_tries = 0;
    wish.from.beat_s = wish.now_s;
    seat.line = wish.line;
    seat.heard_s = wish.now_s;
    seat.errors_in_a_row = 0;
    if (seat.bench) seat.bench->hold(class_->held);
    keep_seat(seat);
    state_wanted_ = true;
    say(wish.line, json::serialize(json::object{{"is", "seated"},
                                                {"seat", seat.name},
                                                {"ticket", seat.ticket},
                                                {"held", class_->held}}));
    if (wishes_.must_join) say(wish.line, welcome(wish.from));
}

/// The page keeps its run where a visitor may have one.
void Classroom::unseat(Seat& seat) {
    if (!seat.line) return;
    LineState& line = at_.at(*seat.line);
    line.role = Role::visitor;
    line.seat = nullptr;
    if (!wishes_.must_join) {
        line.bench = std::move(seat.bench);
        if (line.bench) line.bench->hold(false);
    }
    say(*seat.line, R"({"is":"class_over"})");
    seat.line.reset();
}

void Classroom::project(const Wish& wish) {
    if (!guard_.may_try(wish.now_s)) throw WishRefused("one try a second; try once more");
    judge_guess(wish, is_same_typed(wish.body.at("secret").as_string(), wishes_.secret),
                "that is not the class secret");
    if (!class_) throw WishRefused("no class is open");
    if (count(Role::projector) >= most_projectors) throw WishRefused("there are projectors enough");
    wish.from.role = Role::projector;
    wish.from.bench.reset();
    say(wish.line, json::serialize(json::object{{"is", "projecting"},
                                                {"word", class_->word},
                                                {"title", class_->title},
                                                {"address", wishes_.address}}));
    show_to(wish.line, wish.from);
}

// ---------------------------------------------------------------- time

void Classroom::beat(LineId line, double now_s) {
    const auto found = at_.find(line);
    if (found == at_.end()) return;
    LineState& state = found->second;
    Session* bench = state.seat != nullptr ? state.seat->bench.get() : state.bench.get();
    if (bench == nullptr) state.beat_s = now_s;
    if (bench == nullptr || lines_.waiting(line) > 0) return;
    const double seconds = now_s - std::exchange(state.beat_s, now_s);
    std::vector<std::string> said = bench->pass(seconds);
    if (state.seat == nullptr) {
        for (std::string& text : said) say(line, std::move(text));
        return;
    }
    if (bench->moves()) state.seat->unsaved = true;
    const bool decided = std::any_of(said.begin(), said.end(), [](const std::string& text) {
        return said_is(text) != "frame" && said_is(text) != "sun";
    });
    if (decided) {
        look_at(*state.seat, now_s,
                0.0);  // an answer could be gone from the bench at the next look
        keep_seat(*state.seat);
    }
    say_from(*state.seat, std::move(said));
}

void Classroom::pass(double now_s) {
    constexpr double look_every_s = 1.0;
    constexpr double save_every_s = 5.0;
    if (!class_) return;
    for (const auto& seat : seats_) {  // that nobody sits at, and that somebody is shown
        if (!seat->line && seat->bench && seat->bench->catching_up()) {
            say_from(*seat, seat->bench->pass(0.0));
        }
    }
    for (auto& [line, state] : at_) {
        if (state.role == Role::projector && state.behind && lines_.waiting(line) == 0) {
            show_to(line, state);
        }
    }
    if (state_wanted_ || now_s - looked_s_ >= look_every_s) {
        const double seconds = std::clamp(now_s - looked_s_, 0.0, 2.0 * look_every_s);
        for (const auto& seat : seats_) look_at(*seat, now_s, seconds);
        looked_s_ = now_s;
        state_wanted_ = false;
        tell_state(now_s);
    }
    if (now_s - saved_s_ >= save_every_s) {
        saved_s_ = now_s;
        keep_unsaved();
    }
}

// ---------------------------------------------------------------- parts

/// Of a seat that was kept: opened again at its first use. A run that cannot be opened is told
/// once, stays kept, and leaves the bench empty.
Session& Classroom::bench_of(Seat& seat) {
    if (seat.bench) return *seat.bench;
    seat.bench = wishes_.new_bench();
    seat.bench->hold(class_ && class_->held);
    seat.bench->restore(seat.kept);
    seat.kept.clear();
    return *seat.bench;
}

std::size_t Classroom::count(Role role) const {
    return static_cast<std::size_t>(std::count_if(
        at_.begin(), at_.end(), [&](const auto& each) { return each.second.role == role; }));
}

void Classroom::say(LineId line, std::string text) {
    lines_.say(line, std::make_shared<const std::string>(std::move(text)));
}

void Classroom::say_to_all(Role role, const std::string& text) {
    const auto said = std::make_shared<const std::string>(text);
    for (const auto& [line, state] : at_) {
        if (state.role == role) lines_.say(line, said);
    }
}

/// To whoever sits there, and to projectors while it is shown: all but what is the learner's own.
void Classroom::say_from(const Seat& seat, std::vector<std::string> texts) {
    const bool is_shown = class_ && class_->shown == seat.name;
    for (std::string& text : texts) {
        const std::string_view is = said_is(text);
        const bool is_own = is == "error" || is == "saved";
        const auto said = std::make_shared<const std::string>(std::move(text));
        if (seat.line) lines_.say(*seat.line, said);
        if (!is_shown || is_own) continue;
        for (auto& [line, state] : at_) {
            if (state.role != Role::projector || state.behind) continue;
            state.behind = lines_.waiting(line) >= most_waiting_at_projector;
            if (!state.behind) lines_.say(line, said);
        }
    }
}

void Classroom::keep(const std::function<void()>& work) {
    if (keeper_ == nullptr) return;
    try {
        work();
        keeping_fails_ = false;
    } catch (const std::runtime_error& error) {
        if (std::exchange(keeping_fails_, true)) return;
        say_to_all(
            Role::trainer,
            error_message("class_open", std::string("the class is not kept: ") + error.what()));
    }
}

void Classroom::keep_seat(Seat& seat) {
    keep([&] { keeper_->keep({kept_seat(seat)}); });
    seat.unsaved = false;
}

void Classroom::keep_unsaved() {
    std::vector<KeptSeat> kept;
    for (const auto& seat : seats_) {
        if (std::exchange(seat->unsaved, false)) kept.push_back(kept_seat(*seat));
    }
    if (!kept.empty()) {
        keep([&] { keeper_->keep(kept); });
    }
}

void Classroom::keep_all() {
    if (!class_) return;
    for (const auto& seat : seats_) seat->unsaved = true;
    keep_unsaved();
}

}  // namespace noonbench::harness
