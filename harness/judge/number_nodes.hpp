// SPDX-License-Identifier: MIT
// Numbers from one tick to the next: signals, constants and arithmetic. NaN is "no number" and
// spreads; so does a division by zero.
#pragma once
#include "block.hpp"

#include "harness/language/formula.hpp"

namespace noonbench::harness {

class ConstantNode : public StreamNode {
  public:
    ConstantNode(RunState& run, double value) : StreamNode(run, false), value_(value) {}

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    double value_;
};

/// Finite numbers or NaN, from outside.
class SignalNode : public StreamNode {
  public:
    explicit SignalNode(RunState& run) : StreamNode(run, false) {}
    /// Room for the block, to be filled, and the end of that; blocks come in order.
    double* begin_block(std::int64_t block) { return open(block); }
    void end_block(std::int64_t block);

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;
};

/// One of the operations add .. greater of Expression. The two operands may be the same node.
class ArithmeticNode : public StreamNode {
  public:
    ArithmeticNode(RunState& run, Expression::Op op, StreamNode& a, StreamNode& b);
    void pass_need_on() override;
    std::int64_t decided_at(std::int64_t slot) override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    Expression::Op op_;
    StreamNode& a_;
    StreamNode& b_;
};

/// The number, or `otherwise` where there is none.
class NumberOrNode : public StreamNode {
  public:
    NumberOrNode(RunState& run, StreamNode& of, double otherwise);
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
    double otherwise_;
};

/// The number at so many ticks before, at the first tick if that is before the run.
class DelayedNode : public StreamNode {
  public:
    DelayedNode(RunState& run, StreamNode& of, std::int64_t ticks);
    void pass_need_on() override { of_.need(keep() + blocks_for(ticks_)); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
    std::int64_t ticks_;
};

/// Slots to clock time in s; NaN stays NaN, infinite means none and becomes NaN.
class ClockOfNode : public StreamNode {
  public:
    ClockOfNode(RunState& run, StreamNode& of);
    void pass_need_on() override { of_.need(keep()); }
    std::int64_t decided_at(std::int64_t slot) override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    [[nodiscard]] double clock(double slot) const;
    StreamNode& of_;
};

/// Ticks that have passed since the slot `of`, which is never ahead; NaN stays NaN.
class TimeSinceNode : public StreamNode {
  public:
    TimeSinceNode(RunState& run, StreamNode& of) : StreamNode(run, false), of_(of) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
};

}  // namespace noonbench::harness
