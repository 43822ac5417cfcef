// SPDX-License-Identifier: MIT
// What the benchmark found, as plain data, and how it is told: on the terminal, as JSON, as a
// picture.
#pragma once
#include "agreement.hpp"
#include "rule.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace noonbench::benchmarks {

inline constexpr double days_a_year = 365.0;

/// One way of solving against the truth of its table.
struct ResultRow {
    std::string name;
    std::string note;         // how it differs from a whole year, and the like
    double s_per_year = 0.0;  // CPU seconds
    bool scaled = false;      // from fewer days
    double heat_kwh = 0.0;
    double heat_off_pct = 0.0;
    int starts = 0;
    Agreement switchings{};
    long evaluations = 0;            // of the right-hand side; 0: not counted
    double disturbed_pct = 0.0;      // of the time, steam, air or ice in the loop
    double disturbed_cpu_pct = 0.0;  // of the CPU time, where that is known
};

struct Comparison {
    std::string title;
    std::string truth;
    double truth_heat_kwh = 0.0;
    int truth_starts = 0;
    double days = 0.0;
    std::vector<ResultRow> rows;  // the project's own first
};

/// Cost against size, both as they are.
struct CostPoint {
    double size = 0.0;
    double cpu_s = 0.0;
};
struct CostLine {
    std::string name;  // "years"
    std::vector<CostPoint> points;
};

struct Figure {
    std::string name;
    double value = 0.0;
    std::string unit;
};

struct Results {
    std::vector<Comparison> comparisons;
    std::vector<CostLine> costs;
    std::vector<Figure> figures;
    bool right = true;
};

[[nodiscard]] Comparison compared_with(const Solved& truth, std::string title, double days);
void add(Comparison& comparison, const Solved& found, const Solved& truth, std::string note = {});

void print_heading(const Comparison& comparison);
void print_row(const Comparison& comparison, const ResultRow& row);
void print_figure(const Figure& figure);

[[nodiscard]] std::string json_of(const Results& results);
/// Stands alone; light or dark as its reader's screen is.
[[nodiscard]] std::string picture_of(const Results& results);
/// results.json and picture.svg, each whole or not at all. Throws traces::FileError.
void write(const Results& results, const std::filesystem::path& folder);

}  // namespace noonbench::benchmarks
