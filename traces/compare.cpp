// SPDX-License-Identifier: MIT
#include "compare.hpp"

#include "fixed.hpp"
#include "read_error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <sstream>
#include <utility>

namespace noonbench::traces {
namespace {

/// Least and greatest value within a stretch of time; `missing` if any of it has no value.
struct Hull {
    double least = std::numeric_limits<double>::infinity();
    double most = -std::numeric_limits<double>::infinity();
    bool missing = false;

    void take(double value) {
        if (std::isnan(value)) {
            missing = true;
            return;
        }
        least = std::min(least, value);
        most = std::max(most, value);
    }
};

/// One column read as a function of time.
class Course {
  public:
    Course(const Table& table, std::size_t column) : table_(table), column_(column) {}

    [[nodiscard]] std::size_t rows() const { return table_.row_count(); }
    [[nodiscard]] std::int64_t time(std::size_t row) const { return table_.times_s()[row]; }
    [[nodiscard]] const Signal& signal() const { return table_.signals()[column_]; }
    [[nodiscard]] bool runs_straight() const { return signal().kind == SignalKind::number; }
    [[nodiscard]] double value(std::size_t row) const { return table_.value(row, column_); }

    [[nodiscard]] std::string printed(std::size_t row) const {
        const std::int32_t raw = table_.raw(row, column_);
        if (raw == Table::no_value) return "(no value)";
        if (signal().kind == SignalKind::choice) return table_.word(row, column_);
        std::string text;
        append_fixed(text, raw, runs_straight() ? signal().decimals : 0);
        return text;
    }

    /// The last row at or before the time; rows() if there is none.
    [[nodiscard]] std::size_t row_at(std::int64_t at_s) const {
        const auto& times = table_.times_s();
        const auto after = std::upper_bound(times.begin(), times.end(), at_s);
        return after == times.begin() ? rows()
                                      : static_cast<std::size_t>(after - times.begin()) - 1;
    }

    /// The value at a time within the table's span.
    [[nodiscard]] double at(std::int64_t at_s) const {
        const std::size_t row = row_at(at_s);
        const double here = value(row);
        if (!runs_straight() || row + 1 == rows() || time(row) == at_s) return here;
        const double next = value(row + 1);
        const double share =
            static_cast<double>(at_s - time(row)) / static_cast<double>(time(row + 1) - time(row));
        return here + share * (next - here);
    }

    /// The hull over from..until, cut to the table's span; the span must touch the stretch.
    [[nodiscard]] Hull hull(std::int64_t from_s, std::int64_t until_s) const {
        from_s = std::max(from_s, time(0));
        until_s = std::min(until_s, time(rows() - 1));
        Hull hull;
        hull.take(at(from_s));
        hull.take(at(until_s));
        for (std::size_t row = row_at(from_s) + 1; row < rows() && time(row) < until_s; ++row) {
            hull.take(value(row));
        }
        return hull;
    }

    /// Whether a held word is met somewhere in from..until.
    [[nodiscard]] bool meets(const std::string& word, std::int64_t from_s,
                             std::int64_t until_s) const {
        const std::size_t first = row_at(std::max(from_s, time(0)));
        for (std::size_t row = first; row < rows() && time(row) <= until_s; ++row) {
            if (printed(row) == word) return true;
        }
        return false;
    }

  private:
    const Table& table_;
    std::size_t column_;
};

constexpr double endless = std::numeric_limits<double>::infinity();

/// How far the row's value lies from what the other takes within the time tolerance.
double deviation(const Course& one, std::size_t row, const Course& other, std::int64_t slack_s) {
    const std::int64_t at_s = one.time(row);
    const std::int64_t from_s = at_s - slack_s;
    const std::int64_t until_s = at_s + slack_s;
    if (other.rows() == 0 || until_s < other.time(0) || from_s > other.time(other.rows() - 1)) {
        return endless;
    }
    if (!one.runs_straight()) {
        return other.meets(one.printed(row), from_s, until_s) ? 0.0 : endless;
    }
    const double value = one.value(row);
    const Hull hull = other.hull(from_s, until_s);
    if (std::isnan(value)) return hull.missing ? 0.0 : endless;
    if (hull.least > hull.most) return endless;
    return std::max({0.0, hull.least - value, value - hull.most});
}

std::string printed_near(const Course& course, std::int64_t at_s) {
    if (course.rows() == 0) return "(no rows)";
    const std::size_t row = course.row_at(at_s);
    return row == course.rows() ? "(not yet begun)" : course.printed(row);
}

/// A millionth of the last printed decimal: what the difference of two doubles may be off by when
/// the printed numbers differ by exactly the tolerance.
double rounding_of(const Signal& signal) {
    return signal.kind == SignalKind::number
               ? 1e-6 / static_cast<double>(power_of_ten(signal.decimals))
               : 0.0;
}

void walk(const Course& one, const Course& other, const Tolerance& allowed, bool one_is_expected,
          Difference& difference) {
    const double limit = allowed.value + rounding_of(one.signal());
    for (std::size_t row = 0; row < one.rows(); ++row) {
        const double gap = deviation(one, row, other, allowed.time_s);
        if (gap <= limit) continue;
        ++difference.rows;
        if (difference.rows > 1 && gap <= difference.deviation) continue;
        difference.deviation = gap;
        difference.at_s = one.time(row);
        difference.expected = one.printed(row);
        difference.found = printed_near(other, one.time(row));
        if (!one_is_expected) std::swap(difference.expected, difference.found);
    }
}

Tolerance tolerance_of(const Tolerances& tolerances, const std::string& name) {
    const auto entry = tolerances.find(name);
    return entry == tolerances.end() ? Tolerance{} : entry->second;
}

Difference whole_column(const std::string& name, const char* expected, const char* found) {
    return {name, 0, expected, found, endless, 0.0, 0};
}

void compare_column(const Table& expected, std::size_t column, const Table& found,
                    const Tolerances& tolerances, std::vector<Difference>& differences) {
    const Signal& signal = expected.signals()[column];
    const auto twin = found.find(signal.name);
    if (!twin) {
        differences.push_back(whole_column(signal.name, "a column", "none"));
        return;
    }
    const Course one(expected, column);
    const Course other(found, *twin);
    if ((signal.kind == SignalKind::choice) != (other.signal().kind == SignalKind::choice)) {
        differences.push_back(whole_column(signal.name, "words or numbers", "the other"));
        return;
    }
    const Tolerance allowed = tolerance_of(tolerances, signal.name);
    Difference difference{signal.name, 0, {}, {}, 0.0, allowed.value, 0};
    walk(one, other, allowed, true, difference);
    walk(other, one, allowed, false, difference);
    if (difference.rows > 0) differences.push_back(difference);
}

using EventKey = std::pair<std::string, std::string>;
using EventGroups = std::map<EventKey, std::vector<const Event*>>;

EventGroups grouped(const std::vector<Event>& events) {
    EventGroups groups;
    for (const auto& event : events) groups[{event.what, event.name}].push_back(&event);
    return groups;
}

void compare_group(const EventKey& key, const std::vector<const Event*>& expected,
                   const std::vector<const Event*>& found, const Tolerance& allowed,
                   std::vector<Difference>& differences) {
    Difference difference{key.first + " " + key.second,        0, {}, {}, 0.0,
                          static_cast<double>(allowed.time_s), 0};
    const std::size_t count = std::max(expected.size(), found.size());
    for (std::size_t i = 0; i < count; ++i) {
        const Event* one = i < expected.size() ? expected[i] : nullptr;
        const Event* other = i < found.size() ? found[i] : nullptr;
        double gap = endless;
        if (one != nullptr && other != nullptr && one->to == other->to) {
            gap = static_cast<double>(std::abs(one->at_s - other->at_s));
        }
        if (gap <= difference.allowed) continue;
        ++difference.rows;
        if (difference.rows > 1 && gap <= difference.deviation) continue;
        difference.deviation = gap;
        if (other != nullptr) difference.at_s = other->at_s;
        if (one != nullptr) difference.at_s = one->at_s;
        difference.expected = one != nullptr ? one->to : "(no event)";
        difference.found = other != nullptr ? other->to : "(no event)";
    }
    if (difference.rows > 0) differences.push_back(difference);
}

bool parse_tolerance_line(const std::string& line, std::string& name, Tolerance& tolerance) {
    std::istringstream words(line);
    std::string value;
    std::string time;
    std::string more;
    if (!(words >> name >> value >> time) || words >> more) return false;
    const auto value_number = parse_fixed(value);
    const auto time_number = parse_fixed(time);
    if (!value_number || value_number->raw < 0 || !time_number || time_number->decimals != 0 ||
        time_number->raw < 0) {
        return false;
    }
    tolerance.value = static_cast<double>(value_number->raw) /
                      static_cast<double>(power_of_ten(value_number->decimals));
    tolerance.time_s = time_number->raw;
    return true;
}

}  // namespace

Tolerances read_tolerances(std::istream& in) {
    Tolerances tolerances;
    std::string line;
    for (std::size_t number = 1; std::getline(in, line); ++number) {
        line.erase(std::min(line.find('#'), line.size()));
        if (line.find_first_not_of(" \t\r") == std::string::npos) continue;
        std::string name;
        Tolerance tolerance;
        if (!parse_tolerance_line(line, name, tolerance)) {
            throw ReadError(number, 1, "expected: name, value, time in whole seconds");
        }
        if (!tolerances.emplace(name, tolerance).second) {
            throw ReadError(number, 1, "'" + name + "' stands twice");
        }
    }
    return tolerances;
}

std::vector<Difference> find_differences(const Table& expected, const Table& found,
                                         const Tolerances& tolerances) {
    std::vector<Difference> differences;
    for (std::size_t i = 0; i < expected.column_count(); ++i) {
        compare_column(expected, i, found, tolerances, differences);
    }
    for (const auto& signal : found.signals()) {
        if (expected.find(signal.name)) continue;
        differences.push_back(whole_column(signal.name, "none", "a column"));
    }
    return differences;
}

std::vector<Difference> find_differences(const std::vector<Event>& expected,
                                         const std::vector<Event>& found,
                                         const Tolerances& tolerances) {
    const EventGroups one = grouped(expected);
    const EventGroups other = grouped(found);
    const Tolerance allowed = tolerance_of(tolerances, "events");
    std::vector<Difference> differences;
    for (const auto& [key, events] : one) {
        const auto twin = other.find(key);
        compare_group(key, events, twin == other.end() ? std::vector<const Event*>{} : twin->second,
                      allowed, differences);
    }
    for (const auto& [key, events] : other) {
        if (one.count(key) == 0) compare_group(key, {}, events, allowed, differences);
    }
    return differences;
}

namespace {

/// "2026-04-15 16:32:29" of seconds since 2000-01-01.
std::string civil_text(std::int64_t at_s) {
    using namespace std::chrono;
    const sys_seconds at = sys_days{year{2000} / January / 1} + seconds{at_s};
    const auto day = floor<days>(at);
    const year_month_day date{day};
    const hh_mm_ss clock{at - day};
    return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}:{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                       clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

}  // namespace

std::string in_words(const Difference& difference) {
    std::ostringstream text;
    text << difference.column << ": at " << civil_text(difference.at_s) << " expected "
         << difference.expected << ", found " << difference.found;
    if (std::isfinite(difference.deviation)) {
        text << "; off by " << difference.deviation << " where " << difference.allowed
             << " is allowed";
    }
    if (difference.rows > 1) text << " (" << difference.rows << " places)";
    return text.str();
}

}  // namespace noonbench::traces
