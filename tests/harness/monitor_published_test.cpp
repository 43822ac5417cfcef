// SPDX-License-Identifier: MIT
// Robustness as others have published it. Least and greatest of the same doubles are the same
// doubles, so everything here is exact.
#include "formulas.hpp"

#include <boost/test/unit_test.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

BOOST_AUTO_TEST_SUITE(monitor_published)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
using Op = Formula::Op;
using Margins = std::vector<double>;

/// The margin at every tick: at t it is that of the run that begins there.
Margins at_every_tick(const FormulaPtr& formula, const Trace& whole, MarginClass margin_class) {
    Margins margins;
    for (std::ptrdiff_t t = 0; t < static_cast<std::ptrdiff_t>(whole.ticks()); ++t) {
        Trace rest = whole;
        rest.start_s += t;
        for (auto& signal : rest.signals) signal.erase(signal.begin(), signal.begin() + t);
        const Outcome one = outcome(requirement(formula, {margin_class}, AtEnd::cut), rest);
        BOOST_TEST(one.margins.front().lo == one.margins.front().hi);
        margins.push_back(one.margins.front().lo);
    }
    return margins;
}

void check(const std::string& what, const FormulaPtr& formula, const Margins& published) {
    const Trace two{{{100, -1, -2, 5, -1}, {20, -2, 10, 4, -1}}, 0};
    BOOST_TEST_CONTEXT(what) {
        BOOST_TEST(at_every_tick(formula, two, plain_class) == published,
                   boost::test_tools::per_element());
    }
}

/// The signals of the vectors as formulas: their robustness is their value.
FormulaPtr a() {
    return compare(signal(0), Op::greater_equal, number(0.0));
}
FormulaPtr b() {
    return compare(signal(1), Op::greater_equal, number(0.0));
}
FormulaPtr until(Window window) {
    return join(Op::until, {a(), b()}, window);
}

}  // namespace

// Source of the vectors: unit tests of an open STL monitor by the authors' group (discrete time,
// offline). Windows are cut where the trace ends; until is half open.
BOOST_AUTO_TEST_CASE(connectives_have_the_published_robustness) {
    check("a and b", join(Op::conjunction, {a(), b()}), {20, -2, -2, 4, -1});
    check("a or b", join(Op::disjunction, {a(), b()}), {100, -1, 10, 5, -1});
    check("a implies b", implies(a(), b()), {20, 1, 10, 4, 1});
}

BOOST_AUTO_TEST_CASE(comparisons_of_two_signals_have_the_published_robustness) {
    check("a equal b", compare(signal(0), Op::equal, signal(1)), {-80, -1, -12, -1, 0});
    check("a not equal b", compare(signal(0), Op::not_equal, signal(1)), {80, 1, 12, 1, 0});
    check("a <= b", compare(signal(0), Op::less_equal, signal(1)), {-80, -1, 12, -1, 0});
    check("a >= b", compare(signal(0), Op::greater_equal, signal(1)), {80, 1, -12, 1, 0});
}

BOOST_AUTO_TEST_CASE(always_and_sometime_have_the_published_robustness) {
    check("always a", always(a()), {-2, -2, -2, -1, -1});
    check("always[0,1] a", always(a(), {0, 1}), {-1, -2, -2, -1, -1});
    check("sometime a", sometime(a()), {100, 5, 5, 5, -1});
    check("sometime[0,1] a", sometime(a(), {0, 1}), {100, -1, 5, 5, -1});
}

BOOST_AUTO_TEST_CASE(until_has_the_published_robustness) {
    check("a until b", until({}), {20, -1, 10, 4, -1});
    check("a until[0,1] b", until({0, 1}), {20, -1, 10, 4, -1});
}

// Worked by hand: 65 - 64 and 60 - 64.
BOOST_AUTO_TEST_CASE(a_store_that_reaches_64_degc_is_1_k_from_65_and_4_k_beyond_60) {
    const Trace store{{{55, 60, 64, 61, 58, 50}}, 0};
    const auto at_most = [](double limit_c) {
        return always(compare(signal(0, Measure::temperature), Op::less_equal,
                              number(limit_c, Measure::temperature)));
    };
    const Outcome held = outcome(requirement(at_most(65.0), {kelvin_class}), store);
    BOOST_TEST((held.truth == Truth::held));
    BOOST_TEST(held.margins.front().lo == 1.0);
    BOOST_TEST(held.margins.front().hi == 1.0);
    BOOST_TEST(held.margins.front().tightest_at_s == 2);
    const Outcome missed = outcome(requirement(at_most(60.0), {kelvin_class}), store);
    BOOST_TEST((missed.truth == Truth::not_held));
    BOOST_TEST(missed.margins.front().lo == -4.0);
    BOOST_TEST(missed.margins.front().hi == -4.0);
}

BOOST_AUTO_TEST_SUITE_END()
