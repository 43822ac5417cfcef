// SPDX-License-Identifier: MIT
// What the three readers share: taking numbers out of fields, and finding the year complete.
#pragma once
#include "text_file.hpp"
#include "weather_file.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

/// Problems of one file; after 20 the rest is left out.
class ProblemList {
  public:
    explicit ProblemList(std::string file) : file_(std::move(file)) {}
    void add(int line, int column, std::string what, std::string allowed = {});
    [[nodiscard]] bool full() const;
    [[nodiscard]] bool empty() const { return problems_.empty(); }
    [[nodiscard]] std::vector<Problem> take() { return std::move(problems_); }

  private:
    std::string file_;
    std::vector<Problem> problems_;
};

/// How a column is to be read.
struct Quantity {
    std::string_view name;
    std::string_view unit;
    std::size_t index = 0;  // of the field, from 0
    double least = 0.0;
    double most = 0.0;
    double missing_from = 1e300;        // this and above means no value
    double missing_until = -1e300;      // this and below means no value
    double read_as_least_from = 1e300;  // between here and `least`: read as `least`
};

/// One row of data with the number of its line.
struct DataRow {
    std::span<const Field> fields;
    int line = 0;
};

/// Not-a-number for a missing value (or an empty field); a problem, and not-a-number, for text, an
/// absent field or a value out of range.
[[nodiscard]] double value_of(const DataRow& row, const Quantity& quantity, ProblemList& problems);

/// The number in a header field, or a problem.
[[nodiscard]] double header_value(const DataRow& row, const Quantity& quantity,
                                  ProblemList& problems);

/// Whole number in least..most, or -1 and a problem.
[[nodiscard]] int whole_part(std::string_view text, const DataRow& row, const Quantity& quantity,
                             ProblemList& problems);

/// Drops 29 February and refuses anything but 8760 hours in order.
void order_year(WeatherYear& year, ProblemList& problems);

}  // namespace noonbench::harness
