// SPDX-License-Identifier: MIT
// What a choice is worth in worlds that played no part in it. The winner of a search is also the
// one whom the search's worlds happened to favour; fresh worlds favour nobody.
#pragma once
#include "flat_set_bootstrap.hpp"
#include "score.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace noonbench::harness {

struct FreshRequest {
    std::size_t chosen = 0;           // candidates
    std::size_t delivered = 0;        // with which it is compared
    std::vector<std::size_t> worlds;  // none of those of the search; at least two, all different
    double confidence = 0.95;
    std::size_t draws = 4000;
    std::uint64_t seed = 1;
};

struct FreshGain {
    std::vector<double> by_world_kwh;  // the chosen one's objective less the delivered one's
    double mean_kwh = 0.0;
    MeanInterval interval_kwh;       // of the mean, by drawing the worlds again
    double chosen_saving_kwh = 0.0;  // means
    double delivered_saving_kwh = 0.0;
    std::vector<double> chosen_margins;        // means
    std::vector<double> chosen_worst_margins;  // in the single worst world of each
};

/// Runs both in all the worlds, in one call of `run`. Throws std::invalid_argument for fewer than
/// two worlds or one named twice.
[[nodiscard]] FreshGain fresh_gain(const FreshRequest& request, const RunTrials& run);

}  // namespace noonbench::harness
