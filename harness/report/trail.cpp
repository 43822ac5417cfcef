// SPDX-License-Identifier: MIT
#include "trail.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace noonbench::harness {
namespace {

/// Least and greatest of one stretch of time.
class Stretched {
  public:
    void take(std::int64_t at_s, double value) {
        if (std::isnan(value)) return;
        if (!least_.value || value < *least_.value) least_ = {at_s, value};
        if (!most_.value || value > *most_.value) most_ = {at_s, value};
    }
    void put(Trail& trail, std::int64_t from_s) const {
        if (!least_.value) {
            trail.push_back({from_s, {}});
        } else if (least_.at_s == most_.at_s) {
            trail.push_back(least_);
        } else {
            trail.push_back(least_.at_s < most_.at_s ? least_ : most_);
            trail.push_back(least_.at_s < most_.at_s ? most_ : least_);
        }
    }

  private:
    TrailPoint least_;
    TrailPoint most_;
};

Trail every_row(const traces::Table& trace, std::size_t column) {
    Trail trail;
    trail.reserve(trace.row_count());
    for (std::size_t row = 0; row < trace.row_count(); ++row) {
        const double value = trace.value(row, column);
        trail.push_back({trace.times_s()[row],
                         std::isnan(value) ? std::nullopt : std::optional<double>(value)});
    }
    return trail;
}

/// Seconds of each stretch in which a row holds.
std::vector<double> seconds_held(const traces::Table& trace, const std::vector<bool>& rows,
                                 std::size_t count, double cell_s) {
    const std::vector<std::int64_t>& times = trace.times_s();
    std::vector<double> held_s(count, 0.0);
    for (std::size_t row = 0; row + 1 < times.size(); ++row) {
        if (!rows[row]) continue;
        const double from = static_cast<double>(times[row] - times.front()) / cell_s;
        const double until = static_cast<double>(times[row + 1] - times.front()) / cell_s;
        for (auto c = static_cast<std::size_t>(from); c < count; ++c) {
            const auto here = static_cast<double>(c);
            if (here >= until) break;
            held_s[c] += (std::min(until, here + 1.0) - std::max(from, here)) * cell_s;
        }
    }
    return held_s;
}

}  // namespace

Trail trail_of(const traces::Table& trace, std::size_t column, std::size_t most) {
    const std::vector<std::int64_t>& times = trace.times_s();
    if (times.size() <= most) return every_row(trace, column);
    const std::size_t count = std::max<std::size_t>(1, most / 2);
    const double span_s = static_cast<double>(times.back() - times.front() + 1);
    const auto stretch_of = [&](std::int64_t at_s) {
        const double share = static_cast<double>(at_s - times.front()) / span_s;
        return static_cast<std::size_t>(share * static_cast<double>(count));
    };
    std::vector<Stretched> stretches(count);
    for (std::size_t row = 0; row < times.size(); ++row)
        stretches[stretch_of(times[row])].take(times[row], trace.value(row, column));
    Trail trail;
    trail.reserve(2 * count);
    for (std::size_t i = 0; i < count; ++i) {
        const double from = span_s * static_cast<double>(i) / static_cast<double>(count);
        stretches[i].put(trail, times.front() + std::llround(from));
    }
    return trail;
}

std::vector<Cell> cells_of(const traces::Table& trace, const std::vector<bool>& rows,
                           std::size_t count) {
    std::vector<Cell> cells(count, Cell::off);
    if (trace.row_count() < 2) return cells;
    const double cell_s = static_cast<double>(trace.times_s().back() - trace.times_s().front()) /
                          static_cast<double>(count);
    const std::vector<double> held_s = seconds_held(trace, rows, count, cell_s);
    constexpr double slack = 1e-6;  // of a stretch: sums of parts
    for (std::size_t c = 0; c < count; ++c) {
        if (held_s[c] > slack * cell_s)
            cells[c] = held_s[c] < (1.0 - slack) * cell_s ? Cell::both : Cell::on;
    }
    return cells;
}

}  // namespace noonbench::harness
