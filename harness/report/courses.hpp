// SPDX-License-Identifier: MIT
// A trace made small enough for a page: lines that keep every peak, stretches of reasons, and
// moments at which all is known exactly.
#pragma once
#include "harness/bench/run_result.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Values at t0 + i dt; empty where there is none.
struct Course {
    double t0_s = 0.0;
    double dt_s = 1.0;
    std::vector<std::optional<double>> values;
};

/// At most `most` values. A longer trace is cut into stretches of equal time that keep their least
/// and greatest value, in the order they came.
Course course_of(const traces::Table& trace, std::size_t column, std::size_t most);

/// From `from_s` until the next stretch (or the end) the column holds this value.
struct Stretch {
    std::int64_t from_s = 0;
    int value = 0;  // -1: no value
};
std::vector<Stretch> stretches_of(const traces::Table& trace, std::size_t column);

/// Rows to be shown exactly: about one a minute and each change of the pump's reason, at most
/// `most`, in order of time.
std::vector<std::size_t> moments_of(const traces::Table& trace, std::size_t most);

/// Settings as they stood from a second on (moves of a scenario change them), and whether the
/// controller had power.
struct Epoch {
    std::int64_t from_s = 0;
    firmware::Settings settings{};
    bool powered = true;
};
std::vector<Epoch> epochs_of(const Scenario& scenario);

}  // namespace noonbench::harness
