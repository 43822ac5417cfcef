// SPDX-License-Identifier: MIT
// One learner at one bench: takes what the page says, lets time pass, says what is to be seen. No
// sockets and no clock here; real time is passed in.
#pragma once
#include "frame.hpp"
#include "live_bench.hpp"
#include "messages.hpp"
#include "shelf.hpp"

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
    [[nodiscard]] bool moves() const { return open_ && (pace_ > 0 || jumps_); }

  private:
    struct Side {
        LiveBench bench;
        FrameRows since;
        std::vector<HandMoveText> by_hand;
    };

    void open(const boost::json::object& body);
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

    const Shelf& shelf_;
    std::vector<std::string> answers_;  // to the message at hand
    const ShelfItem* item_ = nullptr;
    std::vector<Side> sides_;  // one, or two while forked
    bool open_ = false;
    bool wiring_wanted_ = false;
    bool frame_due_ = false;
    bool jumps_ = false;
    std::optional<CivilSeconds> jump_to_;  // none: to the next event
    int pace_ = 0;                         // simulated seconds a second
    double owed_s_ = 0.0;
    CivilSeconds sun_of_ = -1;  // midnight of the day whose sun was told
};

}  // namespace noonbench::harness
