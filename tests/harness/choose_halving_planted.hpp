// SPDX-License-Identifier: MIT
// Surfaces for the search whose best point is known, or found by running everything.
#pragma once
#include "harness/choose/halving.hpp"
#include "harness/choose/halving_grid.hpp"
#include "harness/choose/score.hpp"
#include "plant/random.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <set>
#include <span>
#include <utility>
#include <vector>

namespace noonbench::harness::testing {

/// Levels as shares of their dimension.
inline std::vector<double> shares_of(const Grid& grid, std::size_t candidate) {
    std::vector<double> shares;
    const GridPoint point = grid.point_of(candidate);
    for (std::size_t d = 0; d < point.size(); ++d)
        shares.push_back(static_cast<double>(point[d]) /
                         static_cast<double>(std::max<std::size_t>(1, grid.levels[d] - 1)));
    return shares;
}
/// A surface like that of a year: some 1500 kWh; a world shifts all candidates by 150 kWh, and two
/// of them apart by 3 kWh if they are alike to 8 if they are not. Dimensions that matter much and
/// little, a ridge along which two of them make up for each other, a twist, on half the seeds a
/// step down, and a constraint that may cut off the top.
class Planted {
  public:
    Planted(std::vector<std::size_t> levels, std::uint64_t seed) : seed_(seed) {
        grid.levels = std::move(levels);
        plant::RandomSequence random(plant::random_stream(seed, "planted").key);
        const std::size_t count = grid.levels.size();
        for (std::size_t d = 0; d < count; ++d) {
            top_.push_back(0.15 + 0.7 * random.uniform());
            depth_kwh_.push_back(3.0 * std::pow(60.0, random.uniform()));
            power_.push_back(random.uniform() < 0.5 ? 2.0 : 1.4);
            slope_.push_back(2.0 * random.uniform() - 1.0);
        }
        ridge_[0] = random.below(count);
        ridge_[1] = (ridge_[0] + 1 + random.below(count - 1)) % count;
        twist_[0] = random.below(count);
        twist_[1] = (twist_[0] + 1 + random.below(count - 1)) % count;
        ridge_kwh_ = 150.0 * random.uniform();
        twist_kwh_ = 60.0 * (2.0 * random.uniform() - 1.0);
        step_kwh_ = random.uniform() < 0.5 ? 40.0 : 0.0;
        step_at_ = 1.1 + 0.6 * random.uniform();
        room_ = 0.25 * random.uniform();
    }

    [[nodiscard]] double smooth_kwh(const std::vector<double>& at) const {
        double value = 1500.0;
        for (std::size_t d = 0; d < at.size(); ++d)
            value -= depth_kwh_[d] * std::pow(std::abs(at[d] - top_[d]), power_[d]);
        const auto away = [&](std::size_t d) { return at[d] - top_[d]; };
        const double off_ridge = away(ridge_[0]) - away(ridge_[1]);
        value -= ridge_kwh_ * off_ridge * off_ridge;
        value += twist_kwh_ * away(twist_[0]) * away(twist_[1]);
        return at[twist_[0]] + at[twist_[1]] > step_at_ ? value - step_kwh_ : value;
    }

    [[nodiscard]] Score score(const Trial& trial) const {
        const std::vector<double> at = shares_of(grid, trial.candidate);
        const plant::RandomStream world =
            plant::sub_stream(plant::random_stream(seed_, "world"), trial.world);
        const plant::RandomStream own = plant::sub_stream(world, trial.candidate + 1000);
        Score score;
        double objective = smooth_kwh(at) + 150.0 * plant::random_noise(world, 0) +
                           2.1 * plant::random_noise(own, 0);
        double margin =
            room_ + 0.3 * plant::random_noise(world, 5) + 0.05 * plant::random_noise(own, 1);
        for (std::size_t d = 0; d < at.size(); ++d) {
            objective += 7.0 * plant::random_noise(world, 10 + d) * (at[d] - top_[d]);
            margin += slope_[d] * (at[d] - top_[d]);
        }
        score.objective_kwh = objective;
        score.saving_kwh = objective + 25.0 + 10.0 * at[0];
        score.margins = {10.0 * margin};
        return score;
    }

    Grid grid;

  private:
    std::uint64_t seed_;
    std::vector<double> top_, depth_kwh_, power_, slope_;
    std::size_t ridge_[2] = {}, twist_[2] = {};
    double ridge_kwh_ = 0.0, twist_kwh_ = 0.0, step_kwh_ = 0.0, step_at_ = 0.0, room_ = 0.0;
};

/// Counts what it runs, and refuses to run anything twice.
class Runner {
  public:
    using ScoreOf = std::function<Score(const Trial&)>;
    explicit Runner(ScoreOf score) : score_(std::move(score)) {}

    RunTrials run() {
        return [this](std::span<const Trial> trials) {
            std::vector<Score> scores;
            for (const Trial& trial : trials) {
                if (!ran_.insert({trial.candidate, trial.world}).second) ++twice_;
                scores.push_back(score_(trial));
            }
            return scores;
        };
    }
    [[nodiscard]] std::size_t ran() const { return ran_.size(); }
    [[nodiscard]] std::size_t twice() const { return twice_; }

  private:
    ScoreOf score_;
    std::set<std::pair<std::size_t, std::size_t>> ran_;
    std::size_t twice_ = 0;
};

inline HalvingRequest request_of(const Grid& grid, std::size_t budget, std::size_t worlds,
                                 std::uint64_t seed) {
    HalvingRequest request;
    request.grid = grid;
    request.delivered = {grid.size() / 2};
    request.budget = budget;
    request.worlds = worlds;
    request.seed = seed;
    return request;
}

inline HalvingResult search(const Planted& planted, std::size_t budget, std::size_t worlds,
                            std::uint64_t seed) {
    Runner runner([&](const Trial& trial) { return planted.score(trial); });
    return search_settings(request_of(planted.grid, budget, worlds, seed), runner.run());
}

/// The best of all that keep the constraint, in the same worlds, and its mean saving.
inline Score best_of_all(const Planted& planted, std::size_t worlds) {
    Score best;
    best.objective_kwh = -std::numeric_limits<double>::infinity();
    for (std::size_t c = 0; c < planted.grid.size(); ++c) {
        Score mean{0.0, 0.0, {0.0}};
        for (std::size_t w = 0; w < worlds; ++w) {
            const Score score = planted.score({c, w});
            mean.saving_kwh += score.saving_kwh / static_cast<double>(worlds);
            mean.objective_kwh += score.objective_kwh / static_cast<double>(worlds);
            mean.margins[0] += score.margins[0];
        }
        if (mean.margins[0] >= 0.0 && mean.objective_kwh > best.objective_kwh) best = mean;
    }
    return best;
}

/// 720 points: in eight worlds 5760 trials.
inline const std::vector<std::size_t> seven_hundred = {5, 4, 4, 3, 3};

}  // namespace noonbench::harness::testing
