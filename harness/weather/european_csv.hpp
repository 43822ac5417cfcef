// SPDX-License-Identifier: MIT
// The typical year of the European Commission's photovoltaic service as CSV: times in UTC, weather
// at the stamp, irradiance measured by satellite at the stamp plus a stated offset. The basic
// variant has the table alone: no place, no offset, no legend.
#pragma once
#include "record_reader.hpp"

namespace noonbench::harness {

[[nodiscard]] bool looks_like_european_csv(std::span<const std::string_view> lines);

/// Fills format, place (if named), clock, convention and the hours as they stand.
void read_european_csv(std::span<const std::string_view> lines, WeatherYear& year,
                       ProblemList& problems);

}  // namespace noonbench::harness
