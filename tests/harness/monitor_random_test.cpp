// SPDX-License-Identifier: MIT
// The monitors against brute force, on formulas and runs by chance.
#include "brute_force.hpp"
#include "formulas.hpp"
#include "random_formulas.hpp"
#include "short_form.hpp"

#include "plant/random.hpp"

#include "harness/language/formula.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(monitor_random)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;
using noonbench::plant::random_stream;
using noonbench::plant::sub_stream;

const std::vector<std::string> names = {"whole", "other", "real",  "gappy",
                                        "pump",  "valve", "reason"};

/// What a formula has in it, its numbers and their formulas included.
struct Contents {
    bool sums = false;     // last-so-long sums, whose order of addition is free
    bool moments = false;  // aggregates that know a moment of their own
};
void look_into(const Formula& f, Contents& contents);
void look_into(const Expression& e, Contents& contents) {
    using Op = Expression::Op;
    if (e.period.kind == Period::Kind::last && (e.op == Op::total || e.op == Op::mean)) {
        contents.sums = true;
    }
    contents.moments = contents.moments || e.op == Op::starts || e.op == Op::highest ||
                       e.op == Op::lowest || e.op == Op::first_time || e.op == Op::last_time;
    for (const ExpressionPtr& arg : e.args) look_into(*arg, contents);
    if (e.of) look_into(*e.of, contents);
}
void look_into(const Formula& f, Contents& contents) {
    if (f.left) look_into(*f.left, contents);
    if (f.right) look_into(*f.right, contents);
    for (const FormulaPtr& arg : f.args) look_into(*arg, contents);
}

/// Of sums: the definition adds in the order of the ticks, a monitor in any. Both stay within
/// ticks times the rounding unit (1.1e-16) of the sum of magnitudes; 1e-12 of it is kept as room
/// for 8,000 ticks. Magnitudes here are below 10 a tick, and differences may cancel.
bool same_margin(double a, double b, const Contents& contents, std::int64_t ticks) {
    if (a == b) return true;
    if (!contents.sums) return false;
    return std::abs(a - b) <= 1e-12 * (std::abs(a) + 10.0 * static_cast<double>(ticks));
}

void check_same(const Outcome& fast, const Outcome& slow, const Contents& contents,
                std::int64_t ticks) {
    BOOST_TEST(static_cast<int>(fast.truth) == static_cast<int>(slow.truth));
    BOOST_TEST_REQUIRE(fast.margins.size() == slow.margins.size());
    for (std::size_t i = 0; i < fast.margins.size(); ++i) {
        const Margin& f = fast.margins[i];
        const Margin& s = slow.margins[i];
        BOOST_TEST_CONTEXT("class " << i << ": [" << f.lo << ", " << f.hi << "], by brute force ["
                                    << s.lo << ", " << s.hi << "]") {
            BOOST_TEST(same_margin(f.lo, s.lo, contents, ticks));
            BOOST_TEST(same_margin(f.hi, s.hi, contents, ticks));
            if (!contents.moments && !contents.sums) BOOST_TEST(f.tightest_at_s == s.tightest_at_s);
        }
    }
}

struct Sizes {
    std::int64_t runs = 0;
    std::int64_t formulas_a_run = 0;
    std::int64_t wide_a_run = 0;
    std::int64_t least_ticks = 1;
    std::int64_t most_ticks = 60;
    std::int64_t reach = 10;
    double restlessness = 0.3;
};

/// All formulas of a run share one monitor, as they do in use, so that they share nodes as well.
void compare_by_chance(const char* name, const Sizes& sizes) {
    const auto stream = random_stream(20260415, name);
    for (std::int64_t run = 0; run < sizes.runs; ++run) {
        Dice dice(sub_stream(stream, static_cast<std::uint64_t>(run)));
        const Trace trace =
            random_trace(dice, dice.among(sizes.least_ticks, sizes.most_ticks), sizes.restlessness);
        RandomFormulas formulas(dice, sizes.reach);
        std::vector<Requirement> requirements;
        for (std::int64_t i = 0; i < sizes.formulas_a_run; ++i) {
            requirements.push_back(formulas.next(static_cast<int>(dice.among(1, 4))));
        }
        for (std::int64_t i = 0; i < sizes.wide_a_run; ++i) {
            const FormulaPtr wide = formulas.next_wide();
            const AtEnd at_end = dice.chance(0.5) ? AtEnd::cut : AtEnd::unknown;
            std::vector<MarginClass> classes = {plain_class, kelvin_class};
            if (dice.chance(0.25)) classes.push_back(shift_class);  // slow by brute force
            requirements.push_back(
                requirement(dice.chance(0.5) ? always(wide) : sometime(wide), classes, at_end));
        }
        const std::vector<Outcome> fast = outcomes(requirements, trace);
        const BruteForce brute(trace);
        for (std::size_t i = 0; i < requirements.size(); ++i) {
            Contents contents;
            look_into(*requirements[i].formula, contents);
            BOOST_TEST_CONTEXT("run " << run << ", " << trace.ticks() << " ticks from "
                                      << trace.start_s << ": "
                                      << stl_text(*requirements[i].formula, names)) {
                check_same(fast[i], brute.outcome(requirements[i]), contents, trace.ticks());
            }
        }
    }
}

}  // namespace

BOOST_AUTO_TEST_CASE(short_runs_give_what_the_definitions_give) {
    compare_by_chance("monitors, short", {.runs = 2500, .formulas_a_run = 8});
}

BOOST_AUTO_TEST_CASE(calm_runs_give_what_the_definitions_give) {
    compare_by_chance("monitors, calm", {.runs = 500, .formulas_a_run = 8, .restlessness = 0.02});
}

/// Windows beyond one block of ticks, gaps and changes rare enough that whole blocks are constant.
BOOST_AUTO_TEST_CASE(runs_of_many_blocks_give_what_the_definitions_give) {
    compare_by_chance("monitors, blocks", {.runs = 24,
                                           .formulas_a_run = 2,
                                           .wide_a_run = 8,
                                           .least_ticks = 900,
                                           .most_ticks = 2500,
                                           .reach = 1300,
                                           .restlessness = 0.004});
}

/// The outermost min and max hide most of what is inside: here one formula is asked for at many
/// single ticks, in each class, so that every kind of window shows its values in later blocks too.
BOOST_AUTO_TEST_CASE(single_ticks_of_many_blocks_give_what_the_definitions_give) {
    const auto stream = random_stream(20260415, "monitors, ticks");
    const std::vector<MarginClass> classes = {plain_class, kelvin_class};
    const std::uint64_t runs = is_short_form() ? 30 : 150;
    for (std::uint64_t run = 0; run < runs; ++run) {
        Dice dice(sub_stream(stream, run));
        const Trace trace =
            random_trace(dice, dice.among(2000, 3000), dice.chance(0.5) ? 0.2 : 0.003);
        RandomFormulas formulas(dice, 1300);
        const FormulaPtr f = formulas.next_wide();
        std::vector<Requirement> requirements;
        std::vector<std::int64_t> ticks;
        for (int i = 0; i < 40; ++i) {
            const std::int64_t t = dice.among(0, trace.ticks() - 1);
            ticks.push_back(t);
            requirements.push_back(requirement(always(f, {t, t}), classes, AtEnd::cut));
        }
        const std::vector<Outcome> fast = outcomes(requirements, trace);
        Contents contents;
        look_into(*f, contents);
        const BruteForce brute(trace);
        for (std::size_t c = 0; c < classes.size(); ++c) {
            const std::vector<double> slow =
                brute.robustness(*f, {.measure = classes[c].measure}, 1, trace.ticks());
            for (std::size_t i = 0; i < ticks.size(); ++i) {
                const double one = slow[static_cast<std::size_t>(ticks[i])];
                const double expected = std::abs(one) < 1e-300 ? 0.0 : one;
                BOOST_TEST(same_margin(fast[i].margins[c].lo, expected, contents, trace.ticks()),
                           "run " << run << ", tick " << ticks[i] << ": " << fast[i].margins[c].lo
                                  << " instead of " << one << " for " << stl_text(*f, names));
            }
        }
    }
}

/// Past the longest shift.
BOOST_AUTO_TEST_CASE(runs_of_two_hours_give_what_the_definitions_give) {
    compare_by_chance("monitors, long", {.runs = 2,
                                         .formulas_a_run = 5,
                                         .least_ticks = 7000,
                                         .most_ticks = 8500,
                                         .reach = 60,
                                         .restlessness = 0.0005});
}

BOOST_AUTO_TEST_SUITE_END()
