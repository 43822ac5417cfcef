// SPDX-License-Identifier: MIT
// Boiling, condensing and the liquid that steam pushes about, as rates. All by relaxation: heat
// above the boiling point turns into steam within seconds, steam on cooler walls turns back, liquid
// makes room for gas and comes back when it shrinks. Between them the pressure settles by itself.
#pragma once
#include "loop_picture.hpp"

namespace noonbench::plant {

/// How quickly superheat turns into steam, and how quickly liquid makes room, s. Chosen: between 5
/// and 30 s (20 s) the peak temperature of a stagnating collector moves by a quarter per cent.
inline constexpr double boiling_s = 10.0;
inline constexpr double displacement_s = 10.0;
/// Steam to the walls of a square metre of absorber, and of a metre of pipe, W/K; assumed.
inline constexpr double condensing_w_m2k = 60.0;
inline constexpr double condensing_w_mk = 10.0;
/// Walls could swallow a row's steam in a blink; no faster than in this time, s, on the rows' walls
/// and on each pipe's. Chosen, so that a step of a quarter second cannot take more than is there.
inline constexpr double vanish_in_row_s = 0.5;
inline constexpr double vanish_in_pipe_s = 4.0;
/// Steam lifts its own boiling point by the pressure that it makes, the more so the less the vessel
/// gives. That feedback is held to this time, s, or a waterlogged vessel would need a thousand
/// steps a second.
inline constexpr double feedback_s = 0.5;

/// Adds the rates of boiling, condensing and displacement to all amounts of the loop.
void add_boiling_rates(const Circuit& circuit, const LoopPicture& picture, double* rate);

/// Liquid that leaves a row for the vessel, kg/s; negative: comes back.
[[nodiscard]] double displaced_kg_s(const Circuit& circuit, const LoopPicture& picture,
                                    std::size_t row);

/// The fastest rate in here, 1/s; decides on substeps.
[[nodiscard]] double stiffest_boiling_per_s(const Circuit& circuit, const LoopPicture& picture);

}  // namespace noonbench::plant
