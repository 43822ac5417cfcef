// SPDX-License-Identifier: MIT
// A run that is played, wound back and forked. The bench strides ahead of what is shown, as it
// would without anybody watching; what is shown is read from its ticks. A hand's move is laid into
// the run as if it had been written there from the start, so that the same moves in a scenario give
// the same bytes.
#pragma once
#include "harness/bench/bench.hpp"
#include "harness/bench/event_notes.hpp"
#include "harness/bench/signals.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <functional>
#include <vector>

namespace noonbench::harness {

/// One tick as a viewer sees it.
struct SeenTick {
    CivilSeconds at_s = 0;
    std::vector<float> values;  // of the columns
    firmware::Outputs outputs{};
    firmware::Settings settings{};
    std::array<std::uint16_t, firmware::sensor_count> counts{};
    std::array<firmware::HandRequest, 2> hands{};  // pump, backup
    bool powered = true;
    std::vector<traces::Event> events;  // of this tick
};

/// Shown each tick in its order; may be empty.
using ShowTick = std::function<void(const SeenTick&)>;

class LiveBench {
  public:
    /// `start`: at its scenario's first second, nothing decided yet. Shows that second.
    explicit LiveBench(Bench start);

    [[nodiscard]] const Scenario& scenario() const { return now_.scenario(); }
    [[nodiscard]] const std::vector<Column>& columns() const { return columns_; }
    [[nodiscard]] const SeenTick& seen() const { return seen_; }
    /// Levers, wires and the rest of the plant, as they are from the last decision on.
    [[nodiscard]] const Bench& bench() const { return now_; }
    [[nodiscard]] CivilSeconds last_s() const;  // of the run; nothing is shown after it

    /// Shows every tick up to `to`, or to the end of the run.
    void play(CivilSeconds to, const ShowTick& show = {});
    /// Makes a move at the next tick, or later if the move says so. What was shown stays.
    void make(Move move);
    /// Back to `to` (not before the start). Moves by hand after it are taken back, or, with
    /// Later::kept, will be made again when their time comes.
    enum class Later : std::uint8_t { forgotten, kept };
    void rewind(CivilSeconds to, Later later);
    /// The run so far once more, without a change: from the start to what is shown, every tick on
    /// which something was decided and those at multiples of `every_s`.
    void tell_again(std::int64_t every_s, const ShowTick& show) const;

  private:
    void go_back(CivilSeconds to);
    void stride();
    void keep_frame();
    [[nodiscard]] SeenTick tick_of(const Bench& bench) const;

    std::vector<Column> columns_;
    std::vector<Bench> frames_;  // at stride boundaries, undecided; the first is the start
    std::vector<EventNotes> frame_notes_;
    Bench now_;         // ahead of what is shown, undecided
    EventNotes notes_;  // up to there
    std::deque<SeenTick> ahead_;
    SeenTick seen_;
};

}  // namespace noonbench::harness
