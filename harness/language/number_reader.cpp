// SPDX-License-Identifier: MIT
// Numbers: literals, signals, calculations and counts over a period, each with its measure.
#include "misread.hpp"
#include "sentence_reader.hpp"
#include "vocabulary.hpp"

#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/units.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <utility>
#include <vector>

namespace noonbench::harness {
namespace {

using Kind = Syntax::Kind;
using Op = Expression::Op;

/// A place on a scale with an arbitrary zero: no multiples, no sums.
bool is_place(Measure measure) {
    return measure == Measure::temperature || measure == Measure::clock;
}

/// What lies between two places.
Measure distance(Measure measure) {
    if (measure == Measure::temperature) return Measure::difference;
    if (measure == Measure::clock) return Measure::duration;
    return measure;
}

std::optional<Measure> sum_of(Measure a, Measure b) {
    if (is_place(a) && b == distance(a)) return a;
    if (is_place(b) && a == distance(b)) return b;
    if (a == b && !is_place(a)) return a;
    return std::nullopt;
}

std::optional<Measure> rest_of(Measure a, Measure b) {
    if (a == b) return distance(a);
    if (is_place(a) && b == distance(a)) return a;
    return std::nullopt;
}

std::optional<Measure> product_of(Measure a, Measure b) {
    if (is_place(a) || is_place(b)) return std::nullopt;
    if (a == Measure::plain) return b;
    if (b == Measure::plain) return a;
    return std::nullopt;
}

std::optional<Measure> ratio_of(Measure a, Measure b) {
    if (is_place(a) || is_place(b)) return std::nullopt;
    if (b == Measure::plain) return a;
    if (a == b) return Measure::plain;
    return std::nullopt;
}

struct Calculation {
    Kind sign;
    Op op;
    std::optional<Measure> (*result)(Measure, Measure);
    std::string_view refusal;  // with both measures
    std::string_view allowed;
};

constexpr Calculation calculations[] = {
    {Kind::plus, Op::add, sum_of, "{} and {} cannot be added",
     "two of one measure; a temperature (degC) and a difference (K)"},
    {Kind::minus, Op::subtract, rest_of, "from {}, {} cannot be subtracted",
     "two of one measure; a temperature (degC) less a difference (K)"},
    {Kind::times, Op::multiply, product_of, "{} and {} cannot be multiplied",
     "a plain number with a plain number or a quantity, but no temperature or time of day"},
    {Kind::over, Op::divide, ratio_of, "{} cannot be divided by {}",
     "a quantity by a plain number or by one of its measure, but no temperature or time of day"},
};

const Calculation& calculation_of(Kind sign) {
    for (const Calculation& each : calculations)
        if (each.sign == sign) return each;
    return calculations[0];
}

ExpressionPtr made(Op op, Measure measure, std::vector<ExpressionPtr> args) {
    Expression expression;
    expression.op = op;
    expression.measure = measure;
    expression.args = std::move(args);
    return std::make_shared<const Expression>(std::move(expression));
}

ExpressionPtr constant(double value, Measure measure) {
    Expression expression;
    expression.measure = measure;
    expression.constant = value;
    return std::make_shared<const Expression>(std::move(expression));
}

std::optional<Measure> total_of(Measure measure) {
    switch (measure) {
        case Measure::power:
            return Measure::energy;
        case Measure::flow:
            return Measure::volume;
        case Measure::irradiance:
            return Measure::irradiation;
        default:
            return std::nullopt;
    }
}

/// The measure that `found` belongs to, if a requirement knows it.
std::optional<Measure> measure_of(const UnitFound& found) {
    for (std::size_t i = 0; i < measure_count; ++i) {
        const auto measure = static_cast<Measure>(i);
        if (find_unit(unit_of(measure)).kind == found.kind) return measure;
    }
    return std::nullopt;
}

std::string all_units() {
    std::string units;
    for (std::size_t i = 0; i < measure_count; ++i) {
        const auto measure = static_cast<Measure>(i);
        if (measure == Measure::plain || measure == Measure::clock) continue;
        units += (units.empty() ? "" : ", ") + units_text(unit_of(measure));
    }
    return units;
}

}  // namespace

std::string described(Measure measure, std::string_view unit) {
    if (measure == Measure::plain || measure == Measure::clock)
        return std::string(name_of(measure));
    return fmt::format("{} ({})", name_of(measure), unit.empty() ? unit_of(measure) : unit);
}

std::string units_accepted(Measure measure) {
    if (measure == Measure::plain) return "a plain number without a unit";
    if (measure == Measure::clock) return "a time of day such as 07:15";
    return units_text(unit_of(measure));
}

Literal literal_of(const Syntax& literal) {
    const std::string_view digits = literal.children.at(0).text;
    double value = 0.0;
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (read.ec != std::errc() || !std::isfinite(value))
        throw Misread(literal.at, in_quotes(digits) + " is too large a number", "a smaller one");
    if (literal.children.size() == 1) return {Measure::plain, value, {}};
    const Syntax& unit = literal.children.at(1);
    const UnitFound found = find_unit(unit.text);
    const std::optional<Measure> measure = found.unit == nullptr ? std::nullopt : measure_of(found);
    if (!measure)
        throw Misread(unit.at, in_quotes(unit.text) + " is not a unit of requirements",
                      all_units());
    // In one division, so that 10 min is 600 s to the last bit.
    const Unit& own = *find_unit(unit_of(*measure)).unit;
    const double up = found.unit->times * own.by;
    const double down = found.unit->by * own.times;
    return {*measure, up == down ? value : value * up / down, unit.text};
}

SentenceReader::Number SentenceReader::number(const Syntax& phrase, const Inside& inside) const {
    switch (phrase.kind) {
        case Kind::literal: {
            const Literal quantity = literal_of(phrase);
            return {constant(quantity.value, quantity.measure), quantity.unit};
        }
        case Kind::clock:
            return {constant(clock_seconds(phrase), Measure::clock), {}};
        case Kind::name:
            return signal(phrase);
        case Kind::negative:
            return negative(phrase, inside);
        case Kind::sum:
        case Kind::product:
            return chain(phrase, inside);
        case Kind::absolute:
        case Kind::lesser:
        case Kind::greater_of:
            return function(phrase, inside);
        case Kind::time_since:
            return time_since(phrase, inside);
        case Kind::starts:
        case Kind::time_with:
        case Kind::first_time:
        case Kind::last_time:
        case Kind::total:
        case Kind::mean:
        case Kind::highest:
        case Kind::lowest:
        case Kind::change:
            return over_a_period(phrase, inside);
        default:
            throw Misread(phrase.at,
                          in_quotes(phrase.text) + " is a condition where a number is wanted",
                          "a number with its unit, a signal or a calculation");
    }
}

SentenceReader::Number SentenceReader::signal(const Syntax& phrase) const {
    Expression expression;
    expression.op = Op::signal;
    expression.signal = signal_index(phrase.text, phrase.at, signals_);
    const traces::Signal& signal = signals_[expression.signal];
    if (signal.kind != traces::SignalKind::number)
        throw Misread(phrase.at, in_quotes(phrase.text) + " is no number",
                      signal.kind == traces::SignalKind::on_off ? "is on, is off, goes on, goes off"
                                                                : "is WORD, is not WORD");
    expression.measure = measure_of_unit(signal.unit);
    return {std::make_shared<const Expression>(std::move(expression)), signal.unit};
}

SentenceReader::Number SentenceReader::negative(const Syntax& phrase, const Inside& inside) const {
    const Number of = number(phrase.children.at(0), inside);
    const Measure measure = of.expression->measure;
    if (of.expression->op == Op::constant && measure != Measure::clock)
        return {constant(-of.expression->constant, measure), of.unit};
    if (is_place(measure))
        throw Misread(phrase.at, fmt::format("{} has no opposite", described(measure, of.unit)),
                      "the difference of two");
    return {made(Op::negate, measure, {of.expression}), of.unit};
}

SentenceReader::Number SentenceReader::chain(const Syntax& phrase, const Inside& inside) const {
    const auto& parts = phrase.children;
    Number so_far = number(parts.at(0), inside);
    for (std::size_t i = 2; i < parts.size(); i += 2) {
        const Syntax& sign = parts.at(i - 1);
        const Number next = number(parts.at(i), inside);
        const Calculation& calculation = calculation_of(sign.kind);
        const Measure a = so_far.expression->measure;
        const Measure b = next.expression->measure;
        const std::optional<Measure> measure = calculation.result(a, b);
        if (!measure)
            throw Misread(sign.at,
                          fmt::format(fmt::runtime(calculation.refusal), described(a, so_far.unit),
                                      described(b, next.unit)),
                          std::string(calculation.allowed));
        if (sign.kind == Kind::over && next.expression->op == Op::constant &&
            next.expression->constant == 0.0)
            throw Misread(parts.at(i).at, "a division by zero", "another number");
        const std::string_view unit = *measure == a ? so_far.unit : *measure == b ? next.unit : "";
        so_far = {made(calculation.op, *measure, {so_far.expression, next.expression}), unit};
    }
    return so_far;
}

SentenceReader::Number SentenceReader::function(const Syntax& phrase, const Inside& inside) const {
    const Number first = number(phrase.children.at(0), inside);
    const Measure measure = first.expression->measure;
    if (phrase.kind == Kind::absolute) {
        if (is_place(measure))
            throw Misread(phrase.at, fmt::format("abs of {}", described(measure, first.unit)),
                          "abs of a difference");
        return {made(Op::absolute, measure, {first.expression}), first.unit};
    }
    const Number second = number(phrase.children.at(1), inside);
    if (second.expression->measure != measure)
        throw Misread(phrase.children.at(1).at,
                      fmt::format("{} cannot be compared with {}", described(measure, first.unit),
                                  described(second.expression->measure, second.unit)),
                      units_accepted(measure));
    return {made(phrase.kind == Kind::lesser ? Op::lesser : Op::greater, measure,
                 {first.expression, second.expression}),
            first.unit};
}

FormulaPtr SentenceReader::counted(const Syntax& phrase, const Inside& inside) const {
    if (phrase.kind == Kind::name) {
        const std::size_t index = signal_index(phrase.text, phrase.at, signals_);
        if (signals_[index].kind == traces::SignalKind::on_off) {
            Formula on;
            on.op = Formula::Op::is_word;
            on.signal = index;
            on.word = 1;
            return std::make_shared<const Formula>(std::move(on));
        }
    }
    return condition(phrase, inside);
}

SentenceReader::Inside SentenceReader::inside_count(const Syntax& phrase, Inside inside) {
    if (inside.count)
        throw Misread(phrase.at, "a count or total cannot stand inside another",
                      "each for itself, joined by calculations or comparisons");
    inside.count = true;
    return inside;
}

SentenceReader::Number SentenceReader::time_since(const Syntax& phrase,
                                                  const Inside& inside) const {
    Expression expression;
    expression.op = Op::time_since;
    expression.measure = Measure::duration;
    expression.of = condition(phrase.children.at(0), inside_count(phrase, inside));
    return {std::make_shared<const Expression>(std::move(expression)), {}};
}

SentenceReader::Number SentenceReader::over_a_period(const Syntax& phrase,
                                                     const Inside& inside) const {
    const std::string_view word = phrase.text.substr(0, phrase.text.find_first_of(" \t\r\n("));
    const Inside deeper = inside_count(phrase, inside);
    if (!inside.period)
        throw Misread(phrase.at,
                      fmt::format("{} needs a period over which to look", in_quotes(word)),
                      "each day, each month, each year, over the run or in any 10 min before it");
    Expression made_of;
    made_of.period = *inside.period;
    const Syntax& operand = phrase.children.at(0);
    const auto counting = [&](Op op, Measure measure) {
        made_of.op = op;
        made_of.measure = measure;
        made_of.of = counted(operand, deeper);
        return Number{std::make_shared<const Expression>(std::move(made_of)), {}};
    };
    if (phrase.kind == Kind::starts) return counting(Op::starts, Measure::plain);
    if (phrase.kind == Kind::time_with) return counting(Op::time_with, Measure::duration);
    if (phrase.kind == Kind::first_time || phrase.kind == Kind::last_time) {
        // "first time with (...)" holds the phrase "time with (...)", whose condition is meant
        made_of.op = phrase.kind == Kind::first_time ? Op::first_time : Op::last_time;
        made_of.measure = Measure::clock;
        made_of.of = condition(operand.children.at(0), deeper);
        return {std::make_shared<const Expression>(std::move(made_of)), {}};
    }
    const Number of = number(operand, deeper);
    const Measure measure = of.expression->measure;
    made_of.args = {of.expression};
    made_of.measure = measure;
    made_of.op = phrase.kind == Kind::mean      ? Op::mean
                 : phrase.kind == Kind::highest ? Op::highest
                 : phrase.kind == Kind::lowest  ? Op::lowest
                 : phrase.kind == Kind::change  ? Op::change
                                                : Op::total;
    if (phrase.kind == Kind::change) made_of.measure = distance(measure);
    if (phrase.kind == Kind::total) {
        const std::optional<Measure> total = total_of(measure);
        if (!total)
            throw Misread(phrase.at,
                          fmt::format("there is no total of {}", described(measure, of.unit)),
                          "total of a power (W), a flow (l/min) or an irradiance (W/m2)");
        made_of.measure = *total;
    }
    return {std::make_shared<const Expression>(std::move(made_of)), {}};
}

}  // namespace noonbench::harness
