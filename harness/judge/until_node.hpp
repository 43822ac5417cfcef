// SPDX-License-Identifier: MIT
// "before U[from, until] goal" within bounds, in time that does not grow with the window: an
// until within bounds is a sometime within bounds and an until without any (Donze, Ferrere and
// Maler 2013), and the latter runs backwards tick by tick, or over a whole block at once.
#pragma once
#include "block.hpp"
#include "sliding.hpp"

namespace noonbench::harness {

class UntilNode : public StreamNode {
  public:
    struct Parts {
        StreamNode& before;      // must hold until then
        StreamNode& goal;        // must hold then
        StreamNode& goal_ahead;  // sometime within the window
        StreamNode* wait;  // `before` at all ticks before the window; null if it begins at once
    };
    UntilNode(RunState& run, const Parts& parts, Reach reach);
    void pass_need_on() override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;
    void prepare() override;

  private:
    /// What a block makes of the until at the tick after it: max(goal, min(hold, that)).
    struct Passing {
        std::int64_t block = -1;
        std::uint32_t epoch = 0;
        double goal = 0.0;
        double hold = 0.0;
    };
    const Passing& passing(std::int64_t block);
    void fetch(std::int64_t from, std::int64_t until, double* goal, double* before);
    [[nodiscard]] std::int64_t cut_slot() const;

    Parts of_;
    Reach reach_;
    Ring<Passing> passings_;
};

}  // namespace noonbench::harness
