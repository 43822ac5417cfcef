// SPDX-License-Identifier: MIT
// A sealed run: somebody else is to find the fault from what a customer's log and a visit show.
// What the faults move, and every word about them, stays out of all that the run leaves.
#pragma once
#include "run_result.hpp"

#include "traces/table.hpp"

#include "harness/scenario/scenario.hpp"

#include <vector>

namespace noonbench::harness {

/// The scenario without its words: neutral name and title, no requirements of its own, nothing that
/// its fault file tells. It runs as before; its run is recorded sealed.
[[nodiscard]] Scenario sealed(Scenario scenario);

/// Whether an event of a move tells what is wrong: any lever, since nobody on site turns one, and
/// whatever a fault moves.
[[nodiscard]] bool tells_fault(const traces::Event& event);
[[nodiscard]] bool tells_fault(const Move& move);

/// The events that do not tell.
[[nodiscard]] std::vector<traces::Event> without_telling(std::vector<traces::Event> events);

/// The moves that a page may know of: those that do not tell, and, nameless, the settings and the
/// power of the controller, which its own display shows.
[[nodiscard]] std::vector<Move> shown_moves(const std::vector<Move>& moves);

}  // namespace noonbench::harness
