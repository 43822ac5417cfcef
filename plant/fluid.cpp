// SPDX-License-Identifier: MIT
#include "fluid.hpp"

#include "si.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

// f = sum c[i][j] (T - 32.7083 degC)^i (x - 0.307031)^j
constexpr double base_c = 305.8583 - zero_celsius_k;
constexpr double base_share = 0.307031;
using Matrix = std::array<std::array<double, 6>, 4>;

constexpr Matrix density_matrix{{{1018, 76.04, -24.98, -155, -113.1, 234.2},
                                 {-0.5406, -0.945, 0.27, 2.829, -2.221, 0},
                                 {-0.002666, 0.005541, -0.004018, -0.007175, 0, 0},
                                 {1.347e-05, -1.343e-05, 3.376e-05, 0, 0, 0}}};
constexpr Matrix specific_heat_matrix{{{3882, -1304, -1598, 353.9, 5000, -4959},
                                       {2.699, 5.07, 0.9534, 31.02, -71.35, 0},
                                       {-0.001659, -0.004752, 0.1167, -0.295, 0, 0},
                                       {-1.032e-05, 0.0001522, -0.000487, 0, 0, 0}}};
constexpr Matrix conductivity_matrix{{{0.4513, -0.4795, 0.2076, -0.09083, -0.05952, 0.2104},
                                      {0.0007955, -0.001678, 0.001563, -0.002518, -0.003605, 0},
                                      {3.482e-08, 8.941e-06, -4.615e-05, 6.543e-05, 0, 0},
                                      {-5.966e-09, 1.493e-08, 9.897e-08, 0, 0, 0}}};
// of the natural logarithm of Pa s
constexpr Matrix log_viscosity_matrix{{{-6.224055, 3.328, 0.5453, -3.9, -1.587, 35.64},
                                       {-0.03045, -0.03984, -0.00086, 0.1054, 0.04475, 0},
                                       {0.0002525, 0.0004332, -0.0001593, -0.001589, 0, 0},
                                       {-1.399e-06, -1.86e-06, -4.465e-07, 0, 0, 0}}};
constexpr std::array<double, 6> freezing_row{259.9, -66.31, -109.4, -228.3, -340.9, 146.5};

double polynomial(const std::array<double, 6>& row, double y) {
    double sum = 0.0;
    for (std::size_t j = row.size(); j-- > 0;) sum = sum * y + row[j];
    return sum;
}

// Up to 100 degC the polynomial, beyond it the tangent there.
double evaluate(const Matrix& matrix, double glycol_share, double t_c) {
    const double y = glycol_share - base_share;
    const double inside_c = std::min(t_c, properties_end_c);
    const double d = inside_c - base_c;
    std::array<double, 4> c{};
    for (std::size_t i = 0; i < c.size(); ++i) c[i] = polynomial(matrix[i], y);
    const double value = ((c[3] * d + c[2]) * d + c[1]) * d + c[0];
    if (!is_extrapolated(t_c)) return value;
    const double slope = (3.0 * c[3] * d + 2.0 * c[2]) * d + c[1];
    return value + slope * (t_c - properties_end_c);
}

}  // namespace

double density_kg_m3(double glycol_share, double t_c) {
    return evaluate(density_matrix, glycol_share, t_c);
}

double specific_heat_j_kgk(double glycol_share, double t_c) {
    return evaluate(specific_heat_matrix, glycol_share, t_c);
}

double conductivity_w_mk(double glycol_share, double t_c) {
    return evaluate(conductivity_matrix, glycol_share, t_c);
}

double viscosity_pa_s(double glycol_share, double t_c) {
    return std::exp(evaluate(log_viscosity_matrix, glycol_share, t_c));
}

double freezing_point_c(double glycol_share) {
    return polynomial(freezing_row, glycol_share - base_share) - zero_celsius_k;
}

double water_vapour_pressure_pa(double t_c) {
    constexpr double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2;
    constexpr double n4 = 0.12020824702470e5, n5 = -0.32325550322333e7, n6 = 0.14915108613530e2;
    constexpr double n7 = -0.48232657361591e4, n8 = 0.40511340542057e6;
    constexpr double n9 = -0.23855557567849, n10 = 0.65017534844798e3;
    const double t_k = t_c + zero_celsius_k;
    const double theta = t_k + n9 / (t_k - n10);
    const double a = (theta + n1) * theta + n2;
    const double b = (n3 * theta + n4) * theta + n5;
    const double c = (n6 * theta + n7) * theta + n8;
    const double root = 2.0 * c / (-b + std::sqrt(b * b - 4.0 * a * c));
    return root * root * root * root * 1e6;
}

double glycol_vapour_pressure_pa(double t_c) {
    constexpr double critical_k = 674.0;
    constexpr double critical_pa = 7291800.0;
    const double t_k = t_c + zero_celsius_k;
    const double theta = 1.0 - t_k / critical_k;
    const double sum = -10.12 * theta + 3.15 * std::pow(theta, 1.5) - 5.6 * std::pow(theta, 2.6) -
                       0.337 * std::pow(theta, 4.0) - 2.39 * std::pow(theta, 5.0);
    return critical_pa * std::exp(critical_k / t_k * sum);
}

double boiling_point_c(double glycol_share, double absolute_pressure_pa) {
    constexpr double water_kg_kmol = 18.015268;
    constexpr double glycol_kg_kmol = 76.09442;
    const double water_moles = (1.0 - glycol_share) / water_kg_kmol;
    const double glycol_moles = glycol_share / glycol_kg_kmol;
    const double water_fraction = water_moles / (water_moles + glycol_moles);
    double low_c = 0.0;
    double high_c = 300.0;
    for (int i = 0; i < 60; ++i) {  // halving 300 K sixty times is below a double's spacing
        const double middle_c = 0.5 * (low_c + high_c);
        const double p_pa = water_fraction * water_vapour_pressure_pa(middle_c) +
                            (1.0 - water_fraction) * glycol_vapour_pressure_pa(middle_c);
        (p_pa < absolute_pressure_pa ? low_c : high_c) = middle_c;
    }
    return 0.5 * (low_c + high_c);
}

double HeatContent::temperature_c(double energy_j_kg) const {
    const double discriminant = c0_j_kgk * c0_j_kgk + 2.0 * c1_j_kgk2 * energy_j_kg;
    return 2.0 * energy_j_kg / (c0_j_kgk + std::sqrt(discriminant));
}

HeatContent loop_heat_content(double glycol_share) {
    const double from_c = std::max(freezing_point_c(glycol_share), -20.0);
    constexpr int points = 241;
    double sum_t = 0.0, sum_tt = 0.0, sum_c = 0.0, sum_tc = 0.0;
    for (int i = 0; i < points; ++i) {
        const double t_c = from_c + (properties_end_c - from_c) * i / (points - 1);
        const double c = specific_heat_j_kgk(glycol_share, t_c);
        sum_t += t_c;
        sum_tt += t_c * t_c;
        sum_c += c;
        sum_tc += t_c * c;
    }
    const double slope = (points * sum_tc - sum_t * sum_c) / (points * sum_tt - sum_t * sum_t);
    return {(sum_c - slope * sum_t) / points, slope};
}

}  // namespace noonbench::plant
