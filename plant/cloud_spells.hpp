// SPDX-License-Identifier: MIT
// What a day's clearness means: how much of the day clouds cover, how dark they are, and when they
// pass. Clouds come as a telegraph: clear and cloudy spells in turn, with sloping edges.
#pragma once
#include "clear_sky.hpp"
#include "random.hpp"

#include <cstdint>
#include <vector>

namespace noonbench::plant {

/// What the day's sky makes of the clear one.
struct CloudClimate {
    double cloudy_share = 0.0;        // of the time, 0..1
    double haze_transmission = 1.0;   // of the beam between clouds
    double gap_diffuse_factor = 1.0;  // on the clear sky's diffuse between clouds (their flanks)
    double cloud_beam_transmission = 0.0;    // of the beam under a cloud
    double cloud_global_transmission = 0.0;  // diffuse under a cloud, of the clear sky's global
};

/// Everything continuous in the clearness (0 dull .. 1 clear) and the day's heat rising with it, so
/// that a month can be fitted. A rough model: its figures were chosen so that the diffuse share of
/// a day follows the correlation of Erbs, Klein & Duffie 1982 within about 0.1.
[[nodiscard]] CloudClimate cloud_climate(double clearness);

/// The clear sky seen through a cover of 0 (gap) .. 1 (cloud before the sun), linear in the cover.
[[nodiscard]] HorizontalSky behind_clouds(const HorizontalSky& clear, const CloudClimate& clouds,
                                          double cover, double cos_zenith);

/// An edge: cover goes in a straight line from its old value (0 or 1) to `cover_after`.
struct CloudEdge {
    std::int32_t begin_s = 0;  // after midnight
    std::int32_t end_s = 0;
    double cover_after = 0.0;  // 0 clear, 1 cloud before the sun
};

/// Edges in order from midnight to midnight; they do not overlap. The first has begin_s = end_s = 0
/// and gives the cover at midnight. Spells are exponential beyond their edge; edges last 20..90 s.
[[nodiscard]] std::vector<CloudEdge> cloud_edges(double cloudy_share, RandomStream stream);

/// Seconds at which the cover bends, rising, within the day.
[[nodiscard]] std::vector<std::int32_t> bends(const std::vector<CloudEdge>& edges);

/// Runs through the edges in rising time: cover at a second.
class CoverReader {
  public:
    explicit CoverReader(const std::vector<CloudEdge>& edges) : edges_(edges) {}
    [[nodiscard]] double at(std::int32_t second);  // never lower than in the call before

  private:
    const std::vector<CloudEdge>& edges_;
    std::size_t current_ = 0;
};

}  // namespace noonbench::plant
