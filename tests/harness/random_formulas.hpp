// SPDX-License-Identifier: MIT
// Formulas and runs by chance from a named seed, for comparing the monitors with brute force.
#pragma once
#include "formulas.hpp"

#include "plant/random.hpp"

#include "harness/bench/clock.hpp"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <set>
#include <vector>

namespace noonbench::harness::testing {

class Dice {
  public:
    explicit Dice(plant::RandomStream stream) : stream_(stream) {}
    std::int64_t among(std::int64_t first, std::int64_t last) {
        return plant::random_integer(stream_, counter_++, first, last);
    }
    double uniform() { return plant::random_uniform(stream_, counter_++); }
    bool chance(double share) { return uniform() < share; }

  private:
    plant::RandomStream stream_;
    std::uint64_t counter_ = 0;
};

/// Signals 0 and 1: small whole numbers with gaps; 2: real numbers without; 3: real numbers with
/// gaps; 4 and 5: on_off; 6: a choice of three.
inline Trace random_trace(Dice& dice, std::int64_t ticks, double restlessness) {
    constexpr std::size_t signals = 7;
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    Trace trace;
    trace.signals.resize(signals);
    std::vector<double> value(signals, 0.0);
    for (std::int64_t t = 0; t < ticks; ++t) {
        for (std::size_t i = 0; i < signals; ++i) {
            const bool gaps = i == 0 || i == 1 || i == 3;
            if (t == 0 || dice.chance(restlessness)) {
                value[i] = i < 2    ? static_cast<double>(dice.among(-3, 4))
                           : i < 4  ? 8.0 * dice.uniform() - 2.0
                           : i == 6 ? static_cast<double>(dice.among(0, 2))
                                    : static_cast<double>(dice.among(0, 1));
                if (gaps && dice.chance(0.2)) value[i] = nan;
            }
            trace.signals[i].push_back(value[i]);
        }
    }
    // Near the turn of a year, a leap month, an ordinary day or noon, at odd seconds.
    const std::int64_t turns[] = {midnight_of({2026, 1, 1}), midnight_of({2028, 3, 1}),
                                  midnight_of({2026, 5, 14}), midnight_of({2026, 5, 14}) + 43200};
    trace.start_s = turns[dice.among(0, 3)] - dice.among(-20, std::min<std::int64_t>(ticks, 900));
    return trace;
}

class RandomFormulas {
  public:
    /// Windows and periods reach up to `reach` ticks.
    RandomFormulas(Dice& dice, std::int64_t reach) : dice_(dice), reach_(reach) {}

    Requirement next(int depth) {
        measures_.clear();
        shifts_ = false;
        Requirement r;
        r.formula = outermost(depth);
        for (const Measure m : measures_) r.classes.push_back({false, m});
        if (shifts_) r.classes.push_back(shift_class);
        r.at_end = dice_.chance(0.5) ? AtEnd::cut : AtEnd::unknown;
        return r;
    }

    /// Something over a window or a period, for the inside of an endless window.
    FormulaPtr next_wide() {
        if (dice_.chance(0.5)) return temporal(dice_.among(0, 2), 2, window());
        const auto op = static_cast<Formula::Op>(dice_.among(0, 3));
        ExpressionPtr wide = aggregate(Measure::temperature, 2);
        return compare(wide, op, number_of(Measure::temperature, 0));
    }

  private:
    Window window() {
        const std::int64_t from = dice_.chance(0.5) ? 0 : dice_.among(0, reach_ / 2);
        return {from, from + dice_.among(0, reach_ / 2)};
    }

    /// Connectives of temporal operators, endless ones among them, and of atoms.
    FormulaPtr outermost(int depth) {
        const std::int64_t kind = dice_.among(0, 9);
        if (kind == 0) return negation(outermost(depth - 1));
        if (kind <= 2) return connective(kind == 1, {outermost(depth - 1), outermost(depth - 1)});
        if (kind == 3) return inner(depth);
        const Window where =
            dice_.chance(0.6) ? Window{dice_.among(0, 3), Window::endless} : window();
        return temporal(dice_.among(0, 2), depth, where);
    }

    FormulaPtr temporal(std::int64_t kind, int depth, Window where) {
        if (kind == 0) return always(inner(depth - 1), where);
        if (kind == 1) return sometime(inner(depth - 1), where);
        FormulaPtr before = inner(depth - 1);
        return join(Formula::Op::until, {before, inner(depth - 1)}, where);
    }

    static FormulaPtr connective(bool all, std::vector<FormulaPtr> args) {
        return join(all ? Formula::Op::conjunction : Formula::Op::disjunction, std::move(args));
    }

    FormulaPtr inner(int depth) {
        const std::int64_t kind = depth <= 0 ? 9 : dice_.among(0, 11);
        if (kind <= 1 && !in_number_) return temporal(dice_.among(0, 2), depth, window());
        if (kind == 2) return negation(inner(depth - 1));
        if (kind <= 5) {
            std::vector<FormulaPtr> args;
            const std::int64_t count = dice_.chance(0.05) ? 0 : dice_.among(1, 3);
            for (std::int64_t i = 0; i < count; ++i) args.push_back(inner(depth - 1));
            return connective(kind == 3, std::move(args));
        }
        if (kind == 6) return implies(inner(depth - 1), inner(depth - 1));
        return atom(depth);
    }

    FormulaPtr atom(int depth) {
        const std::int64_t kind = dice_.among(0, 9);
        if (kind <= 4) {
            const Measure measure = dice_.chance(0.5) ? Measure::plain : Measure::temperature;
            if (!in_number_) {
                measures_.insert(measure == Measure::plain ? measure : Measure::difference);
            }
            ExpressionPtr left = number_of(measure, depth);
            const auto op = static_cast<Formula::Op>(dice_.among(0, 5));
            return compare(left, op, number_of(measure, depth - 1));
        }
        if (kind <= 7) {
            const auto op = static_cast<Formula::Op>(static_cast<int>(Formula::Op::is_word) +
                                                     static_cast<int>(dice_.among(0, 2)));
            if (!in_number_ && op == Formula::Op::is_word) shifts_ = true;
            return of_word(op, static_cast<std::size_t>(dice_.among(4, 6)),
                           static_cast<int>(dice_.among(0, 1)));
        }
        return of_the_clock(depth);
    }

    FormulaPtr of_the_clock(int depth) {
        Formula f;
        switch (dice_.among(0, 4)) {
            case 0:
                f.op = Formula::Op::has_value;
                f.left = number_of(Measure::plain, depth - 1);
                break;
            case 1: {
                const auto s = [&] {
                    const std::int64_t at = dice_.among(-900, 900);
                    return static_cast<std::int32_t>(at < 0 ? at + 86400 : at);
                };
                return clock_within(s(), s());
            }
            case 2:
                f.op = Formula::Op::clock_at;
                f.clock_from_s = static_cast<std::int32_t>(dice_.among(0, reach_));
                break;
            case 3:
                return ends(static_cast<Period::Kind>(dice_.among(0, 3)));
            default:
                f.op = Formula::Op::lasted;
                f.period = {Period::Kind::last, dice_.among(1, reach_)};
                break;
        }
        return std::make_shared<Formula>(f);
    }

    ExpressionPtr number_of(Measure measure, int depth) {
        const std::int64_t kind = depth <= 0 ? dice_.among(0, 1) : dice_.among(0, 5);
        if (kind == 0) return number(static_cast<double>(dice_.among(-2, 4)), measure);
        if (kind <= 2) return signal(static_cast<std::size_t>(dice_.among(0, 3)), measure);
        if (kind == 3) {
            const auto op = static_cast<Expression::Op>(static_cast<int>(Expression::Op::add) +
                                                        static_cast<int>(dice_.among(0, 7)));
            ExpressionPtr a = number_of(measure, depth - 1);
            if (op == Expression::Op::negate || op == Expression::Op::absolute) {
                return of_numbers(op, {a}, measure);
            }
            return of_numbers(op, {a, number_of(measure, depth - 1)}, measure);
        }
        return aggregate(measure, depth);
    }

    ExpressionPtr aggregate(Measure measure, int depth) {
        const auto op = static_cast<Expression::Op>(static_cast<int>(Expression::Op::starts) +
                                                    static_cast<int>(dice_.among(0, 9)));
        Period period{static_cast<Period::Kind>(dice_.among(0, 4)), 0};
        if (period.kind == Period::Kind::last) period.last_s = dice_.among(1, reach_);
        const bool of_truth = op == Expression::Op::starts || op == Expression::Op::time_with ||
                              op >= Expression::Op::first_time;
        if (!of_truth) {
            constexpr Measure summed[] = {Measure::plain, Measure::power, Measure::flow};
            return of_numbers(op, {number_of(summed[dice_.among(0, 2)], depth - 1)}, measure,
                              period);
        }
        const bool outside = !in_number_;
        in_number_ = true;
        FormulaPtr of = inner(std::min(depth - 1, 2));
        if (outside) in_number_ = false;
        return of_formula(op, of, period, measure);
    }

    Dice& dice_;
    std::int64_t reach_;
    std::set<Measure> measures_;
    bool shifts_ = false;
    bool in_number_ = false;
};

}  // namespace noonbench::harness::testing
