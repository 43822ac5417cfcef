// SPDX-License-Identifier: MIT
#include "flat_set_fresh.hpp"

#include "halving_scores.hpp"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace noonbench::harness {

FreshGain fresh_gain(const FreshRequest& request, const RunTrials& run) {
    const std::size_t count = request.worlds.size();
    if (std::set(request.worlds.begin(), request.worlds.end()).size() != count || count < 2)
        throw std::invalid_argument("choose: fresh worlds must be two or more, all different");
    std::vector<Trial> trials;
    trials.reserve(2 * count);
    for (const std::size_t world : request.worlds) trials.push_back({request.chosen, world});
    for (const std::size_t world : request.worlds) trials.push_back({request.delivered, world});
    const std::vector<Score> scores = run(trials);
    if (scores.size() != trials.size())
        throw std::runtime_error("choose: not as many scores as trials");

    FreshGain gain;
    gain.chosen_margins.assign(scores[0].margins.size(), 0.0);
    gain.chosen_worst_margins = scores[0].margins;
    const double share = 1.0 / static_cast<double>(count);
    for (std::size_t w = 0; w < count; ++w) {
        const Score& chosen = scores[w];
        const Score& delivered = scores[count + w];
        gain.by_world_kwh.push_back(chosen.objective_kwh - delivered.objective_kwh);
        gain.chosen_saving_kwh += share * chosen.saving_kwh;
        gain.delivered_saving_kwh += share * delivered.saving_kwh;
        for (std::size_t k = 0; k < gain.chosen_margins.size(); ++k) {
            gain.chosen_margins[k] += share * chosen.margins.at(k);
            gain.chosen_worst_margins[k] =
                std::min(gain.chosen_worst_margins[k], chosen.margins.at(k));
        }
    }
    gain.mean_kwh = mean_of(gain.by_world_kwh);
    gain.interval_kwh =
        mean_interval(gain.by_world_kwh, request.confidence, request.draws, request.seed);
    return gain;
}

}  // namespace noonbench::harness
