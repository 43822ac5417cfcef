// SPDX-License-Identifier: MIT
// All that learners, a trainer and projectors say to the bench and are told by it: visitors with a
// bench of their own, and one class with its seats. No sockets and no clock here; real time is
// passed in as seconds of any steady clock.
#pragma once
#include "class_keeper.hpp"
#include "class_seats.hpp"
#include "guess_guard.hpp"
#include "messages.hpp"
#include "session.hpp"

#include <cstddef>
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

inline constexpr std::size_t most_trainers = 4;
inline constexpr std::size_t most_projectors = 8;
/// Texts that such a page may be behind before it is told no more, until it has caught up.
inline constexpr std::size_t most_waiting_at_projector = 32;
inline constexpr std::size_t most_waiting_at_trainer = 2;

/// One text, said to several lines without a copy.
using SaidText = std::shared_ptr<const std::string>;

/// The ends of the lines, as a classroom sees them. None of these calls comes back into the room.
class Lines {
  public:
    Lines() = default;
    Lines(const Lines&) = delete;
    Lines& operator=(const Lines&) = delete;
    virtual ~Lines() = default;

    virtual void say(LineId line, SaidText text) = 0;
    /// How many texts the other end has not taken yet.
    [[nodiscard]] virtual std::size_t waiting(LineId line) const = 0;
    /// Shuts the line once all that was said is out.
    virtual void hang_up(LineId line) = 0;
};

struct RoomWishes {
    bool must_join = false;                               // a visitor can do nothing before joining
    std::string secret;                                   // the trainer's
    std::string address;                                  // what learners type into a browser
    std::function<std::unique_ptr<Session>()> new_bench;  // for whoever has none yet
};

class Classroom {
  public:
    /// `shelf`, `lines` and `keeper` must outlive the room; without a keeper nothing outlives it. A
    /// class that the keeper has is open again.
    Classroom(const Shelf& shelf, RoomWishes wishes, Lines& lines, ClassKeeper* keeper);

    void enter(LineId line, double now_s);
    void leave(LineId line);
    void take(LineId line, std::string_view text, double now_s);
    /// Lets time pass at the bench of this line; worth calling ten times a second. A page that has
    /// not taken the last frame yet gets none; its time is made up for as far as pass() allows and
    /// stands still for the rest, so that nothing is lost.
    void beat(LineId line, double now_s);
    /// What is due for the class as a whole; worth calling ten times a second.
    void pass(double now_s);
    /// One of the runs that the trainer has sent is opened; false when there are none left.
    bool open_next();
    /// Everything on the disk, whether anything was decided or not.
    void keep_all();

    [[nodiscard]] bool has_class() const { return class_.has_value(); }
    [[nodiscard]] const Seats& seats() const { return seats_; }

  private:
    enum class Role : std::uint8_t { visitor, learner, trainer, projector };
    struct LineState {
        Role role = Role::visitor;
        Seat* seat = nullptr;            // a learner's
        std::unique_ptr<Session> bench;  // of a visitor's or trainer's own
        double beat_s = 0.0;
        int wrong_tries = 0;
        bool behind = false;  // a projector that missed what was said
    };
    struct SentRun {
        std::string seat;
        std::string path;
        bool sealed = false;
    };
    struct Wish {
        LineId line = 0;
        LineState& from;
        const boost::json::object& body;
        double now_s = 0.0;
    };
    using Handler = void (Classroom::*)(const Wish& wish);
    struct HandlerOf {
        std::string_view what;
        std::optional<Role> role;  // who may ask; none: anybody
        Handler handler;
    };
    static const std::vector<HandlerOf>& handlers();

    // what a page may ask of the class (classroom.cpp, classroom_trainer.cpp)
    void join(const Wish& wish);
    void rejoin(const Wish& wish);
    void project(const Wish& wish);
    void class_open(const Wish& wish);
    void class_hold(const Wish& wish);
    void class_send(const Wish& wish);
    void class_show(const Wish& wish);
    void class_marks(const Wish& wish);
    void class_dismiss(const Wish& wish);
    void class_end(const Wish& wish);
    void instructor_sheet(const Wish& wish);

    void obey(const PageMessage& message, std::string_view text, const Wish& wish);
    void to_bench(const PageMessage& message, std::string_view text, const Wish& wish);
    [[nodiscard]] std::string welcome(const LineState& line) const;
    void sit_down(const Wish& wish, Seat& seat);
    void unseat(Seat& seat);
    void judge_guess(const Wish& wish, bool is_right, const std::string& wrong);
    [[nodiscard]] Session& bench_of(Seat& seat);
    [[nodiscard]] std::size_t count(Role role) const;

    void say(LineId line, std::string text);
    void say_to_all(Role role, const std::string& text);
    void say_from(const Seat& seat, std::vector<std::string> texts);
    void show_to(LineId line, LineState& state);
    void tell_state(double now_s);
    void keep(const std::function<void()>& work);
    void keep_seat(Seat& seat);
    void keep_unsaved();

    const Shelf& shelf_;
    RoomWishes wishes_;
    Lines& lines_;
    ClassKeeper* keeper_;
    std::map<LineId, LineState> at_;
    std::optional<KeptClass> class_;
    Seats seats_;
    std::deque<SentRun> sent_runs_;
    GuessGuard guard_;
    std::string told_state_;
    double looked_s_ = -1e9;
    double saved_s_ = 0.0;
    bool state_wanted_ = false;
    bool keeping_fails_ = false;
};

}  // namespace noonbench::harness
