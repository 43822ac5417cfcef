// SPDX-License-Identifier: MIT
// What the household asks of the tap.
#pragma once
#include "sky.hpp"

namespace noonbench::plant {

/// One draw, asked for in energy over the cold water (EU 812/2013 words: useful energy content).
struct Draw {
    CivilSeconds at_s = 0;
    double energy_j = 0.0;
    double flow_m3_s = 0.0;        // at the tap
    double useful_from_c = 0.0;    // water counts from this temperature on (0: all of it)
    double peak_c = 0.0;           // to be reached during the draw; 0: none
    std::int64_t most_cool_s = 0;  // given up after so long below useful_from_c without a break;
                                   // 0: not for that
};

}  // namespace noonbench::plant
