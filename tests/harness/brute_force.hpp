// SPDX-License-Identifier: MIT
// Requirements straight from the definitions in formula.hpp and monitor.hpp: every value at every
// tick, every window walked from end to end. Slow, short, and without a line in common with the
// monitors.
#pragma once
#include "harness/bench/clock.hpp"
#include "harness/judge/monitor.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

namespace noonbench::harness::testing {

/// A run as columns: signals by their index, one value a tick.
struct Trace {
    std::vector<std::vector<double>> signals;
    std::int64_t start_s = 0;
    [[nodiscard]] std::int64_t ticks() const {
        return static_cast<std::int64_t>(signals.front().size());
    }
};

class BruteForce {
  public:
    using Series = std::vector<double>;
    enum class After { cut, low, high };
    /// What atoms count for; direction +1 and -1: shift ahead and behind.
    struct Question {
        std::optional<Measure> measure;
        int direction = 0;
        After after = After::cut;
    };
    struct Answer {
        double margin = 0.0;
        std::int64_t tick = -1;
    };

    explicit BruteForce(const Trace& trace) : trace_(trace), n_(trace.ticks()) {}

    [[nodiscard]] Outcome outcome(const Requirement& requirement) const {
        Outcome outcome;
        const bool cut = requirement.at_end == AtEnd::cut;
        const Formula& formula = *requirement.formula;
        const auto both = [&](Question question) {
            question.after = cut ? After::cut : After::low;
            const Answer lo = root(formula, question, 1);
            question.after = cut ? After::cut : After::high;
            return std::pair{lo, root(formula, question, 1)};
        };
        const auto [low, high] = both({});
        outcome.truth = low.margin > 0.0    ? Truth::held
                        : high.margin < 0.0 ? Truth::not_held
                                            : Truth::not_known;
        for (const MarginClass& c : requirement.classes) {
            auto [lo, hi] = both({c.shift ? std::nullopt : std::optional(c.measure), c.shift});
            if (c.shift) {
                const auto [lo_behind, hi_behind] = both({std::nullopt, -1});
                if (std::abs(lo_behind.margin) < std::abs(lo.margin)) lo = lo_behind;
                if (std::abs(hi_behind.margin) < std::abs(hi.margin)) hi = hi_behind;
            }
            const std::int64_t tick = outcome.truth == Truth::not_held ? hi.tick : lo.tick;
            outcome.margins.push_back({c, without_denormal(lo.margin), without_denormal(hi.margin),
                                       trace_.start_s + std::max<std::int64_t>(tick, 0)});
        }
        return outcome;
    }

    /// Robustness at ticks 0 .. length - 1; `sign` is -1 under an odd number of negations.
    [[nodiscard]] Series robustness(const Formula& f, const Question& q, int sign,
                                    std::int64_t length) const {
        using Op = Formula::Op;
        Series out(static_cast<std::size_t>(length));
        if (f.op == Op::negation) {
            out = robustness(*f.args[0], q, -sign, length);
            for (double& x : out) x = -x;
            return out;
        }
        if (f.op == Op::conjunction || f.op == Op::disjunction) {
            const bool all = f.op == Op::conjunction;
            std::fill(out.begin(), out.end(), all ? inf : -inf);
            for (const FormulaPtr& arg : f.args) {
                const Series x = robustness(*arg, q, sign, length);
                for (std::size_t t = 0; t < out.size(); ++t) {
                    out[t] = all ? std::min(out[t], x[t]) : std::max(out[t], x[t]);
                }
            }
            return out;
        }
        if (f.op == Op::always || f.op == Op::sometime || f.op == Op::until) {
            const std::int64_t reach = length + f.window.until_s;
            const Series first = robustness(*f.args[0], q, sign, reach);
            const Series goal = f.op == Op::until ? robustness(*f.args[1], q, sign, reach) : first;
            for (std::int64_t t = 0; t < length; ++t) {
                const std::int64_t last = q.after == After::cut
                                              ? std::min(t + f.window.until_s, n_ - 1)
                                              : t + f.window.until_s;
                out[at(t)] = over_window(f.op, first, goal, {t, t + f.window.from_s, last}).margin;
            }
            return out;
        }
        return atom(f, q, sign, length);
    }

    [[nodiscard]] Answer root(const Formula& f, const Question& q, int sign) const {
        using Op = Formula::Op;
        if (f.op == Op::negation) {
            const Answer of = root(*f.args[0], q, -sign);
            return {-of.margin, of.tick};
        }
        if (f.op == Op::conjunction || f.op == Op::disjunction) {
            const bool all = f.op == Op::conjunction;
            Answer best{all ? inf : -inf, -1};
            for (const FormulaPtr& arg : f.args) {
                const Answer one = root(*arg, q, sign);
                if (all ? one.margin < best.margin : one.margin > best.margin) best = one;
            }
            return best;
        }
        const bool temporal = f.op == Op::always || f.op == Op::sometime || f.op == Op::until;
        const Window window = temporal ? f.window : Window{0, 0};
        const bool within = window.until_s == Window::endless || q.after == After::cut;
        const std::int64_t last = within ? std::min(window.until_s, n_ - 1) : window.until_s;
        const Formula& one = temporal ? *f.args[0] : f;
        const Series first = robustness(one, q, sign, last + 1);
        const Series goal = f.op == Op::until ? robustness(*f.args[1], q, sign, last + 1) : first;
        Answer answer =
            over_window(temporal ? f.op : Op::always, first, goal, {0, window.from_s, last});
        if (answer.tick >= n_) answer.tick = -1;
        return answer;
    }

    /// The number at every tick of the run.
    [[nodiscard]] Series number(const Expression& e) const {
        using Op = Expression::Op;
        Series out(at(n_), e.constant);
        if (e.op == Op::constant) return out;
        if (e.op == Op::signal) return trace_.signals[e.signal];
        if (e.op <= Op::greater) return arithmetic(e);
        const Series x = e.args.empty() ? Series() : number(*e.args[0]);
        std::vector<char> holds;
        if (e.of != nullptr) {
            for (const double r : robustness(*e.of, {}, 1, n_)) holds.push_back(r > 0.0);
        }
        for (std::int64_t t = 0; t < n_; ++t) {
            const Period period = e.op == Op::time_since ? Period{} : e.period;
            out[at(t)] = aggregate(e, x, holds, first_tick(period, t), t);
        }
        return out;
    }

  private:
    static constexpr double inf = std::numeric_limits<double>::infinity();
    static constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    static constexpr double tiny = std::numeric_limits<double>::denorm_min();
    struct Span {
        std::int64_t now, from, last;
    };

    static std::size_t at(std::int64_t t) { return static_cast<std::size_t>(t); }
    static double without_denormal(double x) { return std::abs(x) <= tiny ? 0.0 : x; }

    static Answer over_window(Formula::Op op, const Series& first, const Series& goal, Span span) {
        Answer best{op == Formula::Op::always ? inf : -inf, -1};
        double held = inf;  // until: the least of `first` at all ticks before t
        for (std::int64_t t = span.now; t <= span.last; ++t) {
            const double margin =
                op == Formula::Op::until ? std::min(goal[at(t)], held) : goal[at(t)];
            const bool better =
                op == Formula::Op::always ? margin < best.margin : margin > best.margin;
            if (t >= span.from && better) best = {margin, t};
            held = std::min(held, first[at(t)]);
        }
        return best;
    }

    [[nodiscard]] Series atom(const Formula& f, const Question& q, int sign,
                              std::int64_t length) const {
        Series out(at(length), (q.after == After::high ? inf : -inf) * sign);
        const std::int64_t known = std::min(length, n_);
        if (f.op <= Formula::Op::not_equal) {
            const Series l = number(*f.left);
            const Series r = number(*f.right);
            const bool distance = q.measure && *q.measure == of_distance(f.left->measure);
            for (std::int64_t t = 0; t < known; ++t) {
                const double d = compared(f.op, l[at(t)], r[at(t)]);
                out[at(t)] = distance ? d : d > 0.0 ? inf : -inf;
            }
            return out;
        }
        std::vector<char> bits;
        const Series value = f.op == Formula::Op::has_value ? number(*f.left) : Series();
        for (std::int64_t t = 0; t < n_; ++t) {
            bits.push_back(value.empty() ? two_valued(f, t) : !std::isnan(value[at(t)]));
        }
        const bool shifts = f.op == Formula::Op::is_word;  // a pulse has no distance
        for (std::int64_t t = 0; t < known; ++t) {
            double size = inf;
            if (shifts && q.direction != 0) size = shift(bits, t, q.direction);
            out[at(t)] = bits[at(t)] != 0 ? size : -size;
        }
        return out;
    }

    [[nodiscard]] double shift(const std::vector<char>& bits, std::int64_t t, int step) const {
        for (std::int64_t d = 1; d < longest_shift_s; ++d) {
            const std::int64_t u = t + d * step;
            if (u < 0 || u >= n_) break;
            if (bits[at(u)] != bits[at(t)]) return static_cast<double>(d);
        }
        return static_cast<double>(longest_shift_s);
    }

    static Measure of_distance(Measure measure) {
        if (measure == Measure::temperature) return Measure::difference;
        return measure == Measure::clock ? Measure::duration : measure;
    }

    static double compared(Formula::Op op, double l, double r) {
        using Op = Formula::Op;
        if (std::isnan(l) || std::isnan(r)) return -inf;
        const bool strict = op == Op::less || op == Op::greater || op == Op::not_equal;
        if (l == r) return strict ? -tiny : tiny;
        switch (op) {
            case Op::less:
            case Op::less_equal:
                return r - l;
            case Op::greater:
            case Op::greater_equal:
                return l - r;
            case Op::equal:
                return -std::abs(l - r);
            default:
                return std::abs(l - r);
        }
    }

    [[nodiscard]] bool two_valued(const Formula& f, std::int64_t t) const {
        using Op = Formula::Op;
        const std::int64_t civil = trace_.start_s + t;
        const std::int64_t clock_s = second_of_day(civil);
        const auto is_word = [&](std::int64_t u) {
            return trace_.signals[f.signal][at(u)] == static_cast<double>(f.word);
        };
        switch (f.op) {
            case Op::is_word:
                return is_word(t);
            case Op::goes_on:
                return t > 0 && is_word(t) && !is_word(t - 1);
            case Op::goes_off:
                return t > 0 && !is_word(t) && is_word(t - 1);
            case Op::clock_within:
                if (f.clock_from_s > f.clock_until_s) {
                    return clock_s >= f.clock_from_s || clock_s < f.clock_until_s;
                }
                return clock_s >= f.clock_from_s && clock_s < f.clock_until_s;
            case Op::clock_at:
                return clock_s == f.clock_from_s;
            case Op::ends: {
                if (f.period.kind == Period::Kind::since_start) return t == n_ - 1;
                const std::int64_t begin = begin_of(f.period.kind, civil);
                return begin >= trace_.start_s && begin_of(f.period.kind, civil + 1) != begin;
            }
            default:
                return t + 1 >= f.period.last_s;
        }
    }

    static std::int64_t begin_of(Period::Kind kind, std::int64_t civil) {
        CivilDate date = date_of(civil);
        if (kind != Period::Kind::day) date.day = 1;
        if (kind == Period::Kind::year) date.month = 1;
        return midnight_of(date);
    }

    [[nodiscard]] std::int64_t first_tick(const Period& period, std::int64_t t) const {
        switch (period.kind) {
            case Period::Kind::since_start:
                return 0;
            case Period::Kind::last:
                return std::max<std::int64_t>(0, t - period.last_s + 1);
            default:
                return std::max<std::int64_t>(
                    0, begin_of(period.kind, trace_.start_s + t) - trace_.start_s);
        }
    }

    [[nodiscard]] Series arithmetic(const Expression& e) const {
        using Op = Expression::Op;
        const Series a = number(*e.args[0]);
        const Series b = e.args.size() > 1 ? number(*e.args[1]) : a;
        Series out(a.size(), nan);
        for (std::size_t t = 0; t < out.size(); ++t) {
            if (std::isnan(a[t]) || std::isnan(b[t])) continue;
            switch (e.op) {
                case Op::add:
                    out[t] = a[t] + b[t];
                    break;
                case Op::subtract:
                    out[t] = a[t] - b[t];
                    break;
                case Op::multiply:
                    out[t] = a[t] * b[t];
                    break;
                case Op::divide:
                    if (b[t] != 0.0) out[t] = a[t] / b[t];
                    break;
                case Op::negate:
                    out[t] = -a[t];
                    break;
                case Op::absolute:
                    out[t] = std::abs(a[t]);
                    break;
                case Op::lesser:
                    out[t] = std::min(a[t], b[t]);
                    break;
                default:
                    out[t] = std::max(a[t], b[t]);
                    break;
            }
        }
        return out;
    }

    static double unit_of_total(Measure measure) {
        if (measure == Measure::power || measure == Measure::irradiance) return 3.6e6;
        return measure == Measure::flow ? 60.0 : 1.0;
    }

    /// The expression over ticks first..now.
    [[nodiscard]] double aggregate(const Expression& e, const Series& x,
                                   const std::vector<char>& holds, std::int64_t first,
                                   std::int64_t now) const {
        using Op = Expression::Op;
        double sum = 0.0;
        double count = 0.0;
        double starts = 0.0;
        double time = 0.0;
        double best = nan;
        std::int64_t first_held = -1;
        std::int64_t last_held = -1;
        for (std::int64_t t = first; t <= now; ++t) {
            if (e.of != nullptr && holds[at(t)] != 0) {
                time += 1.0;
                if (t > 0 && holds[at(t - 1)] == 0) starts += 1.0;
                if (first_held < 0) first_held = t;
                last_held = t;
            }
            if (e.of != nullptr || std::isnan(x[at(t)])) continue;
            sum += x[at(t)];
            count += 1.0;
            const bool better = e.op == Op::highest ? x[at(t)] > best : x[at(t)] < best;
            if (std::isnan(best) || better) best = x[at(t)];
        }
        switch (e.op) {
            case Op::starts:
                return starts;
            case Op::time_with:
                return time;
            case Op::time_since:
                return last_held < 0 ? nan : static_cast<double>(now - last_held);
            case Op::total:
                return sum / unit_of_total(e.args[0]->measure);
            case Op::mean:
                return count > 0.0 ? sum / count : nan;
            case Op::highest:
            case Op::lowest:
                return best;
            case Op::change:
                return x[at(now)] - x[at(first)];
            default: {
                const std::int64_t t = e.op == Op::first_time ? first_held : last_held;
                return t < 0 ? nan : static_cast<double>(second_of_day(trace_.start_s + t));
            }
        }
    }

    const Trace& trace_;
    std::int64_t n_;
};

}  // namespace noonbench::harness::testing
