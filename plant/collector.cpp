// SPDX-License-Identifier: MIT
#include "collector.hpp"

#include "si.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace noonbench::plant {

RowCoefficients row_coefficients(const Row& row, const HeatContent& fluid,
                                 double fluid_density_kg_m3) {
    RowCoefficients c;
    c.cells = std::max(4, 2 * row.collectors_in_series);
    c.collector = row.collector;
    c.cell_area_m2 = row.collector.area_m2 * row.collectors_in_series / c.cells;
    c.fluid_kg =
        row.collector.content_m3 * row.collectors_in_series * fluid_density_kg_m3 / c.cells;
    constexpr double reference_c = 50.0;
    c.metal_j_k = row.collector.a5_j_m2k * c.cell_area_m2 -
                  c.fluid_kg * fluid.specific_heat_j_kgk(reference_c);
    if (c.metal_j_k < 0.0) {
        throw std::invalid_argument("collector content holds more heat than its capacity a5");
    }
    return c;
}

double sky_balance_w_m2(double sky_c, double air_c) {
    const double sky_k = sky_c + zero_celsius_k;
    const double air_k = air_c + zero_celsius_k;
    const double sky_squared = sky_k * sky_k;
    const double air_squared = air_k * air_k;
    return stefan_boltzmann_w_m2k4 * (sky_squared * sky_squared - air_squared * air_squared);
}

double collector_loss_w_m2(const Collector& collector, const RowWeather& weather, double t_c) {
    constexpr double test_wind_m_s = 3.0;
    const double x_k = t_c - weather.air_c;
    const double linear_w_m2k =
        collector.a1_w_m2k + collector.a3_j_m3k * (weather.wind_m_s - test_wind_m_s);
    // |x| keeps the quadratic part a loss above the air and a gain below it.
    return x_k * (linear_w_m2k + collector.a2_w_m2k2 * std::abs(x_k)) -
           collector.a4 * weather.sky_balance_w_m2;
}

double collector_power_w_m2(const Collector& collector, const RowWeather& weather, double mean_c) {
    return collector.eta0 * weather.absorbable_w_m2 -
           collector_loss_w_m2(collector, weather, mean_c);
}

double stagnation_c(const Collector& collector, double absorbable_w_m2, double air_c) {
    const double gain_w_m2 = collector.eta0 * absorbable_w_m2;
    const double a1 = collector.a1_w_m2k;
    // The form that survives a2 = 0.
    return air_c +
           2.0 * gain_w_m2 / (a1 + std::sqrt(a1 * a1 + 4.0 * collector.a2_w_m2k2 * gain_w_m2));
}

RowPower add_collector_rates(const RowCoefficients& row, const RowWeather& weather,
                             const double* t_c, double* rate_w) {
    const double absorbed_w = row.collector.eta0 * weather.absorbable_w_m2 * row.cell_area_m2;
    double lost_w = 0.0;
    for (int i = 0; i < row.cells; ++i) {
        const double loss_w =
            row.cell_area_m2 * collector_loss_w_m2(row.collector, weather, t_c[i]);
        rate_w[i] += absorbed_w - loss_w;
        lost_w += loss_w;
    }
    return {absorbed_w * row.cells, lost_w};
}

}  // namespace noonbench::plant
