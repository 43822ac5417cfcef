// SPDX-License-Identifier: MIT
// Which amount sits at which index. The state is one flat array: energies of the loop's chain
// (hot pipe, hot station leg, coil, cold station leg, cold pipe, in the pump's direction), of the
// collector rows, of the store's layers from the bottom up, of the vessel's liquid, of liquid that
// is set aside behind a shut cap, of each row's steam [J over liquid at 0 degC]; then the sensors'
// temperatures [degC]; the liquid of each row and of the vessel [kg]; then the edges booked during
// a step.
#pragma once
#include "sky.hpp"

#include <array>

namespace noonbench::plant {

/// Flows across which the plant's energy is booked, in joules (mass: kilograms).
enum class Edge : int {
    absorbed,           // outside -> collectors
    pump_heat,          // outside -> loop
    backup,             // outside -> store
    cold_in,            // outside -> store, carried by cold water
    collector_loss,     // collectors -> outside, sky radiation included
    pipe_loss,          // pipes and station -> outside
    store_loss,         // store -> outside, connections included
    hot_out,            // store -> outside, carried by hot water
    circulation_loss,   // store -> outside, by the circulation loop
    fluid_in,           // outside -> loop, carried by fluid that was topped up
    fluid_out,          // loop -> outside, carried by fluid or steam that left
    safety_in,          // outside -> store, cold water that follows the store's safety valve
    safety_out,         // store -> outside, hot water out of its safety valve
    collector_to_loop,  // inner: carried out of the rows minus carried in
    coil,               // inner: loop -> store
    hot_mass,           // kilograms drawn from the store
    safety_mass,        // kilograms out of the store's safety valve
    filled_mass,        // kilograms of loop fluid from here on: topped up,
    relief_mass,        // out of the relief valve, weeping included,
    leak_mass,          // out of a leak or a burst absorber,
    vent_mass,          // boiled off through an open vent on the roof
    taken_mass,         // let out by hand (lever lost_fluid_m3)
    count
};
inline constexpr int edge_count = static_cast<int>(Edge::count);
inline constexpr int outside_edge_count = static_cast<int>(Edge::collector_to_loop);

/// +1: the edge adds to the plant's energy, -1: it takes away.
inline constexpr std::array<double, outside_edge_count> edge_sign{1,  1,  1, 1,  -1, -1, -1,
                                                                  -1, -1, 1, -1, 1,  -1};

using EdgeAmounts = std::array<double, edge_count>;
constexpr double& at(EdgeAmounts& edges, Edge edge) {
    return edges[static_cast<std::size_t>(edge)];
}
constexpr double at(const EdgeAmounts& edges, Edge edge) {
    return edges[static_cast<std::size_t>(edge)];
}

inline constexpr int most_amounts = 224;
inline constexpr int most_layers = 32;
inline constexpr int most_coil_cells = most_layers;
using Amounts = std::array<double, most_amounts>;

/// Indices into Amounts; every range is [first, first + count).
struct Layout {
    int hot_pipe = 0;
    int pipe_cells = 0;  // of each leg
    int station_hot = 0;
    int coil = 0;
    int coil_cells = 0;
    int station_cold = 0;
    int cold_pipe = 0;
    int chain_cells = 0;  // hot pipe .. cold pipe
    int rows = 0;
    std::array<int, most_rows> row_first{};
    std::array<int, most_rows> row_cells{};
    int layers_first = 0;
    int layers = 0;
    int bodies = 0;       // chain, rows and layers: energies of constant fluid while all is liquid
    int vessel = 0;       // energy of the vessel's liquid and shell
    int set_aside = 0;    // energy of liquid behind a shut cap or in a waterlogged part
    int steam_first = 0;  // energy of each row's steam: its mass times steam_j_kg
    int cells = 0;        // all energies
    int row_sensor = 0;   // one a row
    int store_bottom_sensor = 0;
    int store_top_sensor = 0;
    int station_hot_sensor = 0;
    int station_cold_sensor = 0;
    int row_kg_first = 0;  // liquid in each row, kg
    int vessel_kg = 0;     // liquid beyond what pipes, coil and rows hold, kg; see loop_picture.hpp
    int edges_first = 0;
    int total = 0;
};

}  // namespace noonbench::plant
