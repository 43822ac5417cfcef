// SPDX-License-Identifier: MIT
// One learner at one bench: takes what the page says, lets time pass, says what is to be seen. No
// sockets and no clock here; real time is passed in.
#pragma once
#include "frame.hpp"
#include "hand_move.hpp"
#include "lesson_place.hpp"
#include "live_bench.hpp"
#include "messages.hpp"
#include "session_glance.hpp"
#include "shelf.hpp"

#include "harness/lesson/asked.hpp"

#include <boost/json.hpp>

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace noonbench::harness {

/// What the sessions of a server share to answer lessons.
struct LessonDesk {
    Asked asked;
    /// Does work that may take seconds: at once, or on another thread.
    std::function<void(std::function<void()> work)> aside = [](const auto& work) { work(); };
    std::uint64_t lessons_begun = 0;  // each has lots of its own
};

class Session {
  public:
    /// Both must outlive the session and all work aside.
    Session(const Shelf& shelf, LessonDesk& desk);

    /// What a page is told first.
    [[nodiscard]] std::string greeting() const;
    /// Answers to one message, in order; a message that is no good is answered by an error and
    /// changes nothing.
    [[nodiscard]] std::vector<std::string> take(std::string_view text);
    /// Lets so many seconds of real time pass; what has to be said and seen then, the frame last.
    [[nodiscard]] std::vector<std::string> pass(double seconds);
    /// Whether time moves, so that pass() is worth calling often.
    [[nodiscard]] bool moves() const {
        return open_ && (catching_up_ || (!held_ && (pace_ > 0 || jumps_)));
    }
    /// Where the learner stands; only while a lesson is open.
    [[nodiscard]] const LessonPlace& lesson_place() const { return *lesson_; }

    // What a class asks of a session (session_kept.cpp).

    /// While held, time does not pass; only a move by hand takes the second in which it shows.
    void hold(bool held);
    /// As `open`, but by the trainer; sealed: what is wrong is not told.
    [[nodiscard]] std::vector<std::string> open_sent(const std::string& path, bool sealed);
    /// All that is needed to stand where it stands; empty without an open run.
    [[nodiscard]] boost::json::object kept() const;
    /// Opens what was kept; time catches up in the passes that follow. What is no longer good is
    /// refused with InputRefused, and nothing is open then.
    void restore(const boost::json::object& kept);
    [[nodiscard]] bool catching_up() const { return catching_up_; }
    /// For one that joins the view: the run as opened, its sun, its lesson, a full frame. None
    /// without a run.
    [[nodiscard]] std::vector<std::string> picture() const;
    [[nodiscard]] SessionGlance glance() const;

  private:
    struct Side {
        LiveBench bench;
        FrameRows since;  // the last frame
        FrameRows past;   // the run's start, for those who come to look later
        std::vector<HandMoveText> by_hand;
    };

    /// What stands on the bench: a file of the shelf, or a house of a lesson.
    struct Origin {
        std::filesystem::path file;
        std::vector<std::string> sets;
        std::string path, title, about;  // as a page is told
        bool hidden = false;             // what is wrong is not told
        bool sent = false;               // by the trainer
    };
    /// Answers worked out aside, until the session fetches them; outlives it if need be.
    struct Mailbox;

    void open(const boost::json::object& body);
    void begin(const Scenario& scenario, Origin origin);
    void put_on_bench(const Scenario& scenario, Origin origin);
    void restore_run(const boost::json::object& kept);
    [[nodiscard]] std::pair<Scenario, Origin> fetched(const ShelfItem& item, bool hidden) const;
    [[nodiscard]] static Scenario fetched_house(const LessonPlace& place, std::size_t house,
                                                Origin& origin);
    [[nodiscard]] boost::json::object opened() const;
    void refuse_at_this_time(std::string_view wish) const;
    void jump(const boost::json::object& body);
    void move(const boost::json::object& body);
    void fork(const boost::json::object& body);
    void course(const boost::json::object& body);
    void save();
    void obey(const PageMessage& message);
    void rewind(CivilSeconds to, LiveBench::Later later);

    void make(Side& side, const HandMoveText& move);
    void play(CivilSeconds to);
    void hurry();
    void tell_sun();
    [[nodiscard]] CivilSeconds shown() const { return sides_.front().bench.seen().at_s; }
    [[nodiscard]] CivilSeconds start() const { return sides_.front().bench.scenario().start_s; }
    [[nodiscard]] std::string frame();
    [[nodiscard]] std::string frame_head() const;

    void open_lesson(const ShelfItem& item);
    bool obey_in_lesson(const PageMessage& message);
    void refuse_what_must_wait(const PageMessage& message) const;
    void go(const boost::json::object& body);
    void predict(const boost::json::object& body);
    void try_out(const boost::json::object& body);
    void judge_task(const boost::json::object& body);
    void look(const boost::json::object& body);
    void name_causes(const boost::json::object& body);
    template <class Step>
    const Step& step_at(const boost::json::object& body) const;
    void put_house(std::size_t house);
    void work_out(std::string of, std::function<boost::json::object()> work);
    void settle(boost::json::object result);
    void fetch_mail();
    void tell_lesson_state();
    [[nodiscard]] std::vector<Move> own_moves(std::size_t house) const;
    [[nodiscard]] CivilSeconds stops_at() const;

    const Shelf* shelf_;
    LessonDesk* desk_;
    std::vector<std::string> answers_;  // to the message at hand
    Origin origin_;
    std::vector<Side> sides_;  // one, or two while forked
    bool open_ = false;
    bool held_ = false;
    bool catching_up_ = false;  // jumps to where a restored run stood
    int pace_after_ = 0;        // its pace once it stands there
    bool wiring_wanted_ = false;
    bool frame_due_ = false;
    bool jumps_ = false;
    std::optional<CivilSeconds> jump_to_;  // none: to the next event
    int pace_ = 0;                         // simulated seconds a second
    double owed_s_ = 0.0;
    CivilSeconds sun_of_ = -1;  // midnight of the day whose sun was told

    std::optional<LessonPlace> lesson_;
    std::shared_ptr<Mailbox> mail_;
    bool working_ = false;
    std::uint64_t opened_ = 0;  // runs so far; mail for an earlier one is late
};

}  // namespace noonbench::harness
