// SPDX-License-Identifier: MIT
#include "fluid_table.hpp"

#include "fluid.hpp"

#include <algorithm>

namespace noonbench::plant {

FluidTable::FluidTable(double glycol_share) {
    for (std::size_t i = 0; i < points; ++i) {
        const double t_c = first_c + static_cast<double>(i) / steps_a_kelvin;
        points_[i] = {density_kg_m3(glycol_share, t_c), viscosity_pa_s(glycol_share, t_c)};
    }
}

FluidProperties FluidTable::at(double t_c) const {
    constexpr auto steps = static_cast<double>(points - 1);
    const double wanted = (t_c - first_c) * steps_a_kelvin;
    const double place = wanted > 0.0 ? std::min(wanted, steps) : 0.0;  // a NaN goes to the start
    const std::size_t below = std::min(static_cast<std::size_t>(place), points - 2);
    const double share = place - static_cast<double>(below);
    const FluidProperties& from = points_[below];
    const FluidProperties& to = points_[below + 1];
    return {from.density_kg_m3 + share * (to.density_kg_m3 - from.density_kg_m3),
            from.viscosity_pa_s + share * (to.viscosity_pa_s - from.viscosity_pa_s)};
}

}  // namespace noonbench::plant
