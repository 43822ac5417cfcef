// SPDX-License-Identifier: MIT
#include "log.hpp"

#include "harness/bench/signals.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <stdexcept>
#include <string>

namespace noonbench::harness {
namespace {

using traces::Signal;
using traces::SignalKind;
using traces::Table;

constexpr double no_value = std::numeric_limits<double>::quiet_NaN();

/// Every column that any scenario can have.
std::vector<Signal> all_known() {
    Scenario widest;
    widest.plant.rows.resize(plant::most_rows, widest.plant.rows.front());
    widest.plant.layers = plant::most_layers;
    widest.controller.settings[firmware::Setting::second_collector_fitted] = 1;
    widest.controller.settings[firmware::Setting::station_return_fitted] = 1;
    return signals_of(columns_of(widest));
}

Signal known_or_same(const std::vector<Signal>& known, const Signal& read) {
    const auto found = std::find_if(known.begin(), known.end(),
                                    [&](const Signal& k) { return k.name == read.name; });
    if (found == known.end()) return read;
    Signal signal = *found;
    signal.decimals = read.kind == SignalKind::number ? read.decimals : signal.decimals;
    return signal;
}

double value_as(const Signal& signal, const Table& read, std::size_t row, std::size_t column) {
    if (read.raw(row, column) == Table::no_value) return no_value;
    if (read.signals()[column].kind != SignalKind::choice) return read.value(row, column);
    const std::string& word = read.word(row, column);
    const auto& words = signal.choices;
    const auto found = std::find(words.begin(), words.end(), word);
    if (found == words.end()) {
        if (signal.kind == SignalKind::choice && word == "no_mains") return no_value;
        throw std::invalid_argument(signal.name + " cannot be \"" + word + "\"");
    }
    return static_cast<double>(found - words.begin());
}

/// One column between two rows.
double between(const Signal& signal, double before, double after, double share) {
    if (signal.kind != SignalKind::number || share == 0.0) return before;
    return before + share * (after - before);  // NaN where either is
}

}  // namespace

Table with_known_signals(const Table& read) {
    const std::vector<Signal> known = all_known();
    std::vector<Signal> signals;
    for (const Signal& signal : read.signals()) signals.push_back(known_or_same(known, signal));
    Table table(signals, read.start_s());
    table.reserve(read.row_count());
    std::vector<double> row(signals.size());
    for (std::size_t r = 0; r < read.row_count(); ++r) {
        for (std::size_t c = 0; c < signals.size(); ++c) {
            row[c] = value_as(signals[c], read, r, c);
        }
        table.append(read.times_s()[r], row);
    }
    return table;
}

std::vector<Verdict> judge_log(const Table& log, const std::vector<traces::Event>& events,
                               std::span<const Requirement> requirements) {
    const std::vector<std::int64_t>& times_s = log.times_s();
    if (times_s.empty()) throw std::invalid_argument("the log has no rows");
    Monitor monitor(requirements, times_s.front());
    const std::vector<std::size_t> columns = monitor.signals();
    const auto feed = [&](std::size_t row, double share) {
        double* value = monitor.row();
        const std::size_t next = std::min(row + 1, times_s.size() - 1);
        for (const std::size_t c : columns) {
            *value++ = between(log.signals()[c], log.value(row, c), log.value(next, c), share);
        }
        monitor.tick();
    };
    for (std::size_t row = 0; row + 1 < times_s.size(); ++row) {
        const std::int64_t span_s = times_s[row + 1] - times_s[row];
        for (std::int64_t second = 0; second < span_s; ++second) {
            feed(row, static_cast<double>(second) / static_cast<double>(span_s));
        }
    }
    feed(times_s.size() - 1, 0.0);
    return verdicts_of(requirements, monitor.finish(), events, times_s.front());
}

}  // namespace noonbench::harness
