// SPDX-License-Identifier: MIT
// The columns of a trace: what each means, its unit, and who could see it on a real site.
#pragma once
#include "bench.hpp"

#include "traces/signal.hpp"

#include <vector>

namespace noonbench::harness {

/// The columns for a scenario, in order; store layers are named from the bottom up.
std::vector<traces::Signal> signals_of(const Scenario& scenario);

/// One value a column: the controller's at the instant that was just decided, the plant's
/// temperatures at the same instant, powers and flows as means of the second before.
void fill_row(const Bench& bench, std::vector<double>& row);

}  // namespace noonbench::harness
