// SPDX-License-Identifier: MIT
// EPW: eight lines of header, then 35 fields an hour (US DOE, EPW data dictionary).
#pragma once
#include "record_reader.hpp"

namespace noonbench::harness {

[[nodiscard]] bool looks_like_epw(std::span<const std::string_view> lines);

/// Fills format, place, clock, convention (hour-ending) and the hours as they stand.
void read_epw(std::span<const std::string_view> lines, WeatherYear& year, ProblemList& problems);

}  // namespace noonbench::harness
