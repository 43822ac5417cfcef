// SPDX-License-Identifier: MIT
// What a look at a lever of the plant shows.
#pragma once
#include "lesson.hpp"

#include <string>
#include <string_view>

namespace noonbench::harness {

/// A lever as the last of the scenario's moves leaves it, in the unit of the lever table.
[[nodiscard]] double lever_at_last(const Scenario& scenario, std::string_view lever);

/// What is read at that value; null if nothing is said of it.
[[nodiscard]] const std::string* lever_reading(const HuntMeasurement& measurement, double value);

}  // namespace noonbench::harness
