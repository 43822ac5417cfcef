// SPDX-License-Identifier: MIT
// What every peer is given: weather as knots, draws at fixed hours, and a pump under a plain rule.
// Time counts from 0 at the first midnight.
#pragma once
#include "plant/drive.hpp"
#include "plant/parameters.hpp"
#include "plant/plant.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace noonbench::benchmarks {

using namespace noonbench::plant;

/// Every day; seconds of the day.
struct DailyFlow {
    CivilSeconds from_s = 0;
    CivilSeconds until_s = 0;
    double kg_s = 0.0;
};

struct World {
    std::vector<PlaneKnot> knots;  // the first at 0, the last at or behind the end
    std::vector<DailyFlow> draws;  // sorted, apart
    CivilSeconds days = 0;

    [[nodiscard]] CivilSeconds end_s() const { return days * seconds_a_day; }
};

/// Nothing outside bends or jumps from `now` to `until_s`.
struct Stretch {
    WeatherSpan weather{};
    double tap_flow_kg_s = 0.0;
    CivilSeconds until_s = 0;
};

/// Goes through a world forwards.
class WorldReader {
  public:
    explicit WorldReader(const World& world) : world_(&world) {}
    [[nodiscard]] Stretch at(CivilSeconds now);

  private:
    const World* world_;
    std::size_t next_ = 1;
};

/// One thing to be solved, the same for all.
struct Case {
    std::string title;
    World world;
    Parameters parameters{};
    bool regulated = false;
};

/// The clear day of the plant's tests again and again, without draws.
[[nodiscard]] World april_world(CivilSeconds days, CivilSeconds knot_s);
/// Day `day` of a world alone.
[[nodiscard]] World one_day(const World& world, CivilSeconds day);
/// Hourly means of the same weather as knots at full hours.
[[nodiscard]] World hourly(const World& world);

/// The sizes of the house that the demo days use, its plant alone: no backup, no stat.
[[nodiscard]] Parameters house_parameters();

}  // namespace noonbench::benchmarks
