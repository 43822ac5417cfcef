// SPDX-License-Identifier: MIT
#include "cloud_spells.hpp"

#include "sky.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {

namespace {

// Half cover gives spells of 300 s each, little or much cover long ones of the other kind; with
// the fair-weather cloud of 1..3 km that drifts at 5..10 m/s these are its minutes.
constexpr double spell_base_s = 150.0;
constexpr std::int32_t shortest_edge_s = 20;
constexpr std::int32_t longest_edge_s = 90;
constexpr double mean_edge_s = 0.5 * (shortest_edge_s + longest_edge_s);

constexpr double overcast_below = 0.35;  // clearness
constexpr double cloudless_above = 0.95;
constexpr double brightest_cloud = 0.50;  // thin or broken; dark ones let through a tenth

double exponential(double mean, RandomStream stream, std::uint64_t counter) {
    return -mean * std::log1p(-random_uniform(stream, counter));
}

}  // namespace

CloudClimate cloud_climate(double clearness) {
    CloudClimate sky;
    sky.cloudy_share =
        std::clamp((cloudless_above - clearness) / (cloudless_above - overcast_below), 0.0, 1.0);
    sky.haze_transmission = 0.62 + 0.38 * clearness;
    sky.gap_diffuse_factor = 1.0 + 1.6 * sky.cloudy_share + 3.0 * (1.0 - sky.haze_transmission);
    sky.cloud_beam_transmission = 0.10 * clearness;
    sky.cloud_global_transmission = std::min(0.08 + 0.85 * clearness, brightest_cloud);
    return sky;
}

HorizontalSky behind_clouds(const HorizontalSky& clear, const CloudClimate& clouds, double cover,
                            double cos_zenith) {
    const double gap_beam = clear.beam_normal_w_m2 * clouds.haze_transmission;
    const double cloud_beam = clear.beam_normal_w_m2 * clouds.cloud_beam_transmission;
    const double gap_diffuse = clear.diffuse_horizontal_w_m2 * clouds.gap_diffuse_factor;
    const double cloud_diffuse = clear.global_horizontal_w_m2 * clouds.cloud_global_transmission;
    HorizontalSky sky;
    sky.beam_normal_w_m2 = gap_beam + cover * (cloud_beam - gap_beam);
    sky.diffuse_horizontal_w_m2 = gap_diffuse + cover * (cloud_diffuse - gap_diffuse);
    sky.global_horizontal_w_m2 =
        sky.diffuse_horizontal_w_m2 + sky.beam_normal_w_m2 * std::max(0.0, cos_zenith);
    return sky;
}

bool starts_cloudy(double cloudy_share) {
    return cloudy_share >= 1.0;
}

std::vector<CloudEdge> cloud_edges(double cloudy_share, RandomStream stream) {
    // Midnight is clear unless the day is overcast all through: a start by chance would flip the
    // whole day when the fit moves the share past it. The telegraph forgets its start with a time
    // constant of about spell_base_s, long before sunrise.
    bool cloudy = cloudy_share >= 1.0;
    std::vector<CloudEdge> edges{{0, 0, cloudy ? 1.0 : 0.0}};
    if (cloudy_share <= 0.0 || cloudy_share >= 1.0) {
        return edges;
    }
    const double cloudy_mean_s = spell_base_s / (1.0 - cloudy_share);
    const double clear_mean_s = spell_base_s / cloudy_share;
    std::uint64_t counter = 0;
    // In doubles up to here and rounded once per edge, so that a small change of the share moves
    // every edge by little: the month's fit needs that.
    double at_s = 0.0;
    double edge_s = 0.0;
    while (true) {
        const double mean_s = cloudy ? cloudy_mean_s : clear_mean_s;
        at_s += edge_s + exponential(mean_s - mean_edge_s, stream, counter);
        edge_s = static_cast<double>(
            random_integer(stream, counter + 1, shortest_edge_s, longest_edge_s));
        counter += 2;
        if (at_s + edge_s >= static_cast<double>(seconds_a_day)) {
            return edges;
        }
        const auto begin_s =
            std::max(static_cast<std::int32_t>(std::lround(at_s)), edges.back().end_s);
        cloudy = !cloudy;
        edges.push_back({begin_s, begin_s + static_cast<std::int32_t>(edge_s), cloudy ? 1.0 : 0.0});
    }
}

std::vector<std::int32_t> bends(const std::vector<CloudEdge>& edges) {
    std::vector<std::int32_t> seconds;
    seconds.reserve(2 * edges.size());
    for (const CloudEdge& edge : edges) {
        if (edge.end_s > 0) {
            seconds.push_back(edge.begin_s);
            seconds.push_back(edge.end_s);
        }
    }
    seconds.erase(std::unique(seconds.begin(), seconds.end()), seconds.end());
    return seconds;
}

double CoverReader::at(std::int32_t second) {
    while (current_ + 1 < edges_.size() && edges_[current_ + 1].begin_s <= second) {
        ++current_;
    }
    const CloudEdge& edge = edges_[current_];
    if (second >= edge.end_s) {
        return edge.cover_after;
    }
    const double before = edges_[current_ - 1].cover_after;  // the first edge has no length
    const double done =
        static_cast<double>(second - edge.begin_s) / static_cast<double>(edge.end_s - edge.begin_s);
    return before + done * (edge.cover_after - before);
}

}  // namespace noonbench::plant
