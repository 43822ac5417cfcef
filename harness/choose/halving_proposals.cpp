// SPDX-License-Identifier: MIT
#include "halving_proposals.hpp"

#include "plant/random.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace noonbench::harness {

namespace {

constexpr std::size_t most_pool = 50'000;
constexpr std::size_t most_measured = 120;  // the cost of a fit grows with the cube
constexpr std::size_t shortlist = 120;
constexpr std::size_t leaders_looked_around = 4;
constexpr double hope = 1.0;  // standard deviations

/// The best by value, in that order.
std::vector<std::size_t> best_of(const std::vector<std::size_t>& candidates,
                                 const std::vector<double>& value, std::size_t count) {
    std::vector<std::pair<double, std::size_t>> order;
    order.reserve(candidates.size());
    for (std::size_t i = 0; i < candidates.size(); ++i)
        order.emplace_back(-value[i], candidates[i]);
    const std::size_t kept = std::min(count, order.size());
    std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(kept),
                      order.end());
    std::vector<std::size_t> best;
    best.reserve(kept);
    for (std::size_t i = 0; i < kept; ++i) best.push_back(order[i].second);
    return best;
}

/// What is left of the covariances once point `p` will have been measured.
void condition_on(std::vector<double>& covariance, std::size_t p, std::size_t count) {
    const double variance = covariance[p * count + p];
    if (variance <= 0.0) return;
    std::vector<double> row(count);
    for (std::size_t q = 0; q < count; ++q) row[q] = covariance[p * count + q];
    for (std::size_t a = 0; a < count; ++a)
        for (std::size_t b = 0; b < count; ++b)
            covariance[a * count + b] -= row[a] * row[b] / variance;
}

}  // namespace

/// Surfaces in standard deviations of their quantity, so that prices are as in halving_scores.
struct Proposer::Guess {
    struct Quantity {
        Surface surface;
        double zero = 0.0;  // where the margin itself is 0, in the surface's measure
    };
    std::vector<Quantity> quantities;

    [[nodiscard]] double value(std::span<const std::size_t> point) const {
        double sum = quantities[0].surface.mean(point);
        for (std::size_t k = 1; k < quantities.size(); ++k)
            sum -= price(quantities[k].surface.mean(point) - quantities[k].zero);
        return sum;
    }
    static double price(double margin) { return price_of_violation * std::max(0.0, -margin); }
};

Proposer::Proposer(const Grid& grid, std::vector<std::size_t> possible, std::uint64_t seed)
    : grid_(grid), pool_(std::move(possible)) {
    if (pool_.size() <= most_pool) return;
    plant::RandomSequence random(plant::random_stream(seed, "choose: points looked at").key);
    for (std::size_t i = 0; i < most_pool; ++i)
        std::swap(pool_[i], pool_[i + random.below(pool_.size() - i)]);
    pool_.resize(most_pool);
    std::sort(pool_.begin(), pool_.end());
}

Proposer::Guess Proposer::guess(std::span<const Estimate> estimates) {
    std::vector<std::size_t> order = in_priced_order(estimates);
    order.resize(std::min(order.size(), most_measured));
    const std::size_t quantities = 1 + estimates[0].margins.size();
    shapes_.resize(quantities);
    Guess found;
    for (std::size_t k = 0; k < quantities; ++k) {
        const auto value = [&](const Estimate& e) {
            return k == 0 ? e.objective_kwh : e.margins[k - 1];
        };
        std::vector<double> values;
        values.reserve(order.size());
        for (const std::size_t i : order) values.push_back(value(estimates[i]));
        const double centre = mean_of(values);
        const double deviation = standard_deviation_of(values);
        const double scale = deviation > 0.0 ? deviation : 1.0;
        std::vector<Measured> measured;
        measured.reserve(order.size());
        for (const std::size_t i : order)
            measured.push_back({grid_.point_of(estimates[i].candidate),
                                (value(estimates[i]) - centre) / scale,
                                1.0 / static_cast<double>(estimates[i].worlds)});
        found.quantities.push_back({Surface(grid_.levels, measured, shapes_[k]), -centre / scale});
    }
    return found;
}

std::vector<std::size_t> Proposer::untried(std::span<const Estimate> estimates) const {
    std::set<std::size_t> looked_at(pool_.begin(), pool_.end());
    const std::vector<std::size_t> order = in_strict_order(estimates);
    for (std::size_t i = 0; i < std::min(leaders_looked_around, order.size()); ++i)
        for (const std::size_t near : grid_.neighbours(estimates[order[i]].candidate))
            looked_at.insert(near);
    for (const Estimate& estimate : estimates) looked_at.erase(estimate.candidate);
    return {looked_at.begin(), looked_at.end()};
}

std::vector<std::size_t> Proposer::propose(std::span<const Estimate> estimates, std::size_t count) {
    const std::vector<std::size_t> pool = untried(estimates);
    if (pool.empty() || count == 0) return {};
    const Guess guessed = guess(estimates);
    std::vector<double> value;
    value.reserve(pool.size());
    for (const std::size_t candidate : pool)
        value.push_back(guessed.value(grid_.point_of(candidate)));
    const std::vector<std::size_t> few = best_of(pool, value, std::max(shortlist, count));

    std::vector<GridPoint> points;
    points.reserve(few.size());
    for (const std::size_t candidate : few) points.push_back(grid_.point_of(candidate));
    std::vector<double> cost(few.size(), 0.0);
    for (std::size_t k = 1; k < guessed.quantities.size(); ++k) {
        const auto& margin = guessed.quantities[k];
        const Surface::Joint joint = margin.surface.joint(points);
        for (std::size_t i = 0; i < few.size(); ++i) {
            const double deviation = std::sqrt(std::max(0.0, joint.covariance[i * few.size() + i]));
            cost[i] += Guess::price(joint.mean[i] + hope * deviation - margin.zero);
        }
    }
    Surface::Joint objective = guessed.quantities[0].surface.joint(points);
    std::vector<std::size_t> picked;
    std::vector<bool> taken(few.size(), false);
    while (picked.size() < std::min(count, few.size())) {
        std::size_t best = few.size();
        double most = 0.0;
        for (std::size_t i = 0; i < few.size(); ++i) {
            if (taken[i]) continue;
            const double variance = std::max(0.0, objective.covariance[i * few.size() + i]);
            const double hoped = objective.mean[i] + hope * std::sqrt(variance) - cost[i];
            if (best != few.size() && hoped <= most) continue;
            best = i;
            most = hoped;
        }
        taken[best] = true;
        picked.push_back(few[best]);
        condition_on(objective.covariance, best, few.size());
    }
    return picked;
}

std::vector<std::size_t> Proposer::ranked(std::span<const Estimate> estimates,
                                          const std::vector<std::size_t>& candidates) {
    const Guess guessed = guess(estimates);
    std::vector<double> value;
    value.reserve(candidates.size());
    for (const std::size_t candidate : candidates)
        value.push_back(guessed.value(grid_.point_of(candidate)));
    return best_of(candidates, value, candidates.size());
}

}  // namespace noonbench::harness
