// SPDX-License-Identifier: MIT
#include "world.hpp"

#include "tests/plant/plant_day.hpp"

#include <algorithm>

namespace noonbench::benchmarks {
namespace {

/// `share` of b, the rest of a; at_s stays a's.
PlaneKnot between(const PlaneKnot& a, const PlaneKnot& b, double share) {
    PlaneKnot knot = a;
    const auto mix = [share](double& from, double to) { from += share * (to - from); };
    for (int r = 0; r < most_rows; ++r) {
        mix(knot.received_w_m2[r], b.received_w_m2[r]);
        mix(knot.absorbable_w_m2[r], b.absorbable_w_m2[r]);
    }
    mix(knot.air_c, b.air_c);
    mix(knot.sky_c, b.sky_c);
    mix(knot.wind_m_s, b.wind_m_s);
    return knot;
}

PlaneKnot at_instant(const Stretch& stretch, CivilSeconds now) {
    const auto length = static_cast<double>(stretch.weather.to.at_s - stretch.weather.from.at_s);
    const auto gone = static_cast<double>(now - stretch.weather.from.at_s);
    return between(stretch.weather.from, stretch.weather.to, gone / length);
}

}  // namespace

Stretch WorldReader::at(CivilSeconds now) {
    const std::vector<PlaneKnot>& knots = world_->knots;
    while (next_ + 1 < knots.size() && knots[next_].at_s <= now) ++next_;
    Stretch stretch;
    stretch.weather = {knots[next_ - 1], knots[next_]};
    stretch.until_s = stretch.weather.to.at_s;
    const CivilSeconds of_day = now % seconds_a_day;
    for (const DailyFlow& draw : world_->draws) {
        if (of_day >= draw.from_s && of_day < draw.until_s) stretch.tap_flow_kg_s = draw.kg_s;
        for (const CivilSeconds edge : {draw.from_s, draw.until_s}) {
            if (edge > of_day) stretch.until_s = std::min(stretch.until_s, now + edge - of_day);
        }
    }
    return stretch;
}

World april_world(CivilSeconds days, CivilSeconds knot_s) {
    World world;
    world.days = days;
    const CivilSeconds count = days * seconds_a_day / knot_s + 1;
    world.knots.reserve(static_cast<std::size_t>(count));
    for (CivilSeconds k = 0; k < count; ++k) {
        world.knots.push_back(noonbench::plant::testing::april_knot(k * knot_s));
    }
    return world;
}

World one_day(const World& world, CivilSeconds day) {
    World alone;
    alone.days = 1;
    alone.draws = world.draws;
    const CivilSeconds midnight = day * seconds_a_day;
    for (const PlaneKnot& knot : world.knots) {
        if (knot.at_s < midnight || knot.at_s > midnight + seconds_a_day) continue;
        alone.knots.push_back(knot);
        alone.knots.back().at_s -= midnight;
    }
    return alone;
}

World hourly(const World& world) {
    constexpr CivilSeconds hour_s = 3600;
    World coarse;
    coarse.days = world.days;
    coarse.draws = world.draws;
    coarse.knots.reserve(static_cast<std::size_t>(world.days * 24 + 1));
    WorldReader reader(world);
    for (CivilSeconds at = 0; at <= world.end_s(); at += hour_s) {
        const CivilSeconds from = std::max<CivilSeconds>(0, at - hour_s / 2);
        const CivilSeconds until = std::min(world.end_s(), at + hour_s / 2);
        PlaneKnot mean = at_instant(reader.at(from), from);
        int count = 1;
        for (CivilSeconds s = from + 30; s < until; s += 30) {
            const PlaneKnot here = at_instant(reader.at(s), s);
            mean = between(mean, here, 1.0 / ++count);  // the mean so far and one more
        }
        mean.at_s = at;
        coarse.knots.push_back(mean);
    }
    return coarse;
}

Parameters house_parameters() {
    Parameters house;
    house.loop.hot_pipe.outer_diameter_m = 0.015;
    house.loop.cold_pipe.outer_diameter_m = 0.015;
    house.loop.pump.takes_speed_signal = true;
    house.store.volume_m3 = 0.250;
    house.store.height_m = 1.5;
    house.store.high_limit_fitted = false;
    house.backup.kind = BackupKind::none;
    return house;
}

}  // namespace noonbench::benchmarks
