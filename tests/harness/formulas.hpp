// SPDX-License-Identifier: MIT
// Requirements made by hand, and runs to feed them with.
#pragma once
#include "brute_force.hpp"

#include "harness/judge/monitor.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace noonbench::harness::testing {

inline ExpressionPtr number(double value, Measure measure = Measure::plain) {
    Expression e;
    e.constant = value;
    e.measure = measure;
    return std::make_shared<Expression>(e);
}
inline ExpressionPtr signal(std::size_t index, Measure measure = Measure::plain) {
    Expression e;
    e.op = Expression::Op::signal;
    e.signal = index;
    e.measure = measure;
    return std::make_shared<Expression>(e);
}
inline ExpressionPtr of_numbers(Expression::Op op, std::vector<ExpressionPtr> args,
                                Measure measure = Measure::plain, Period period = {}) {
    Expression e;
    e.op = op;
    e.args = std::move(args);
    e.measure = measure;
    e.period = period;
    return std::make_shared<Expression>(e);
}
inline ExpressionPtr of_formula(Expression::Op op, FormulaPtr of, Period period,
                                Measure measure = Measure::plain) {
    Expression e;
    e.op = op;
    e.of = std::move(of);
    e.measure = measure;
    e.period = period;
    return std::make_shared<Expression>(e);
}

inline FormulaPtr compare(ExpressionPtr left, Formula::Op op, ExpressionPtr right) {
    Formula f;
    f.op = op;
    f.left = std::move(left);
    f.right = std::move(right);
    return std::make_shared<Formula>(f);
}
inline FormulaPtr of_word(Formula::Op op, std::size_t signal, int word = 1) {
    Formula f;
    f.op = op;
    f.signal = signal;
    f.word = word;
    return std::make_shared<Formula>(f);
}
inline FormulaPtr clock_within(std::int32_t from_s, std::int32_t until_s) {
    Formula f;
    f.op = Formula::Op::clock_within;
    f.clock_from_s = from_s;
    f.clock_until_s = until_s;
    return std::make_shared<Formula>(f);
}
inline FormulaPtr ends(Period::Kind kind) {
    Formula f;
    f.op = Formula::Op::ends;
    f.period.kind = kind;
    return std::make_shared<Formula>(f);
}
inline FormulaPtr join(Formula::Op op, std::vector<FormulaPtr> args, Window window = {}) {
    Formula f;
    f.op = op;
    f.args = std::move(args);
    f.window = window;
    return std::make_shared<Formula>(f);
}
inline FormulaPtr negation(FormulaPtr of) {
    return join(Formula::Op::negation, {std::move(of)});
}
inline FormulaPtr implies(FormulaPtr when, FormulaPtr then) {
    return join(Formula::Op::disjunction, {negation(std::move(when)), std::move(then)});
}
inline FormulaPtr always(FormulaPtr of, Window window = {}) {
    return join(Formula::Op::always, {std::move(of)}, window);
}
inline FormulaPtr sometime(FormulaPtr of, Window window = {}) {
    return join(Formula::Op::sometime, {std::move(of)}, window);
}

inline Requirement requirement(FormulaPtr formula, std::vector<MarginClass> classes,
                               AtEnd at_end = AtEnd::unknown) {
    Requirement r;
    r.formula = std::move(formula);
    r.classes = std::move(classes);
    r.at_end = at_end;
    return r;
}

inline constexpr MarginClass plain_class{false, Measure::plain};
inline constexpr MarginClass kelvin_class{false, Measure::difference};
inline constexpr MarginClass shift_class{true, Measure::plain};

/// Feeds the whole trace.
inline void feed(Monitor& monitor, const Trace& trace) {
    for (std::size_t t = 0; t < static_cast<std::size_t>(trace.ticks()); ++t) {
        double* row = monitor.row();
        for (const std::size_t index : monitor.signals()) *row++ = trace.signals[index][t];
        monitor.tick();
    }
}
inline std::vector<Outcome> outcomes(const std::vector<Requirement>& requirements,
                                     const Trace& trace) {
    Monitor monitor(requirements, trace.start_s);
    feed(monitor, trace);
    return monitor.finish();
}
inline Outcome outcome(const Requirement& one, const Trace& trace) {
    return outcomes({one}, trace).front();
}

}  // namespace noonbench::harness::testing
