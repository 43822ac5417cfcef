// SPDX-License-Identifier: MIT
#include "compile.hpp"

#include "bit_nodes.hpp"
#include "until_node.hpp"
#include "window_nodes.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace noonbench::harness {
namespace {

using Op = Formula::Op;
using Kind = Reading::Kind;

Side other(Side side) {
    return static_cast<Side>(-static_cast<int>(side));
}

bool is_temporal(Op op) {
    return op == Op::always || op == Op::sometime || op == Op::until;
}

/// Of a distance between two such numbers.
Measure measure_of_distance(Measure measure) {
    if (measure == Measure::temperature) return Measure::difference;
    return measure == Measure::clock ? Measure::duration : measure;
}

void check(const Window& window) {
    if (window.from_s < 0 || window.until_s < window.from_s) {
        throw std::invalid_argument("a window that ends before it begins");
    }
}

std::uint64_t key_of(std::int64_t value) {
    return static_cast<std::uint64_t>(value);
}
std::uint64_t key_of(Side side) {
    return side == Side::fact ? 0U : side == Side::with ? 1U : 2U;
}

}  // namespace

StreamNode& Compiler::word(std::size_t signal, int word) {
    StreamNode& of = graph_.signal(signal);
    return graph_.node<WordBit>({word_kind, of.id(), key_of(word)}, of, word);
}

StreamNode& Compiler::edge(StreamNode& of, double to) {
    return graph_.node<EdgeBit>({edge_kind, of.id(), to > 0.0 ? 1U : 0U}, of, to);
}

StreamNode& Compiler::bit(const Formula& formula) {
    switch (formula.op) {
        case Op::is_word:
            return word(formula.signal, formula.word);
        case Op::goes_on:
        case Op::goes_off:
            return edge(word(formula.signal, formula.word), formula.op == Op::goes_on ? 1.0 : 0.0);
        case Op::has_value: {
            StreamNode& of = number(*formula.left);
            return graph_.node<HasValueBit>({has_value_kind, of.id()}, of);
        }
        case Op::clock_within:
        case Op::clock_at: {
            const std::int32_t from = formula.clock_from_s;
            const std::int32_t until =
                formula.op == Op::clock_at ? from + 1 : formula.clock_until_s;
            return graph_.node<ClockBit>({clock_bit_kind, key_of(from), key_of(until)}, from,
                                         until);
        }
        case Op::ends: {
            const Period::Kind kind = formula.period.kind;
            if (kind == Period::Kind::last) throw std::invalid_argument("such periods do not end");
            return graph_.node<EndsBit>({ends_kind, static_cast<std::uint64_t>(kind)}, kind);
        }
        case Op::lasted: {
            const std::int64_t ticks = formula.period.last_s;
            return graph_.node<LastedBit>({lasted_kind, key_of(ticks)}, ticks);
        }
        default: {
            StreamNode& of = this->formula(formula, {}, Side::fact);
            return graph_.node<HoldsBit>({holds_kind, of.id()}, of);
        }
    }
}

StreamNode& Compiler::comparison(const Formula& formula, const Reading& reading, Side side) {
    StreamNode& left = number(*formula.left);
    StreamNode& right = number(*formula.right);
    const bool distance = reading.kind == Kind::measure &&
                          reading.measure == measure_of_distance(formula.left->measure);
    return graph_.node<ComparisonNode>(
        {comparison_kind, static_cast<std::uint64_t>(formula.op), std::uint64_t{distance},
         key_of(side), left.id(), right.id()},
        side, formula.op, distance, ComparisonNode::Operands{left, right});
}

StreamNode& Compiler::two_valued(const Formula& formula, const Reading& reading, Side side) {
    StreamNode& truth = bit(formula);
    if (formula.op == Op::is_word &&
        (reading.kind == Kind::ahead || reading.kind == Kind::behind)) {
        const bool ahead = reading.kind == Kind::ahead;
        return graph_.node<ShiftNode>({shift_kind, truth.id(), std::uint64_t{ahead}, key_of(side)},
                                      side, truth, ahead);
    }
    return graph_.node<TruthNode>({truth_kind, truth.id(), key_of(side)}, side, truth);
}

StreamNode& Compiler::temporal(const Formula& formula, const Reading& reading, Side side) {
    if (side == Side::fact) throw std::invalid_argument("a window ahead within a count or time");
    if (formula.window.until_s == Window::endless) {
        throw std::invalid_argument("an endless window inside another one");
    }
    check(formula.window);
    const Reach reach{formula.window.from_s, formula.window.until_s};
    const auto ahead = [&]<class Combine>(Combine /*kind*/, std::uint64_t kind, StreamNode& of,
                                          Reach where) -> StreamNode& {
        return graph_.node<AheadNode<Combine>>(
            {kind, of.id(), key_of(where.from), key_of(where.until)}, of, where);
    };
    StreamNode& first = this->formula(*formula.args.at(0), reading, side);
    if (formula.op == Op::always) return ahead(Least{}, always_kind, first, reach);
    if (formula.op == Op::sometime) return ahead(Most{}, sometime_kind, first, reach);
    StreamNode& goal = this->formula(*formula.args.at(1), reading, side);
    StreamNode& goal_ahead = ahead(Most{}, sometime_kind, goal, reach);
    StreamNode* wait =
        reach.from == 0 ? nullptr : &ahead(Least{}, always_kind, first, {0, reach.from - 1});
    return graph_.node<UntilNode>(
        {until_kind, first.id(), goal.id(), key_of(reach.from), key_of(reach.until)},
        UntilNode::Parts{first, goal, goal_ahead, wait}, reach);
}

StreamNode& Compiler::formula(const Formula& formula, const Reading& reading, Side side) {
    if (formula.op <= Op::not_equal) return comparison(formula, reading, side);
    if (is_temporal(formula.op)) return temporal(formula, reading, side);
    if (formula.op == Op::negation) {
        StreamNode& of = this->formula(*formula.args.at(0), reading, other(side));
        return graph_.node<NegationNode>({negation_kind, of.id()}, of);
    }
    if (formula.op != Op::conjunction && formula.op != Op::disjunction) {
        return two_valued(formula, reading, side);
    }
    const bool all = formula.op == Op::conjunction;
    NodeKey key{all ? conjunction_kind : disjunction_kind};
    std::vector<StreamNode*> parts;
    for (const FormulaPtr& arg : formula.args) {
        parts.push_back(&this->formula(*arg, reading, side));
        key.push_back(parts.back()->id());
    }
    if (all) return graph_.node<JunctionNode<Least>>(key, std::move(parts));
    return graph_.node<JunctionNode<Most>>(key, std::move(parts));
}

Root Compiler::root(const Formula& formula, const Reading& reading, Side side) {
    Root root;
    if (formula.op == Op::negation || formula.op == Op::conjunction ||
        formula.op == Op::disjunction) {
        root.op = formula.op;
        const Side below = formula.op == Op::negation ? other(side) : side;
        for (const FormulaPtr& arg : formula.args) {
            root.args.push_back(this->root(*arg, reading, below));
        }
        return root;
    }
    root.op = Op::always;
    WatchOrder order;
    if (is_temporal(formula.op)) {
        check(formula.window);
        order.op = formula.op;
        order.window = formula.window;
        order.body = &this->formula(*formula.args.at(0), reading, side);
        if (formula.op == Op::until) {
            order.before = order.body;
            order.body = &this->formula(*formula.args.at(1), reading, side);
        }
    } else {
        order.window = {0, 0};
        order.body = &this->formula(formula, reading, side);
    }
    root.watch = graph_.watch(order);
    return root;
}

Decided decided(const Root& root, const std::vector<Watch>& watches) {
    if (root.op == Op::always) return watches[root.watch].decided();
    if (root.op == Op::negation) {
        const Decided of = decided(root.args.front(), watches);
        return {-of.margin, of.slot};
    }
    const bool all = root.op == Op::conjunction;
    Decided best{all ? endless_margin : -endless_margin, -1};
    for (const Root& arg : root.args) {
        const Decided one = decided(arg, watches);
        if (all ? one.margin < best.margin : one.margin > best.margin) best = one;
    }
    return best;
}

FormulaPtr never_asked(const Formula& formula) {
    const auto is_negation = [](const FormulaPtr& f) { return f->op == Op::negation; };
    const auto& args = formula.args;
    auto changed = std::make_shared<Formula>(formula);
    if (formula.op == Op::disjunction) {
        changed->args.clear();
        std::copy_if(args.begin(), args.end(), std::back_inserter(changed->args), is_negation);
        const std::size_t left = changed->args.size();
        return left == 0 || left == args.size() ? nullptr : changed;
    }
    if (formula.op != Op::conjunction && formula.op != Op::always) return nullptr;
    bool any = false;
    for (FormulaPtr& arg : changed->args) {
        if (FormulaPtr part = never_asked(*arg)) {
            arg = std::move(part);
            any = true;
        }
    }
    return any ? changed : nullptr;
}

}  // namespace noonbench::harness
