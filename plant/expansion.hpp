// SPDX-License-Identifier: MIT
// The pressure of a closed loop: the root of one balance of volumes. Liquid, steam and air ask for
// room; pipes and casings (elastic) and the gas cushion of the expansion vessel give it. Pressures
// are absolute here. The gas obeys Boyle's law at the vessel's temperature.
#pragma once
#include "boiling_curve.hpp"
#include "parameters.hpp"

#include <array>
#include <cstddef>
#include <memory>

namespace noonbench::plant {

/// Give of pipes, casings and hoses, m3/Pa; assumed (20 ml a bar, thirty times what the liquid of
/// an ordinary loop gives by itself). Above zero, or a loop without gas would have no pressure.
inline constexpr double loop_elasticity_m3_pa = 2.0e-10;

/// The liquid is never pulled thinner than this at the top of the loop: what is missing below is a
/// cavity (vacuum and vapour, without mass).
inline constexpr double least_top_pa = 1.0e4;

/// m3/kg of the loop's fluid, every kelvin; straight lines between and beyond. Within 1e-5 of
/// 1 / density_kg_m3 from -50 to 250 degC.
struct SpecificVolume {
    static constexpr double from_c = -50.0;
    static constexpr std::size_t points = 301;
    std::array<double, points> m3_kg{};

    [[nodiscard]] double at(double t_c) const;
};
[[nodiscard]] SpecificVolume specific_volume(double glycol_share);

/// An expansion vessel as it is now; no volume: shut off.
struct Vessel {
    double volume_m3 = 0.018;
    double precharge_pa = 2.5e5;  // of its gas alone, at the vessel's temperature
};
/// min(V, p0 V / p), m3; p > 0.
[[nodiscard]] double gas_volume_m3(const Vessel& vessel, double p_pa);
/// The rest, filled with liquid, m3.
[[nodiscard]] double water_volume_m3(const Vessel& vessel, double p_pa);

/// What the loop offers besides the vessel.
struct LoopRoom {
    double volume_m3 = 0.015;  // at the fill pressure
    double fill_pa = 3.0e5;    // at the gauge
    double static_pa = 0.0;    // gauge minus top: weight of the liquid between them
    double glycol_share = 0.4;
    double elasticity_m3_pa = loop_elasticity_m3_pa;
    std::shared_ptr<const BoilingCurve> boiling{};  // none: worked out each time, slow
};

/// What asks for it, the vessel's liquid included. Steam and air sit at the collectors' top.
struct LoopContents {
    double liquid_m3 = 0.015;
    double steam_kg = 0.0;
    double air_kg = 0.0;
    double top_c = 20.0;  // of the air
};

/// Specific gas constants, J/(kg K): water's (IAPWS R7-97(2012)) and dry air's.
inline constexpr double steam_gas_j_kgk = 461.526;
inline constexpr double air_gas_j_kgk = 287.05;
[[nodiscard]] double air_volume_m3(double air_kg, double t_c, double p_pa);

struct Pressure {
    double gauge_pa = 0.0;   // at the vessel and the gauge, which hang at one height
    double top_pa = 0.0;     // at the collectors' top
    double cavity_m3 = 0.0;  // above zero when top_pa stands at its floor
};

/// Liquid + steam + air + gas cushion - vessel - loop - give, m3, at p at the gauge: falls strictly
/// with p. Steam is an ideal gas at the mixture's boiling point.
[[nodiscard]] double surplus_m3(const LoopRoom& room, const Vessel& vessel,
                                const LoopContents& contents, double p_pa);

/// How fast the surplus falls, m3/Pa: the give of the loop, its vessel and its gases. The slow rise
/// of the boiling point with p is left out, which Newton's method forgives.
[[nodiscard]] double give_m3_pa(const LoopRoom& room, const Vessel& vessel,
                                const LoopContents& contents, double p_pa);

/// Where the surplus is zero: Newton's method within a bracket, halving where it would leave it,
/// at most 60 times; begins from its arguments alone.
[[nodiscard]] Pressure solve_pressure(const LoopRoom& room, const Vessel& vessel,
                                      const LoopContents& contents);

/// A loop as it was filled: what stays while temperatures change.
struct FilledLoop {
    SpecificVolume fluid{};
    LoopRoom room{};
    Vessel vessel{};
    double vessel_c = 18.0;   // the room's, always
    double reserve_kg = 0.0;  // liquid that the vessel took at the fill
    double fill_kg_m3 = 1030.0;
    double atmosphere_pa = 101325.0;
};

/// All fluid at the fill temperature, the vessel's precharge set, then filled until the gauge
/// showed loop.gauge_pressure_pa. `loop_kg` is the fluid outside the vessel. The vessel has the
/// room's temperature always: only cool fluid is pushed into it.
[[nodiscard]] FilledLoop fill_loop(const Parameters& parameters, double loop_kg);

/// Weight of the cold liquid between gauge and collectors' top, Pa.
[[nodiscard]] double static_pressure_pa(const Loop& loop);

/// Size of the vessel, m3, and its precharge above the atmosphere, Pa: as given, else by rule.
[[nodiscard]] double vessel_volume_m3(const Parameters& parameters, double loop_m3);
[[nodiscard]] double vessel_precharge_pa(const Loop& loop);

}  // namespace noonbench::plant
