// SPDX-License-Identifier: MIT
// From the numbers of a search to what is told of it: the plain data of the settings sheet, and a
// short text for the terminal.
#pragma once
#include "harness/choose/candidates.hpp"
#include "harness/choose/chosen.hpp"
#include "harness/choose/flat_set_fresh.hpp"
#include "harness/choose/halving.hpp"
#include "harness/choose/trial_runner.hpp"
#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace noonbench::cli {

/// All that a search has left. Everything is referred to.
struct SearchDone {
    const harness::Scenario& site;
    const harness::SearchSpace& space;
    const harness::Grid& grid;
    const harness::HalvingResult& search;
    const harness::FreshGain& fresh;
    const std::vector<std::size_t>& fresh_worlds;
    const harness::TrialRunner& weeks;  // of the search
    const harness::TrialRunner& years;  // of the fresh worlds
    harness::Weights weights{};
    std::uint64_t seed = 1;
    std::size_t delivered = 0;                               // candidate
    const std::vector<std::optional<std::size_t>>& instead;  // of each dimension; ran in all worlds
                                                             // of the search, as the winner did
    std::string repeat;                                      // the command
};

/// The figures of each candidate tried are means over its worlds; those of the winner are means
/// over the fresh worlds.
[[nodiscard]] harness::Chosen chosen_from(const SearchDone& done);

/// The settings with what they were and how exactly they matter, gain, limits that are not kept.
[[nodiscard]] std::string chosen_text(const harness::Chosen& chosen);

}  // namespace noonbench::cli
