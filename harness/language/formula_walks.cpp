// SPDX-License-Identifier: MIT
#include "formula_walks.hpp"

#include "requirement.hpp"

#include <algorithm>

namespace noonbench::harness {
namespace {

using Op = Formula::Op;

template <typename T>
void add_once(std::vector<T>& all, const T& one) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
}

void add_signals(const Formula& formula, std::vector<std::size_t>& all);

void add_signals(const Expression& expression, std::vector<std::size_t>& all) {
    if (expression.op == Expression::Op::signal) add_once(all, expression.signal);
    for (const ExpressionPtr& arg : expression.args) add_signals(*arg, all);
    if (expression.of) add_signals(*expression.of, all);
}

void add_signals(const Formula& formula, std::vector<std::size_t>& all) {
    const bool of_word =
        formula.op == Op::is_word || formula.op == Op::goes_on || formula.op == Op::goes_off;
    if (of_word) add_once(all, formula.signal);
    if (formula.left) add_signals(*formula.left, all);
    if (formula.right) add_signals(*formula.right, all);
    for (const FormulaPtr& arg : formula.args) add_signals(*arg, all);
}

Measure margin_measure(Measure measure) {
    if (measure == Measure::temperature) return Measure::difference;
    if (measure == Measure::clock) return Measure::duration;
    return measure;
}

struct Classes {
    std::vector<MarginClass> numeric;
    bool shift = false;
};

void add_classes(const Formula& formula, Classes& all) {
    switch (formula.op) {
        case Op::less:
        case Op::less_equal:
        case Op::greater:
        case Op::greater_equal:
        case Op::equal:
        case Op::not_equal:
            add_once(all.numeric, MarginClass{false, margin_measure(formula.left->measure)});
            break;
        case Op::is_word:
            all.shift = true;
            break;
        default:
            break;
    }
    for (const FormulaPtr& arg : formula.args) add_classes(*arg, all);
}

}  // namespace

std::vector<std::size_t> used_signals(const Formula& formula) {
    std::vector<std::size_t> all;
    add_signals(formula, all);
    return all;
}

std::vector<MarginClass> classes_of(const Formula& formula) {
    Classes all;
    add_classes(formula, all);
    if (all.shift) all.numeric.push_back(MarginClass{.shift = true});
    return std::move(all.numeric);
}

}  // namespace noonbench::harness
