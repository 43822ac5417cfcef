// SPDX-License-Identifier: MIT
// The proving ground: what a laboratory does to a differential controller, through its terminals.
#pragma once
#include "device.hpp"
#include "measurement.hpp"
#include "tests.hpp"

#include <string>
#include <vector>

namespace noonbench::harness {

struct TestResult {
    ProvingTest test;
    std::vector<Measurement> measurements;
};

struct Count {
    int within = 0;
    int outside = 0;
    int not_observed = 0;

    [[nodiscard]] bool all_within() const { return outside == 0 && not_observed == 0; }
};

/// Puts a fresh device through one test.
[[nodiscard]] TestResult prove(const ProvingTest& test, const DeviceMaker& make_device);

/// Every run counts by itself.
[[nodiscard]] Count count_of(const std::vector<TestResult>& results);
[[nodiscard]] Count count_of(const TestResult& result);

}  // namespace noonbench::harness
