// SPDX-License-Identifier: MIT
#include "formulas.hpp"

#include "harness/bench/clock.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <stdexcept>
#include <utility>
#include <vector>

BOOST_AUTO_TEST_SUITE(monitor)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
using Op = Formula::Op;
using Num = Expression::Op;

constexpr double inf = std::numeric_limits<double>::infinity();
constexpr double no_number_here = std::numeric_limits<double>::quiet_NaN();
constexpr std::int64_t a_day = 86400;
constexpr Period today{Period::Kind::day, 0};

Trace one_signal(std::vector<double> values, std::int64_t start_s = 0) {
    return {{std::move(values)}, start_s};
}
std::vector<double> repeated(std::int64_t ticks, double value) {
    return std::vector<double>(static_cast<std::size_t>(ticks), value);
}
FormulaPtr x_against(Op op, double limit) {
    return compare(signal(0), op, number(limit));
}
FormulaPtr is_on(std::size_t index) {
    return of_word(Op::is_word, index);
}
Outcome cut(const FormulaPtr& formula, const Trace& trace, MarginClass c = plain_class) {
    return outcome(requirement(formula, {c}, AtEnd::cut), trace);
}
bool is_zero_and(const Outcome& outcome, Truth truth) {
    const Margin& m = outcome.margins.front();
    return outcome.truth == truth && m.lo == 0.0 && m.hi == 0.0 && !std::signbit(m.lo);
}

}  // namespace

BOOST_AUTO_TEST_CASE(at_its_limit_a_comparison_holds_or_not_with_a_margin_of_nothing) {
    const Trace at_65 = one_signal({65.0, 65.0});
    for (const Op op : {Op::less_equal, Op::greater_equal, Op::equal}) {
        BOOST_TEST(is_zero_and(cut(always(x_against(op, 65.0)), at_65), Truth::held));
        BOOST_TEST(is_zero_and(cut(negation(x_against(op, 65.0)), at_65), Truth::not_held));
    }
    for (const Op op : {Op::less, Op::greater, Op::not_equal}) {
        BOOST_TEST(is_zero_and(cut(always(x_against(op, 65.0)), at_65), Truth::not_held));
        BOOST_TEST(is_zero_and(cut(negation(x_against(op, 65.0)), at_65), Truth::held));
    }
}

BOOST_AUTO_TEST_CASE(without_a_number_no_comparison_holds_and_its_negation_does) {
    const Trace lost = one_signal({1.0, no_number_here, 1.0});
    for (const Op op :
         {Op::less, Op::less_equal, Op::greater, Op::greater_equal, Op::equal, Op::not_equal}) {
        BOOST_TEST(cut(always(x_against(op, 5.0)), lost).margins.front().lo == -inf);
        const FormulaPtr at_1 = sometime(negation(x_against(op, 5.0)), {1, 1});
        BOOST_TEST(cut(at_1, lost).margins.front().lo == inf);
    }
}

BOOST_AUTO_TEST_CASE(a_window_past_the_end_leaves_an_interval) {
    const Trace falling = one_signal({9.0, 8.0, 7.0});
    const FormulaPtr stays = always(x_against(Op::greater_equal, 2.0), {0, 5});
    const Outcome open = outcome(requirement(stays, {plain_class}), falling);
    BOOST_TEST((open.truth == Truth::not_known));
    BOOST_TEST(open.margins.front().lo == -inf);
    BOOST_TEST(open.margins.front().hi == 5.0);
    const Outcome closed = cut(stays, falling);
    BOOST_TEST((closed.truth == Truth::held));
    BOOST_TEST(closed.margins.front().lo == 5.0);
}

BOOST_AUTO_TEST_CASE(what_has_happened_is_decided_whatever_comes_after_the_end) {
    const Trace falling = one_signal({9.0, 8.0, 7.0});
    const FormulaPtr lost = always(x_against(Op::greater_equal, 8.5), {0, 5});
    const Outcome outcome_lost = outcome(requirement(lost, {plain_class}), falling);
    BOOST_TEST((outcome_lost.truth == Truth::not_held));
    BOOST_TEST(outcome_lost.margins.front().hi == -1.5);
    const FormulaPtr won = sometime(x_against(Op::greater_equal, 8.5), {0, 5});
    const Outcome outcome_won = outcome(requirement(won, {plain_class}), falling);
    BOOST_TEST((outcome_won.truth == Truth::held));
    BOOST_TEST(outcome_won.margins.front().lo == 0.5);
    BOOST_TEST(outcome_won.margins.front().hi == inf);
}

BOOST_AUTO_TEST_CASE(windows_that_nobody_can_watch_are_refused) {
    const FormulaPtr atom = x_against(Op::less, 1.0);
    const auto watch = [](FormulaPtr f) {
        return Monitor(std::vector{requirement(std::move(f), {})}, 0);
    };
    BOOST_CHECK_THROW(watch(always(sometime(atom))), std::invalid_argument);
    BOOST_CHECK_THROW(watch(always(atom, {3, 2})), std::invalid_argument);
    const ExpressionPtr ahead = of_formula(Num::time_with, always(atom, {0, 2}), today);
    BOOST_CHECK_THROW(watch(compare(ahead, Op::less, number(1.0))), std::invalid_argument);
    BOOST_CHECK_NO_THROW(watch(negation(always(sometime(atom, {0, 9})))));
}

// The pump goes on at tick 100; the requirement wants it on at tick 130 and still off at tick 60.
BOOST_AUTO_TEST_CASE(a_relay_has_its_margin_in_seconds_earlier_or_later) {
    Trace trace = one_signal(repeated(100, 0.0));
    trace.signals[0].resize(1000, 1.0);
    const Outcome on = cut(always(is_on(0), {130, 130}), trace, shift_class);
    BOOST_TEST(on.margins.front().lo == 31.0);
    const Outcome off = cut(always(negation(is_on(0)), {60, 60}), trace, shift_class);
    BOOST_TEST(off.margins.front().lo == 40.0);
    const Outcome missed = cut(always(is_on(0), {60, 60}), trace, shift_class);
    BOOST_TEST((missed.truth == Truth::not_held));
    BOOST_TEST(missed.margins.front().lo == -40.0);
    BOOST_TEST(missed.margins.front().tightest_at_s == 60);
}

BOOST_AUTO_TEST_CASE(shifts_look_no_farther_than_an_hour) {
    Trace trace = one_signal(repeated(longest_shift_s + 100, 0.0));
    trace.signals[0].push_back(1.0);
    const auto still_off_at = [&](std::int64_t t) {
        return cut(always(negation(is_on(0)), {t, t}), trace, shift_class).margins.front().lo;
    };
    BOOST_TEST(still_off_at(101) == 3599.0);
    BOOST_TEST(still_off_at(100) == 3600.0);
    BOOST_TEST(still_off_at(99) == 3600.0);
}

BOOST_AUTO_TEST_CASE(a_pulse_counts_by_its_truth_alone) {
    Trace trace = one_signal(repeated(100, 0.0));
    trace.signals[0].resize(200, 1.0);
    const FormulaPtr goes_on = of_word(Op::goes_on, 0);
    BOOST_TEST(cut(sometime(goes_on), trace, shift_class).margins.front().lo == inf);
    BOOST_TEST(cut(sometime(goes_on, {0, 99}), trace, shift_class).margins.front().lo == -inf);
    BOOST_TEST(cut(always(goes_on, {100, 100}), trace, shift_class).margins.front().lo == inf);
}

BOOST_AUTO_TEST_CASE(the_first_of_equally_tight_ticks_decided) {
    const Trace trace = one_signal({3.0, 1.0, 2.0, 1.0}, 1000);
    const Outcome low = cut(always(x_against(Op::greater_equal, 0.0)), trace);
    BOOST_TEST(low.margins.front().tightest_at_s == 1001);
    const Outcome high = cut(negation(always(x_against(Op::greater_equal, 0.0))), trace);
    BOOST_TEST(high.margins.front().tightest_at_s == 1001);
}

BOOST_AUTO_TEST_CASE(a_daily_extremum_was_decided_when_it_was_reached) {
    Trace trace = one_signal(repeated(2 * a_day, 40.0));
    trace.signals[0][30000] = 58.0;
    trace.signals[0][static_cast<std::size_t>(a_day) + 50000] = 61.0;
    const ExpressionPtr highest = of_numbers(Num::highest, {signal(0)}, Measure::plain, today);
    const FormulaPtr each_day =
        always(implies(ends(Period::Kind::day), compare(highest, Op::greater_equal, number(55.0))));
    const Outcome one = cut(each_day, trace);
    BOOST_TEST(one.margins.front().lo == 3.0);
    BOOST_TEST(one.margins.front().tightest_at_s == 30000);
}

BOOST_AUTO_TEST_CASE(too_many_starts_were_decided_by_the_last_of_them) {
    Trace trace = one_signal(repeated(4000, 0.0));
    for (const std::size_t t : {500U, 900U, 1700U}) trace.signals[0][t] = 1.0;
    for (const Period period : {Period{}, Period{Period::Kind::last, 3600}}) {
        const ExpressionPtr starts = of_formula(Num::starts, is_on(0), period);
        const Outcome one = cut(always(compare(starts, Op::less_equal, number(2.0))), trace);
        BOOST_TEST(one.margins.front().lo == -1.0);
        BOOST_TEST(one.margins.front().tightest_at_s == 1700);
    }
}

// 600 W for an hour and a half are 0.9 kWh; 5 l/min for two minutes are 10 l.
BOOST_AUTO_TEST_CASE(totals_are_in_kwh_and_litres) {
    const auto at_the_end = [](ExpressionPtr total, const Trace& trace) {
        const FormulaPtr none = compare(std::move(total), Op::greater_equal, number(0.0));
        return cut(always(implies(ends(Period::Kind::since_start), none)), trace).margins[0].lo;
    };
    const auto total = [](Measure measure) { return of_numbers(Num::total, {signal(0, measure)}); };
    BOOST_TEST(at_the_end(total(Measure::power), one_signal(repeated(5400, 600.0))) == 0.9);
    BOOST_TEST(at_the_end(total(Measure::flow), one_signal(repeated(120, 5.0))) == 10.0);
}

// What must hold until then fails at tick 700, long before the goal is reached at tick 1300.
BOOST_AUTO_TEST_CASE(an_until_does_not_look_past_what_breaks_it) {
    Trace trace = one_signal(repeated(2000, 5.0));
    trace.signals.push_back(repeated(2000, -1.0));
    trace.signals[1][1300] = 4.0;
    const FormulaPtr goal = compare(signal(1), Op::greater_equal, number(0.0));
    const FormulaPtr both = join(Op::until, {x_against(Op::greater_equal, 0.0), goal}, {0, 1400});
    BOOST_TEST(cut(always(both, {0, 0}), trace).margins.front().lo == 4.0);
    trace.signals[0][700] = -3.0;
    BOOST_TEST(cut(always(both, {0, 0}), trace).margins.front().lo == -1.0);
}

// On for 480 ticks from the beginning: of the last 960, none are left at tick 1439.
BOOST_AUTO_TEST_CASE(a_time_that_runs_out_of_its_period_is_seen_to_do_so) {
    Trace trace = one_signal(repeated(480, 1.0));
    trace.signals[0].resize(2000, 0.0);
    const ExpressionPtr on_s = of_formula(Num::time_with, is_on(0), {Period::Kind::last, 960});
    const FormulaPtr enough = compare(on_s, Op::greater_equal, number(100.0));
    const Outcome one = cut(always(enough, {300, Window::endless}), trace);
    BOOST_TEST(one.margins.front().lo == -100.0);
    BOOST_TEST(one.margins.front().tightest_at_s == 1439);
}

// The relay goes off at ticks 1000 and 2000 and on at 1030 and 2045: pauses of 30 s and 45 s, the
// first within two blocks of 480 ticks, the second across two days.
BOOST_AUTO_TEST_CASE(a_pause_has_its_margin_in_seconds_and_the_time_before_the_first_run_is_none) {
    const auto paused = [](const std::vector<std::int64_t>& turns, std::int64_t ticks) {
        Trace trace = one_signal({}, midnight_of({2026, 4, 15}) - 2010);
        for (const std::int64_t turn : turns) {
            const double value = trace.signals[0].empty() ? 0.0 : 1.0 - trace.signals[0].back();
            trace.signals[0].resize(static_cast<std::size_t>(turn), value);
        }
        trace.signals[0].resize(static_cast<std::size_t>(ticks), 0.0);
        return trace;
    };
    const ExpressionPtr off_s = of_formula(Num::time_since, of_word(Op::goes_off, 0), {});
    const FormulaPtr too_soon =
        join(Op::conjunction, {of_word(Op::goes_on, 0), compare(off_s, Op::less, number(60.0))});
    const FormulaPtr rests = always(negation(too_soon));
    const Trace twice = paused({20, 1000, 1030, 2000, 2045, 3000}, 4000);
    const Outcome broken = cut(rests, twice);
    BOOST_TEST((broken.truth == Truth::not_held));
    BOOST_TEST(broken.margins.front().lo == -30.0);
    BOOST_TEST(broken.margins.front().tightest_at_s == twice.start_s + 1030);
    const Trace at_midnight = paused({20, 2000, 2045, 3000}, 4000);
    BOOST_TEST(cut(rests, at_midnight).margins.front().lo == -15.0);
    const Trace long_ago = paused({20, 1000, 50000, 51000}, 60000);
    BOOST_TEST(cut(rests, long_ago).margins.front().lo == 49000.0 - 60.0);
    const Outcome barely_rests = cut(rests, paused({20, 1000, 1060, 2000}, 4000));
    BOOST_TEST(is_zero_and(barely_rests, Truth::held));
    const Trace once = paused({20, 1000}, 4000);
    BOOST_TEST(cut(rests, once).margins.front().lo == inf);
}

BOOST_AUTO_TEST_CASE(a_time_since_is_nothing_where_it_holds_and_looks_past_the_start_of_its_day) {
    Trace trace = one_signal(repeated(2 * a_day, 0.0));
    trace.signals[0][100] = 1.0;
    const auto since = [&](std::int64_t tick, Period period) {
        const ExpressionPtr on = of_formula(Num::time_since, is_on(0), period);
        const FormulaPtr any = compare(on, Op::greater_equal, number(0.0));
        return cut(always(any, {tick, tick}), trace).margins.front().lo;
    };
    for (const Period period : {Period{}, today, Period{Period::Kind::last, 5}}) {
        BOOST_TEST(since(99, period) == -inf);
        BOOST_TEST(since(100, period) == 0.0);
        BOOST_TEST(since(101, period) == 1.0);
        BOOST_TEST(since(2 * a_day - 1, period) == static_cast<double>(2 * a_day - 101));
    }
    const ExpressionPtr ahead = of_formula(Num::time_since, always(is_on(0), {0, 2}), {});
    BOOST_CHECK_THROW(cut(compare(ahead, Op::less, number(1.0)), trace), std::invalid_argument);
}

BOOST_AUTO_TEST_CASE(a_day_that_begins_without_a_number_has_no_highest_one_until_it_comes) {
    Trace trace = one_signal(repeated(2 * a_day, 40.0));
    const auto midnight = trace.signals[0].begin() + a_day;
    std::fill(midnight, midnight + 100, no_number_here);
    std::fill(midnight + 100, trace.signals[0].end(), 30.0);
    const ExpressionPtr highest = of_numbers(Num::highest, {signal(0)}, Measure::plain, today);
    const Outcome one = cut(always(compare(highest, Op::less_equal, number(50.0))), trace);
    BOOST_TEST(one.margins.front().lo == -inf);
    BOOST_TEST(one.margins.front().tightest_at_s == a_day);
}

BOOST_AUTO_TEST_CASE(only_days_that_the_run_covers_from_their_first_second_have_an_end) {
    const FormulaPtr an_end = sometime(ends(Period::Kind::day));
    const std::int64_t midnight = midnight_of({2026, 4, 15});
    const auto truth = [&](std::int64_t start_s, std::int64_t ticks) {
        return outcome(requirement(an_end, {}), one_signal(repeated(ticks, 0.0), start_s)).truth;
    };
    BOOST_TEST((truth(midnight, a_day) == Truth::held));
    BOOST_TEST((truth(midnight, a_day - 1) == Truth::not_held));
    BOOST_TEST((truth(midnight + 1, a_day) == Truth::not_held));
    BOOST_TEST((truth(midnight + 1, 2 * a_day - 1) == Truth::held));
}

BOOST_AUTO_TEST_CASE(a_month_and_a_year_end_where_the_calendar_says_so) {
    const std::int64_t start_s = midnight_of({2027, 12, 1});
    const auto held_at = [&](Period::Kind kind, std::int64_t from_s, std::int64_t tick) {
        const FormulaPtr there = sometime(ends(kind), {tick, tick});
        const Trace trace = one_signal(repeated(tick + 3, 0.0), from_s);
        return outcome(requirement(there, {}), trace).truth == Truth::held;
    };
    BOOST_TEST(held_at(Period::Kind::month, start_s, 31 * a_day - 1));
    BOOST_TEST(!held_at(Period::Kind::month, start_s, 30 * a_day - 1));
    BOOST_TEST(!held_at(Period::Kind::year, start_s, 31 * a_day - 1));
    BOOST_TEST(held_at(Period::Kind::month, midnight_of({2028, 2, 1}), 29 * a_day - 1));
}

BOOST_AUTO_TEST_CASE(a_year_that_is_covered_has_an_end_and_one_sum) {
    const std::int64_t ticks = 365 * a_day;
    const ExpressionPtr on = of_formula(Num::time_with, is_on(0), {Period::Kind::year, 0});
    const FormulaPtr half =
        always(implies(ends(Period::Kind::year), compare(on, Op::less_equal, number(1e6))));
    const std::vector<Requirement> both = {requirement(half, {plain_class}),
                                           requirement(sometime(ends(Period::Kind::year)), {})};
    Monitor monitor(both, midnight_of({2026, 1, 1}));
    std::int64_t on_s = 0;
    for (std::int64_t t = 0; t < ticks; ++t) {
        const bool is_on_now = t % 1000 < 400;
        *monitor.row() = is_on_now ? 1.0 : 0.0;
        monitor.tick();
        on_s += is_on_now ? 1 : 0;
    }
    const std::vector<Outcome> all = monitor.finish();
    BOOST_TEST(all[0].margins.front().lo == 1e6 - static_cast<double>(on_s));
    BOOST_TEST((all[1].truth == Truth::held));
}

BOOST_AUTO_TEST_CASE(a_requirement_whose_occasion_never_came_was_not_put_to_the_test) {
    Trace trace = one_signal(repeated(600, 0.0));
    trace.signals.push_back(repeated(600, 3.0));
    const FormulaPtr flows = compare(signal(1), Op::greater, number(1.0));
    const FormulaPtr each_time = always(implies(of_word(Op::goes_on, 0), sometime(flows, {0, 30})));
    const Requirement both = requirement(each_time, {plain_class, shift_class});
    BOOST_TEST(!outcome(both, trace).put_to_the_test);
    trace.signals[0][300] = 1.0;
    const Outcome came = outcome(both, trace);
    BOOST_TEST((came.truth == Truth::held));
    BOOST_TEST(came.put_to_the_test);
    BOOST_TEST(came.margins[0].lo == 2.0);
    // An always without an occasion is asked at every tick, even if its relay never moves.
    const FormulaPtr never = always(negation(is_on(0)), {0, 100});
    BOOST_TEST(outcome(requirement(never, {shift_class}), trace).put_to_the_test);
}

BOOST_AUTO_TEST_CASE(signals_are_asked_for_once_in_ascending_order) {
    const FormulaPtr f = join(Op::conjunction, {compare(signal(7), Op::less, signal(2)),
                                                of_word(Op::is_word, 4), x_against(Op::less, 0)});
    const Monitor monitor(std::vector{requirement(f, {plain_class}), requirement(f, {})}, 0);
    const std::vector<std::size_t> expected = {0, 2, 4, 7};
    BOOST_TEST(monitor.signals() == expected, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_run_without_a_tick_leaves_open_what_asks_for_one) {
    const std::vector<Requirement> some = {
        requirement(always(x_against(Op::less, 1.0)), {plain_class}),
        requirement(x_against(Op::less, 1.0), {plain_class})};
    Monitor monitor(some, 12345);
    const std::vector<Outcome> all = monitor.finish();
    BOOST_TEST((all[0].truth == Truth::held));
    BOOST_TEST(!all[0].put_to_the_test);
    BOOST_TEST((all[1].truth == Truth::not_known));
}

BOOST_AUTO_TEST_CASE(ten_days_need_no_more_memory_than_one) {
    const FormulaPtr flows = compare(signal(1), Op::greater, number(0.5));
    const FormulaPtr each_time =
        always(implies(of_word(Op::goes_on, 0), sometime(flows, {0, 600})));
    const Requirement one = requirement(each_time, {plain_class, shift_class});
    Monitor monitor(std::vector{one}, midnight_of({2026, 4, 15}));
    std::size_t after_a_day = 0;
    for (std::int64_t t = 0; t < 10 * a_day; ++t) {
        double* row = monitor.row();
        row[0] = t % 1700 < 300 ? 1.0 : 0.0;
        row[1] = std::sin(1e-3 * static_cast<double>(t));
        monitor.tick();
        if (t == a_day) after_a_day = monitor.buffered();
    }
    BOOST_TEST(after_a_day > 0U);
    // How many blocks are constant, and need no room, varies a little from hour to hour.
    BOOST_TEST(monitor.buffered() < after_a_day + after_a_day / 10U);
    // Two signals and some ten nodes, each over ten minutes and an hour of shift.
    BOOST_TEST(monitor.buffered() < 12U * 2U * (600U + 3600U + 480U));
}

BOOST_AUTO_TEST_SUITE_END()
