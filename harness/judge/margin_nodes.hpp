// SPDX-License-Identifier: MIT
// Formulas as numbers: positive where they hold, negative where they do not, never 0 or NaN.
#pragma once
#include "block.hpp"

#include "harness/language/formula.hpp"

#include <vector>

namespace noonbench::harness {

/// How an atom counts towards the whole: for it, against it, or as a fact of its own that is not
/// asked for after the end of the run.
enum class Side : std::int8_t { against = -1, fact = 0, with = 1 };

/// A formula without parts: it decides what stands for the ticks after the last one.
class AtomNode : public StreamNode {
  public:
    AtomNode(RunState& run, Side side) : StreamNode(run, side != Side::fact), side_(side) {}

  protected:
    virtual Bounds atom_bounds(std::int64_t block) = 0;
    virtual void fill_atom(std::int64_t block, double* out) = 0;
    Bounds find_bounds(std::int64_t block) final;
    void fill(std::int64_t block, double* out) final;

  private:
    [[nodiscard]] double after_the_end() const;
    Side side_;
};

/// less .. not_equal of Formula. With `distance` by how much, else by truth alone.
class ComparisonNode : public AtomNode {
  public:
    struct Operands {
        StreamNode& left;
        StreamNode& right;
    };
    ComparisonNode(RunState& run, Side side, Formula::Op op, bool distance, Operands operands);
    void pass_need_on() override;
    std::int64_t decided_at(std::int64_t slot) override;

  protected:
    Bounds atom_bounds(std::int64_t block) override;
    void fill_atom(std::int64_t block, double* out) override;

  private:
    Formula::Op op_;
    bool distance_;
    StreamNode& left_;
    StreamNode& right_;
};

/// A bit by its truth.
class TruthNode : public AtomNode {
  public:
    TruthNode(RunState& run, Side side, StreamNode& bit);
    void pass_need_on() override { bit_.need(keep()); }

  protected:
    Bounds atom_bounds(std::int64_t block) override;
    void fill_atom(std::int64_t block, double* out) override;

  private:
    StreamNode& bit_;
};

/// A bit by the seconds to the next change (ahead) or from the last one, at most longest_shift_s.
class ShiftNode : public AtomNode {
  public:
    ShiftNode(RunState& run, Side side, StreamNode& bit, bool ahead);
    void pass_need_on() override;

  protected:
    Bounds atom_bounds(std::int64_t block) override;
    void fill_atom(std::int64_t block, double* out) override;

  private:
    /// The nearest slot beyond the block, forward or backward, where the bit is not `value`.
    [[nodiscard]] std::int64_t change_beyond(std::int64_t block, double value);
    StreamNode& bit_;
    bool ahead_;
};

class NegationNode : public StreamNode {
  public:
    NegationNode(RunState& run, StreamNode& of);
    void pass_need_on() override { of_.need(keep()); }
    std::int64_t decided_at(std::int64_t slot) override { return of_.decided_at(slot); }

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    StreamNode& of_;
};

/// Conjunction (Combine Least) or disjunction (Most).
template <class Combine>
class JunctionNode : public StreamNode {
  public:
    JunctionNode(RunState& run, std::vector<StreamNode*> of);
    void pass_need_on() override;
    std::int64_t decided_at(std::int64_t slot) override;

  protected:
    Bounds find_bounds(std::int64_t block) override;
    void fill(std::int64_t block, double* out) override;

  private:
    std::vector<StreamNode*> of_;
};

}  // namespace noonbench::harness
