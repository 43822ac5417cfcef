// SPDX-License-Identifier: MIT
#include "fault_seen.hpp"

#include "harness/language/formula_walks.hpp"

#include <algorithm>

namespace noonbench::harness {
namespace {

using traces::Table;
using traces::Visibility;

/// The picture's columns that this trace has.
std::vector<std::size_t> drawn_columns(const Table& trace) {
    std::vector<std::size_t> columns;
    for (const ChartLine& line : picture_lines)
        if (const auto column = trace.find(line.column)) columns.push_back(*column);
    return columns;
}

std::vector<Cell> pump_cells(const Table& trace) {
    std::vector<bool> rows(trace.row_count(), false);
    if (const auto column = trace.find("pump_relay")) {
        for (std::size_t row = 0; row < rows.size(); ++row)
            rows[row] = trace.raw(row, *column) == 1;
    }
    return cells_of(trace, rows, picture_cells);
}

/// From the first reading on: a controller that has just come up has none yet. A sensor that never
/// has one is lost all the time.
std::vector<Cell> lost_cells(const Table& trace) {
    std::vector<bool> rows(trace.row_count(), false);
    for (const std::size_t column : drawn_columns(trace)) {
        const auto has_value = [&](std::size_t row) {
            return trace.raw(row, column) != Table::no_value;
        };
        std::size_t first = 0;
        while (first < rows.size() && !has_value(first)) ++first;
        if (first == rows.size()) first = 0;
        for (std::size_t row = first; row < rows.size(); ++row)
            if (!has_value(row)) rows[row] = true;
    }
    return cells_of(trace, rows, picture_cells);
}

RunPicture picture_of(const Table& trace) {
    RunPicture picture;
    if (trace.row_count() == 0) return picture;
    picture.from_s = trace.times_s().front();
    picture.until_s = std::max(trace.times_s().back(), picture.from_s + 1);
    for (const ChartLine& line : picture_lines) {
        const auto column = trace.find(line.column);
        picture.lines.push_back(column ? trail_of(trace, *column, picture_points) : Trail{});
    }
    if (const auto column = trace.find("gauge_bar")) {
        picture.gauge = trail_of(trace, *column, picture_points);
        picture.gauge_visible = trace.signals()[*column].visible;
    }
    picture.pump = pump_cells(trace);
    picture.lost = lost_cells(trace);
    return picture;
}

/// A sentence is seen by whoever sees the best hidden of its signals.
Visibility visibility_of(const Requirement& requirement,
                         const std::vector<traces::Signal>& signals) {
    Visibility hidden = Visibility::customers_log;
    for (const std::size_t index : used_signals(*requirement.formula))
        hidden = std::max(hidden, signals[index].visible);
    return hidden;
}

bool names_healthy(const Scenario& scenario, const std::string& name) {
    return std::any_of(
        scenario.require.begin(), scenario.require.end(), [&](const RequirementText& r) {
            return r.name == name && r.fails_with.size() == 1 && r.fails_with[0] == healthy_word;
        });
}

}  // namespace

SeenRun seen_run(const Judged& judged, std::span<const Requirement> requirements) {
    SeenRun seen{judged.result.scenario, picture_of(judged.result.trace), judged.result.total, {}};
    const std::vector<traces::Signal> signals = judged_signals(seen.scenario);
    seen.verdicts.reserve(judged.verdicts.size());
    for (std::size_t i = 0; i < judged.verdicts.size(); ++i) {
        const Verdict& v = judged.verdicts[i];
        seen.verdicts.push_back({v.name, v.text, v.outcome, verdict_words(v.outcome),
                                 visibility_of(requirements[i], signals),
                                 names_healthy(seen.scenario, v.name)});
    }
    return seen;
}

const SeenVerdict* in_twin(const SeenFault& seen, const std::string& name) {
    if (!seen.twin) return nullptr;
    const auto found = std::find_if(seen.twin->verdicts.begin(), seen.twin->verdicts.end(),
                                    [&](const SeenVerdict& v) { return v.name == name; });
    return found == seen.twin->verdicts.end() ? nullptr : &*found;
}

bool fails_where_it_must(const SeenVerdict& with_fault, const SeenVerdict* in_twin) {
    return !with_fault.twin_must_fail ||
           (in_twin != nullptr && in_twin->outcome.truth == Truth::not_held);
}

std::vector<std::string> complaints_of(const SeenFault& seen) {
    std::vector<std::string> complaints;
    for (const SeenVerdict& v : seen.fault.verdicts) {
        if (v.outcome.truth != Truth::held)
            complaints.push_back("\"" + v.name + "\": " + v.in_words);
        const SeenVerdict* twin = in_twin(seen, v.name);
        if (!fails_where_it_must(v, twin))
            complaints.push_back("\"" + v.name + "\" must fail in the healthy twin, and is " +
                                 (twin == nullptr ? "not judged there" : twin->in_words));
    }
    return complaints;
}

}  // namespace noonbench::harness
