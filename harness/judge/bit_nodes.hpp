// SPDX-License-Identifier: MIT
// What is true or false at every tick, as 1 or 0, whatever comes after the run.
#pragma once
#include "block.hpp"
#include "formula.hpp"

namespace noonbench::harness {

/// A choice or on_off signal equals a word.
class WordBit : public Node {
  public:
    WordBit(RunState& run, Node& signal, int word) : Node(run, false), of_(signal), word_(word) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    Node& of_;
    double word_;
};

/// `of` is `to` (0 or 1) now and was not at the tick before; never at the first tick.
class EdgeBit : public Node {
  public:
    EdgeBit(RunState& run, Node& of, double to) : Node(run, false), of_(of), to_(to) {}
    void pass_need_on() override { of_.need(keep() + 1); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    Node& of_;
    double to_;
};

/// A number is there.
class HasValueBit : public Node {
  public:
    HasValueBit(RunState& run, Node& of) : Node(run, false), of_(of) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    Node& of_;
};

/// A formula holds. It must not look ahead.
class HoldsBit : public Node {
  public:
    HoldsBit(RunState& run, Node& of) : Node(run, false), of_(of) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    Node& of_;
};

/// Clock time lies in [from_s, until_s), past midnight if from_s > until_s; never if they are
/// equal.
class ClockBit : public Node {
  public:
    ClockBit(RunState& run, std::int32_t from_s, std::int32_t until_s)
        : Node(run, false), from_s_(from_s), until_s_(until_s) {}

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    [[nodiscard]] bool within(std::int64_t clock_s) const;
    std::int64_t from_s_;
    std::int64_t until_s_;
};

/// The tick is the last of a period that the run covers from its first second.
class EndsBit : public Node {
  public:
    EndsBit(RunState& run, Period::Kind kind) : Node(run, false), kind_(kind) {}

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    /// The slot of the one tick of the block where it is true, or -1.
    [[nodiscard]] std::int64_t end_in(std::int64_t block) const;
    Period::Kind kind_;
};

/// The run has lasted so many ticks, the present one included.
class LastedBit : public Node {
  public:
    LastedBit(RunState& run, std::int64_t ticks) : Node(run, false), ticks_(ticks) {}

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    std::int64_t ticks_;
};

/// The slot where `of` is 1, `otherwise` elsewhere.
class SlotWhereNode : public Node {
  public:
    SlotWhereNode(RunState& run, Node& of, double otherwise)
        : Node(run, false), of_(of), otherwise_(otherwise) {}
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    Node& of_;
    double otherwise_;
};

/// Civil seconds of the first tick of the calendar period that `at` lies in.
[[nodiscard]] std::int64_t period_start(Period::Kind kind, std::int64_t at);

}  // namespace noonbench::harness
