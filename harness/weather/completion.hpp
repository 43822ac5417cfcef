// SPDX-License-Identifier: MIT
// Filling what a file leaves out, as far as that is honest.
#pragma once
#include "record_reader.hpp"

namespace noonbench::harness {

/// As weather_file.hpp promises for missing values; one message for each kind of filling, with the
/// number of hours, and a problem for what may not be filled. 8760 hours in order are expected.
void complete_year(WeatherYear& year, ProblemList& problems);

}  // namespace noonbench::harness
