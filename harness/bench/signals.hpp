// SPDX-License-Identifier: MIT
// The columns of a trace: what each means, its unit, who could see it on a real site, and where on
// the bench its value is read.
#pragma once
#include "bench.hpp"

#include "traces/signal.hpp"

#include <cstddef>
#include <vector>

namespace noonbench::harness {

/// One column. Between Bench::decide() and Bench::advance() the controller's values are those of
/// the instant that was just decided, the plant's temperatures those of the same instant, powers
/// and flows means of the second before.
struct Column {
    traces::Signal signal;
    double (*read)(const Bench& bench, std::size_t index) = nullptr;
    std::size_t index = 0;  // which row, layer or sensor

    [[nodiscard]] double value(const Bench& bench) const { return read(bench, index); }
};

/// The columns of a trace for a scenario, in order; store layers are named from the bottom up.
std::vector<Column> columns_of(const Scenario& scenario);

/// One on_off column for each advice of the controller, "advice_NAME"; not part of a trace, where
/// advice stands among the events.
std::vector<Column> advice_columns();

/// What the columns are, without where they are read.
std::vector<traces::Signal> signals_of(const std::vector<Column>& columns);

}  // namespace noonbench::harness
