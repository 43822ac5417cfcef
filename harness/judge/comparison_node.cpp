// SPDX-License-Identifier: MIT
#include "kernels.hpp"
#include "margin_nodes.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::harness {
namespace {

using Op = Formula::Op;

/// By how much `more` exceeds `less`; `at_zero` where they are equal; no NaN comes out, since a
/// comparison with NaN does not hold.
double excess(double more, double less, double at_zero) {
    const double d = more - less;
    const double known = d == d ? d : -endless_margin;
    return more == less ? at_zero : known;
}
double apart(double a, double b) {
    const double d = std::abs(a - b);
    const double known = d == d ? d : -endless_margin;
    return a == b ? -barely : known;
}
double alike(double a, double b) {
    const double d = -std::abs(a - b);
    const double known = d == d ? d : -endless_margin;
    return a == b ? barely : known;
}
double sign(bool truth) {
    return truth ? endless_margin : -endless_margin;
}

void fill_distance(Op op, const double* l, const double* r, double* out) {
    switch (op) {
        case Op::less:
            return each(l, r, out, [](double a, double b) { return excess(b, a, -barely); });
        case Op::less_equal:
            return each(l, r, out, [](double a, double b) { return excess(b, a, barely); });
        case Op::greater:
            return each(l, r, out, [](double a, double b) { return excess(a, b, -barely); });
        case Op::greater_equal:
            return each(l, r, out, [](double a, double b) { return excess(a, b, barely); });
        case Op::equal:
            return each(l, r, out, alike);
        default:
            return each(l, r, out, apart);
    }
}

void fill_truth(Op op, const double* l, const double* r, double* out) {
    switch (op) {
        case Op::less:
            return each(l, r, out, [](double a, double b) { return sign(a < b); });
        case Op::less_equal:
            return each(l, r, out, [](double a, double b) { return sign(a <= b); });
        case Op::greater:
            return each(l, r, out, [](double a, double b) { return sign(a > b); });
        case Op::greater_equal:
            return each(l, r, out, [](double a, double b) { return sign(a >= b); });
        case Op::equal:
            return each(l, r, out, [](double a, double b) { return sign(a == b); });
        default:
            return each(l, r, out,
                        [](double a, double b) { return a < b ? endless_margin : sign(a > b); });
    }
}

/// Bounds of `more` less `less`, with what stands for zero.
Bounds bounds_of_excess(const Bounds& more, const Bounds& less, double at_zero) {
    const double lo = more.lo - less.hi;
    const double hi = more.hi - less.lo;
    if (std::isnan(lo) || std::isnan(hi)) return {};
    return {lo == 0.0 ? at_zero : lo, hi == 0.0 ? at_zero : hi, false};
}

Bounds bounds_of_apart(const Bounds& l, const Bounds& r, double at_zero) {
    const double lo = l.lo - r.hi;
    const double hi = l.hi - r.lo;
    if (std::isnan(lo) || std::isnan(hi)) return {};
    const double most = std::max(std::abs(lo), std::abs(hi));
    const bool may_meet = lo <= 0.0 && hi >= 0.0;
    const double least = may_meet ? 0.0 : std::min(std::abs(lo), std::abs(hi));
    return {least == 0.0 ? at_zero : least, most == 0.0 ? at_zero : most, false};
}

Bounds bounds_of_distance(Op op, const Bounds& l, const Bounds& r) {
    switch (op) {
        case Op::less:
            return bounds_of_excess(r, l, -barely);
        case Op::less_equal:
            return bounds_of_excess(r, l, barely);
        case Op::greater:
            return bounds_of_excess(l, r, -barely);
        case Op::greater_equal:
            return bounds_of_excess(l, r, barely);
        case Op::equal: {
            const Bounds b = bounds_of_apart(l, r, -barely);
            return {-b.hi, -b.lo, false};
        }
        default:
            return bounds_of_apart(l, r, -barely);
    }
}

}  // namespace

ComparisonNode::ComparisonNode(RunState& run, Side side, Op op, bool distance, Operands operands)
    : AtomNode(run, side),
      op_(op),
      distance_(distance),
      left_(operands.left),
      right_(operands.right) {}

void ComparisonNode::pass_need_on() {
    left_.need(keep());
    right_.need(keep());
}

std::int64_t ComparisonNode::decided_at(std::int64_t slot) {
    const std::int64_t by_left = left_.decided_at(slot);
    return by_left == slot ? right_.decided_at(slot) : by_left;
}

Bounds ComparisonNode::atom_bounds(std::int64_t block) {
    const Bounds l = left_.bounds(block);
    const Bounds r = right_.bounds(block);
    if (l.no_numbers() || r.no_numbers()) return Bounds::exactly(-endless_margin);
    Bounds bounds = bounds_of_distance(op_, l, r);
    if (!distance_) {
        bounds.lo = bounds.lo > 0.0 ? endless_margin : -endless_margin;
        bounds.hi = bounds.hi > 0.0 ? endless_margin : -endless_margin;
    }
    if (l.gaps || r.gaps) bounds.lo = -endless_margin;
    return bounds;
}

void ComparisonNode::fill_atom(std::int64_t block, double* out) {
    const double* l = left_.values(block);
    const double* r = right_.values(block);
    if (distance_) return fill_distance(op_, l, r, out);
    fill_truth(op_, l, r, out);
}

}  // namespace noonbench::harness
