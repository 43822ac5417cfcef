// SPDX-License-Identifier: MIT
#include "cvode_peer.hpp"
#include "odeint_peer.hpp"
#include "own_ways.hpp"
#include "parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

namespace noonbench::benchmarks {
namespace {

constexpr int short_turns = 3;
constexpr double most_heat_error_pct = 0.001;

template <class Way>
Solved middle_of(int turns, Way way) {
    std::vector<Solved> all;
    all.reserve(static_cast<std::size_t>(turns));
    for (int turn = 0; turn < turns; ++turn) all.push_back(way());
    std::sort(all.begin(), all.end(),
              [](const Solved& a, const Solved& b) { return a.cpu_s < b.cpu_s; });
    return all[all.size() / 2];
}

Comparison compare(const Case& what, int turns) {
    const auto days = static_cast<double>(what.world.days);
    const Solved truth = solve_tightly(what);
    Comparison comparison = compared_with(truth, what.title, days);
    print_heading(comparison);
    const auto run = [&](auto way) { add(comparison, middle_of(turns, way), truth); };
    run([&] { return solve_by_strides(what); });
    run([&] { return solve_by_seconds(what, Method::everyday); });
    run([&] { return solve_by_seconds(what, Method::reference); });
    run([&] { return solve_with_odeint(what, 1e-4, "Odeint dopri5 1e-4 K, dense, polled"); });
    run([&] { return solve_with_odeint(what, 1e-6, "Odeint dopri5 1e-6 K, dense, polled"); });
#ifdef NOONBENCH_HAS_CVODE
    run([&] { return solve_with_cvode(what, 1e-4, "CVODE BDF 1e-4, roots, dense"); });
    run([&] { return solve_with_cvode(what, 1e-6, "CVODE BDF 1e-6, roots, dense"); });
#endif
    return comparison;
}

/// Of the project's own way alone; peers are what they are.
bool strides_are_right(const Comparison& comparison) {
    const ResultRow& own = comparison.rows.front();
    const bool right =
        std::abs(own.heat_off_pct) <= most_heat_error_pct &&
        std::abs(own.starts - comparison.truth_starts) * 1000 <= comparison.truth_starts;
    if (!right) {
        fmt::print(
            "strides are not as exact as they are said to be: heat off by {:.5f} % (at most "
            "{} %), {} starts of {}\n",
            own.heat_off_pct, most_heat_error_pct, own.starts, comparison.truth_starts);
    }
    return right;
}

}  // namespace

void short_form(CivilSeconds days, Results& results) {
    for (const bool regulated : {false, true}) {
        for (const CivilSeconds knot_s : {60, 3600}) {
            Case what{
                .title = fmt::format("{} clear April days without draws, knots every {} s, {}",
                                     days, knot_s, regulated ? "pump regulated" : "pump on/off"),
                .world = april_world(days, knot_s),
                .regulated = regulated};
            what.parameters.loop.pump.takes_speed_signal = regulated;
            results.comparisons.push_back(compare(what, short_turns));
            results.right &= strides_are_right(results.comparisons.back());
        }
    }
}

void plant_part(const Span& span, Results& results) {
    const World minutes = house_world(span);
    for (const bool regulated : {false, true}) {
        for (const bool clouds : {true, false}) {
            const Case what{
                .title = fmt::format("The plant alone, {}, {}, {}",
                                     clouds ? "minute clouds" : "hourly sky",
                                     regulated ? "pump regulated" : "pump on/off", span.text()),
                .world = clouds ? minutes : hourly(minutes),
                .parameters = house_parameters(),
                .regulated = regulated};
            results.comparisons.push_back(compare(what, 1));
            // In a few days one run of the pump more or less, a tie, weighs too much to judge by.
            const bool right = strides_are_right(results.comparisons.back());
            results.right &= right || !span.whole();
        }
    }
}

}  // namespace noonbench::benchmarks
