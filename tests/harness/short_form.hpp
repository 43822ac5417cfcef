// SPDX-License-Identifier: MIT
// Where time is dear (under the sanitizers), a part of the long suites is enough.
#pragma once
#include <cstdlib>

inline bool is_short_form() {
    return std::getenv("NOONBENCH_SHORT") != nullptr;
}
