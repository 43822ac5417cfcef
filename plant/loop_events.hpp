// SPDX-License-Identifier: MIT
// What changes in the collector loop at the start of a second, as jumps: levers that take or give
// fluid, the relief valve, leaks, air in and out, the last breath of steam, a burst. Each kilogram
// and joule that crosses the boundary is booked.
#pragma once
#include "circuit.hpp"
#include "layout.hpp"
#include "levers.hpp"
#include "loop_memory.hpp"

namespace noonbench::plant {

/// Fluid given (or taken below zero) at the vessel, kg, at the room's temperature. More than the
/// rows and the vessel hold cannot be taken: the pipes stay full. Returns what was given.
double give_fluid(const Circuit& circuit, double kg, Edge cause, Amounts& amounts,
                  EdgeAmounts& edges);

/// `flow_m3_s` is the loop's flow of the second before. Adds to `edges`; with given hydraulics only
/// the levers act, and the loop stays calm.
void loop_events(const Circuit& circuit, const Levers& levers, double flow_m3_s, Amounts& amounts,
                 LoopMemory& memory, EdgeAmounts& edges);

}  // namespace noonbench::plant
