// SPDX-License-Identifier: MIT
// A day on which the plant's levers move at random: its site, weather, household and moves, all
// made from one seed.
#pragma once
#include "plant_day.hpp"

#include "plant/collector.hpp"
#include "plant/random.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

namespace noonbench::plant::testing {

inline constexpr CivilSeconds hour_s = 3600;
inline constexpr CivilSeconds lever_day_s = 6 * hour_s;
inline constexpr double coldest_store_start_c = 5.0;

// ------------------------------------------------------------ weather

// The clear April day made brighter, warmer or colder, and broken by clouds minute by minute.
struct Weather {
    double sun = 1.0;
    double warmer_k = 0.0;
    double cloud = 0.0;  // most that a cloud takes
    RandomStream clouds{};

    [[nodiscard]] PlaneKnot at(CivilSeconds s) const {
        PlaneKnot knot = april_knot(s);
        const auto minute = static_cast<std::uint64_t>(s / 60);
        const double share = sun * (1.0 - cloud * random_uniform(clouds, minute));
        for (double& w_m2 : knot.received_w_m2) w_m2 *= share;
        for (double& w_m2 : knot.absorbable_w_m2) w_m2 *= share;
        knot.air_c += warmer_k;
        knot.sky_c += warmer_k;
        return knot;
    }
};

// Between these everything in the plant must stay. There is nothing hotter than a collector that
// stands still under the day's brightest sun in its warmest air, or than the cold leg that a pump
// heats against a shut valve, 17.5 W at 0.2 W/K over the room; and nothing colder than a collector
// that a clear sky cools by some kelvin under the air, or than the coldest start of a store.
struct Limits {
    double coldest_c = 0.0;
    double hottest_c = 0.0;
};

inline Limits limits_of(const Parameters& p, const Weather& weather) {
    constexpr double april_coldest_c = 6.0;
    constexpr double april_warmest_c = 17.0;
    constexpr double april_absorbable_w_m2 = 0.95 * 870.0;
    constexpr double under_sky_k = 5.0;
    constexpr double pump_at_shut_valve_c = 110.0;
    Limits limits{std::min(april_coldest_c + weather.warmer_k - under_sky_k, coldest_store_start_c),
                  pump_at_shut_valve_c};
    for (const Row& row : p.rows) {
        const double still_c = stagnation_c(row.collector, weather.sun * april_absorbable_w_m2,
                                            april_warmest_c + weather.warmer_k);
        limits.hottest_c = std::max(limits.hottest_c, still_c);
    }
    return limits;
}

// ------------------------------------------------------------ levers

struct LeverMove {
    const LeverInfo* lever = nullptr;
    CivilSeconds at_s = 0;     // from the day's start
    CivilSeconds lasts_s = 1;  // 1: a step
    double to = 0.0;
    double from = 0.0;  // found when it begins

    void act(Levers& levers, CivilSeconds s) {
        if (s < at_s || s >= at_s + lasts_s) return;
        if (s == at_s) from = levers.*(lever->value);
        const double share = static_cast<double>(s - at_s + 1) / static_cast<double>(lasts_s);
        levers.*(lever->value) = from + share * (to - from);
    }
};

// Half of the moves are steps, half slides of a minute to an hour; a quarter goes to a bound, a
// quarter back to healthy, the rest anywhere.
inline std::vector<LeverMove> random_moves(RandomSequence& random) {
    constexpr int moves = 32;
    std::vector<LeverMove> all;
    all.reserve(moves);
    for (int n = 0; n < moves; ++n) {
        LeverMove move;
        move.lever = &lever_table[random.below(lever_table.size())];
        move.at_s = static_cast<CivilSeconds>(random.below(lever_day_s - 600));
        const bool slides = random.uniform() < 0.5;
        if (slides) move.lasts_s = 60 + static_cast<CivilSeconds>(random.below(3540));
        const double kind = random.uniform();
        const double share = random.uniform();
        const LeverInfo& lever = *move.lever;
        move.to = kind < 0.125  ? lever.least
                  : kind < 0.25 ? lever.most
                  : kind < 0.5  ? lever.healthy
                                : lever.least + share * (lever.most - lever.least);
        all.push_back(move);
    }
    return all;
}

inline std::string unhealthy_levers(const Levers& levers) {
    std::ostringstream text;
    text.precision(17);
    for (const LeverInfo& lever : lever_table) {
        const double value = levers.*(lever.value);
        if (value != lever.healthy) text << ' ' << lever.name << '=' << value;
    }
    return text.str();
}

// ------------------------------------------------------------ a day

struct LeverDay {
    std::uint64_t seed = 0;
    Parameters parameters{};
    Weather weather{};
    CivilSeconds from_s = 0;
    CivilSeconds lasts_s = lever_day_s;
    double store_bottom_c = 30.0;
    double store_top_c = 60.0;
    std::vector<LeverMove> moves{};
};

inline double between(RandomSequence& random, double least, double most) {
    return least + random.uniform() * (most - least);
}

inline Parameters random_site(RandomSequence& random) {
    Parameters p;
    p.rows.resize(1 + random.below(3));
    for (Row& row : p.rows) {
        row.collectors_in_series = 1 + static_cast<int>(random.below(3));
        row.collector.eta0 = between(random, 0.70, 0.80);
        row.collector.a1_w_m2k = between(random, 2.5, 4.0);
        row.collector.content_m3 = between(random, 1.0, 2.0) * 1e-3;
    }
    Loop& loop = p.loop;
    loop.hydraulics = Hydraulics::solved;
    constexpr double shares[] = {0.0, 0.1, 0.25, 0.4, 0.5, 0.6};
    loop.glycol_mass_share = shares[random.below(std::size(shares))];
    loop.gauge_pressure_pa = between(random, 0.2, 4.0) * 1e5;
    loop.height_m = between(random, 2.0, 25.0);  // some are filled below their own height
    if (random.uniform() < 0.5) loop.vessel_volume_m3 = between(random, 4.0, 50.0) * 1e-3;
    if (random.uniform() < 0.3) loop.fresh_bubbles_m3 = between(random, 0.0, 0.5) * 1e-3;
    if (random.uniform() < 0.3) loop.check_valve_opening_pa = 0.0;
    loop.pump.full_flow_m3_s = between(random, 1.5, 8.0) / 60000.0;
    loop.pump.takes_speed_signal = random.uniform() < 0.5;
    return p;
}

// In turn: a hot noon, a cold night, a frosty morning that turns bright, an evening of clouds.
inline LeverDay random_day(std::uint64_t seed) {
    const RandomStream stream = random_stream(seed, "a day of levers");
    RandomSequence random(stream.key);
    LeverDay day;
    day.seed = seed;
    day.parameters = random_site(random);
    day.weather.clouds = sub_stream(stream, 1);
    if (random.uniform() < 0.4) day.weather.cloud = random.uniform();
    constexpr int first_hour[] = {8, 20, 4, 13};
    constexpr double warmer_k[][2] = {{5.0, 25.0}, {-36.0, -8.0}, {-30.0, -5.0}, {-5.0, 20.0}};
    constexpr double sun[][2] = {{1.0, 1.25}, {1.0, 1.0}, {0.8, 1.2}, {0.6, 1.2}};
    const std::size_t kind = seed % 4;
    day.from_s = first_hour[kind] * hour_s + static_cast<CivilSeconds>(random.below(3 * hour_s));
    day.weather.warmer_k = between(random, warmer_k[kind][0], warmer_k[kind][1]);
    day.weather.sun = between(random, sun[kind][0], sun[kind][1]);
    day.store_bottom_c = between(random, coldest_store_start_c, 70.0);
    day.store_top_c = day.store_bottom_c + between(random, 0.0, 20.0);
    day.moves = random_moves(random);
    return day;
}

// The household and a controller that follows its sensors, whatever they show.
class House {
  public:
    House(const Plant& plant, RandomStream stream) : plant_(plant), stream_(stream) {}

    [[nodiscard]] Actions actions(CivilSeconds s) {
        const Readings shown = readings(plant_);
        const double difference_k = shown.collector_sensor_c - shown.store_bottom_sensor_c;
        actions_.pump_relay = difference_k > (actions_.pump_relay ? 4.0 : 8.0);
        if (s % 300 == 0) {
            const auto period = static_cast<std::uint64_t>(s / 300);
            actions_.speed_signal = random_uniform(stream_, 3 * period);
            actions_.backup_asked = random_uniform(stream_, 3 * period + 1) < 0.3;
            tap_kg_s_ = random_uniform(stream_, 3 * period + 2) < 0.1 ? 0.15 : 0.0;
        }
        return actions_;
    }
    [[nodiscard]] double tap_kg_s() const { return tap_kg_s_; }

  private:
    const Plant& plant_;
    RandomStream stream_;
    Actions actions_{};
    double tap_kg_s_ = 0.0;
};

}  // namespace noonbench::plant::testing
