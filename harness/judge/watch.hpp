// SPDX-License-Identifier: MIT
// The outermost always, sometime or until of a formula, seen from the first tick: it looks at one
// block after the other and keeps the margin so far. A block whose bounds cannot beat it is passed
// over.
#pragma once
#include "block.hpp"

#include "harness/language/formula.hpp"

namespace noonbench::harness {

struct WatchOrder {
    Formula::Op op = Formula::Op::always;  // always, sometime or until
    StreamNode* body = nullptr;
    StreamNode* before = nullptr;  // until: what must hold before
    Window window{};               // from the first tick
    bool operator==(const WatchOrder& other) const {
        return op == other.op && body == other.body && before == other.before &&
               window.from_s == other.window.from_s && window.until_s == other.window.until_s;
    }
};

/// A margin and the slot of the tick that made it so, -1 if none did.
struct Decided {
    double margin = 0.0;
    std::int64_t slot = -1;
};

class Watch {
  public:
    Watch(const RunState& run, const WatchOrder& order);
    [[nodiscard]] const WatchOrder& order() const { return order_; }
    /// Announces to the nodes below what will be asked for.
    void announce() const;
    /// Looks at every block that the newest complete one allows to.
    void look_up_to(std::int64_t newest_block);
    /// The margin of the ended run under the run's present ending; may be asked for each ending.
    [[nodiscard]] Decided decided() const;

  private:
    struct Progress {
        Decided best;
        double held = 0.0;  // until: the least of `before` so far
        std::int64_t next_block = 0;
    };
    struct Slots {
        std::int64_t from = 0;
        std::int64_t stop = 0;  // not included
    };
    void look(std::int64_t block, std::int64_t stop, Progress& progress) const;
    template <class Combine>
    void look_for_extremum(std::int64_t block, Slots slots, Progress& progress) const;
    void look_for_goal(std::int64_t block, Slots slots, Progress& progress) const;
    [[nodiscard]] std::int64_t decided_at(std::int64_t slot) const;

    const RunState* run_;
    WatchOrder order_;
    std::int64_t lag_blocks_ = 0;
    std::int64_t from_slot_ = 0;
    std::int64_t stop_slot_ = 0;  // not included
    Progress progress_;
};

}  // namespace noonbench::harness
