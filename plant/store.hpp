// SPDX-License-Identifier: MIT
// The store: layers of constant mass from the bottom up. Conduction, buoyancy as an extra
// conductance wherever a warmer layer lies below, losses, draws in plug flow, circulation, backup.
// Expanding water leaves by the household's relief and is left out; so is the density maximum at
// 4 degC.
#pragma once
#include "fluid.hpp"
#include "layout.hpp"
#include "parameters.hpp"

#include <algorithm>
#include <array>

namespace noonbench::plant {

/// A height in the store between the middles of two layers.
struct LayerPoint {
    int lower = 0;
    double upper_share = 0.0;
};
[[nodiscard]] LayerPoint layer_point(double height, int layers);
[[nodiscard]] inline double at_point_c(const LayerPoint& point, const double* layer_c) {
    const double lower_c = layer_c[point.lower];
    return point.upper_share == 0.0
               ? lower_c
               : lower_c + point.upper_share * (layer_c[point.lower + 1] - lower_c);
}

struct StoreCoefficients {
    int layers = 12;
    double layer_kg = 0.0;
    double layer_j_k = 0.0;
    double conduction_w_k = 0.0;  // between neighbours
    double buoyancy_w_k = 0.0;    // added between neighbours when inverted
    double plume_w_k = 0.0;       // and between any two inverted layers
    double side_w_k = 0.0;        // of a layer
    double connection_w_k = 0.0;  // of the top layer
    double room_c = 18.0;
    std::array<double, most_layers> inlet_stir{};  // share of a draw exchanged with the layer above
    std::array<double, most_layers> backup_share{};
    int circulation_layer = 0;
    double circulation_kept = 0.0;  // share of its warmth over the room that comes back
    LayerPoint bottom_sensor{};
    LayerPoint top_sensor{};
    LayerPoint own_thermostat{};
};
[[nodiscard]] StoreCoefficients store_coefficients(const Parameters& parameters);

/// Heat that buoyancy carries up between two layers, W, when the lower one is `excess_k` warmer:
/// smooth at zero (quadratic over 0.05 K), then in proportion.
inline constexpr double buoyancy_onset_k = 0.05;
[[nodiscard]] inline double buoyant_heat_w(double buoyancy_w_k, double excess_k) {
    const double within_k = std::min(std::max(excess_k, 0.0), buoyancy_onset_k);
    return buoyancy_w_k * within_k * (excess_k - 0.5 * within_k) / buoyancy_onset_k;
}

/// Conduction and buoyancy, added to `rate_w` of each layer [W].
void add_layer_exchange(const StoreCoefficients& store, const double* layer_c, double* rate_w);

/// Loss of jacket and connections to the room; the factors are the levers'. Returns W.
double add_store_loss(const StoreCoefficients& store, double side_factor, double connection_factor,
                      const double* layer_c, double* rate_w);

/// Backup heat into the layers that it reaches, limited by power and, for a boiler, by the
/// temperature of its flow. Returns W.
double add_backup_heat(const StoreCoefficients& store, const Backup& backup, const double* layer_c,
                       double* rate_w);

/// A jet of cold water stirs this many times its own flow at every height: forty litres then leave
/// a store of 300 litres nearly without layers.
inline constexpr double jet_exchange = 60.0;

/// Water through the store: cold in at the bottom, hot out at the top; the circulation takes from
/// the top and returns to its layer.
struct StoreFlow {
    double draw_kg_s = 0.0;
    double cold_j_kg = 0.0;
    double inlet_jet = 0.0;  // lever: 1 = 60 times the draw is exchanged at every height
    double circulation_kg_s = 0.0;
    double return_j_kg = 0.0;
};
void add_store_flow(const StoreCoefficients& store, const StoreFlow& flow, const double* layer_j_kg,
                    double* rate_w);

}  // namespace noonbench::plant
