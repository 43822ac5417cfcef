// SPDX-License-Identifier: MIT
// What nobody knows before the settings are typed in: the weather of the years to come, what the
// household will draw, and how far the installation is from its drawing. A world is one draw of all
// of it; every candidate meets the same worlds.
#pragma once
#include "plant/calendar.hpp"

#include "harness/scenario/scenario.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

namespace noonbench::harness {

/// Plain data. Offsets are added to what the scenario says, factors multiply it; the weather, the
/// household's draws and the sensors' noise follow from `seed`.
struct World {
    std::uint64_t seed = 1;  // below 2^48, so that it can be typed in and stored anywhere
    double household_factor = 1.0;
    double mains_shift_k = 0.0;
    double collector_offset_k = 0.0;
    double second_collector_offset_k = 0.0;
    double store_bottom_offset_k = 0.0;
    double store_top_offset_k = 0.0;
    double flow_factor = 1.0;
    double pipe_length_factor = 1.0;
    double outdoor_length_factor = 1.0;
    double pipe_loss_factor = 1.0;
    double coil_fouling = 1.0;     // share of the clean coil's heat transfer that is left
    double glass_clearness = 1.0;  // share of the sun that the glass lets through
    std::array<double, 4> week_in_quarter{};  // 0..1: where in each its typical week lies
    friend bool operator==(const World&, const World&) = default;
};

/// How a tolerance is spread.
enum class Spread : std::uint8_t {
    even,   // evenly between least and most
    ratio,  // a factor whose logarithm is bell-shaped; least and most are one standard deviation
};

/// One line of the only list of tolerances.
struct ToleranceInfo {
    std::string_view name;  // snake_case, the column of the results file
    double World::*value;
    Spread spread;
    double least;
    double most;
    std::string_view unit;  // "1" = a factor or share
    std::string_view ground;
};

[[nodiscard]] std::span<const ToleranceInfo> tolerance_table();

/// World number k of a seed: a function of the two alone, each quantity from a stream of its own
/// name, so that one more in the list changes none of the others.
[[nodiscard]] World world_of(std::uint64_t seed, std::size_t k);

/// Before every run: a move that stands here has been made by the first tick, whenever that is.
inline constexpr CivilSeconds ever_since = plant::midnight_of({1950, 1, 1});

/// The scenario in a world. The sky: a seeded year of the scenario's climate (`average` unless it
/// names one) whatever sky it had, but a weather file keeps its year and gets minute-by-minute
/// clouds of the world's seed under it. What a scenario itself moves at its start lies over the
/// world's levers and holds in every stretch of the year; later moves belong to one date and are
/// left out.
[[nodiscard]] Scenario in_world(const World& world, Scenario scenario);

}  // namespace noonbench::harness
