// SPDX-License-Identifier: MIT
// From the trees of a requirement to nodes and watches.
#pragma once
#include "graph.hpp"
#include "margin_nodes.hpp"

#include "harness/language/requirement.hpp"

#include <cstddef>
#include <vector>

namespace noonbench::harness {

/// The first element of every node's key.
enum NodeKind : std::uint64_t {
    constant_kind,
    arithmetic_kind,
    number_or_kind,
    delayed_kind,
    clock_of_kind,
    slot_where_kind,
    time_since_kind,
    last_sum_kind,
    last_lowest_kind,
    last_highest_kind,
    running_sum_kind,
    running_lowest_kind,
    running_highest_kind,
    period_start_kind,
    word_kind,
    edge_kind,
    has_value_kind,
    clock_bit_kind,
    ends_kind,
    lasted_kind,
    holds_kind,
    comparison_kind,
    truth_kind,
    shift_kind,
    negation_kind,
    conjunction_kind,
    disjunction_kind,
    always_kind,
    sometime_kind,
    until_kind,
};

/// What atoms are taken for: distances of one measure, shifts in one direction, or truth alone.
struct Reading {
    enum class Kind : std::uint8_t { truth, measure, ahead, behind };
    Kind kind = Kind::truth;
    Measure measure = Measure::plain;
};

/// The connectives above the outermost temporal operators.
struct Root {
    Formula::Op op =
        Formula::Op::conjunction;  // negation, conjunction, disjunction; always: `watch`
    std::vector<Root> args;
    std::size_t watch = 0;
};

/// The margin of the whole under the run's present ending.
[[nodiscard]] Decided decided(const Root& root, const std::vector<Watch>& watches);

class Compiler {
  public:
    Compiler(Graph& graph, RunState& run) : graph_(graph), run_(run) {}
    /// Throws std::invalid_argument for windows that nobody can watch: endless inside another
    /// temporal operator, ending before they begin, or any within a count or a time.
    [[nodiscard]] Root root(const Formula& formula, const Reading& reading, Side side);
    [[nodiscard]] StreamNode& number(const Expression& expression);
    /// 1 where a formula without windows holds, else 0.
    [[nodiscard]] StreamNode& bit(const Formula& formula);

  private:
    StreamNode& sum(StreamNode& of, const Period& period, bool starts);
    StreamNode& extremum(StreamNode& of, const Period& period, bool highest);
    StreamNode& at_start(StreamNode& of, const Period& period);
    /// The last (or first) slot of the period at which the formula held, NaN if none.
    StreamNode& slot_held(const Formula& formula, const Period& period, bool last);
    StreamNode& over_period(const Expression& expression);
    StreamNode& arithmetic(Expression::Op op, StreamNode& a, StreamNode& b);
    StreamNode& number_or(StreamNode& of, double otherwise);
    StreamNode& constant(double value);
    StreamNode& word(std::size_t signal, int word);
    StreamNode& edge(StreamNode& of, double to);
    StreamNode& formula(const Formula& formula, const Reading& reading, Side side);
    StreamNode& comparison(const Formula& formula, const Reading& reading, Side side);
    StreamNode& two_valued(const Formula& formula, const Reading& reading, Side side);
    StreamNode& temporal(const Formula& formula, const Reading& reading, Side side);

    Graph& graph_;
    RunState& run_;
};

/// The formula with the consequence of every implication taken away: an implication is a
/// disjunction of negations and other things. If even that holds, nothing was ever asked for.
/// Null if there is no implication.
[[nodiscard]] FormulaPtr never_asked(const Formula& formula);

}  // namespace noonbench::harness
