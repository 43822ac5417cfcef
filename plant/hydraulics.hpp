// SPDX-License-Identifier: MIT
// The loop as a circuit of pressures: the pump's head, buoyancy and every resistance, with one flow
// that balances them. Unknown is mass flow, the same all round; pressures in pascal.
//
//   pump(Q, n) + buoyancy - check valve - pipes - coil - fittings - flow setter - rows = 0
//
// Every resistance rises with the flow and the pump's head falls, so there is one root at most.
#pragma once
#include "fluid_table.hpp"
#include "friction.hpp"
#include "levers.hpp"
#include "parameters.hpp"
#include "sky.hpp"

#include <array>

namespace noonbench::plant {

/// A round tube that carries the loop's whole mass flow m: Re = reynolds_1_m m/mu,
/// dp = phi friction_1_m3 mu m/rho.
struct Tube {
    double reynolds_1_m = 0.0;   // 4/(pi d)
    double friction_1_m3 = 0.0;  // L/(2 d^2 A)
    double roughness_term = 0.0;
};
[[nodiscard]] Tube make_tube(double length_m, double bore_m, double roughness_m);

/// A row: dp = laminar_1_m3 mu m/rho + local_1_m4 m^2/rho for its own mass flow m.
struct RowTubes {
    double laminar_1_m3 = 0.0;
    double local_1_m4 = 0.0;
    double rise_m = 0.0;  // from its lower to its upper end
};

struct LoopHydraulics {
    FluidTable fluid{};
    Tube hot_pipe{};
    Tube coil{};
    Tube cold_pipe{};
    std::array<RowTubes, most_rows> rows{};
    std::size_t row_count = 0;
    double height_m = 0.0;  // collectors' top; this and the next two above the station
    double coil_top_m = 0.0;
    double coil_bottom_m = 0.0;
    double shut_off_j_kg = 0.0;     // g H0
    double pump_1_m4 = 0.0;         // the pump's curve: dp/rho = shut_off n^2 - pump_1_m4 Q|Q|
    double opening_pa = 0.0;        // of the check valve
    double zeta_1_m4 = 0.0;         // what zeta = 1 on the cold pipe's bore is: 1/(2 A^2)
    double fittings_zeta = 0.0;     // bends and bodies; strainer, check valve and loop valve apart
    double setter_zeta = 0.0;       // as commissioned
    bool full_flow_reached = true;  // false: even with the setter open the pump gives less
};

/// What fills each part of the loop, each at its own mean temperature.
struct LoopFluids {
    FluidProperties hot_pipe{};
    FluidProperties station_hot{};
    FluidProperties coil{};
    FluidProperties station_cold{};
    FluidProperties cold_pipe{};
    std::array<FluidProperties, most_rows> rows{};
};
/// The whole loop at one temperature.
[[nodiscard]] LoopFluids uniform_fluids(const LoopHydraulics& hydraulics, double t_c);

/// Coefficients, and the flow setter commissioned: with everything at 40 degC and the pump at full
/// level the loop runs at `full_flow_m3_s` (counted at 20 degC like everywhere in the plant), or
/// the setter is open and `full_flow_reached` is false.
[[nodiscard]] LoopHydraulics make_hydraulics(const Parameters& parameters);

/// Pressure that drives the loop's fluid in the pump's direction while nothing moves, Pa, the
/// strongest row included; the check valve is not in it.
[[nodiscard]] double drive_at_rest_pa(const LoopHydraulics& hydraulics, const LoopFluids& fluids,
                                      double level, const Levers& levers);

/// What stands in the way of the flow besides friction.
struct LoopObstacles {
    double missing_pa = 0.0;  // weight of the liquid that gas has driven from the loop's top
    std::array<double, most_rows> passable{1.0, 1.0, 1.0, 1.0,
                                           1.0};  // share of a row's flow that gets past its gas
};

struct LoopFlow {
    double total_kg_s = 0.0;  // negative: backward
    std::array<double, most_rows> row_kg_s{};
    int evaluations = 0;  // of the balance of pressures
};
/// The flow at which the pressures balance, at pump level 0..1 (0: the pump is a resistance). By
/// cases on the drive at rest: above the check valve's opening forward; negative with a leaking or
/// held valve backward; else exactly nothing. Rows share the flow so that all see the same head;
/// fluid that would circulate from row to row is left out. Newton steps inside a bracket, started
/// from the arguments alone. Where gas has broken the siphon nothing moves until the drive carries
/// the missing column.
[[nodiscard]] LoopFlow solve_loop(const LoopHydraulics& hydraulics, const LoopFluids& fluids,
                                  double level, const Levers& levers,
                                  const LoopObstacles& obstacles = {});

}  // namespace noonbench::plant
