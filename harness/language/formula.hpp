// SPDX-License-Identifier: MIT
// A requirement as a tree, after Signal Temporal Logic (Maler and Nickovic 2004). Time is ticks of
// one second. Plain data: reading makes it, monitors are built from it, nothing changes it.
#pragma once
#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// What a number in a requirement measures, with its one unit. Numbers of different measures never
/// meet, but: temperature +- difference = temperature, temperature - temperature = difference.
enum class Measure : std::uint8_t {
    plain,        // counts, ratios
    temperature,  // degC; margins in K
    difference,   // K
    flow,         // l/min
    power,        // W
    irradiance,   // W/m2
    energy,       // kWh
    irradiation,  // kWh/m2
    volume,       // l
    share,        // %
    duration,     // s
    clock,        // s after midnight, local standard time; margins in s
    pressure,     // bar
};
inline constexpr std::size_t measure_count = 13;

/// "degC", "K", "l/min", ... as written in requirements; "" for plain.
[[nodiscard]] std::string_view unit_of(Measure measure);
/// Unit of a distance between two such numbers: K for temperatures, s for clock times.
[[nodiscard]] std::string_view margin_unit_of(Measure measure);
/// "a temperature", "a flow", ... for sentences.
[[nodiscard]] std::string_view name_of(Measure measure);
/// The measure of a trace column's unit, `plain` if it has none of the above.
[[nodiscard]] Measure measure_of_unit(std::string_view unit);

struct Expression;
struct Formula;
using ExpressionPtr = std::shared_ptr<const Expression>;
using FormulaPtr = std::shared_ptr<const Formula>;

/// Over which stretch a count, total or extremum is taken. It ends with the present tick, included.
struct Period {
    enum class Kind : std::uint8_t { since_start, day, month, year, last };
    Kind kind = Kind::since_start;  // day, month, year: since their first tick, local standard time
    std::int64_t last_s = 0;        // for `last`: so many ticks, the present one included
    bool operator==(const Period&) const = default;
};

/// A number at every tick; NaN where it has none (a lost sensor, a tap that is closed).
struct Expression {
    enum class Op : std::uint8_t {
        constant,
        signal,
        add,
        subtract,
        multiply,
        divide,  // NaN where the divisor is 0
        negate,
        absolute,
        lesser,   // of two
        greater,  // of two
        // Over a period. NaNs are passed over; NaN where there was no number in the period, but
        // counts, sums and times of nothing are 0.
        starts,      // ticks at which `of` begins to hold, its first tick in the run excluded
        time_with,   // ticks at which `of` holds, in s
        total,       // sum of args[0] times one second: W -> kWh, l/min -> l, W/m2 -> kWh/m2
        mean,        // of args[0]
        highest,     // of args[0]
        lowest,      // of args[0]
        change,      // of args[0]: now minus at the period's first tick
        first_time,  // clock time of the first tick at which `of` holds; NaN if none
        last_time,   // of the last one
        // Since the start of the run, whatever the period.
        time_since,  // s since the last tick, the present one included, at which `of` held; NaN
                     // before the first
    };
    Op op = Op::constant;
    Measure measure = Measure::plain;
    double constant = 0.0;
    std::size_t signal = 0;  // index into the list of signals that the reader was given
    std::vector<ExpressionPtr> args;
    FormulaPtr of;
    Period period{};
};

/// A window of ticks after the present one, both ends included.
struct Window {
    static constexpr std::int64_t endless = std::numeric_limits<std::int64_t>::max();
    std::int64_t from_s = 0;
    std::int64_t until_s = endless;  // endless: to the end of the run; at the outermost level only
};

/// True or false at every tick, with a margin (see monitor.hpp).
struct Formula {
    enum class Op : std::uint8_t {
        // numeric comparisons of left and right; they do not hold where either is NaN
        less,           // margin right - left
        less_equal,     // margin right - left
        greater,        // margin left - right
        greater_equal,  // margin left - right
        equal,          // margin -|left - right|
        not_equal,      // margin |left - right|
        // two-valued: a margin in s only
        is_word,  // the choice or on_off `signal` equals `word`
        // two-valued without any margin
        goes_on,   // it equals `word` now and did not at the tick before; never at the first tick
        goes_off,  // the other way round. Both are one tick wide: their own shift would say nothing
        has_value,     // `left` is a number
        clock_within,  // clock time is in [clock_from_s, clock_until_s); may pass midnight
        clock_at,      // clock time is clock_from_s
        ends,          // the present tick is the last of `period` (a day, month or year that the
                       // run covers from its first second; since_start: the last tick of all)
        lasted,        // the run has lasted period.last_s ticks, the present one included
        // connectives
        negation,
        conjunction,  // of all args
        disjunction,  // of all args
        always,       // args[0] throughout the window
        sometime,     // args[0] at some tick of the window
        until,        // args[1] at some tick t of the window and args[0] at all ticks before t
                      // (half open: not at t itself)
    };
    Op op = Op::conjunction;  // of nothing: true
    ExpressionPtr left, right;
    std::size_t signal = 0;
    int word = 0;
    std::int32_t clock_from_s = 0;
    std::int32_t clock_until_s = 0;
    Period period{};
    Window window{};
    std::vector<FormulaPtr> args;
};

/// The formula in the notation of Signal Temporal Logic, "G[0,600](x <= 65)". Words of relays and
/// reasons stand as their numbers; see requirement.hpp for the same with the words.
[[nodiscard]] std::string stl_text(const Formula& formula,
                                   const std::vector<std::string>& signal_names);

}  // namespace noonbench::harness
