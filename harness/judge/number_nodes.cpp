// SPDX-License-Identifier: MIT
#include "number_nodes.hpp"

#include "kernels.hpp"

#include "harness/bench/clock.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <stdexcept>

namespace noonbench::harness {
namespace {

double quotient(double a, double b) {
    return b == 0.0 ? no_number : a / b;
}
double lesser(double a, double b) {
    const double least = b < a ? b : a;
    return a == a ? least : a;  // if b is NaN, so must the result be
}

/// The least and the greatest of the corners; without a statement if one of them is NaN.
Bounds hull(std::initializer_list<double> corners, bool gaps) {
    Bounds bounds{endless_margin, -endless_margin, gaps};
    for (const double x : corners) {
        if (std::isnan(x)) return {-endless_margin, endless_margin, true};
        bounds.lo = std::min(bounds.lo, x);
        bounds.hi = std::max(bounds.hi, x);
    }
    return bounds;
}

Bounds of_absolute(const Bounds& a) {
    if (a.lo >= 0.0) return a;
    if (a.hi <= 0.0) return {-a.hi, -a.lo, a.gaps};
    return {0.0, std::max(-a.lo, a.hi), a.gaps};
}

/// Rounding is monotone, so the rounded corners bound the rounded results.
Bounds of_two(Expression::Op op, const Bounds& a, const Bounds& b) {
    if (a.no_numbers() || b.no_numbers()) return Bounds::nothing();
    const bool gaps = a.gaps || b.gaps;
    switch (op) {
        case Expression::Op::add:
            return hull({a.lo + b.lo, a.hi + b.hi}, gaps);
        case Expression::Op::subtract:
            return hull({a.lo - b.hi, a.hi - b.lo}, gaps);
        case Expression::Op::multiply:
            return hull({a.lo * b.lo, a.lo * b.hi, a.hi * b.lo, a.hi * b.hi}, gaps);
        case Expression::Op::divide:
            if (b.lo <= 0.0 && b.hi >= 0.0) return {-endless_margin, endless_margin, true};
            return hull({a.lo / b.lo, a.lo / b.hi, a.hi / b.lo, a.hi / b.hi}, gaps);
        case Expression::Op::negate:
            return {-a.hi, -a.lo, gaps};
        case Expression::Op::absolute:
            return of_absolute(a);
        case Expression::Op::lesser:
            return {std::min(a.lo, b.lo), std::min(a.hi, b.hi), gaps};
        default:
            return {std::max(a.lo, b.lo), std::max(a.hi, b.hi), gaps};
    }
}

}  // namespace

Bounds ConstantNode::find_bounds(std::int64_t /*block*/) {
    return std::isnan(value_) ? Bounds::nothing() : Bounds::exactly(value_);
}

void ConstantNode::fill(std::int64_t /*block*/, double* out) {
    std::fill_n(out, block_size, value_);
}

void SignalNode::end_block(std::int64_t block) {
    close(block, bounds_of_values(open(block)));
}

Bounds SignalNode::find_bounds(std::int64_t /*block*/) {
    throw std::logic_error("a block of a signal that is not there");
}

void SignalNode::fill(std::int64_t /*block*/, double* /*out*/) {
    throw std::logic_error("a block of a signal that is not there");
}

ArithmeticNode::ArithmeticNode(RunState& run, Expression::Op op, StreamNode& a, StreamNode& b)
    : StreamNode(run, false), op_(op), a_(a), b_(b) {}

void ArithmeticNode::pass_need_on() {
    a_.need(keep());
    b_.need(keep());
}

std::int64_t ArithmeticNode::decided_at(std::int64_t slot) {
    const std::int64_t by_a = a_.decided_at(slot);
    return by_a == slot ? b_.decided_at(slot) : by_a;
}

Bounds ArithmeticNode::find_bounds(std::int64_t block) {
    const Bounds a = a_.bounds(block);
    return of_two(op_, a, b_.bounds(block));
}

void ArithmeticNode::fill(std::int64_t block, double* out) {
    const double* a = a_.values(block);
    const double* b = b_.values(block);
    switch (op_) {
        case Expression::Op::add:
            return each(a, b, out, [](double x, double y) { return x + y; });
        case Expression::Op::subtract:
            return each(a, b, out, [](double x, double y) { return x - y; });
        case Expression::Op::multiply:
            return each(a, b, out, [](double x, double y) { return x * y; });
        case Expression::Op::divide:
            return each(a, b, out, quotient);
        case Expression::Op::negate:
            return each(a, out, [](double x) { return -x; });
        case Expression::Op::absolute:
            return each(a, out, [](double x) { return std::abs(x); });
        case Expression::Op::lesser:
            return each(a, b, out, [](double x, double y) { return y == y ? lesser(x, y) : y; });
        default:
            return each(a, b, out, [](double x, double y) { return y == y ? -lesser(-x, -y) : y; });
    }
}

NumberOrNode::NumberOrNode(RunState& run, StreamNode& of, double otherwise)
    : StreamNode(run, false), of_(of), otherwise_(otherwise) {}

Bounds NumberOrNode::find_bounds(std::int64_t block) {
    const Bounds& of = of_.bounds(block);
    if (!of.gaps) return of;
    return {std::min(of.lo, otherwise_), std::max(of.hi, otherwise_), false};
}

void NumberOrNode::fill(std::int64_t block, double* out) {
    each(of_.values(block), out,
         [otherwise = otherwise_](double x) { return x == x ? x : otherwise; });
}

DelayedNode::DelayedNode(RunState& run, StreamNode& of, std::int64_t ticks)
    : StreamNode(run, false), of_(of), ticks_(ticks) {}

Bounds DelayedNode::find_bounds(std::int64_t block) {
    const std::int64_t first_block = block_of(run().first_slot);
    const std::int64_t from = std::max(block_of(block * block_ticks - ticks_), first_block);
    const std::int64_t to = std::max(block_of((block + 1) * block_ticks - 1 - ticks_), first_block);
    Bounds all = of_.bounds(from);
    if (to == from) return all;
    const Bounds& more = of_.bounds(to);
    return {std::min(all.lo, more.lo), std::max(all.hi, more.hi), all.gaps || more.gaps};
}

void DelayedNode::fill(std::int64_t block, double* out) {
    const std::int64_t from = block * block_ticks - ticks_;
    const std::int64_t first = run().first_slot;
    gather(of_, {from, from + block_ticks, first}, 0.0, out);
    if (from >= first) return;
    const double at_first = of_.values(block_of(first))[place_of(first)];
    std::fill_n(out, std::min(first - from, block_ticks), at_first);
}

ClockOfNode::ClockOfNode(RunState& run, StreamNode& of) : StreamNode(run, false), of_(of) {}

double ClockOfNode::clock(double slot) const {
    if (!std::isfinite(slot)) return no_number;
    return static_cast<double>(second_of_day(run().civil(static_cast<std::int64_t>(slot))));
}

std::int64_t ClockOfNode::decided_at(std::int64_t slot) {
    const double at = of_.values(block_of(slot))[place_of(slot)];
    return std::isfinite(at) ? static_cast<std::int64_t>(at) : slot;
}

Bounds ClockOfNode::find_bounds(std::int64_t block) {
    const Bounds& of = of_.bounds(block);
    if (!of.constant()) return {0.0, 86399.0, true};
    const double at = clock(of.constant_value());
    return std::isnan(at) ? Bounds::nothing() : Bounds::exactly(at);
}

void ClockOfNode::fill(std::int64_t block, double* out) {
    each(of_.values(block), out, [this](double slot) { return clock(slot); });
}

Bounds TimeSinceNode::find_bounds(std::int64_t block) {
    const Bounds& of = of_.bounds(block);
    if (of.no_numbers()) return Bounds::nothing();
    const auto first = static_cast<double>(block * block_ticks);
    return {std::max(first - of.hi, 0.0), first + (block_ticks - 1) - of.lo, of.gaps};
}

void TimeSinceNode::fill(std::int64_t block, double* out) {
    const double* of = of_.values(block);
    const auto first = static_cast<double>(block * block_ticks);
    for (std::size_t i = 0; i < block_size; ++i) out[i] = first + static_cast<double>(i) - of[i];
}

}  // namespace noonbench::harness
