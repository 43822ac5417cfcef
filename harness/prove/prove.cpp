// SPDX-License-Identifier: MIT
#include "prove.hpp"

#include "measure.hpp"
#include "rig.hpp"

namespace noonbench::harness {

TestResult prove(const ProvingTest& test, const DeviceMaker& make_device) {
    const std::unique_ptr<Device> device = make_device({test.clock_drift_s_per_day});
    Rig rig(*device, test.settings, beginning(test.what));
    return {test, std::visit([&](const auto& what) { return measure(what, rig); }, test.what)};
}

Count count_of(const TestResult& result) {
    Count tally;
    for (const Measurement& m : result.measurements) {
        switch (standing_of(m)) {
            case Standing::within:
                ++tally.within;
                break;
            case Standing::outside:
                ++tally.outside;
                break;
            case Standing::not_observed:
                ++tally.not_observed;
                break;
        }
    }
    return tally;
}

Count count_of(const std::vector<TestResult>& results) {
    Count all;
    for (const TestResult& result : results) {
        const Count one = count_of(result);
        all.within += one.within;
        all.outside += one.outside;
        all.not_observed += one.not_observed;
    }
    return all;
}

}  // namespace noonbench::harness
