// SPDX-License-Identifier: MIT
#include "store.hpp"

#include "coil.hpp"

#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

// Warm water under cold mixes in two ways: with its neighbour, and as a plume with every colder
// layer above it. Neighbours alone would need an inversion at each face of a stirred stack to pass
// the heat on, kelvins in all at twenty layers. Together they leave less than half a kelvin under
// 12 kW; the fastest rate is 4 x 0.12 + 0.4 per second, slow enough for steps of a second.
constexpr double neighbour_mixing_per_s = 0.12;
constexpr double plume_mixing_per_s = 0.4;

// Every layer with every colder one above it. A layer with nothing colder above is passed over: all
// of its pairs would add exact zeros, and in a layered store that is nearly all of them.
void raise_plumes(const StoreCoefficients& store, const double* layer_c, double* rate_w) {
    const int top = store.layers - 1;
    double coldest_above_c = layer_c[top];
    for (int low = top - 1; low >= 0; --low) {
        if (layer_c[low] > coldest_above_c) {
            double given_w = 0.0;
            for (int high = low + 1; high <= top; ++high) {
                const double heat_w = buoyant_heat_w(store.plume_w_k, layer_c[low] - layer_c[high]);
                rate_w[high] += heat_w;
                given_w += heat_w;
            }
            rate_w[low] -= given_w;
        }
        coldest_above_c = std::min(coldest_above_c, layer_c[low]);
    }
}

}  // namespace

LayerPoint layer_point(double height, int layers) {
    const double position = std::clamp(height * layers - 0.5, 0.0, layers - 1.0);
    const int lower = static_cast<int>(position);
    return {lower, lower == layers - 1 ? 0.0 : position - lower};
}

StoreCoefficients store_coefficients(const Parameters& parameters) {
    const Store& from = parameters.store;
    StoreCoefficients c;
    c.layers = parameters.layers;
    const double layer_height_m = from.height_m / c.layers;
    const double section_m2 = from.volume_m3 / from.height_m;
    c.layer_kg = from.volume_m3 * water_density_kg_m3 / c.layers;
    c.layer_j_k = c.layer_kg * water_heat_content.specific_heat_j_kgk(50.0);
    c.conduction_w_k = from.conductivity_w_mk * section_m2 / layer_height_m;
    c.buoyancy_w_k = neighbour_mixing_per_s * c.layer_j_k;
    c.plume_w_k = plume_mixing_per_s * c.layer_j_k / c.layers;
    c.side_w_k = from.side_ua_w_k / c.layers;
    c.connection_w_k = from.connection_ua_w_k;
    c.room_c = from.room_c;
    // The stirring of a healthy inlet fades by half from one layer to the next.
    double stir = from.inlet_mixing;
    for (int k = 0; k + 1 < c.layers; ++k, stir *= 0.5) {
        c.inlet_stir[static_cast<std::size_t>(k)] = stir;
    }
    const Backup& backup = parameters.backup;
    for (const LayerShare& reached :
         layers_between(backup.from_height, backup.to_height, c.layers)) {
        c.backup_share[static_cast<std::size_t>(reached.layer)] = reached.share;
    }
    const Circulation& circulation = parameters.circulation;
    c.circulation_layer =
        std::min(static_cast<int>(circulation.return_height * c.layers), c.layers - 1);
    c.circulation_kept =
        std::exp(-circulation.loop_ua_w_k / (circulation.flow_kg_s * water_heat_content.c0_j_kgk));
    c.bottom_sensor = layer_point(from.bottom_sensor_height, c.layers);
    c.top_sensor = layer_point(from.top_sensor_height, c.layers);
    c.own_thermostat = layer_point(backup.own_sensor_height, c.layers);
    return c;
}

void add_layer_exchange(const StoreCoefficients& store, const double* layer_c, double* rate_w) {
    std::array<double, most_layers + 1> up_w;  // through the lower face of each layer
    const auto layers = static_cast<std::size_t>(store.layers);
    up_w[0] = 0.0;
    up_w[layers] = 0.0;
    for (std::size_t k = 1; k < layers; ++k) {
        const double excess_k = layer_c[k - 1] - layer_c[k];
        up_w[k] = store.conduction_w_k * excess_k + buoyant_heat_w(store.buoyancy_w_k, excess_k);
    }
    for (std::size_t k = 0; k < layers; ++k) rate_w[k] += up_w[k] - up_w[k + 1];
    raise_plumes(store, layer_c, rate_w);
}

double add_store_loss(const StoreCoefficients& store, double side_factor, double connection_factor,
                      const double* layer_c, double* rate_w) {
    const double side_w_k = store.side_w_k * side_factor;
    double sum_k = 0.0;
    for (int k = 0; k < store.layers; ++k) {
        const double over_k = layer_c[k] - store.room_c;
        rate_w[k] -= side_w_k * over_k;
        sum_k += over_k;
    }
    const int top = store.layers - 1;
    const double connection_w =
        store.connection_w_k * connection_factor * (layer_c[top] - store.room_c);
    rate_w[top] -= connection_w;
    return side_w_k * sum_k + connection_w;
}

double add_backup_heat(const StoreCoefficients& store, const Backup& backup, const double* layer_c,
                       double* rate_w) {
    const auto layers = static_cast<std::size_t>(store.layers);
    std::array<double, most_layers> heat_w;
    double asked_w = 0.0;
    for (std::size_t k = 0; k < layers; ++k) {
        const double drive_k = std::max(backup.flow_temperature_c - layer_c[k], 0.0);
        heat_w[k] = backup.kind == BackupKind::boiler
                        ? backup.coil_ua_w_k * store.backup_share[k] * drive_k
                        : backup.power_w * store.backup_share[k];
        asked_w += heat_w[k];
    }
    const double scale = asked_w > backup.power_w ? backup.power_w / asked_w : 1.0;
    double sum_w = 0.0;
    for (std::size_t k = 0; k < layers; ++k) {
        const double given_w = heat_w[k] * scale;
        rate_w[k] += given_w;
        sum_w += given_w;
    }
    return sum_w;
}

void add_store_flow(const StoreCoefficients& store, const StoreFlow& flow, const double* layer_j_kg,
                    double* rate_w) {
    const int top = store.layers - 1;
    rate_w[0] += flow.draw_kg_s * flow.cold_j_kg;
    rate_w[top] -= (flow.draw_kg_s + flow.circulation_kg_s) * layer_j_kg[top];
    rate_w[store.circulation_layer] += flow.circulation_kg_s * flow.return_j_kg;
    const double jet = jet_exchange * flow.inlet_jet;
    for (int k = 0; k < top; ++k) {
        // What circulates comes back below and rises to the top again.
        const double up_kg_s =
            flow.draw_kg_s + (k >= store.circulation_layer ? flow.circulation_kg_s : 0.0);
        const double stirred_kg_s =
            flow.draw_kg_s * (store.inlet_stir[static_cast<std::size_t>(k)] + jet);
        const double up_w =
            up_kg_s * layer_j_kg[k] + stirred_kg_s * (layer_j_kg[k] - layer_j_kg[k + 1]);
        rate_w[k] -= up_w;
        rate_w[k + 1] += up_w;
    }
}

}  // namespace noonbench::plant
