// SPDX-License-Identifier: MIT
#include "sentence_reader.hpp"

#include "misread.hpp"
#include "vocabulary.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>
#include <vector>

namespace noonbench::harness {
namespace {

using Kind = Syntax::Kind;
using Op = Formula::Op;

FormulaPtr made(Op op, std::vector<FormulaPtr> args, Window window = {}) {
    Formula formula;
    formula.op = op;
    formula.args = std::move(args);
    formula.window = window;
    return std::make_shared<const Formula>(std::move(formula));
}

FormulaPtr negated(FormulaPtr formula) {
    return made(Op::negation, {std::move(formula)});
}

FormulaPtr implied(FormulaPtr when, FormulaPtr then) {
    return made(Op::disjunction, {negated(std::move(when)), std::move(then)});
}

FormulaPtr at_time(Op op, std::int32_t from_s, std::int32_t until_s) {
    Formula formula;
    formula.op = op;
    formula.clock_from_s = from_s;
    formula.clock_until_s = until_s;
    return std::make_shared<const Formula>(std::move(formula));
}

/// The literal of a window, in whole seconds.
std::int64_t seconds(const Syntax& literal, std::int64_t least_s) {
    const Literal quantity = literal_of(literal);
    if (quantity.measure != Measure::duration)
        throw Misread(literal.at,
                      fmt::format("{} is not a length of time", in_quotes(literal.text)),
                      "a number with " + units_accepted(Measure::duration));
    const auto longest = static_cast<double>(longest_window_s);
    if (quantity.value != std::floor(quantity.value) ||
        quantity.value < static_cast<double>(least_s) || quantity.value > longest)
        throw Misread(
            literal.at, fmt::format("{} is no window", in_quotes(literal.text)),
            fmt::format("whole seconds, {} s to {} days", least_s, longest_window_s / 86400));
    return static_cast<std::int64_t>(quantity.value);
}

/// What can be said instead where an endless phrase may not stand.
std::string bounded(const Syntax& phrase) {
    switch (phrase.kind) {
        case Kind::always:
        case Kind::never:
        case Kind::sometime: {
            const std::string_view word = phrase.text.substr(0, phrase.text.find_first_of(" ,:\n"));
            return fmt::format("a window: {0} within 10 min ..., {0} from 5 min to 10 min ...",
                               word);
        }
        case Kind::until:
            return "a window: ... until ... within 10 min";
        default:
            return "this phrase outermost, joined to others by and, or, not, if";
    }
}

}  // namespace

Syntax parsed_sentence(std::string_view text, std::span<const traces::Signal> signals) {
    try {
        return parse_sentence(text);
    } catch (const Misread& misfit) {
        // A word that nobody knows says more than what would have fitted after it.
        if (text.size() <= most_characters_a_requirement)
            refuse_unknown_words(text, misfit.at(), signals);
        throw;
    }
}

std::int32_t clock_seconds(const Syntax& clock) {
    const Parsed<std::int32_t> parsed = parse_time_of_day(clock.text);
    if (!parsed.value) throw Misread(clock.at, parsed.what, parsed.allowed);
    return *parsed.value;
}

FormulaPtr SentenceReader::condition(const Syntax& phrase, const Inside& inside) const {
    const auto& parts = phrase.children;
    switch (phrase.kind) {
        case Kind::if_then:
            return implied(condition(parts.at(0), inside), condition(parts.at(1), inside));
        case Kind::either:
            return connective(Op::disjunction, phrase, inside);
        case Kind::both:
            return connective(Op::conjunction, phrase, inside);
        case Kind::negation:
            return negated(condition(parts.at(0), inside));
        case Kind::comparison:
            return comparison(phrase, inside);
        default:
            return temporal(phrase, inside);
    }
}

FormulaPtr SentenceReader::connective(Op op, const Syntax& phrase, const Inside& inside) const {
    std::vector<FormulaPtr> args;
    for (const Syntax& part : phrase.children) args.push_back(condition(part, inside));
    return made(op, std::move(args));
}

FormulaPtr SentenceReader::temporal(const Syntax& phrase, const Inside& inside) const {
    const Kind kind = phrase.kind;
    const bool quantified = kind == Kind::always || kind == Kind::never || kind == Kind::sometime;
    const bool periodic = kind == Kind::each_day || kind == Kind::each_month ||
                          kind == Kind::each_year || kind == Kind::over_run || kind == Kind::in_any;
    if (!quantified && !periodic && kind != Kind::until && kind != Kind::at_clock &&
        kind != Kind::each_time)
        refuse_number(phrase);
    const auto& parts = phrase.children;
    if (inside.count)
        throw Misread(phrase.at, "what is counted or timed may not look ahead",
                      "comparisons, joined by and, or, not, if");
    const bool endless = periodic || kind == Kind::at_clock || kind == Kind::each_time ||
                         (kind == Kind::until && parts.size() == 2) ||
                         (quantified && (parts.size() == 1 || parts.at(0).kind == Kind::between));
    if (endless && inside.window)
        throw Misread(phrase.at, "a phrase without a window cannot stand inside another",
                      bounded(phrase));
    if (kind == Kind::until) return until(phrase, inside);
    if (kind == Kind::at_clock) return at_clock(phrase, inside);
    if (kind == Kind::each_time) return each_time(phrase, inside);
    if (quantified) return throughout(phrase, inside);

    Period period;
    if (kind == Kind::each_day) period.kind = Period::Kind::day;
    if (kind == Kind::each_month) period.kind = Period::Kind::month;
    if (kind == Kind::each_year) period.kind = Period::Kind::year;
    if (kind == Kind::in_any) period = {Period::Kind::last, seconds(parts.at(0), 1)};
    return over_period(phrase, period, inside);
}

FormulaPtr SentenceReader::until(const Syntax& phrase, const Inside& inside) const {
    const auto& parts = phrase.children;
    Window window;
    if (parts.size() == 3) window.until_s = seconds(parts.at(2).children.at(0), 0);
    Inside deeper = inside;
    deeper.window = true;
    return made(Op::until, {condition(parts.at(0), deeper), condition(parts.at(1), deeper)},
                window);
}

FormulaPtr SentenceReader::throughout(const Syntax& phrase, const Inside& inside) const {
    const auto& parts = phrase.children;
    if (parts.at(0).kind == Kind::between) return between_clocks(phrase, inside);
    Window window;
    if (parts.at(0).kind == Kind::within) {
        window.until_s = seconds(parts.at(0).children.at(0), 0);
    } else if (parts.at(0).kind == Kind::from_to) {
        const auto& ends = parts.at(0).children;
        window = {seconds(ends.at(0), 0), seconds(ends.at(1), 0)};
        if (window.from_s > window.until_s)
            throw Misread(ends.at(1).at, "a window that ends before it begins",
                          fmt::format("{} or more", ends.at(0).text));
    }
    Inside deeper = inside;
    deeper.window = true;
    FormulaPtr what = condition(parts.back(), deeper);
    if (phrase.kind == Kind::sometime) return made(Op::sometime, {std::move(what)}, window);
    if (phrase.kind == Kind::never) what = negated(std::move(what));
    return made(Op::always, {std::move(what)}, window);
}

FormulaPtr SentenceReader::between_clocks(const Syntax& phrase, const Inside& inside) const {
    constexpr std::int32_t a_day_s = 86400;
    const auto& ends = phrase.children.at(0).children;
    const std::int32_t from_s = clock_seconds(ends.at(0)) % a_day_s;
    const std::int32_t until_s = clock_seconds(ends.at(1));
    if (from_s == until_s)
        throw Misread(ends.at(1).at, "a window that ends when it begins", "another time of day");
    Inside deeper = inside;
    deeper.window = true;
    FormulaPtr what = condition(phrase.children.back(), deeper);
    if (phrase.kind == Kind::sometime) {
        const std::int32_t length_s = (until_s - from_s + a_day_s) % a_day_s;
        const std::int32_t last_s = (length_s == 0 ? a_day_s : length_s) - 1;
        return made(Op::always, {implied(at_time(Op::clock_at, from_s, 0),
                                         made(Op::sometime, {std::move(what)}, {0, last_s}))});
    }
    if (phrase.kind == Kind::never) what = negated(std::move(what));
    return made(Op::always, {implied(at_time(Op::clock_within, from_s, until_s), std::move(what))});
}

FormulaPtr SentenceReader::at_clock(const Syntax& phrase, const Inside& inside) const {
    const std::int32_t at_s = clock_seconds(phrase.children.at(0)) % 86400;
    Inside deeper = inside;
    deeper.window = true;
    return made(Op::always, {implied(at_time(Op::clock_at, at_s, 0),
                                     condition(phrase.children.at(1), deeper))});
}

FormulaPtr SentenceReader::each_time(const Syntax& phrase, const Inside& inside) const {
    const auto& parts = phrase.children;
    Inside deeper = inside;
    deeper.window = true;
    FormulaPtr when = condition(parts.at(0), deeper);
    const bool has_lasted = parts.size() == 4;
    const FormulaPtr then = condition(parts.at(has_lasted ? 2 : 1), deeper);
    const std::int64_t wait_s = seconds(parts.back().children.at(0), 0);
    std::int64_t lasted_s = 0;
    if (has_lasted) {
        lasted_s = seconds(parts.at(1).children.at(0), 1);
        when = made(Op::always, {std::move(when)}, {0, lasted_s});
    }
    return made(Op::always, {implied(std::move(when),
                                     made(Op::sometime, {then}, {lasted_s, lasted_s + wait_s}))});
}

FormulaPtr SentenceReader::over_period(const Syntax& phrase, Period period,
                                       const Inside& inside) const {
    Inside deeper = inside;
    deeper.window = true;
    deeper.period = period;
    Formula when;
    when.op = period.kind == Period::Kind::last ? Op::lasted : Op::ends;
    when.period = period;
    return made(Op::always, {implied(std::make_shared<const Formula>(std::move(when)),
                                     condition(phrase.children.back(), deeper))});
}

void SentenceReader::refuse_number(const Syntax& phrase) const {
    if (phrase.kind == Kind::name)
        for (const traces::Signal& signal : signals_) {
            if (signal.name != phrase.text || signal.kind == traces::SignalKind::number) continue;
            const bool on_off = signal.kind == traces::SignalKind::on_off;
            throw Misread(phrase.at, in_quotes(phrase.text) + " alone says nothing",
                          on_off ? fmt::format("{0} is on, {0} is off", phrase.text)
                                 : fmt::format("{} is {}", phrase.text, signal.choices.at(0)));
        }
    throw Misread(phrase.at, in_quotes(phrase.text) + " is a number where a condition is wanted",
                  "a comparison: is above, is below, is at least, is at most, is between ... and");
}

}  // namespace noonbench::harness
