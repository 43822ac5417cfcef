// SPDX-License-Identifier: MIT
// What a page is told of the ticks that were shown since it was told last.
#pragma once
#include "live_bench.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Rows between two frames, thinned evenly, and all events; emptied by each frame.
class FrameRows {
  public:
    /// Keeps at most `most_rows`.
    void take(const SeenTick& tick, std::size_t most_rows);
    void clear();

    [[nodiscard]] const std::vector<SeenTick>& rows() const { return rows_; }
    [[nodiscard]] const std::vector<traces::Event>& events() const { return events_; }

  private:
    std::size_t every_ = 1;  // of the ticks taken, one in so many is kept
    std::size_t taken_ = 0;
    std::vector<SeenTick> rows_;
    std::vector<traces::Event> events_;
};

/// One bench's part of a frame, as JSON text.
void append_bench(std::string& out, const LiveBench& bench, const FrameRows& since,
                  bool with_terminals);

/// `[at_s, value, ...]`; at_s counts from the run's start.
void append_row(std::string& out, const LiveBench& bench, const SeenTick& tick);

}  // namespace noonbench::harness
