// SPDX-License-Identifier: MIT
// What the collector loop remembers from tick to tick besides its amounts.
#pragma once
#include <cstdint>

namespace noonbench::plant {

/// Most seconds are `calm`: all liquid, full, above freezing. The right-hand side is then the short
/// one, and pressure is looked at every few seconds only.
enum class LoopRegime : std::uint8_t {
    calm,
    disturbed,  // steam, air, a cavity or ice somewhere, or a row that is not full
};

struct LoopMemory {
    LoopRegime regime = LoopRegime::calm;
    std::int32_t calm_s = 0;     // seconds since pressure was last looked at
    std::int32_t next_s = 0;     // look again when calm_s reaches it
    double air_kg = 0.0;         // pocket at the collectors' top
    double bubbles_kg = 0.0;     // fine bubbles of a new fill
    double set_aside_kg = 0.0;   // liquid behind a shut cap or in a waterlogged part of the vessel
    double let_out_m3 = 0.0;     // what levers have already done: fluid let out,
    double air_let_in_m3 = 0.0;  // air trapped,
    double waterlogged_share = 0.0;  // vessel lost to water,
    bool vessel_shut = false;        // vessel's cap shut
    bool relief_lifted = false;      // the valve has lifted once: its seat may weep
    bool burst = false;              // ice has split an absorber
    double potable_drip_m3 = 0.0;    // cold-side expansion water lost at the tundish
    double hot_fluid_s = 0.0;        // seconds with wet fluid above ageing_from_c
    double steam_s = 0.0;            // seconds with steam
};

/// Propylene glycol's inhibitors break down above about 140 degC (common practice, no source).
inline constexpr double ageing_from_c = 140.0;

}  // namespace noonbench::plant
