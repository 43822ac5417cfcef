// SPDX-License-Identifier: MIT
#include "record_reader.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>

namespace noonbench::harness {
namespace {

constexpr double no_value = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t most_problems = 20;
constexpr std::size_t hours_a_year = 8760;

std::string range_of(const Quantity& quantity) {
    return fmt::format("{} from {} to {} {}", quantity.name, quantity.least, quantity.most,
                       quantity.unit);
}

std::optional<double> number_or_problem(const DataRow& row, const Quantity& quantity,
                                        ProblemList& problems) {
    if (quantity.index >= row.fields.size()) {
        problems.add(row.line, 1,
                     fmt::format("the line ends before the {}: {} fields instead of {} or more",
                                 quantity.name, row.fields.size(), quantity.index + 1));
        return std::nullopt;
    }
    const Field& field = row.fields[quantity.index];
    const std::optional<double> number = number_in(field.text);
    if (!number) {
        problems.add(row.line, field.column,
                     fmt::format("'{}' is not a number", utf8_from(field.text.substr(0, 40))),
                     range_of(quantity));
    }
    return number;
}

struct Calendar {
    int month = 1, day = 1, hour = 0;
    void next() {
        constexpr std::array<int, 12> days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
        if (++hour < 24) return;
        hour = 0;
        if (++day <= days[static_cast<std::size_t>(month - 1)]) return;
        day = 1;
        ++month;
    }
    [[nodiscard]] bool fits(const HourRecord& record) const {
        return record.month == month && record.day == day && record.hour == hour;
    }
};

}  // namespace

void ProblemList::add(int line, int column, std::string what, std::string allowed) {
    if (full()) return;
    problems_.push_back({file_, line, column, std::move(what), std::move(allowed)});
}

bool ProblemList::full() const {
    return problems_.size() >= most_problems;
}

double value_of(const DataRow& row, const Quantity& quantity, ProblemList& problems) {
    const bool there = quantity.index < row.fields.size();
    if (there && row.fields[quantity.index].text.empty()) return no_value;
    const std::optional<double> number = number_or_problem(row, quantity, problems);
    if (!number) return no_value;
    const double value = *number;
    if (value >= quantity.missing_from || value <= quantity.missing_until) return no_value;
    if (value >= quantity.read_as_least_from && value < quantity.least) return quantity.least;
    if (value >= quantity.least && value <= quantity.most) return value + 0.0;  // -0 becomes 0
    problems.add(row.line, row.fields[quantity.index].column,
                 fmt::format("{} is out of range", row.fields[quantity.index].text),
                 range_of(quantity));
    return no_value;
}

double header_value(const DataRow& row, const Quantity& quantity, ProblemList& problems) {
    const std::optional<double> number = number_or_problem(row, quantity, problems);
    if (!number) return 0.0;
    if (*number >= quantity.least && *number <= quantity.most) return *number;
    problems.add(row.line, row.fields[quantity.index].column,
                 fmt::format("{} is out of range", row.fields[quantity.index].text),
                 range_of(quantity));
    return 0.0;
}

int whole_part(std::string_view text, const DataRow& row, const Quantity& quantity,
               ProblemList& problems) {
    const std::optional<int> number = integer_in(text);
    if (number && *number >= quantity.least && *number <= quantity.most) return *number;
    const int column = quantity.index < row.fields.size() ? row.fields[quantity.index].column : 1;
    problems.add(
        row.line, column,
        fmt::format("'{}' is not valid as {}", utf8_from(text.substr(0, 40)), quantity.name),
        range_of(quantity));
    return -1;
}

void order_year(WeatherYear& year, ProblemList& problems) {
    const std::size_t before = year.hours.size();
    std::erase_if(year.hours,
                  [](const HourRecord& hour) { return hour.month == 2 && hour.day == 29; });
    if (year.hours.size() < before) {
        year.messages.push_back(
            fmt::format("29 February ({} records) was left out.", before - year.hours.size()));
    }
    Calendar expected;
    for (std::size_t i = 0; i < year.hours.size(); ++i) {
        const HourRecord& found = year.hours[i];
        if (i >= hours_a_year || !expected.fits(found)) {
            problems.add(found.line, 1,
                         fmt::format("record {} of month {}, day {} stands out of order",
                                     found.hour + 1, found.month, found.day),
                         i >= hours_a_year
                             ? "8760 hourly records from 1 January to 31 December"
                             : fmt::format("record {} of month {}, day {}", expected.hour + 1,
                                           expected.month, expected.day));
            return;
        }
        expected.next();
    }
    if (year.hours.size() != hours_a_year) {
        problems.add(0, 0, fmt::format("the file has {} hourly records", year.hours.size()),
                     "8760 from 1 January to 31 December");
    }
}

}  // namespace noonbench::harness
