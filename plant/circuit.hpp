// SPDX-License-Identifier: MIT
// Parameters made ready for the right-hand side: layout and coefficients, worked out once. Never
// changes afterwards, so copies of a plant share it.
#pragma once
#include "boiling_curve.hpp"
#include "collector.hpp"
#include "expansion.hpp"
#include "fluid.hpp"
#include "hydraulics.hpp"
#include "ice.hpp"
#include "layout.hpp"
#include "parameters.hpp"
#include "store.hpp"

#include <array>

namespace noonbench::plant {

/// Cells that count as one body of fluid in the loop's hydraulics: their energies together give
/// their mean temperature in one step.
struct Segment {
    int first = 0;
    int count = 0;
    double b_j_k = 0.0;
    double b_squared = 0.0;
    double four_a = 0.0;
};

struct LoopSegments {
    Segment hot_pipe{};
    Segment station_hot{};
    Segment coil{};
    Segment station_cold{};
    Segment cold_pipe{};
    std::array<Segment, most_rows> rows{};
};

struct Circuit {
    Parameters parameters{};
    Layout layout{};
    HeatContent loop_fluid{};
    double loop_density_kg_m3 = 0.0;  // at 20 degC: cells keep the mass they were filled with
    double loop_cp_j_kgk = 0.0;       // at 50 degC, for exchangers

    // Energy of a cell at t: u = b t + a t^2, so t = 2u / (b + sqrt(b^2 + 4 a u)).
    std::array<double, most_amounts> b_j_k{};
    std::array<double, most_amounts> b_squared{};
    std::array<double, most_amounts> four_a{};

    std::array<double, most_amounts> fluid_kg{};   // of each cell, rows full
    std::array<double, most_amounts> metal_j_k{};  // of each cell
    std::array<double, most_rows> row_full_kg{};
    std::array<double, most_rows> row_m3{};  // room of a row
    double hot_bore_m2 = 0.0;                // section of the hot pipe
    SpecificVolume water{};                  // of the store
    IcyFluid icy{};
    bool freezes = false;  // false with given hydraulics: the loop is liquid whatever happens
    FilledLoop filled{};   // what the pressure follows from

    LoopSegments segments{};
    LoopHydraulics hydraulics{};

    // Losses of the chain's cells.
    std::array<double, most_amounts> to_air_w_k{};
    std::array<double, most_amounts> to_room_w_k{};

    std::array<RowCoefficients, most_rows> rows{};
    std::array<double, most_coil_cells> coil_ua_w_k{};  // clean, from the top down
    std::array<int, most_coil_cells> coil_layer{};      // the layer each cell lies in
    StoreCoefficients store{};

    // For the estimate of the stiffest rate, 1/s per W/K.
    double quickest_chain_k_j = 0.0;
    double quickest_coil_k_j = 0.0;
    std::array<double, most_rows> quickest_row_k_j{};
};

/// Steel and membrane of the vessel, J/K, and its loss to the room with a little of its pipe, W/K;
/// both assumed for an ordinary domestic vessel.
inline constexpr double vessel_shell_j_k = 2500.0;
inline constexpr double vessel_ua_w_k = 2.0;

/// Throws std::invalid_argument with the reason when the parameters make no plant.
[[nodiscard]] Circuit make_circuit(const Parameters& parameters);

/// Energy of one cell at a temperature, J.
[[nodiscard]] double cell_energy_j(const Circuit& circuit, int cell, double t_c);
/// The fluids that fill the loop, each segment at the temperature it would have when stirred.
[[nodiscard]] LoopFluids loop_fluids(const Circuit& circuit, const Amounts& amounts);
/// Temperatures of all cells from their energies: exact inversion, no iteration.
/// The temperature of one cell that holds `energy_j`.
double cell_temperature(const Circuit& circuit, std::size_t cell, double energy_j);
void cell_temperatures(const Circuit& circuit, const double* energy_j, double* t_c);

}  // namespace noonbench::plant
