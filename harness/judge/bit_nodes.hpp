// SPDX-License-Identifier: MIT
// What is true or false at every tick, as 1 or 0, whatever comes after the run.
#pragma once
#include "block.hpp"

#include "harness/language/formula.hpp"

namespace noonbench::harness {

/// A choice or on_off signal equals a word.
class WordBit : public StreamNode {
  public:
    WordBit(RunState& run, StreamNode& signal, int word)
        : StreamNode(run, false), of_(signal), word_(word) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
    double word_;
};

/// `of` is `to` (0 or 1) now and was not at the tick before; never at the first tick.
class EdgeBit : public StreamNode {
  public:
    EdgeBit(RunState& run, StreamNode& of, double to) : StreamNode(run, false), of_(of), to_(to) {}
    void pass_need_on() override { of_.need(keep() + 1); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
    double to_;
};

/// A number is there.
class HasValueBit : public StreamNode {
  public:
    HasValueBit(RunState& run, StreamNode& of) : StreamNode(run, false), of_(of) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
};

/// A formula holds. It must not look ahead.
class HoldsBit : public StreamNode {
  public:
    HoldsBit(RunState& run, StreamNode& of) : StreamNode(run, false), of_(of) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
};

/// Clock time lies in [from_s, until_s), past midnight if from_s > until_s; never if they are
/// equal.
class ClockBit : public StreamNode {
  public:
    ClockBit(RunState& run, std::int32_t from_s, std::int32_t until_s)
        : StreamNode(run, false), from_s_(from_s), until_s_(until_s) {}

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    [[nodiscard]] bool within(std::int64_t clock_s) const;
    std::int64_t from_s_;
    std::int64_t until_s_;
};

/// The tick is the last of a period that the run covers from its first second.
class EndsBit : public StreamNode {
  public:
    EndsBit(RunState& run, Period::Kind kind) : StreamNode(run, false), kind_(kind) {}

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    /// The slot of the one tick of the block where it is true, or -1.
    [[nodiscard]] std::int64_t end_in(std::int64_t block) const;
    Period::Kind kind_;
};

/// The run has lasted so many ticks, the present one included.
class LastedBit : public StreamNode {
  public:
    LastedBit(RunState& run, std::int64_t ticks) : StreamNode(run, false), ticks_(ticks) {}

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    std::int64_t ticks_;
};

/// The slot where `of` is 1, `otherwise` elsewhere.
class SlotWhereNode : public StreamNode {
  public:
    SlotWhereNode(RunState& run, StreamNode& of, double otherwise)
        : StreamNode(run, false), of_(of), otherwise_(otherwise) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
    double otherwise_;
};

/// Civil seconds of the first tick of the calendar period that `at` lies in.
[[nodiscard]] std::int64_t period_start(Period::Kind kind, std::int64_t at);

}  // namespace noonbench::harness
