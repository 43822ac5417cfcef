// SPDX-License-Identifier: MIT
// A published number is met within half a unit of its last printed digit, or what the test says.
#pragma once
#include <boost/test/unit_test.hpp>

#include <cmath>
#include <string>

namespace noonbench::published {

inline void check_within(const std::string& what, double found, double expected, double tolerance) {
    BOOST_TEST_CONTEXT(what << " found " << found << " expected " << expected << " +- "
                            << tolerance)
    BOOST_CHECK_LE(std::abs(found - expected), tolerance);
}

}  // namespace noonbench::published
