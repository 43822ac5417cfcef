// SPDX-License-Identifier: MIT
#include "worlds.hpp"

#include "plant/random.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace noonbench::harness {

namespace {

// Only the limits of these are known, so that the draw is even between them (JCGM 100 4.3.7, from
// memory). A class B sensor may be off by 0.30 K + 0.005 |t|: 0.60 K at 60 degC, about which the
// pump is switched in the warm half of the year.
constexpr double class_b_k = 0.30 + 0.005 * 60.0;
constexpr std::string_view class_b =
    "class B of IEC 60751 at 60 degC (from memory), each sensor for itself";

constexpr std::array tolerances{
    ToleranceInfo{"household_factor", &World::household_factor, Spread::ratio, 0.8, 1.25, "1",
                  "what a household of that size really draws (common practice, no source)"},
    ToleranceInfo{"mains_shift_k", &World::mains_shift_k, Spread::even, -2.0, 2.0, "K",
                  "cold water of wells and of mains in the street (common practice, no source)"},
    ToleranceInfo{"collector_offset_k", &World::collector_offset_k, Spread::even, -class_b_k,
                  class_b_k, "K", class_b},
    ToleranceInfo{"second_collector_offset_k", &World::second_collector_offset_k, Spread::even,
                  -class_b_k, class_b_k, "K", class_b},
    ToleranceInfo{"store_bottom_offset_k", &World::store_bottom_offset_k, Spread::even, -class_b_k,
                  class_b_k, "K", class_b},
    ToleranceInfo{"store_top_offset_k", &World::store_top_offset_k, Spread::even, -class_b_k,
                  class_b_k, "K", class_b},
    ToleranceInfo{"flow_factor", &World::flow_factor, Spread::even, 0.85, 1.15, "1",
                  "flow regulator read by eye, air or dirt later on (common practice, no source)"},
    ToleranceInfo{"pipe_length_factor", &World::pipe_length_factor, Spread::even, 0.85, 1.25, "1",
                  "pipes take more bends than the drawing (common practice, no source)"},
    ToleranceInfo{"outdoor_length_factor", &World::outdoor_length_factor, Spread::even, 0.5, 2.0,
                  "1", "where the pipes dive under the roof (common practice, no source)"},
    ToleranceInfo{"pipe_loss_factor", &World::pipe_loss_factor, Spread::even, 1.0, 1.6, "1",
                  "gaps and crushed insulation at clips and bends (common practice, no source)"},
    ToleranceInfo{"coil_fouling", &World::coil_fouling, Spread::even, 0.7, 1.0, "1",
                  "scale of a few years of hard water (common practice, no source)"},
    ToleranceInfo{"glass_clearness", &World::glass_clearness, Spread::even, 0.9, 1.0, "1",
                  "dust on the glass (common practice, no source)"},
};

plant::RandomStream stream_of(std::uint64_t seed, std::size_t k, std::string_view name) {
    return plant::sub_stream(plant::random_stream(seed, name), k);
}

double drawn(const ToleranceInfo& tolerance, plant::RandomStream stream) {
    if (tolerance.spread == Spread::even) {
        const double share = plant::random_uniform(stream, 0);
        return tolerance.least + share * (tolerance.most - tolerance.least);
    }
    return std::exp(0.5 * std::log(tolerance.most / tolerance.least) *
                    plant::random_noise(stream, 0));
}

/// Who needs more hot water showers more often, not longer: baths of 1.5 times their size would
/// empty stores that were chosen for one.
void scale_household(Household& household, double factor) {
    plant::DrawPattern& pattern = household.pattern;
    constexpr double most_m3 = 0.5;  // that draws_of_day() takes
    if (pattern.profile == plant::DrawProfile::people) {
        pattern.volume_m3_person_day = std::min(most_m3, pattern.volume_m3_person_day * factor);
    } else {
        pattern.scale *= factor;
    }
    for (DailyDraw& draw : household.draws) draw.energy_j *= factor;
}

void stretch(plant::PipeRun& pipe, const World& world) {
    pipe.length_m *= world.pipe_length_factor;
    pipe.outdoor_m = std::min(pipe.outdoor_m * world.outdoor_length_factor, pipe.length_m);
}

void shift(Scenario& scenario, firmware::Sensor sensor, double by_k) {
    scenario.wiring.sensors[static_cast<std::size_t>(sensor)].offset_k += by_k;
}

std::vector<Move> moves_in(const World& world, const Scenario& scenario) {
    const std::pair<const char*, double> levers[] = {
        {"flow_factor", world.flow_factor},
        {"hot_pipe_loss_factor", world.pipe_loss_factor},
        {"cold_pipe_loss_factor", world.pipe_loss_factor},
        {"coil_fouling", world.coil_fouling},
        {"glass_clearness", world.glass_clearness},
    };
    std::vector<Move> moves;
    moves.reserve(std::size(levers) + scenario.moves.size());
    for (const auto& [lever, to] : levers) {
        Move move;
        move.at_s = ever_since;
        move.what = LeverMove{lever, to};
        move.name = lever;
        moves.push_back(std::move(move));
    }
    for (Move move : scenario.moves) {
        if (move.at_s > scenario.start_s) continue;
        move.at_s = ever_since;
        move.over_s = 0;
        moves.push_back(std::move(move));
    }
    return moves;
}

}  // namespace

std::span<const ToleranceInfo> tolerance_table() {
    return tolerances;
}

World world_of(std::uint64_t seed, std::size_t k) {
    World world;
    world.seed = plant::random_bits(stream_of(seed, k, "world seed"), 0) >> 16U;
    for (const ToleranceInfo& each : tolerances) {
        world.*each.value = drawn(each, stream_of(seed, k, each.name));
    }
    const plant::RandomStream weeks = stream_of(seed, k, "weeks of the months");
    for (std::size_t quarter = 0; quarter < world.week_in_quarter.size(); ++quarter) {
        world.week_in_quarter[quarter] = plant::random_uniform(weeks, quarter);
    }
    return world;
}

Scenario in_world(const World& world, Scenario scenario) {
    scenario.seed = world.seed;
    scenario.household.pattern.seed = world.seed;
    scale_household(scenario.household, world.household_factor);
    if (scenario.sky.kind == SkyKind::file) {
        // An hourly mean knows no passing cloud, and starts a day are among the limits.
        scenario.sky.weather_file.minute_clouds = true;
    } else {
        scenario.sky.kind = SkyKind::seeded_year;
    }
    (scenario.mains.from_air ? scenario.mains.air_mean_c : scenario.mains.mean_c) +=
        world.mains_shift_k;
    shift(scenario, firmware::Sensor::collector, world.collector_offset_k);
    shift(scenario, firmware::Sensor::second_collector, world.second_collector_offset_k);
    shift(scenario, firmware::Sensor::store_bottom, world.store_bottom_offset_k);
    shift(scenario, firmware::Sensor::store_top, world.store_top_offset_k);
    stretch(scenario.plant.loop.hot_pipe, world);
    stretch(scenario.plant.loop.cold_pipe, world);
    scenario.moves = moves_in(world, scenario);
    return scenario;
}

}  // namespace noonbench::harness
