// SPDX-License-Identifier: MIT
// What the calm plant made linear does, edge by edge: each flow is booked with both signs. The
// equations of a step are held against it.
#pragma once
#include "plant/linear.hpp"

#include <algorithm>
#include <cstddef>

namespace noonbench::plant::testing {

/// Between cells that follow each other: what the one before carries into the next.
inline void carry_along(const Linear& l, const double* y_k, double into_first_w, int first,
                        int count, double* rate) {
    double into_w = into_first_w;
    for (int i = first; i < first + count; ++i) {
        const double out_w = l.carried_w_k[static_cast<std::size_t>(i)] * y_k[i];
        rate[i] += into_w - out_w;
        into_w = out_w;
    }
}

inline void carry_round(const Layout& at, const Tick& tick, const Linear& l, const double* y_k,
                        double* rate) {
    const int last = at.chain_cells - 1;
    double leaves_rows_w = 0.0;
    double enters_rows_w = 0.0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        // the rows share what the chain's last cell carries, in proportion to their flows
        const double enters_w = l.carried_w_k[static_cast<std::size_t>(last)] *
                                (tick.row_flow_kg_s[r] / tick.flow_kg_s) * y_k[last];
        const int end = at.row_first[r] + at.row_cells[r] - 1;
        carry_along(l, y_k, enters_w, at.row_first[r], at.row_cells[r], rate);
        enters_rows_w += enters_w;
        leaves_rows_w += l.carried_w_k[static_cast<std::size_t>(end)] * y_k[end];
    }
    carry_along(l, y_k, leaves_rows_w, 0, at.chain_cells, rate);
    // the last cell gives what the rows take, to the last bit
    rate[last] += l.carried_w_k[static_cast<std::size_t>(last)] * y_k[last] - enters_rows_w;
    rate[at.edges_first + static_cast<int>(Edge::collector_to_loop)] =
        leaves_rows_w - enters_rows_w;
}

inline void pass_coil(const Layout& at, const Linear& l, const double* y_k, double* rate) {
    double sum_w = 0.0;
    for (int k = 0; k < at.coil_cells; ++k) {
        const auto i = static_cast<std::size_t>(k);
        const int layer = at.layers_first + l.coil_layer[i];
        const double heat_w = l.coil_w_k[i] * (y_k[at.coil + k] - y_k[layer]);
        rate[at.coil + k] -= heat_w;
        rate[layer] += heat_w;
        sum_w += heat_w;
    }
    rate[at.edges_first + static_cast<int>(Edge::coil)] = sum_w;
}

inline double lose(const Linear& l, const double* y_k, int first, int count, double* rate) {
    double sum_w = 0.0;
    for (int i = first; i < first + count; ++i) {
        const double loss_w = l.lost_w_k[static_cast<std::size_t>(i)] * y_k[i];
        rate[i] -= loss_w;
        sum_w += loss_w;
    }
    return sum_w;
}

inline void mix_layers(const Layout& at, const Linear& l, const double* y_k, double* rate) {
    const double* layer_k = y_k + at.layers_first;
    double* layer_w = rate + at.layers_first;
    const auto layers = static_cast<std::size_t>(at.layers);
    for (std::size_t k = 0; k + 1 < layers; ++k) {
        const double up_w =
            l.exchanged_w_k[k] * (layer_k[k] - layer_k[k + 1]) + l.carried_up_w_k[k] * layer_k[k];
        layer_w[k] -= up_w;
        layer_w[k + 1] += up_w;
    }
    const double tapped_w = l.tapped_w_k * layer_k[layers - 1];
    layer_w[layers - 1] -= tapped_w;
    rate[at.edges_first + static_cast<int>(Edge::hot_out)] = tapped_w;
    for (std::size_t low = l.plumes_from; low <= l.plumes_to; ++low) {
        for (std::size_t high = low + 1; high <= l.plumes_to; ++high) {
            const double heat_w = l.plume_w_k[low][high] * (layer_k[low] - layer_k[high]);
            layer_w[low] -= heat_w;
            layer_w[high] += heat_w;
        }
    }
}

/// Rates (W, K/s for sensors; edges too) for temperature changes `y_k` of all cells and sensors.
inline void linear_rates(const Circuit& circuit, const Tick& tick, const Linear& linear,
                         const double* y_k, double* rate) {
    const Layout& at = circuit.layout;
    std::fill_n(rate, at.total, 0.0);
    double* edge = rate + at.edges_first;
    if (linear.flows) carry_round(at, tick, linear, y_k, rate);
    pass_coil(at, linear, y_k, rate);
    const double vessel_w = linear.vessel_w_k * y_k[at.vessel];
    rate[at.vessel] -= vessel_w;
    edge[static_cast<int>(Edge::pipe_loss)] = lose(linear, y_k, 0, at.chain_cells, rate) + vessel_w;
    edge[static_cast<int>(Edge::collector_loss)] =
        lose(linear, y_k, at.chain_cells, at.layers_first - at.chain_cells, rate);
    edge[static_cast<int>(Edge::store_loss)] = lose(linear, y_k, at.layers_first, at.layers, rate);
    mix_layers(at, linear, y_k, rate);
    each_sensor(circuit, tick,
                [&](int sensor, const LayerPoint& body, double contact, double time_constant_s) {
                    const double body_k = at_point_c(body, y_k);
                    rate[sensor] = (contact * body_k - y_k[sensor]) / time_constant_s;
                });
}

}  // namespace noonbench::plant::testing
