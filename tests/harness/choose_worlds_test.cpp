// SPDX-License-Identifier: MIT
// Worlds: the same for everyone who asks, spread as their table says, and felt by the plant.
#include "harness/choose/worlds.hpp"
#include "harness/scenario/read.hpp"
#include "plant/plant.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <variant>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_worlds)

namespace {

using namespace noonbench::harness;
namespace plant = noonbench::plant;

Scenario orchard() {
    return read_scenario(std::string(NOONBENCH_SOURCE_DIR) +
                         "/scenarios/sites/orchard_lane_3.yaml");
}

double lever_of(const Scenario& scenario, const std::string& name) {
    double value = plant::find_lever(name)->healthy;
    for (const Move& move : scenario.moves) {
        const auto* lever = std::get_if<LeverMove>(&move.what);
        if (lever != nullptr && lever->lever == name) value = lever->to;
    }
    return value;
}

constexpr std::size_t many = 2000;

}  // namespace

BOOST_AUTO_TEST_CASE(a_world_is_a_function_of_seed_and_number_alone) {
    const World third = world_of(7, 3);
    (void)world_of(7, 2);
    BOOST_TEST((world_of(7, 3) == third));
    BOOST_TEST((world_of(7, 4) != third));
    BOOST_TEST((world_of(8, 3) != third));
    std::set<std::uint64_t> seeds;
    for (std::size_t k = 0; k < many; ++k) {
        const std::uint64_t seed = world_of(7, k).seed;
        seeds.insert(seed);
        BOOST_TEST(seed < (std::uint64_t{1} << 48U));
    }
    BOOST_TEST(seeds.size() == many);
}

BOOST_AUTO_TEST_CASE(tolerances_fill_their_ranges_and_follow_no_other) {
    for (const ToleranceInfo& each : tolerance_table()) {
        BOOST_TEST_CONTEXT(each.name) {
            std::vector<double> drawn;
            for (std::size_t k = 0; k < many; ++k) drawn.push_back(world_of(1, k).*each.value);
            const auto [least, most] = std::minmax_element(drawn.begin(), drawn.end());
            if (each.spread == Spread::even) {
                const double width = each.most - each.least;
                BOOST_TEST(*least >= each.least);
                BOOST_TEST(*most <= each.most);
                BOOST_TEST(*least < each.least + 0.01 * width);
                BOOST_TEST(*most > each.most - 0.01 * width);
                double sum = 0.0;
                for (const double d : drawn) sum += d;
                // Five standard errors of the mean of an even spread.
                BOOST_TEST(std::abs(sum / many - 0.5 * (each.least + each.most)) <
                           5.0 * width / std::sqrt(12.0 * many));
                continue;
            }
            // About two thirds within one standard deviation, none beyond 3.47 of them.
            const auto within = std::count_if(drawn.begin(), drawn.end(), [&](double d) {
                return d > each.least && d < each.most;
            });
            BOOST_TEST(within > 0.62 * many);
            BOOST_TEST(within < 0.72 * many);
            BOOST_TEST(*most < std::pow(each.most, 3.47));
        }
    }
    double product = 0.0;
    for (std::size_t k = 0; k < many; ++k) {
        const World w = world_of(1, k);
        product += w.collector_offset_k * w.store_bottom_offset_k;
    }
    // Independent: five standard errors of the mean of a product of two even spreads of 0.6 K.
    BOOST_TEST(std::abs(product / many) < 5.0 * (0.36 / 3.0) / std::sqrt(1.0 * many));
}

BOOST_AUTO_TEST_CASE(a_pair_of_sensors_differs_by_no_more_than_its_class_allows) {
    // IEC 60751 class B at 60 degC: 0.30 K + 0.005 * 60 = 0.60 K each.
    double widest = 0.0;
    for (std::size_t k = 0; k < many; ++k) {
        const World w = world_of(3, k);
        widest = std::max(widest, std::abs(w.collector_offset_k - w.store_bottom_offset_k));
    }
    BOOST_TEST(widest <= 1.2);
    BOOST_TEST(widest > 1.1);
}

BOOST_AUTO_TEST_CASE(the_scenario_carries_what_the_world_says) {
    const Scenario site = orchard();
    World world;
    world.seed = 4711;
    world.household_factor = 1.2;
    world.mains_shift_k = -1.5;
    world.collector_offset_k = 0.4;
    world.store_bottom_offset_k = -0.3;
    world.flow_factor = 0.9;
    world.pipe_length_factor = 1.1;
    world.outdoor_length_factor = 2.0;
    world.pipe_loss_factor = 1.3;
    world.coil_fouling = 0.8;
    world.glass_clearness = 0.95;
    const Scenario there = in_world(world, site);
    BOOST_TEST(there.seed == 4711U);
    BOOST_TEST(there.household.pattern.seed == 4711U);
    BOOST_TEST(there.household.pattern.scale == site.household.pattern.scale);
    BOOST_TEST(there.household.pattern.volume_m3_person_day ==
               1.2 * site.household.pattern.volume_m3_person_day);
    BOOST_TEST(there.mains.mean_c == site.mains.mean_c - 1.5);
    BOOST_TEST(there.wiring.sensors[0].offset_k == site.wiring.sensors[0].offset_k + 0.4);
    BOOST_TEST(there.wiring.sensors[1].offset_k == site.wiring.sensors[1].offset_k - 0.3);
    BOOST_TEST(there.plant.loop.hot_pipe.length_m == 1.1 * site.plant.loop.hot_pipe.length_m);
    BOOST_TEST(there.plant.loop.cold_pipe.outdoor_m == 2.0 * site.plant.loop.cold_pipe.outdoor_m);
    BOOST_TEST(lever_of(there, "flow_factor") == 0.9);
    BOOST_TEST(lever_of(there, "hot_pipe_loss_factor") == 1.3);
    BOOST_TEST(lever_of(there, "cold_pipe_loss_factor") == 1.3);
    BOOST_TEST(lever_of(there, "coil_fouling") == 0.8);
    BOOST_TEST(lever_of(there, "glass_clearness") == 0.95);
    BOOST_TEST((there.controller.settings == site.controller.settings));
}

BOOST_AUTO_TEST_CASE(profiles_and_listed_draws_become_larger_people_draw_more_often) {
    Scenario site = orchard();
    site.household.pattern.profile = plant::DrawProfile::medium;
    site.household.draws = {DailyDraw{.at_s = 3600, .energy_j = 1e6}};
    World world;
    world.household_factor = 1.5;
    const Scenario there = in_world(world, site);
    BOOST_TEST(there.household.pattern.scale == 1.5 * site.household.pattern.scale);
    BOOST_TEST(there.household.draws.at(0).energy_j == 1.5e6);

    const auto asked_kwh = [](const Scenario& scenario, double& largest_j) {
        double sum_j = 0.0;
        for (int day = 0; day < 60; ++day) {
            const auto midnight = civil_seconds(2026, 3, 1) + day * plant::seconds_a_day;
            for (const auto& draw : plant::draws_of_day(scenario.household.pattern, midnight)) {
                sum_j += draw.energy_j;
                largest_j = std::max(largest_j, draw.energy_j);
            }
        }
        return plant::kilowatt_hours(sum_j);
    };
    double largest_before_j = 0.0;
    double largest_after_j = 0.0;
    Scenario people = in_world(World{}, orchard());
    const double before_kwh = asked_kwh(people, largest_before_j);
    people = in_world(world, orchard());
    const double after_kwh = asked_kwh(people, largest_after_j);
    BOOST_TEST(after_kwh / before_kwh > 1.3);  // 1.5 on average; sixty days scatter by some percent
    BOOST_TEST(after_kwh / before_kwh < 1.7);
    BOOST_TEST(largest_after_j < 1.25 * largest_before_j);
}

BOOST_AUTO_TEST_CASE(a_pipe_is_never_longer_outside_than_in_all) {
    Scenario site = orchard();
    site.plant.loop.hot_pipe.outdoor_m = site.plant.loop.hot_pipe.length_m;
    for (std::size_t k = 0; k < 50; ++k) {
        const Scenario there = in_world(world_of(1, k), site);
        BOOST_TEST(there.plant.loop.hot_pipe.outdoor_m <= there.plant.loop.hot_pipe.length_m);
        BOOST_CHECK_NO_THROW((void)plant::make_plant(there.plant, 20.0, 50.0, 10.0));
    }
}

BOOST_AUTO_TEST_CASE(the_sky_becomes_a_seeded_year_but_a_weather_file_keeps_its_own) {
    Scenario site = orchard();
    BOOST_TEST((in_world(World{}, site).sky.kind == SkyKind::seeded_year));
    BOOST_TEST((in_world(World{}, site).sky.seeded_year.climate == plant::Climate::average));
    site.sky.kind = SkyKind::seeded_year;
    site.sky.seeded_year.climate = plant::Climate::colder;
    BOOST_TEST((in_world(World{}, site).sky.seeded_year.climate == plant::Climate::colder));
    site.sky.kind = SkyKind::file;
    site.sky.weather_file.path = "somewhere.epw";
    const Scenario there = in_world(World{}, site);
    BOOST_TEST((there.sky.kind == SkyKind::file));
    BOOST_TEST(there.sky.weather_file.path.string() == "somewhere.epw");
    BOOST_TEST(there.sky.weather_file.minute_clouds);
}

BOOST_AUTO_TEST_CASE(what_stands_from_the_start_holds_in_every_month_and_later_moves_are_left_out) {
    Scenario site = orchard();
    Move from_start;
    from_start.at_s = site.start_s;
    from_start.what = LeverMove{"coil_fouling", 0.3};
    Move later = from_start;
    later.at_s = site.start_s + 3600;
    later.what = LeverMove{"coil_fouling", 0.9};
    site.moves = {from_start, later};
    const Scenario there = in_world(world_of(1, 0), site);
    BOOST_TEST(lever_of(there, "coil_fouling") == 0.3);
    for (const Move& move : there.moves) BOOST_TEST(move.at_s == ever_since);
}

BOOST_AUTO_TEST_SUITE_END()
