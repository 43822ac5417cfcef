// SPDX-License-Identifier: MIT
// The days on the shelf, each run once a test program, and what can be read off their traces.
#pragma once
#include "bench_days.hpp"

#include "harness/bench/clock.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace noonbench::harness::testing {

inline const RunResult& run_of(const std::string& name, std::vector<std::string> sets = {}) {
    static std::map<std::string, RunResult> runs;
    std::string key = name;
    for (const auto& set : sets) key += " " + set;
    auto found = runs.find(key);
    if (found == runs.end()) {
        sets.emplace_back("record.every=60 s");
        found = runs.emplace(key, run(day(name, sets))).first;
    }
    return found->second;
}

/// A column at a clock time of a day of the run.
inline double at(const RunResult& r, const std::string& column, double hour,
                 std::size_t of_day = 0) {
    const std::int64_t when = day_start(r.scenario.start_s) +
                              static_cast<std::int64_t>(of_day) * 86400 +
                              std::llround(hour * 60.0) * 60;
    const auto row =
        static_cast<std::size_t>((when - r.scenario.start_s) / r.scenario.record.every_s);
    return r.trace.value(row, r.trace.column(column));
}

inline double hours(const Sums& sums, firmware::PumpReason reason) {
    return sums.reason_h[static_cast<std::size_t>(reason)];
}

/// Lowest value of a column between two clock times of a day.
inline double lowest(const RunResult& r, const std::string& column, double from, double until,
                     std::size_t of_day = 0) {
    double least = 1e300;
    for (double h = from; h <= until; h += 1.0 / 60.0)
        least = std::min(least, at(r, column, h, of_day));
    return least;
}

inline bool ever_given(const RunResult& r, const char* reason) {
    return std::any_of(r.events.begin(), r.events.end(),
                       [&](const auto& e) { return e.what == "reason" && e.to == reason; });
}

/// Share of the minutes between two clock times in which `holds` is true.
inline double share_of_minutes(double from, double until,
                               const std::function<bool(double)>& holds) {
    int all = 0;
    int good = 0;
    for (double h = from; h < until; h += 1.0 / 60.0, ++all) good += holds(h) ? 1 : 0;
    return static_cast<double>(good) / all;
}

inline const RunResult& clear_day() {
    return run_of("clear_spring_day");
}

}  // namespace noonbench::harness::testing
