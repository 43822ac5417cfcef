// SPDX-License-Identifier: MIT
// Density and viscosity of one mixture on a fine grid, for what asks every second: straight lines
// between points half a kelvin apart miss the formulas by less than 0.1 %.
#pragma once
#include <array>
#include <cstddef>

namespace noonbench::plant {

struct FluidProperties {
    double density_kg_m3 = 1000.0;
    double viscosity_pa_s = 1e-3;
};

class FluidTable {
  public:
    static constexpr double first_c = -40.0;
    static constexpr double last_c = 300.0;

    FluidTable() = default;
    /// Share of propylene glycol by mass, 0..0.6.
    explicit FluidTable(double glycol_share);

    /// Beyond first_c..last_c the value at the nearer end. Ice is not looked at: below the freezing
    /// point the liquid's curve goes on.
    [[nodiscard]] FluidProperties at(double t_c) const;

  private:
    static constexpr double steps_a_kelvin = 2.0;
    static constexpr std::size_t points =
        static_cast<std::size_t>((last_c - first_c) * steps_a_kelvin) + 1;
    std::array<FluidProperties, points> points_{};
};

}  // namespace noonbench::plant
