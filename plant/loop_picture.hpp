// SPDX-License-Identifier: MIT
// The collector loop at one instant, worked out from the amounts alone: temperatures and masses of
// all cells, the pressure, and how much room steam, air and cavity take.
//
// Pipes, coil and station always hold the mass that they were filled with; the liquid of a row
// varies; all other liquid is one amount, `vessel_kg`. Fluid that expands in the cells is not moved
// in the books: only its volume counts, in the pressure. So vessel_kg is what the vessel would hold
// with everything at the fill temperature; after a loss it may lie a little below zero while the
// loop is hot.
#pragma once
#include "circuit.hpp"
#include "expansion.hpp"
#include "levers.hpp"
#include "loop_memory.hpp"

#include <array>

namespace noonbench::plant {

/// Steam carries one specific energy whatever its temperature, J/kg over liquid at 0 degC: that of
/// the liquid at 140 degC and the heat of evaporation there (IAPWS R7-97(2012): 2144.3 kJ/kg). The
/// error is below 2 % of the little that all steam of a loop holds.
inline constexpr double evaporation_j_kg = 2.144e6;
[[nodiscard]] double steam_j_kg(const Circuit& circuit);

struct LoopPicture {
    std::array<double, most_amounts> t_c;     // loop cells [0, layers_first)
    std::array<double, most_amounts> e_j_kg;  // of the fluid in them, ice included
    std::array<double, most_amounts> kg;      // liquid and ice in them
    std::array<double, most_amounts> ice;     // share of it that is ice
    double vessel_kg = 0.0;                   // of liquid; below zero: so much is missing
    double vessel_c = 18.0;
    double vessel_j_kg = 0.0;             // of liquid that leaves the vessel
    std::array<double, most_rows> wet{};  // share of a row's full mass
    std::array<double, most_rows> steam_kg{};
    std::array<double, most_rows> gas_m3{};  // steam, and the row's part of air and cavity
    double steam_m3 = 0.0;
    double air_m3 = 0.0;
    double most_ice = 0.0;          // of all loop cells
    LoopContents contents{};        // what the pressure follows from
    Pressure pressure{};            // absolute
    double boiling_c = 100.0;       // at the collectors' top
    double boiling_k_kg = 0.0;      // how far a kilogram of steam more lifts it, K/kg
    double hottest_wet_c = -100.0;  // of the rows' cells that hold liquid
    double coldest_c = 1000.0;      // of all loop cells

    /// By how much all this is too large for the loop at another pressure at the gauge, m3.
    [[nodiscard]] double excess_m3(const Circuit& circuit, const Levers& levers,
                                   const LoopMemory& memory, double gauge_pa) const;
};

/// `amount` as in Layout. Some hundred nanoseconds.
[[nodiscard]] LoopPicture look_at_loop(const Circuit& circuit, const Levers& levers,
                                       const LoopMemory& memory, const double* amount);

/// The vessel's liquid in the loop's vessel body: its temperature, and the energy of a kilogram
/// that leaves it. Below no liquid at all the missing mass counts at the room's temperature.
struct VesselLiquid {
    double t_c = 18.0;
    double e_j_kg = 0.0;
};
[[nodiscard]] VesselLiquid vessel_liquid(const Circuit& circuit, double vessel_kg, double energy_j);
[[nodiscard]] double vessel_energy_j(const Circuit& circuit, double vessel_kg, double t_c);

/// What stands in the way of the loop's flow at this instant.
[[nodiscard]] LoopObstacles obstacles_of(const Circuit& circuit, const LoopPicture& picture);
/// The fluids for the hydraulics, slush included.
[[nodiscard]] LoopFluids loop_fluids(const Circuit& circuit, const LoopPicture& picture);

}  // namespace noonbench::plant
