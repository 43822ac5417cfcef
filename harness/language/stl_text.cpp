// SPDX-License-Identifier: MIT
// A formula in the usual notation of Signal Temporal Logic: G always, F sometime, U until, windows
// in seconds, ! & | -> for not, and, or, implies.
#include "formula.hpp"
#include "requirement.hpp"
#include "vocabulary.hpp"

#include "harness/scenario/quantity_text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace noonbench::harness {
namespace {

using Op = Formula::Op;
using Term = Expression::Op;

std::string number_text(double value) {
    return fmt::format("{:.9g}", value);
}

std::string period_text(const Period& period) {
    switch (period.kind) {
        case Period::Kind::day:
            return "day";
        case Period::Kind::month:
            return "month";
        case Period::Kind::year:
            return "year";
        case Period::Kind::last:
            return fmt::format("last_{}", period.last_s);
        case Period::Kind::since_start:
            break;
    }
    return "run";
}

std::string_view sign_of(Op op) {
    switch (op) {
        case Op::less:
            return "<";
        case Op::less_equal:
            return "<=";
        case Op::greater:
            return ">";
        case Op::greater_equal:
            return ">=";
        case Op::equal:
            return "=";
        default:
            return "!=";
    }
}

std::string_view name_of(Term op) {
    switch (op) {
        case Term::absolute:
            return "abs";
        case Term::lesser:
            return "min";
        case Term::greater:
            return "max";
        case Term::starts:
            return "starts";
        case Term::time_with:
            return "time_with";
        case Term::total:
            return "total";
        case Term::mean:
            return "mean";
        case Term::highest:
            return "highest";
        case Term::lowest:
            return "lowest";
        case Term::change:
            return "change";
        case Term::first_time:
            return "first_time";
        case Term::last_time:
            return "last_time";
        case Term::time_since:
            return "time_since";
        default:
            return "";
    }
}

/// 0 for sums, 1 for products, 2 for what needs no parentheses.
int binding(const Expression& e) {
    if (e.op == Term::add || e.op == Term::subtract) return 0;
    if (e.op == Term::multiply || e.op == Term::divide || e.op == Term::negate) return 1;
    return 2;
}

class Writer {
  public:
    using Names = std::function<std::string(std::size_t)>;
    using Words = std::function<std::string(std::size_t, int)>;
    Writer(Names names, Words words) : names_(std::move(names)), words_(std::move(words)) {}

    [[nodiscard]] std::string text(const Formula& f) const {
        switch (f.op) {
            case Op::is_word:
                return of_word(f);
            case Op::goes_on:
                return fmt::format("rise({})", of_word(f));
            case Op::goes_off:
                return fmt::format("fall({})", of_word(f));
            case Op::has_value:
                return fmt::format("known({})", text(*f.left));
            case Op::clock_within:
                return fmt::format("clock in [{},{})", time_of_day_text(f.clock_from_s),
                                   time_of_day_text(f.clock_until_s));
            case Op::clock_at:
                return fmt::format("clock = {}", time_of_day_text(f.clock_from_s));
            case Op::ends:
                return period_text(f.period) + "_ends";
            case Op::lasted:
                return fmt::format("lasted_{}", f.period.last_s);
            case Op::negation:
            case Op::conjunction:
            case Op::disjunction:
                return connective(f);
            case Op::always:
                return fmt::format("G{}({})", window(f.window), text(*f.args.at(0)));
            case Op::sometime:
                return fmt::format("F{}({})", window(f.window), text(*f.args.at(0)));
            case Op::until:
                return fmt::format("{} U{} {}", part(*f.args.at(0)), window(f.window),
                                   part(*f.args.at(1)));
            default:
                return fmt::format("{} {} {}", text(*f.left), sign_of(f.op), text(*f.right));
        }
    }

  private:
    [[nodiscard]] std::string of_word(const Formula& f) const {
        return fmt::format("{} = {}", names_(f.signal), words_(f.signal, f.word));
    }

    static std::string window(const Window& w) {
        if (w.until_s == Window::endless && w.from_s == 0) return "";
        const bool endless = w.until_s == Window::endless;
        return fmt::format("[{},{}]", w.from_s, endless ? "inf" : std::to_string(w.until_s));
    }

    /// Within a connective: in parentheses unless its own text closes itself.
    [[nodiscard]] std::string part(const Formula& f) const {
        const bool closed = f.op == Op::negation || f.op == Op::always || f.op == Op::sometime ||
                            f.op == Op::goes_on || f.op == Op::goes_off || f.op == Op::has_value ||
                            f.op == Op::ends || f.op == Op::lasted;
        return closed ? text(f) : "(" + text(f) + ")";
    }

    [[nodiscard]] std::string connective(const Formula& f) const {
        if (f.op == Op::negation) return fmt::format("!({})", text(*f.args.at(0)));
        if (f.args.empty()) return f.op == Op::conjunction ? "true" : "false";
        if (f.op == Op::disjunction && f.args.size() == 2 && f.args[0]->op == Op::negation)
            return fmt::format("{} -> {}", part(*f.args[0]->args.at(0)), part(*f.args[1]));
        std::string out = part(*f.args[0]);
        for (std::size_t i = 1; i < f.args.size(); ++i)
            out += (f.op == Op::conjunction ? " & " : " | ") + part(*f.args[i]);
        return out;
    }

    [[nodiscard]] std::string operand(const Expression& e, int least_binding) const {
        return binding(e) < least_binding ? "(" + text(e) + ")" : text(e);
    }

    [[nodiscard]] std::string text(const Expression& e) const {
        const auto two = [&](std::string_view sign, int left, int right) {
            return fmt::format("{} {} {}", operand(*e.args.at(0), left), sign,
                               operand(*e.args.at(1), right));
        };
        switch (e.op) {
            case Term::constant:
                return e.measure == Measure::clock
                           ? time_of_day_text(static_cast<std::int32_t>(e.constant))
                           : number_text(e.constant);
            case Term::signal:
                return names_(e.signal);
            case Term::add:
                return two("+", 0, 1);
            case Term::subtract:
                return two("-", 0, 1);
            case Term::multiply:
                return two("*", 1, 2);
            case Term::divide:
                return two("/", 1, 2);
            case Term::negate:
                return "-" + operand(*e.args.at(0), 2);
            default:
                return function(e);
        }
    }

    [[nodiscard]] std::string function(const Expression& e) const {
        const bool of_period = e.op != Term::absolute && e.op != Term::lesser &&
                               e.op != Term::greater && e.op != Term::time_since;
        std::string out(name_of(e.op));
        if (of_period) out += "_" + period_text(e.period);
        out += "(";
        if (e.of) out += text(*e.of);
        for (std::size_t i = 0; i < e.args.size(); ++i)
            out += (i == 0 ? "" : ", ") + text(*e.args[i]);
        return out + ")";
    }

    Names names_;
    Words words_;
};

}  // namespace

std::string stl_text(const Formula& formula, const std::vector<std::string>& signal_names) {
    const Writer writer([&](std::size_t signal) { return signal_names.at(signal); },
                        [](std::size_t /*signal*/, int word) { return std::to_string(word); });
    return writer.text(formula);
}

std::string stl_text(const Formula& formula, std::span<const traces::Signal> signals) {
    const Writer writer(
        [&](std::size_t signal) { return signals[signal].name; },
        [&](std::size_t signal, int word) { return word_of(signals[signal], word); });
    return writer.text(formula);
}

}  // namespace noonbench::harness
