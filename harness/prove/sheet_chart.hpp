// SPDX-License-Identifier: MIT
// Start and stop difference against the store's temperature: what was set as lines, what is allowed
// as bands, each run as a point.
#pragma once
#include "prove.hpp"

#include <string>

namespace noonbench::harness {

/// An svg element; empty if the result is of another kind of test.
[[nodiscard]] std::string difference_chart(const TestResult& result);

}  // namespace noonbench::harness
