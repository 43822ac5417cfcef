// SPDX-License-Identifier: MIT
// A row of collectors: ISO 9806 quasi-dynamic equation (2017 names, without the rarely given
// a6..a8) on cells along the flow. Each cell's own temperature stands for the equation's mean of
// inlet and outlet, so at given flow the loss is taken (outlet - inlet) / (2 cells) too warm.
#pragma once
#include "fluid.hpp"
#include "parameters.hpp"

namespace noonbench::plant {

/// What the sun and the air do to one row; `absorbable` is behind the incidence-angle modifiers.
struct RowWeather {
    double absorbable_w_m2 = 0.0;
    double air_c = 10.0;
    double wind_m_s = 3.0;
    double sky_balance_w_m2 = 0.0;  // E_L - sigma T_air^4; negative under a clear sky
};

/// One row, ready for the right-hand side.
struct RowCoefficients {
    int cells = 4;
    double cell_area_m2 = 0.0;
    double fluid_kg = 0.0;   // of a cell
    double metal_j_k = 0.0;  // of a cell; with the fluid's at 50 degC it makes a5
    Collector collector{};
};

/// Two cells a collector, four at least. Throws std::invalid_argument if the content alone holds
/// more heat than a5 says.
[[nodiscard]] RowCoefficients row_coefficients(const Row& row, const HeatContent& fluid,
                                               double fluid_density_kg_m3);

[[nodiscard]] double sky_balance_w_m2(double sky_c, double air_c);

/// W/m2 lost at `t_c`, sky radiation included; negative when the air or sky heats the collector.
[[nodiscard]] double collector_loss_w_m2(const Collector& collector, const RowWeather& weather,
                                         double t_c);

/// W/m2 of gross area in steady state at mean fluid temperature `mean_c`.
[[nodiscard]] double collector_power_w_m2(const Collector& collector, const RowWeather& weather,
                                          double mean_c);

/// degC without flow in steady state, a3 and a4 left out: the positive root of the quadratic.
[[nodiscard]] double stagnation_c(const Collector& collector, double absorbable_w_m2, double air_c);

struct RowPower {
    double absorbed_w = 0.0;
    double lost_w = 0.0;
};
/// Adds absorbed minus lost to `rate_w` of each of the row's cells [W].
RowPower add_collector_rates(const RowCoefficients& row, const RowWeather& weather,
                             const double* t_c, double* rate_w);

}  // namespace noonbench::plant
