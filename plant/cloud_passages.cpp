// SPDX-License-Identifier: MIT
#include "cloud_passages.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

constexpr std::int32_t hour_s = 3600;
constexpr double spell_base_s = 150.0;  // as for the seeded years, see cloud_spells.cpp
constexpr double shortest_spell_s = 70.0;
constexpr double least_share = 0.04;  // room for two of the shortest spells
constexpr std::int32_t shortest_edge_s = 20;
constexpr std::int32_t longest_edge_s = 90;

enum Draw : std::uint64_t { draw_cycles, draw_gaps, draw_clouds, draw_edges };

struct Spells {
    int gaps = 1;
    int clouds = 1;
};

Spells spells_of(const CloudyHour& hour, int cycles) {
    return {cycles + (hour.begins_sunny && hour.ends_sunny ? 1 : 0),
            cycles + (hour.begins_sunny || hour.ends_sunny ? 0 : 1)};
}

/// Lengths of so many spells that last `total_s` together, exponential beyond the shortest.
std::vector<double> lengths(int count, double total_s, RandomStream stream) {
    std::vector<double> all;
    double sum = 0.0;
    for (int i = 0; i < count; ++i) {
        all.push_back(-std::log1p(-random_uniform(stream, static_cast<std::uint64_t>(i))));
        sum += all.back();
    }
    const double spare_s = total_s - shortest_spell_s * count;
    for (double& length : all) {
        length = shortest_spell_s + (sum > 0.0 ? spare_s * length / sum : spare_s / count);
    }
    return all;
}

/// Seconds of the hour between which the spells last, 0 and 3600 included.
std::vector<std::int32_t> turns(const CloudyHour& hour, RandomStream stream) {
    const double share = std::clamp(hour.sunny_share, least_share, 1.0 - least_share);
    const double sunny_s = share * hour_s;
    const double expected = share * (1.0 - share) * hour_s / spell_base_s;
    int cycles = std::max(
        1, static_cast<int>(expected + random_uniform(sub_stream(stream, draw_cycles), 0)));
    const auto too_many = [&](const Spells& spells) {
        return spells.gaps * shortest_spell_s > sunny_s ||
               spells.clouds * shortest_spell_s > hour_s - sunny_s;
    };
    while (cycles > 1 && too_many(spells_of(hour, cycles))) --cycles;
    const Spells spells = spells_of(hour, cycles);
    const auto gaps = lengths(spells.gaps, sunny_s, sub_stream(stream, draw_gaps));
    const auto clouds = lengths(spells.clouds, hour_s - sunny_s, sub_stream(stream, draw_clouds));

    std::vector<std::int32_t> seconds{0};
    std::size_t gap = 0;
    std::size_t cloud = 0;
    bool sunny = hour.begins_sunny;
    double at_s = 0.0;
    while (gap + cloud + 1 < gaps.size() + clouds.size()) {
        at_s += sunny ? gaps[gap++] : clouds[cloud++];
        seconds.push_back(static_cast<std::int32_t>(std::lround(at_s)));
        sunny = !sunny;
    }
    seconds.push_back(hour_s);
    return seconds;
}

}  // namespace

std::vector<SunBend> draw_passages(const CloudyHour& hour, RandomStream stream) {
    const std::vector<std::int32_t> turn_s = turns(hour, stream);
    const RandomStream edges = sub_stream(stream, draw_edges);
    // No longer than a spell beside it, so that two edges never meet beyond its middle.
    const auto edge_s = [&](std::size_t turn, std::int32_t longest) {
        return std::min(longest, static_cast<std::int32_t>(
                                     random_integer(edges, turn, shortest_edge_s, longest_edge_s)));
    };
    const auto length_s = [&](std::size_t spell) { return turn_s[spell + 1] - turn_s[spell]; };
    const auto level = [](bool sunny) { return sunny ? 1.0 : 0.0; };

    const std::size_t last = turn_s.size() - 1;
    std::vector<SunBend> bends{{0, hour.sun_at_begin}};
    bool sunny = hour.begins_sunny;
    if (hour.sun_at_begin != level(sunny)) {
        bends.push_back({edge_s(0, length_s(0) / 2), level(sunny)});
    }
    for (std::size_t turn = 1; turn < last; ++turn) {
        const std::int32_t edge = edge_s(turn, std::min(length_s(turn - 1), length_s(turn)));
        const std::int32_t begin = turn_s[turn] - edge / 2;
        if (begin > bends.back().second) bends.push_back({begin, level(sunny)});
        sunny = !sunny;
        bends.push_back({begin + edge, level(sunny)});
    }
    if (hour.sun_at_end != level(sunny)) {
        const std::int32_t begin = hour_s - edge_s(last, length_s(last - 1) / 2);
        if (begin > bends.back().second) bends.push_back({begin, level(sunny)});
    }
    if (bends.back().second < hour_s) bends.push_back({hour_s, hour.sun_at_end});
    return bends;
}

}  // namespace noonbench::plant
