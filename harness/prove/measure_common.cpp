// SPDX-License-Identifier: MIT
#include "measure.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <utility>

namespace noonbench::harness {

CivilSeconds beginning(const AnyTest& test) {
    constexpr CivilSeconds second_of_noon = 43200;
    constexpr CivilSeconds day_s = 86400;
    if (const auto* clock = std::get_if<ClockTest>(&test)) {
        return clock->from_s / day_s * day_s;
    }
    const CivilSeconds midnight = civil_seconds(2026, 6, 15);
    // by day, outside no window that matters; timed runs are watched from midnight on
    return std::holds_alternative<TimedRunsTest>(test) ? midnight : midnight + second_of_noon;
}

Allowed one_step(const Steps& steps) {
    return {-steps.step_k, steps.step_k,
            fmt::format("One step of {} K. The middle between two steps is stated, so half of it "
                        "is the reading; the other half is left to the sensor inputs.",
                        number_text(steps.step_k, steps.step_k < 0.1 ? 2 : 1))};
}

std::string at_text(const char* what, double celsius) {
    return fmt::format("{} at {} °C", what, number_text(celsius, 0));
}

Measurement relay_row(std::string name, std::string where, bool wanted, bool seen) {
    Measurement row;
    row.name = std::move(name);
    row.where = std::move(where);
    row.set = wanted ? 1.0 : 0.0;
    row.measured = seen ? 1.0 : 0.0;
    row.unit = relay_unit;
    row.allowed.ground = "A relay is on or off.";
    return row;
}

}  // namespace noonbench::harness
