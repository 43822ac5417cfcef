// SPDX-License-Identifier: MIT
// The way back: which converter count shows a temperature. For tests that drive whole ticks.
#pragma once
#include "firmware-model/sensors.hpp"

#include <cstdint>

namespace noonbench::firmware::decisions {

/// The least count whose temperature is at or above the one given.
inline std::uint16_t counts_at(int centicelsius) {
    std::uint32_t low = 0;
    std::uint32_t high = full_scale_counts;
    while (low < high) {
        const std::uint32_t middle = (low + high) / 2;
        if (temperature_of(middle * 8).centicelsius < centicelsius) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return static_cast<std::uint16_t>(low);
}

}  // namespace noonbench::firmware::decisions
