// SPDX-License-Identifier: MIT
#include "bit_nodes.hpp"
#include "compile.hpp"
#include "number_nodes.hpp"
#include "period_nodes.hpp"
#include "window_nodes.hpp"

#include <algorithm>
#include <bit>
#include <stdexcept>

namespace noonbench::harness {
namespace {

using Op = Expression::Op;

std::uint64_t key_of(double value) {
    return std::bit_cast<std::uint64_t>(value);
}
std::uint64_t key_of(std::int64_t value) {
    return static_cast<std::uint64_t>(value);
}
std::uint64_t key_of(Period::Kind kind) {
    return static_cast<std::uint64_t>(kind);
}

/// One second of the measure, in the unit of its sum: W s in a kWh, s in a minute for l/min.
double seconds_per_unit(Measure measure) {
    switch (measure) {
        case Measure::power:
        case Measure::irradiance:
            return 3.6e6;
        case Measure::flow:
            return 60.0;
        default:
            return 1.0;
    }
}

}  // namespace

StreamNode& Compiler::constant(double value) {
    return graph_.node<ConstantNode>({constant_kind, key_of(value)}, value);
}

StreamNode& Compiler::arithmetic(Op op, StreamNode& a, StreamNode& b) {
    return graph_.node<ArithmeticNode>(
        {arithmetic_kind, static_cast<std::uint64_t>(op), a.id(), b.id()}, op, a, b);
}

StreamNode& Compiler::number_or(StreamNode& of, double otherwise) {
    return graph_.node<NumberOrNode>({number_or_kind, of.id(), key_of(otherwise)}, of, otherwise);
}

StreamNode& Compiler::number(const Expression& expression) {
    switch (expression.op) {
        case Op::constant:
            return constant(expression.constant);
        case Op::signal:
            return graph_.signal(expression.signal);
        case Op::negate:
        case Op::absolute: {
            StreamNode& of = number(*expression.args.at(0));
            return arithmetic(expression.op, of, of);
        }
        case Op::add:
        case Op::subtract:
        case Op::multiply:
        case Op::divide:
        case Op::lesser:
        case Op::greater: {
            StreamNode& a = number(*expression.args.at(0));
            return arithmetic(expression.op, a, number(*expression.args.at(1)));
        }
        case Op::time_since: {
            StreamNode& at = slot_held(*expression.of, {}, true);
            return graph_.node<TimeSinceNode>({time_since_kind, at.id()}, at);
        }
        default:
            if (expression.period.kind == Period::Kind::last && expression.period.last_s < 1) {
                throw std::invalid_argument("a period without a tick");
            }
            return over_period(expression);
    }
}

StreamNode& Compiler::sum(StreamNode& of, const Period& period, bool starts) {
    const auto begins = std::uint64_t{starts};
    if (period.kind == Period::Kind::last) {
        return graph_.node<SumNode>({last_sum_kind, of.id(), key_of(period.last_s), begins}, of,
                                    period.last_s, starts);
    }
    return graph_.node<RunningSum>({running_sum_kind, of.id(), key_of(period.kind), begins}, of,
                                   period.kind, starts);
}

StreamNode& Compiler::extremum(StreamNode& of, const Period& period, bool highest) {
    if (period.kind == Period::Kind::last) {
        const std::uint64_t ticks = key_of(period.last_s);
        if (highest) {
            return graph_.node<ExtremumNode<Most>>({last_highest_kind, of.id(), ticks}, of,
                                                   period.last_s);
        }
        return graph_.node<ExtremumNode<Least>>({last_lowest_kind, of.id(), ticks}, of,
                                                period.last_s);
    }
    const std::uint64_t kind = key_of(period.kind);
    if (highest) {
        return graph_.node<RunningExtremum<Most>>({running_highest_kind, of.id(), kind}, of,
                                                  period.kind);
    }
    return graph_.node<RunningExtremum<Least>>({running_lowest_kind, of.id(), kind}, of,
                                               period.kind);
}

StreamNode& Compiler::at_start(StreamNode& of, const Period& period) {
    if (period.kind == Period::Kind::last) {
        return graph_.node<DelayedNode>({delayed_kind, of.id(), key_of(period.last_s - 1)}, of,
                                        period.last_s - 1);
    }
    return graph_.node<PeriodStartNode>({period_start_kind, of.id(), key_of(period.kind)}, of,
                                        period.kind);
}

StreamNode& Compiler::slot_held(const Formula& formula, const Period& period, bool last) {
    const double none = last ? Most::neutral : Least::neutral;
    StreamNode& truth = bit(formula);
    StreamNode& slots =
        graph_.node<SlotWhereNode>({slot_where_kind, truth.id(), key_of(none)}, truth, none);
    return extremum(slots, period, last);
}

StreamNode& Compiler::over_period(const Expression& expression) {
    const Period& period = expression.period;
    switch (expression.op) {
        case Op::starts:
            return sum(edge(bit(*expression.of), 1.0), period, true);
        case Op::time_with:
            return sum(bit(*expression.of), period, false);
        case Op::total: {
            StreamNode& raw = sum(number_or(number(*expression.args.at(0)), 0.0), period, false);
            const double unit = seconds_per_unit(expression.args.at(0)->measure);
            return unit == 1.0 ? raw : arithmetic(Op::divide, raw, constant(unit));
        }
        case Op::mean: {
            StreamNode& of = number(*expression.args.at(0));
            StreamNode& there = graph_.node<HasValueBit>({has_value_kind, of.id()}, of);
            StreamNode& count = sum(there, period, false);
            return arithmetic(Op::divide, sum(number_or(of, 0.0), period, false), count);
        }
        case Op::highest:
        case Op::lowest: {
            const bool highest = expression.op == Op::highest;
            const double none = highest ? Most::neutral : Least::neutral;
            return extremum(number_or(number(*expression.args.at(0)), none), period, highest);
        }
        case Op::change: {
            StreamNode& of = number(*expression.args.at(0));
            return arithmetic(Op::subtract, of, at_start(of, period));
        }
        default: {
            StreamNode& at = slot_held(*expression.of, period, expression.op == Op::last_time);
            return graph_.node<ClockOfNode>({clock_of_kind, at.id()}, at);
        }
    }
}

}  // namespace noonbench::harness
