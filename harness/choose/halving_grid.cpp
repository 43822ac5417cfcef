// SPDX-License-Identifier: MIT
#include "halving_grid.hpp"

#include "plant/random.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace noonbench::harness {

std::size_t Grid::size() const {
    std::size_t points = 1;
    for (const std::size_t count : levels) points *= count;
    return points;
}

GridPoint Grid::point_of(std::size_t candidate) const {
    GridPoint point(levels.size());
    for (std::size_t d = levels.size(); d-- > 0;) {
        point[d] = candidate % levels[d];
        candidate /= levels[d];
    }
    return point;
}

std::size_t Grid::candidate_of(std::span<const std::size_t> point) const {
    std::size_t candidate = 0;
    for (std::size_t d = 0; d < levels.size(); ++d) candidate = candidate * levels[d] + point[d];
    return candidate;
}

bool Grid::is_possible(std::size_t candidate) const {
    return candidate < size() && (!exists || exists(point_of(candidate)));
}

std::vector<std::size_t> Grid::neighbours(std::size_t candidate) const {
    std::vector<std::size_t> found;
    GridPoint point = point_of(candidate);
    const auto keep = [&] {
        const std::size_t neighbour = candidate_of(point);
        if (is_possible(neighbour)) found.push_back(neighbour);
    };
    for (std::size_t d = 0; d < levels.size(); ++d) {
        const std::size_t level = point[d];
        for (const std::size_t other : {level - 1, level + 1}) {  // below 0 wraps beyond the count
            if (other >= levels[d]) continue;
            point[d] = other;
            keep();
        }
        point[d] = level;
    }
    std::sort(found.begin(), found.end());
    return found;
}

std::vector<std::size_t> Grid::possible() const {
    std::vector<std::size_t> found;
    const std::size_t points = size();
    for (std::size_t i = 0; i < points; ++i)
        if (is_possible(i)) found.push_back(i);
    return found;
}

std::vector<std::size_t> evenly_spread(const Grid& grid, std::span<const std::size_t> possible,
                                       std::size_t count, std::uint64_t seed) {
    constexpr std::size_t tries_a_point = 50;  // then the possible ones are too few for the lattice
    const std::size_t dimensions = grid.levels.size();
    plant::RandomSequence random(plant::random_stream(seed, "choose: evenly spread").key);
    std::vector<double> at(dimensions);
    for (double& share : at) share = random.uniform();
    // Multiples of the powers of a generalised golden ratio (Roberts 2018, from memory).
    double ratio = 1.5;
    for (int i = 0; i < 60; ++i)
        ratio = std::pow(1.0 + ratio, 1.0 / static_cast<double>(dimensions + 1));

    std::vector<std::size_t> spread;
    std::set<std::size_t> taken;
    const auto take = [&](std::size_t candidate) {
        if (taken.insert(candidate).second) spread.push_back(candidate);
    };
    const std::size_t wanted = std::min(count, possible.size());
    GridPoint point(dimensions);
    for (std::size_t i = 0; i < tries_a_point * wanted && spread.size() < wanted; ++i) {
        double step = 1.0;
        for (std::size_t d = 0; d < dimensions; ++d) {
            step /= ratio;
            at[d] += step;
            at[d] -= std::floor(at[d]);
            const auto level =
                static_cast<std::size_t>(at[d] * static_cast<double>(grid.levels[d]));
            point[d] = std::min(level, grid.levels[d] - 1);
        }
        const std::size_t candidate = grid.candidate_of(point);
        if (grid.is_possible(candidate)) take(candidate);
    }
    while (spread.size() < wanted) take(possible[random.below(possible.size())]);
    return spread;
}

}  // namespace noonbench::harness
