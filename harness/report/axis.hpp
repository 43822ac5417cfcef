// SPDX-License-Identifier: MIT
// Round numbers for axes.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Steps of 1, 2 or 5 times a power of ten, about `wanted` of them over the span.
double round_step(double span, int wanted);

/// Multiples of the step within from..until.
std::vector<double> round_values(double from, double until, double step);

/// Multiples of a round span of time within from..until, at most `most` of them.
std::vector<std::int64_t> time_ticks(std::int64_t from_s, std::int64_t until_s, int most);

/// "08:00", or "15 Apr" at midnight.
std::string tick_text(std::int64_t at_s);

}  // namespace noonbench::harness
