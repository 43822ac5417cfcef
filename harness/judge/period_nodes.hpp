// SPDX-License-Identifier: MIT
// Sums and extrema since the start of the run, the day, the month or the year: they carry one value
// from block to block. Calendar periods begin with a block, so that within one they only go on.
#pragma once
#include "block.hpp"

#include "harness/language/formula.hpp"

namespace noonbench::harness {

/// What is carried into a block and what out of it.
template <class Carried>
struct Passage {
    Carried before;
    Carried after;
};

/// Sum in the order of the ticks over `of`, which has no NaNs.
class RunningSum : public CarryingNode {
  public:
    RunningSum(RunState& run, StreamNode& of, Period::Kind kind, bool starts);
    void pass_need_on() override { of_.need(keep()); }
    void carry(std::int64_t block) override;
    /// With `starts`, the last tick of the period that counted.
    std::int64_t decided_at(std::int64_t slot) override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;
    void prepare() override { passages_.make_room(keep() + 2); }

  private:
    struct Carried {
        double sum = 0.0;
        std::int64_t last_addition = -1;
    };
    StreamNode& of_;
    Period::Kind kind_;
    bool starts_;
    Ring<Passage<Carried>> passages_;
};

/// Extremum so far of `of`, which has Combine::neutral where it has no number; NaN if that is all.
template <class Combine>
class RunningExtremum : public CarryingNode {
  public:
    RunningExtremum(RunState& run, StreamNode& of, Period::Kind kind);
    void pass_need_on() override { of_.need(keep()); }
    void carry(std::int64_t block) override;
    std::int64_t decided_at(std::int64_t slot) override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;
    void prepare() override { passages_.make_room(keep() + 2); }

  private:
    struct Carried {
        double value = 0.0;
        std::int64_t slot = -1;
    };
    StreamNode& of_;
    Period::Kind kind_;
    Ring<Passage<Carried>> passages_;
};

/// The number at the first tick of the period, NaN if it had none.
class PeriodStartNode : public CarryingNode {
  public:
    PeriodStartNode(RunState& run, StreamNode& of, Period::Kind kind);
    void pass_need_on() override { of_.need(keep()); }
    void carry(std::int64_t block) override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;
    void prepare() override { within_.make_room(keep() + 2); }

  private:
    StreamNode& of_;
    Period::Kind kind_;
    Ring<double> within_;
};

}  // namespace noonbench::harness
