// SPDX-License-Identifier: MIT
// One learner at one bench: takes what the page says, lets time pass, says what is to be seen. No
// sockets and no clock here; real time is passed in.
#pragma once
#include "frame.hpp"
#include "live_bench.hpp"
#include "messages.hpp"
#include "session_glance.hpp"
#include "shelf.hpp"

#include <boost/json.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// A move as it was asked for, in a scenario's words.
struct HandMoveText {
    CivilSeconds at_s = 0;
    std::string kind;  // setting, lever, hand, wire
    std::string name;
    std::string to;
    std::int32_t over_s = 0;
};

class Session {
  public:
    /// `shelf` must outlive the session.
    explicit Session(const Shelf& shelf);

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
    /// For one that joins the view: the run as opened, its sun, a full frame. None without a run.
    [[nodiscard]] std::vector<std::string> picture() const;
    [[nodiscard]] SessionGlance glance() const;

  private:
    struct Side {
        LiveBench bench;
        FrameRows since;
        std::vector<HandMoveText> by_hand;
    };

    void open(const boost::json::object& body);
    void put_on_bench(const ShelfItem& item);
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

    const Shelf& shelf_;
    std::vector<std::string> answers_;  // to the message at hand
    const ShelfItem* item_ = nullptr;
    std::vector<Side> sides_;  // one, or two while forked
    bool open_ = false;
    bool held_ = false;
    bool hidden_ = false;       // what is wrong is not told
    bool sent_ = false;         // by the trainer
    bool catching_up_ = false;  // jumps to where a restored run stood
    int pace_after_ = 0;        // its pace once it stands there
    bool wiring_wanted_ = false;
    bool frame_due_ = false;
    bool jumps_ = false;
    std::optional<CivilSeconds> jump_to_;  // none: to the next event
    int pace_ = 0;                         // simulated seconds a second
    double owed_s_ = 0.0;
    CivilSeconds sun_of_ = -1;  // midnight of the day whose sun was told
};

}  // namespace noonbench::harness
