// SPDX-License-Identifier: MIT
// Two traces side by side, each column with its own tolerance in value and in time.
#pragma once
#include "table.hpp"

#include <cstddef>
#include <cstdint>
#include <istream>
#include <map>
#include <string>
#include <vector>

namespace noonbench::traces {

struct Tolerance {
    double value = 0.0;       // in the column's unit; nothing for on_off and choice
    std::int64_t time_s = 0;  // a step may come that much earlier or later
};

/// By column name; "events" is the entry for the events' times. A column without entry is
/// compared exactly.
using Tolerances = std::map<std::string, Tolerance>;

/// Lines `name value time_s`, blank or `#` comments. Throws ReadError (read_error.hpp).
Tolerances read_tolerances(std::istream& in);

/// One column that does not agree, or one thing that is missing altogether.
struct Difference {
    std::string column;
    std::int64_t at_s = 0;  // of the largest deviation, or of the first for words
    std::string expected;   // the value there, as printed
    std::string found;
    double deviation = 0.0;  // beyond what the time tolerance explains, in the column's unit
    double allowed = 0.0;
    std::size_t rows = 0;  // how many rows disagree
};

/// Every value of one table must lie, within the value tolerance, between the least and the
/// greatest value that the other takes within the time tolerance (numbers run straight between
/// rows, on_off and words hold), and the other way round. Rows outside the other's span in time
/// by more than the time tolerance differ. Empty: they agree.
std::vector<Difference> find_differences(const Table& expected, const Table& found,
                                         const Tolerances& tolerances);

/// Events of one (what, name) must come in the same order with the same `to`, each within the time
/// tolerance "events". `because` and `from` are words and not compared.
std::vector<Difference> find_differences(const std::vector<Event>& expected,
                                         const std::vector<Event>& found,
                                         const Tolerances& tolerances);

/// One line: column, time, both values, deviation against what is allowed.
std::string in_words(const Difference& difference);

}  // namespace noonbench::traces
