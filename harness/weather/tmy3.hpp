// SPDX-License-Identifier: MIT
// TMY3: two lines of header, then 68 or 71 fields an hour (Wilcox & Marion, NREL/TP-581-43156).
#pragma once
#include "record_reader.hpp"

namespace noonbench::harness {

[[nodiscard]] bool looks_like_tmy3(std::span<const std::string_view> lines);

/// Fills format, place, clock, convention (hour-ending) and the hours as they stand.
void read_tmy3(std::span<const std::string_view> lines, WeatherYear& year, ProblemList& problems);

}  // namespace noonbench::harness
