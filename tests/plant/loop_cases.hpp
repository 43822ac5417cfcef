// SPDX-License-Identifier: MIT
// Loops and fluids for the tests of hydraulics.
#pragma once
#include "plant/hydraulics.hpp"

#include <array>
#include <cstddef>

namespace noonbench::plant::testing {

inline double mass_flow(const LoopHydraulics& h, double t_c, double level,
                        const Levers& levers = {}) {
    return solve_loop(h, uniform_fluids(h, t_c), level, levers).total_kg_s;
}

inline Parameters with_rows(std::size_t rows, int in_series) {
    Parameters p;
    p.rows.resize(rows);
    for (Row& row : p.rows) row.collectors_in_series = in_series;
    return p;
}

inline LoopFluids fluids_at(const LoopHydraulics& h, const std::array<double, 10>& t_c) {
    LoopFluids f;
    f.hot_pipe = h.fluid.at(t_c[0]);
    f.station_hot = h.fluid.at(t_c[1]);
    f.coil = h.fluid.at(t_c[2]);
    f.station_cold = h.fluid.at(t_c[3]);
    f.cold_pipe = h.fluid.at(t_c[4]);
    for (std::size_t r = 0; r < f.rows.size(); ++r) f.rows[r] = h.fluid.at(t_c[5 + r]);
    return f;
}

// A hot day's loop: warm coil below, hot rows and hot pipe, cold pipe cooler.
inline constexpr std::array<double, 10> sunny_c{80, 80, 50, 40, 40, 90, 90, 90, 90, 90};
// A winter's night: warm coil, cold roof, pipes between.
inline constexpr std::array<double, 10> frosty_c{30, 25, 60, 20, 10, -10, -10, -10, -10, -10};

}  // namespace noonbench::plant::testing
