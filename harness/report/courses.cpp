// SPDX-License-Identifier: MIT
#include "courses.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

namespace noonbench::harness {
namespace {

std::optional<double> known(double value) {
    return std::isnan(value) ? std::nullopt : std::optional<double>(value);
}

bool evenly_spaced(const std::vector<std::int64_t>& times) {
    for (std::size_t i = 2; i < times.size(); ++i) {
        if (times[i] - times[i - 1] != times[1] - times[0]) return false;
    }
    return times.size() > 1;
}

/// Least and greatest of some rows, in the order they came.
class Extremes {
  public:
    void take(double value) {
        if (std::isnan(value)) return;
        if (!least_ || value < *least_) {
            least_ = value;
            least_is_first_ = false;
        }
        if (!most_ || value > *most_) {
            most_ = value;
            least_is_first_ = true;
        }
    }
    void put(std::vector<std::optional<double>>& values) const {
        values.push_back(least_is_first_ ? least_ : most_);
        values.push_back(least_is_first_ ? most_ : least_);
    }

  private:
    std::optional<double> least_;
    std::optional<double> most_;
    bool least_is_first_ = true;
};

}  // namespace

Course course_of(const traces::Table& trace, std::size_t column, std::size_t most) {
    const auto& times = trace.times_s();
    Course course;
    if (times.empty()) return course;
    course.t0_s = static_cast<double>(times.front());
    if (times.size() <= most && evenly_spaced(times)) {
        course.dt_s = static_cast<double>(times[1] - times[0]);
        for (std::size_t row = 0; row < times.size(); ++row) {
            course.values.push_back(known(trace.value(row, column)));
        }
        return course;
    }
    const std::size_t bins = std::max<std::size_t>(1, std::min(times.size(), most) / 2);
    const double span_s = static_cast<double>(times.back() - times.front() + 1);
    std::vector<Extremes> extremes(bins);
    for (std::size_t row = 0; row < times.size(); ++row) {
        const double share = static_cast<double>(times[row] - times.front()) / span_s;
        extremes[static_cast<std::size_t>(share * static_cast<double>(bins))].take(
            trace.value(row, column));
    }
    course.dt_s = span_s / static_cast<double>(2 * bins);
    course.t0_s += course.dt_s / 2.0;
    for (const auto& bin : extremes) bin.put(course.values);
    return course;
}

std::vector<Stretch> stretches_of(const traces::Table& trace, std::size_t column) {
    std::vector<Stretch> stretches;
    for (std::size_t row = 0; row < trace.row_count(); ++row) {
        const std::int32_t raw = trace.raw(row, column);
        const int value = raw == traces::Table::no_value ? -1 : raw;
        if (!stretches.empty() && stretches.back().value == value) continue;
        stretches.push_back({trace.times_s()[row], value});
    }
    return stretches;
}

std::vector<std::size_t> moments_of(const traces::Table& trace, std::size_t most) {
    std::vector<std::size_t> rows;
    if (trace.row_count() == 0) return rows;
    const auto& times = trace.times_s();
    const std::size_t regular = std::max<std::size_t>(1, most * 2 / 3);
    const std::int64_t span_s = times.back() - times.front();
    const std::int64_t minutes =
        std::max<std::int64_t>(1, span_s / 60 / static_cast<std::int64_t>(regular) + 1);
    const auto reason = trace.find("pump_reason");
    std::int64_t next_s = times.front();
    std::size_t changes_left = most - regular;
    for (std::size_t row = 0; row < times.size(); ++row) {
        const bool changed =
            reason && row > 0 && trace.raw(row, *reason) != trace.raw(row - 1, *reason);
        if (times[row] >= next_s) {
            next_s += 60 * minutes;
            rows.push_back(row);
        } else if (changed && changes_left > 0) {
            --changes_left;
            rows.push_back(row);
        }
    }
    return rows;
}

std::vector<Epoch> epochs_of(const Scenario& scenario) {
    std::vector<Epoch> epochs{{scenario.start_s, scenario.controller.settings, true}};
    for (const Move& move : scenario.moves) {
        Epoch next = epochs.back();
        next.from_s = move.at_s;
        if (const auto* setting = std::get_if<SettingMove>(&move.what)) {
            next.settings[setting->setting] = setting->to;
        } else if (const auto* wire = std::get_if<OtherWireMove>(&move.what)) {
            if (wire->wire != OtherWire::mains_power) continue;
            next.powered = wire->connected;
        } else {
            continue;
        }
        if (epochs.back().from_s == next.from_s) {
            epochs.back() = next;
        } else {
            epochs.push_back(next);
        }
    }
    return epochs;
}

}  // namespace noonbench::harness
