// SPDX-License-Identifier: MIT
// Nobody is sent to a site to change a setting that changes nothing.
#pragma once
#include "halving.hpp"
#include "halving_grid.hpp"
#include "score.hpp"

#include <cstddef>

namespace noonbench::harness {

/// Puts each setting of the winner back to its level as delivered where that leaves every score of
/// every world as it was, to the last bit: a limit that is never reached, say. The winner found
/// then stands for the new one everywhere in the result, beside which it stays in the set. Runs the
/// winner with one setting put back after the other in all worlds.
void put_back_what_changes_nothing(const Grid& grid, std::size_t delivered, const RunTrials& run,
                                   HalvingResult& result);

}  // namespace noonbench::harness
