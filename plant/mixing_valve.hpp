// SPDX-License-Identifier: MIT
// Thermostatic mixing valve at the store's outlet: algebraic, no memory.
#pragma once
#include "fluid.hpp"

namespace noonbench::plant {

/// Share of hot water in the tap's flow, 0..1, so that the mixture has the set energy; 1 when the
/// hot water is not hot enough, 0 when the cold water alone is too warm.
[[nodiscard]] inline double hot_share(double hot_j_kg, double cold_j_kg, double set_j_kg) {
    if (hot_j_kg <= set_j_kg) return 1.0;
    if (cold_j_kg >= set_j_kg) return 0.0;
    return (set_j_kg - cold_j_kg) / (hot_j_kg - cold_j_kg);
}

}  // namespace noonbench::plant
