// SPDX-License-Identifier: MIT
// What a page is told of the ticks that were shown since it was told last.
#pragma once
#include "live_bench.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Rows of a stretch of a run, thinned evenly, and all its events: between two frames, or since the
/// run's start.
class FrameRows {
  public:
    /// Keeps at most `most_rows`.
    void take(const SeenTick& tick, std::size_t most_rows);
    void clear();
    /// Forgets what is later; what comes then is thinned as before.
    void forget_after(CivilSeconds at_s);
    /// Forgets the oldest events.
    void keep_newest_events(std::size_t most);

    [[nodiscard]] const std::vector<SeenTick>& rows() const { return rows_; }
    [[nodiscard]] const std::vector<traces::Event>& events() const { return events_; }

  private:
    std::size_t every_ = 1;  // of the ticks taken, one in so many is kept
    std::size_t taken_ = 0;
    std::vector<SeenTick> rows_;
    std::vector<traces::Event> events_;
};

/// One bench's part of a frame, as JSON text. `whole`: the rows are not what has come since the
/// last frame but all that is known of the run.
void append_bench(std::string& out, const LiveBench& bench, const FrameRows& since,
                  bool with_terminals, bool whole = false);

/// `[at_s, value, ...]`; at_s counts from the run's start.
void append_row(std::string& out, const LiveBench& bench, const SeenTick& tick);

}  // namespace noonbench::harness
