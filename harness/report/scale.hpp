// SPDX-License-Identifier: MIT
// From a quantity to where it stands in a drawing.
#pragma once

namespace noonbench::harness {

/// A straight line: `from` is drawn at `at_from`, `until` at `at_until`.
struct Scale {
    double from = 0.0;
    double until = 1.0;
    double at_from = 0.0;
    double at_until = 1.0;
    double operator()(double value) const {
        return at_from + (value - from) / (until - from) * (at_until - at_from);
    }
};

}  // namespace noonbench::harness
