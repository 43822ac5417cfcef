// SPDX-License-Identifier: MIT
// Scenarios and helpers that several tests of the bench share.
#pragma once
#include "traces/csv.hpp"

#include "harness/bench/bench.hpp"
#include "harness/bench/run.hpp"
#include "harness/scenario/read.hpp"

#include <filesystem>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace noonbench::harness::testing {

inline std::filesystem::path shelf() {
    return std::filesystem::path(NOONBENCH_SOURCE_DIR) / "scenarios";
}

inline Scenario day(const std::string& name, const std::vector<std::string>& sets = {}) {
    return read_scenario(shelf() / "days" / (name + ".yaml"), sets);
}

/// A clear April day; `lines` are further YAML keys, `hours` from `from` on.
inline Scenario april(const std::string& lines = {}, const std::string& from = "2026-04-15 00:00",
                      int hours = 24) {
    return read_scenario_text(
        "title: A test\nstart: " + from + "\nlength: " + std::to_string(hours) + " h\n" + lines,
        "test.yaml");
}

inline void run_until(Bench& bench, CivilSeconds end_s) {
    while (bench.now() < end_s) bench.tick();
}

inline void run_for(Bench& bench, CivilSeconds seconds) {
    run_until(bench, bench.now() + seconds);
}

/// What trace.csv and events.csv would hold.
inline std::string bytes_of(const RunResult& result) {
    std::ostringstream out;
    traces::write_csv(out, result.trace);
    traces::write_events_csv(out, result.events);
    return std::move(out).str();
}

/// Highest value of a column where `keep(row)` is true; lowest with the sign turned by the caller.
template <typename Keep>
double highest(const traces::Table& trace, std::string_view column, Keep keep) {
    const std::size_t c = trace.column(column);
    double most = -1e300;
    for (std::size_t row = 0; row < trace.row_count(); ++row) {
        const double value = trace.value(row, c);
        if (keep(row) && value > most) most = value;
    }
    return most;
}

}  // namespace noonbench::harness::testing
