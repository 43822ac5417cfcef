// SPDX-License-Identifier: MIT
#include "results.hpp"

#include "traces/file.hpp"

#include <fmt/format.h>
#include <boost/json.hpp>

#include <cstdio>
#include <utility>

namespace noonbench::benchmarks {
namespace {

namespace json = boost::json;

json::object object_of(const ResultRow& row) {
    return {{"way", row.name},
            {"note", row.note},
            {"cpu_s_per_year", row.s_per_year},
            {"scaled", row.scaled},
            {"heat_kwh", row.heat_kwh},
            {"heat_off_pct", row.heat_off_pct},
            {"starts", row.starts},
            {"within_1s_pct", row.switchings.within_1s_pct},
            {"furthest_s", row.switchings.furthest_s},
            {"unmatched", row.switchings.unmatched},
            {"evaluations", row.evaluations},
            {"disturbed_pct", row.disturbed_pct},
            {"disturbed_cpu_pct", row.disturbed_cpu_pct}};
}

json::object object_of(const Comparison& comparison) {
    json::array rows;
    for (const ResultRow& row : comparison.rows) rows.push_back(object_of(row));
    return {{"title", comparison.title},
            {"truth", comparison.truth},
            {"truth_heat_kwh", comparison.truth_heat_kwh},
            {"truth_starts", comparison.truth_starts},
            {"days", comparison.days},
            {"rows", std::move(rows)}};
}

json::object object_of(const CostLine& line) {
    json::array points;
    for (const CostPoint& point : line.points) {
        points.push_back({{"size", point.size}, {"cpu_s", point.cpu_s}});
    }
    return {{"of", line.name}, {"points", std::move(points)}};
}

}  // namespace

Comparison compared_with(const Solved& truth, std::string title, double days) {
    return {.title = std::move(title),
            .truth = truth.name,
            .truth_heat_kwh = truth.heat_kwh,
            .truth_starts = truth.starts(),
            .days = days,
            .rows = {}};
}

void add(Comparison& comparison, const Solved& found, const Solved& truth, std::string note) {
    ResultRow row;
    row.name = found.name;
    row.note = std::move(note);
    row.s_per_year = found.cpu_s * days_a_year / comparison.days;
    row.scaled = comparison.days != days_a_year;
    row.heat_kwh = found.heat_kwh;
    row.heat_off_pct = (found.heat_kwh / truth.heat_kwh - 1.0) * 100.0;
    row.starts = found.starts();
    row.switchings = agreement_of(found.switchings, truth.switchings);
    row.evaluations = found.evaluations;
    row.disturbed_pct =
        100.0 * static_cast<double>(found.disturbed_s) / (comparison.days * seconds_a_day);
    if (found.cpu_s > 0.0) row.disturbed_cpu_pct = 100.0 * found.disturbed_cpu_s / found.cpu_s;
    comparison.rows.push_back(row);
    print_row(comparison, row);
}

void print_heading(const Comparison& comparison) {
    fmt::print("\n{}\n{:g} days; truth: {}, {:.6g} kWh to the store, {} starts\n", comparison.title,
               comparison.days, comparison.truth, comparison.truth_heat_kwh,
               comparison.truth_starts);
    fmt::print("{:<36}{:>11}{:>8}{:>11}{:>8}{:>10}{:>10}{:>10}\n", "", "CPU s/year", "times",
               "heat off %", "starts", "in 1 s %", "far off s", "unmatched");
    std::fflush(stdout);
}

void print_row(const Comparison& comparison, const ResultRow& row) {
    const double times = row.s_per_year / comparison.rows.front().s_per_year;
    fmt::print("{:<36}{:>10.3f}{}{:>8.2f}{:>11.5f}{:>8}{:>10.1f}{:>10}{:>10}", row.name,
               row.s_per_year, row.scaled ? '*' : ' ', times, row.heat_off_pct, row.starts,
               row.switchings.within_1s_pct, row.switchings.furthest_s, row.switchings.unmatched);
    if (row.disturbed_pct > 0.0) {
        fmt::print("  disturbed {:.2f} % of the time", row.disturbed_pct);
    }
    if (row.disturbed_cpu_pct > 0.0) fmt::print(", {:.1f} % of the CPU", row.disturbed_cpu_pct);
    fmt::print("{}{}\n", row.note.empty() ? "" : "  ", row.note);
    std::fflush(stdout);
}

void print_figure(const Figure& figure) {
    fmt::print("{:<60}{:>12.5g} {}\n", figure.name, figure.value, figure.unit);
    std::fflush(stdout);
}

std::string json_of(const Results& results) {
    json::array comparisons;
    for (const Comparison& each : results.comparisons) comparisons.push_back(object_of(each));
    json::array costs;
    for (const CostLine& each : results.costs) costs.push_back(object_of(each));
    json::array figures;
    for (const Figure& each : results.figures) {
        figures.push_back({{"name", each.name}, {"value", each.value}, {"unit", each.unit}});
    }
    return json::serialize(json::object{{"comparisons", std::move(comparisons)},
                                        {"costs", std::move(costs)},
                                        {"figures", std::move(figures)},
                                        {"right", results.right}}) +
           "\n";
}

void write(const Results& results, const std::filesystem::path& folder) {
    std::filesystem::create_directories(folder);
    traces::write_whole(folder / "results.json", json_of(results));
    traces::write_whole(folder / "picture.svg", picture_of(results));
    fmt::print("\n{}\n{}\n", (folder / "results.json").string(), (folder / "picture.svg").string());
}

}  // namespace noonbench::benchmarks
