// SPDX-License-Identifier: MIT
#include "flat_set_bootstrap.hpp"

#include "halving_scores.hpp"
#include "plant/random.hpp"

#include <boost/math/distributions/chi_squared.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace noonbench::harness {

std::vector<WorldDraw> draw_worlds(std::size_t worlds, std::size_t draws, std::uint64_t seed) {
    if (worlds < 2) throw std::invalid_argument("choose: two worlds are the least to draw from");
    plant::RandomSequence random(plant::random_stream(seed, "choose: worlds drawn again").key);
    const double count = static_cast<double>(worlds);
    // Boost.Math would go through long double, for digits that no draw needs.
    using DoubleIsEnough =
        boost::math::policies::policy<boost::math::policies::promote_double<false>>;
    const boost::math::chi_squared_distribution<double, DoubleIsEnough> scatter(count - 1.0);
    std::vector<WorldDraw> all(draws);
    for (WorldDraw& draw : all) {
        draw.weights.assign(worlds, 0.0);
        for (std::size_t i = 0; i < worlds; ++i) draw.weights[random.below(worlds)] += 1.0 / count;
        const double chi_squared = boost::math::quantile(scatter, random.uniform());
        // At 0 the deviation has no bound; 1e-12 of a chi-squared is beyond any draw that counts.
        draw.student = std::sqrt((count - 1.0) / std::max(chi_squared, 1e-12));
        draw.stretch = draw.student * std::sqrt(count / (count - 1.0));
    }
    return all;
}

double mean_in(const WorldDraw& draw, std::span<const double> by_world) {
    return mean_in(draw, by_world, draw.stretch);
}

double mean_in(const WorldDraw& draw, std::span<const double> by_world, double stretch) {
    const double mean = mean_of(by_world);
    double deviation = 0.0;
    for (std::size_t w = 0; w < by_world.size(); ++w)
        deviation += draw.weights[w] * (by_world[w] - mean);
    return mean + stretch * deviation;
}

MeanInterval mean_interval(std::span<const double> by_world, double confidence, std::size_t draws,
                           std::uint64_t seed) {
    std::vector<double> means;
    means.reserve(draws);
    for (const WorldDraw& draw : draw_worlds(by_world.size(), draws, seed))
        means.push_back(mean_in(draw, by_world));
    std::sort(means.begin(), means.end());
    const auto cut_off =
        static_cast<std::size_t>(0.5 * (1.0 - confidence) * static_cast<double>(draws));
    return {means.at(cut_off), means.at(draws - 1 - cut_off)};
}

}  // namespace noonbench::harness
