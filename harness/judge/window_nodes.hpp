// SPDX-License-Identifier: MIT
// Windows of fixed length: always and sometime ahead of the present tick, extrema and sums behind.
#pragma once
#include "block.hpp"
#include "sliding.hpp"

namespace noonbench::harness {

/// The least (Combine Least) or greatest (Most) value of a formula from so many ticks ahead to so
/// many ticks ahead.
template <class Combine>
class AheadNode : public StreamNode {
  public:
    AheadNode(RunState& run, StreamNode& of, Reach reach);
    void pass_need_on() override { of_.need(keep()); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;
    void prepare() override { sliding_.make_room(); }

  private:
    /// Where the run ends as far as windows are concerned.
    [[nodiscard]] std::int64_t cut_slot() const;
    StreamNode& of_;
    Reach reach_;
    Sliding<Combine> sliding_;
};

/// The least or greatest number of the last so many ticks, the present one included. Where there
/// is none, `of` must have Combine::neutral; the result is NaN if that is all.
template <class Combine>
class ExtremumNode : public StreamNode {
  public:
    ExtremumNode(RunState& run, StreamNode& of, std::int64_t ticks);
    void pass_need_on() override { of_.need(keep() + blocks_for(ticks_)); }
    std::int64_t decided_at(std::int64_t slot) override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;
    void prepare() override { sliding_.make_room(); }

  private:
    StreamNode& of_;
    std::int64_t ticks_;
    Sliding<Combine> sliding_;
};

/// The sum over the last so many ticks of `of`, which has no NaNs.
class SumNode : public StreamNode {
  public:
    SumNode(RunState& run, StreamNode& of, std::int64_t ticks, bool starts);
    void pass_need_on() override { of_.need(keep() + blocks_for(ticks_)); }
    /// With `starts`, the last tick in the window that counted.
    std::int64_t decided_at(std::int64_t slot) override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;
    void prepare() override { sliding_.make_room(); }

  private:
    StreamNode& of_;
    std::int64_t ticks_;
    bool starts_;
    Sliding<Sum> sliding_;
};

}  // namespace noonbench::harness
