// SPDX-License-Identifier: MIT
// Who may be the best of all that were tried, and by how much each one would lead the winner in
// each drawing of the worlds: the table from which the promise of a flat set is read.
#pragma once
#include "flat_set_bootstrap.hpp"
#include "halving_grid.hpp"
#include "halving_scores.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace noonbench::harness {

/// One number per world.
[[nodiscard]] std::vector<double> objectives_of(const Tried& tried);
[[nodiscard]] std::vector<double> margins_of(const Tried& tried, std::size_t constraint);

struct Rival {
    std::size_t place = 0;  // among the tried
    bool ran_everywhere = false;
    std::vector<double> leads_kwh;  // of its mean objective over the winner's, one for each draw
    bool in_set = false;
};

/// What the table is made from.
struct RivalTable {
    const Grid& grid;
    std::span<const Tried> tried;
    std::size_t winner = 0;  // its place among the tried; it ran in all worlds
    double tolerance_kwh = 0.0;
    std::span<const WorldDraw> draws;  // empty: only those that ran everywhere are listed
    std::uint64_t seed = 1;
};

/// Whether no margin is broken: by its mean over all worlds, or for one that was dropped, by the
/// winner's mean and the mean of its differences from the winner in its own worlds.
[[nodiscard]] bool keeps_margins(const RivalTable& table, std::size_t place);

/// All that keep the constraints; of those dropped only whoever could lead the winner by more than
/// the tolerance in one draw of a hundred thousand. In the order of the tried.
[[nodiscard]] std::vector<Rival> list_rivals(const RivalTable& table);

}  // namespace noonbench::harness
