// SPDX-License-Identifier: MIT
#include "clouded_hour.hpp"

#include "clear_moment.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace noonbench::plant {
namespace {

constexpr double hour_s = 3600.0;
constexpr double turbidity = 3.0;
constexpr double cloud_diffuse_gain = 0.2;  // as in a clear day's cloud passage
constexpr double shift_allowed = 0.10;
constexpr int most_trials = 4;
constexpr double most_diffuse_scale = 2.0;

double between(double a, double b, double share) {
    return a + share * (b - a);
}

SkyKnot between(const SkyKnot& a, const SkyKnot& b, CivilSeconds at_s) {
    const double share = static_cast<double>(at_s - a.at_s) / static_cast<double>(b.at_s - a.at_s);
    return {at_s,
            between(a.beam_normal_w_m2, b.beam_normal_w_m2, share),
            between(a.diffuse_horizontal_w_m2, b.diffuse_horizontal_w_m2, share),
            between(a.air_c, b.air_c, share),
            between(a.sky_c, b.sky_c, share),
            between(a.wind_m_s, b.wind_m_s, share)};
}

/// An hour in the making, by knots.
struct Drawn {
    std::vector<SunnyKnot> knots;
    std::vector<double> sun;     // 0 cloud .. 1 gap
    std::vector<double> weight;  // in the hour's mean
};

Drawn draw(const Site& site, const SmoothHour& hour, const std::vector<SunBend>& bends) {
    const CivilSeconds start = hour.knots.front().knot.at_s;
    std::vector<CivilSeconds> times;
    for (const SunnyKnot& smooth : hour.knots) times.push_back(smooth.knot.at_s);
    for (const SunBend& bend : bends) times.push_back(start + bend.second);
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end()), times.end());

    Drawn drawn;
    std::size_t piece = 1;
    std::size_t bend = 1;
    for (const CivilSeconds at : times) {
        while (hour.knots[piece].knot.at_s < at) ++piece;
        while (start + bends[bend].second < at) ++bend;
        const auto done = static_cast<double>(at - start - bends[bend - 1].second);
        const auto whole = static_cast<double>(bends[bend].second - bends[bend - 1].second);
        drawn.sun.push_back(between(bends[bend - 1].sun, bends[bend].sun, done / whole));
        drawn.knots.push_back(
            sunny_knot(site, between(hour.knots[piece - 1].knot, hour.knots[piece].knot, at)));
    }
    for (std::size_t k = 0; k < times.size(); ++k) {
        const CivilSeconds before = times[k > 0 ? k - 1 : k];
        const CivilSeconds after = times[k + 1 < times.size() ? k + 1 : k];
        drawn.weight.push_back(static_cast<double>(after - before) / (2.0 * hour_s));
    }
    return drawn;
}

/// The share of the clear beam in the gaps that gives the hour its mean: the borders and the clouds
/// are given, the rest is for the gaps to carry.
double beam_in_gaps(const SmoothHour& hour, const Drawn& drawn) {
    const std::size_t last = drawn.knots.size() - 1;
    double given = drawn.weight[0] * drawn.knots[0].beam_horizontal_w_m2() +
                   drawn.weight[last] * drawn.knots[last].beam_horizontal_w_m2();
    double open = 0.0;
    for (std::size_t k = 1; k < last; ++k) {
        const double clear = drawn.weight[k] * drawn.knots[k].clear_horizontal_w_m2();
        given += beam_under_cloud * (1.0 - drawn.sun[k]) * clear;
        open += drawn.sun[k] * clear;
    }
    return open > 0.0 ? (hour.beam_mean_w_m2 - given) / open : 0.0;
}

/// False where the beam would exceed the extraterrestrial.
bool fill_beam(Drawn& drawn, double gap_beam) {
    for (std::size_t k = 1; k + 1 < drawn.knots.size(); ++k) {
        SunnyKnot& at = drawn.knots[k];
        at.knot.beam_normal_w_m2 =
            between(beam_under_cloud, gap_beam, drawn.sun[k]) * at.clear_normal_w_m2;
        if (at.knot.beam_normal_w_m2 > at.outside_w_m2) return false;
    }
    return true;
}

/// False where the borders leave too little or too much for the rest.
bool fill_diffuse(const SmoothHour& hour, double mean_sun, Drawn& drawn) {
    const std::size_t last = drawn.knots.size() - 1;
    const auto diffuse = [&](std::size_t k) -> double& {
        return drawn.knots[k].knot.diffuse_horizontal_w_m2;
    };
    const double rest =
        hour.diffuse_mean_w_m2 - drawn.weight[0] * diffuse(0) - drawn.weight[last] * diffuse(last);
    double shape = 0.0;
    for (std::size_t k = 1; k < last; ++k) {
        diffuse(k) *= cloud_diffuse_factor(drawn.sun[k], mean_sun);
        shape += drawn.weight[k] * diffuse(k);
    }
    const double scale = shape > 0.0 ? rest / shape : 1.0;
    if (scale < 1.0 / most_diffuse_scale || scale > most_diffuse_scale) return false;
    for (std::size_t k = 1; k < last; ++k) diffuse(k) *= scale;
    return true;
}

}  // namespace

SunnyKnot sunny_knot(const Site& site, const SkyKnot& knot) {
    const ClearMoment moment = clear_moment(site, turbidity, knot.at_s);
    return {knot, std::max(0.0, moment.cos_zenith), moment.sky.beam_normal_w_m2,
            moment.extraterrestrial_normal_w_m2};
}

SmoothHour smooth_hour(std::vector<SunnyKnot> knots) {
    SmoothHour hour;
    for (std::size_t i = 1; i < knots.size(); ++i) {
        const SunnyKnot& a = knots[i - 1];
        const SunnyKnot& b = knots[i];
        const double half = static_cast<double>(b.knot.at_s - a.knot.at_s) / (2.0 * hour_s);
        hour.beam_mean_w_m2 += half * (a.beam_horizontal_w_m2() + b.beam_horizontal_w_m2());
        hour.diffuse_mean_w_m2 +=
            half * (a.knot.diffuse_horizontal_w_m2 + b.knot.diffuse_horizontal_w_m2);
        hour.clear_mean_w_m2 += half * (a.clear_horizontal_w_m2() + b.clear_horizontal_w_m2());
    }
    hour.knots = std::move(knots);
    return hour;
}

double cloud_diffuse_factor(double sun, double mean_sun) {
    // Divided by the mean of 1 + gain (1 - sun), so that a cloud has 1 + gain times the gap's.
    return (1.0 + cloud_diffuse_gain * (1.0 - sun)) / (1.0 + cloud_diffuse_gain * (1.0 - mean_sun));
}

std::optional<std::vector<SkyKnot>> with_passages(const Site& site, const SmoothHour& hour,
                                                  const PassagesWanted& wanted,
                                                  RandomStream stream) {
    CloudyHour clouds = wanted.clouds;
    for (int trial = 0; trial < most_trials; ++trial) {
        Drawn drawn = draw(site, hour, draw_passages(clouds, stream));
        drawn.knots.front() = wanted.begin;
        drawn.knots.back() = wanted.end;
        const double beam = beam_in_gaps(hour, drawn);
        const double excess = beam / wanted.gap_beam;
        if (std::abs(excess - 1.0) <= shift_allowed) {
            if (!fill_beam(drawn, beam)) return std::nullopt;
            if (!fill_diffuse(hour, wanted.clouds.sunny_share, drawn)) return std::nullopt;
            std::vector<SkyKnot> knots;
            for (const SunnyKnot& at : drawn.knots) knots.push_back(at.knot);
            return knots;
        }
        clouds.sunny_share =
            std::clamp(clouds.sunny_share * std::clamp(excess, 0.5, 2.0), 0.0, 1.0);
    }
    return std::nullopt;
}

}  // namespace noonbench::plant
