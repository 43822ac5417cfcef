// SPDX-License-Identifier: MIT
#include "coil.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {

std::vector<LayerShare> layers_between(double from_height, double to_height, int layers) {
    constexpr double sliver = 0.25;
    std::vector<LayerShare> result;
    LayerShare widest;
    for (int k = 0; k < layers; ++k) {
        const double overlap = std::min(to_height * layers, k + 1.0) -
                               std::max(from_height * layers, static_cast<double>(k));
        if (overlap > widest.share) widest = {k, overlap};
        if (overlap >= sliver) result.push_back({k, overlap});
    }
    if (result.empty()) result.push_back(widest);
    double sum = 0.0;
    for (const LayerShare& reached : result) sum += reached.share;
    for (LayerShare& reached : result) reached.share = sum > 0.0 ? reached.share / sum : 1.0;
    return result;
}

double isothermal_effectiveness(double ua_w_k, double flow_w_k) {
    return -std::expm1(-ua_w_k / flow_w_k);
}

double counterflow_effectiveness(double transfer_units, double ratio) {
    if (ratio == 1.0) return transfer_units / (1.0 + transfer_units);
    const double e = std::exp(-transfer_units * (1.0 - ratio));
    return (1.0 - e) / (1.0 - ratio * e);
}

double parallel_effectiveness(double transfer_units, double ratio) {
    return -std::expm1(-transfer_units * (1.0 + ratio)) / (1.0 + ratio);
}

double cell_conductance_w_k(double ua_w_k, double flow_w_k) {
    if (flow_w_k <= 0.0) return ua_w_k;
    constexpr double most_transfer_units = 3.0;
    // m cp (t_in - t) = G (t - t_layer) with t from the effectiveness: G = m cp eps / (1 - eps).
    const double transfer_units = std::min(ua_w_k / flow_w_k, most_transfer_units);
    return std::max(ua_w_k, flow_w_k * std::expm1(transfer_units));
}

}  // namespace noonbench::plant
