// SPDX-License-Identifier: MIT
// Comparisons: of numbers of one measure, or of a relay or reason with a word.
#include "misread.hpp"
#include "sentence_reader.hpp"
#include "vocabulary.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <utility>
#include <vector>

namespace noonbench::harness {
namespace {

using Kind = Syntax::Kind;
using Op = Formula::Op;

Op op_of(Kind kind) {
    switch (kind) {
        case Kind::less:
            return Op::less;
        case Kind::less_equal:
            return Op::less_equal;
        case Kind::greater:
            return Op::greater;
        case Kind::greater_equal:
            return Op::greater_equal;
        case Kind::equal:
            return Op::equal;
        default:
            return Op::not_equal;
    }
}

FormulaPtr made(Op op, ExpressionPtr left, ExpressionPtr right = {}) {
    Formula formula;
    formula.op = op;
    formula.left = std::move(left);
    formula.right = std::move(right);
    return std::make_shared<const Formula>(std::move(formula));
}

FormulaPtr joined_by(Op op, std::vector<FormulaPtr> args) {
    Formula formula;
    formula.op = op;
    formula.args = std::move(args);
    return std::make_shared<const Formula>(std::move(formula));
}

FormulaPtr of_word(Op op, std::size_t signal, int word) {
    Formula formula;
    formula.op = op;
    formula.signal = signal;
    formula.word = word;
    return std::make_shared<const Formula>(std::move(formula));
}

/// A quantity by another of its measure, which people state as they like: 0.3 or 30 %.
bool is_ratio(const Expression& e) {
    return e.op == Expression::Op::divide && e.measure == Measure::plain &&
           e.args.at(0)->measure != Measure::plain;
}

ExpressionPtr in_percent(const ExpressionPtr& ratio) {
    Expression hundred;
    hundred.constant = 100.0;
    Expression product;
    product.op = Expression::Op::multiply;
    product.measure = Measure::share;
    product.args = {ratio, std::make_shared<const Expression>(std::move(hundred))};
    return std::make_shared<const Expression>(std::move(product));
}

}  // namespace

FormulaPtr SentenceReader::comparison(const Syntax& phrase, const Inside& inside) const {
    const Syntax& left = phrase.children.at(0);
    const Syntax& tail = phrase.children.at(1);
    switch (tail.kind) {
        case Kind::is_word:
        case Kind::is_not_word:
        case Kind::goes:
            return two_valued(left, tail);
        case Kind::has_value:
            return value_known(left, inside);
        case Kind::has_no_value:
            return joined_by(Op::negation, {value_known(left, inside)});
        default:
            return compared(left, tail, inside);
    }
}

FormulaPtr SentenceReader::two_valued(const Syntax& left, const Syntax& tail) const {
    const Syntax& word = tail.children.at(0);
    if (left.kind != Kind::name)
        throw Misread(left.at, in_quotes(left.text) + " is a number and has no words",
                      "is above, is below, is at least, is at most, is between ... and");
    const std::size_t index = signal_index(left.text, left.at, signals_);
    const traces::Signal& signal = signals_[index];
    if (signal.kind == traces::SignalKind::number)
        throw Misread(word.at, fmt::format("{} is a number and has no words", signal.name),
                      "is above, is below, is at least, is at most, is between ... and");
    const int number = word_index(word.text, word.at, signal);
    if (tail.kind == Kind::goes) {
        // One tree for one thing: a relay goes off when it ceases to be on.
        if (signal.kind == traces::SignalKind::on_off && number == 0)
            return of_word(Op::goes_off, index, 1);
        return of_word(Op::goes_on, index, number);
    }
    FormulaPtr is = of_word(Op::is_word, index, number);
    return tail.kind == Kind::is_word ? is : joined_by(Op::negation, {std::move(is)});
}

FormulaPtr SentenceReader::value_known(const Syntax& left, const Inside& inside) const {
    if (left.kind != Kind::name) return made(Op::has_value, number(left, inside).expression);
    // A relay or a reason may have no value as well: a dark display.
    Expression expression;
    expression.op = Expression::Op::signal;
    expression.signal = signal_index(left.text, left.at, signals_);
    expression.measure = measure_of_unit(signals_[expression.signal].unit);
    return made(Op::has_value, std::make_shared<const Expression>(std::move(expression)));
}

FormulaPtr SentenceReader::compared(const Syntax& left, const Syntax& tail,
                                    const Inside& inside) const {
    Number first = number(left, inside);
    std::vector<Number> others;
    for (const Syntax& part : tail.children) others.push_back(number(part, inside));
    for (Number& other : others) {
        if (other.expression->measure == Measure::share && is_ratio(*first.expression))
            first.expression = in_percent(first.expression);
        if (first.expression->measure == Measure::share && is_ratio(*other.expression))
            other.expression = in_percent(other.expression);
    }
    const Measure measure = first.expression->measure;
    for (const Number& other : others)
        if (other.expression->measure != measure)
            throw Misread(
                tail.at,
                fmt::format("{} cannot be compared with {}", described(measure, first.unit),
                            described(other.expression->measure, other.unit)),
                units_accepted(measure));
    if (tail.kind != Kind::is_between)
        return made(op_of(tail.kind), first.expression, others.at(0).expression);
    return joined_by(Op::conjunction,
                     {made(Op::greater_equal, first.expression, others.at(0).expression),
                      made(Op::less_equal, first.expression, others.at(1).expression)});
}

}  // namespace noonbench::harness
