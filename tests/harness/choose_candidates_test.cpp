// SPDX-License-Identifier: MIT
// Which settings are offered for a site, and that none of them breaks a rule of the trade.
#include "harness/bench/run.hpp"
#include "harness/choose/candidates.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/setting_text.hpp"
#include "plant/plant.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_candidates)

namespace {

using namespace noonbench::harness;
using noonbench::firmware::Setting;
using noonbench::firmware::Settings;

Scenario site_named(const std::string& name, const std::vector<std::string>& sets = {}) {
    return read_scenario(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/sites/" + name + ".yaml",
                         sets);
}

SearchSpace space_of(const std::string& name, const std::vector<std::string>& sets = {}) {
    return search_space(site_named(name, sets));
}

const SettingDimension* dimension_in(const SearchSpace& space, const std::string& name) {
    for (const SettingDimension& each : space.dimensions)
        if (each.name == name) return &each;
    return nullptr;
}

std::vector<std::string> texts_of(const SearchSpace& space, const std::string& name) {
    std::vector<std::string> texts;
    const SettingDimension* found = dimension_in(space, name);
    if (found == nullptr) return texts;
    for (const SettingChoice& each : found->choices) texts.push_back(each.text);
    return texts;
}

std::vector<std::string> names_of(const SearchSpace& space) {
    std::vector<std::string> names;
    for (const SettingDimension& each : space.dimensions) names.push_back(each.name);
    return names;
}

bool offers(const SearchSpace& space, const std::string& name, const std::string& text) {
    const auto texts = texts_of(space, name);
    return std::find(texts.begin(), texts.end(), text) != texts.end();
}

/// The settings with one choice of one dimension laid over those as delivered.
Settings with_choice(const SearchSpace& space, std::size_t dimension, std::size_t choice) {
    GridPoint levels = delivered_point(space);
    levels[dimension] = choice;
    return settings_at(space, levels);
}

template <class Check>
void for_each_choice(const SearchSpace& space, Check check) {
    for (std::size_t d = 0; d < space.dimensions.size(); ++d)
        for (std::size_t c = 0; c < space.dimensions[d].choices.size(); ++c)
            check(space.dimensions[d], space.dimensions[d].choices[c], with_choice(space, d, c));
}

const std::vector<std::string> all_sites = {"orchard_lane_3", "mill_row_12", "chapel_house",
                                            "ridge_farm"};

}  // namespace

BOOST_AUTO_TEST_CASE(the_house_of_most_demo_days_has_eight_things_to_choose) {
    const std::vector<std::string> wanted = {
        "start difference",  "stop difference", "pump drive",         "store limit",
        "collector cut-out", "backup windows",  "backup temperature", "solar first"};
    const auto names = names_of(space_of("orchard_lane_3"));
    BOOST_TEST(names == wanted, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(the_levels_as_delivered_are_the_settings_as_delivered) {
    for (const std::string& name : all_sites) {
        BOOST_TEST_CONTEXT(name) {
            const Scenario site = site_named(name, {"controller.start_difference=7.5 K"});
            const SearchSpace space = search_space(site);
            const GridPoint point = delivered_point(space);
            BOOST_TEST((settings_at(space, point) == site.controller.settings));
            BOOST_TEST(candidate_text(space.as_delivered, settings_at(space, point)) ==
                       "as delivered");
            BOOST_TEST(fits_together(space, point));
            const auto texts = texts_of(space, "start difference");
            const std::vector<std::string> wanted = {"4 K", "5 K",  "6 K",  "7 K", "7.5 K",
                                                     "8 K", "10 K", "12 K", "14 K"};
            BOOST_TEST(texts == wanted, boost::test_tools::per_element());
        }
    }
}

BOOST_AUTO_TEST_CASE(every_choice_is_a_value_that_can_be_typed_in_and_differs_from_the_others) {
    for (const std::string& name : all_sites) {
        const SearchSpace space = space_of(name);
        std::set<std::string> seen;
        for_each_choice(space, [&](const auto& dimension, const auto& choice, const Settings& all) {
            BOOST_TEST_CONTEXT(name << ", " << dimension.name << ", " << choice.text) {
                BOOST_TEST((noonbench::firmware::within_limits(all) == all));
                for (const auto& [setting, value] : choice.sets) {
                    const auto& info = noonbench::firmware::setting_table()[std::size_t(setting)];
                    const auto back = parse_setting(info, written_setting(info, value));
                    BOOST_TEST_REQUIRE(back.value.has_value());
                    BOOST_TEST(*back.value == value);
                }
                const std::string text = candidate_text(space.as_delivered, all);
                const bool is_own = &choice == &dimension.choices[dimension.as_delivered];
                BOOST_TEST((text == "as delivered") == is_own);
                if (!is_own) BOOST_TEST(seen.insert(text).second, text);
            }
        });
    }
}

BOOST_AUTO_TEST_CASE(what_describes_the_site_or_guards_it_is_never_searched) {
    const std::vector<Setting> untouched = {
        Setting::typed_in_flow,     Setting::glycol_share,         Setting::site_pressure,
        Setting::collector_height,  Setting::store_ceiling,        Setting::sanitise,
        Setting::sanitise_every,    Setting::sanitise_temperature, Setting::sanitise_hold,
        Setting::solar_first_floor, Setting::least_run_time,       Setting::least_rest_time,
        Setting::backup_control,    Setting::speed_signal,         Setting::frost_guard};
    for (const std::string& name : all_sites) {
        const SearchSpace space = space_of(name);
        for_each_choice(space, [&](const auto& dimension, const auto& choice, const Settings& all) {
            for (const Setting setting : untouched)
                BOOST_TEST(all[setting] == space.as_delivered[setting],
                           name << ", " << dimension.name << ", " << choice.text);
        });
    }
}

BOOST_AUTO_TEST_CASE(
    no_thermostat_below_55_degrees_is_offered_but_one_as_delivered_is_kept_and_told) {
    const auto usual = space_of("orchard_lane_3");
    BOOST_TEST(texts_of(usual, "backup temperature").front() == "55 degC");
    const auto cool = space_of("orchard_lane_3", {"controller.backup_temperature=48 degC"});
    BOOST_TEST(texts_of(cool, "backup temperature").front() == "48 degC");
    BOOST_TEST(texts_of(cool, "backup temperature").at(1) == "55 degC");
    const auto told = [](const SearchSpace& space) {
        return std::any_of(space.cautions.begin(), space.cautions.end(), [](const std::string& c) {
            return c.find("less than the 55 degC") != std::string::npos;
        });
    };
    BOOST_TEST(!told(usual));
    BOOST_TEST(told(cool));
}

BOOST_AUTO_TEST_CASE(thermostat_and_limit_stay_below_what_would_stop_them) {
    const auto space = space_of("orchard_lane_3", {"backup.flow_temperature=66 degC",
                                                   "store.high_limit.temperature=80 degC"});
    BOOST_TEST(texts_of(space, "backup temperature").back() == "60 degC");
    BOOST_TEST(texts_of(space, "store limit").back() == "75 degC");
    const auto no_stat = space_of("orchard_lane_3", {"store.high_limit.fitted=no"});
    BOOST_TEST(texts_of(no_stat, "store limit").back() == "85 degC");  // 5 K below the ceiling
}

BOOST_AUTO_TEST_CASE(no_cut_out_is_offered_above_what_boils_at_this_pressure) {
    for (const char* pressure : {"1.5 bar", "2 bar", "3 bar"}) {
        const Scenario site =
            site_named("orchard_lane_3", {"loop.pressure=" + std::string(pressure),
                                          "controller.collector_cut_out=100 degC",
                                          "controller.collector_release=90 degC"});
        const double boiling_c =
            boiling_point_at_top_c(noonbench::plant::make_plant(site.plant, 20.0, 50.0, 10.0));
        const SearchSpace space = search_space(site);
        const SettingDimension* dimension = dimension_in(space, "collector cut-out");
        BOOST_TEST_REQUIRE(dimension != nullptr);
        const auto& highest = dimension->choices.back();
        BOOST_TEST_CONTEXT(pressure << ": boils at " << boiling_c << ", highest " << highest.text) {
            BOOST_TEST(highest.sets.at(0).second <= 100.0 * (boiling_c - 7.0));
            BOOST_TEST(highest.sets.at(0).second > 100.0 * (boiling_c - 17.0));
            BOOST_TEST(highest.sets.at(1).second == highest.sets.at(0).second - 1000);
        }
    }
}

BOOST_AUTO_TEST_CASE(speed_is_offered_only_to_a_pump_that_takes_it) {
    BOOST_TEST(offers(space_of("orchard_lane_3"), "pump drive", "speed for 8 K"));
    BOOST_TEST(offers(space_of("orchard_lane_3"), "pump drive", "on and off"));
    const auto plain = space_of("orchard_lane_3", {"loop.pump.takes_speed_signal=no"});
    BOOST_TEST(dimension_in(plain, "pump drive") == nullptr);
    BOOST_TEST(plain.as_delivered[Setting::pump_drive] == 0);
}

BOOST_AUTO_TEST_CASE(backup_is_chosen_only_where_the_controller_switches_it) {
    for (const char* set :
         {"backup.kind=none", "backup.by_controller=no", "controller.backup_control=off"}) {
        const auto space = space_of("orchard_lane_3", {set});
        for (const char* name : {"backup windows", "backup temperature", "solar first"})
            BOOST_TEST(dimension_in(space, name) == nullptr, set << ", " << name);
        BOOST_TEST(dimension_in(space, "start difference") != nullptr);
    }
}

BOOST_AUTO_TEST_CASE(frost_is_chosen_only_with_a_guard_on_a_water_loop) {
    BOOST_TEST(texts_of(space_of("chapel_house"), "frost guard").front() ==
               "3 degC, off at 5 degC");
    BOOST_TEST(dimension_in(space_of("orchard_lane_3"), "frost guard") == nullptr);
    BOOST_TEST(dimension_in(space_of("chapel_house", {"controller.frost_guard=off"}),
                            "frost guard") == nullptr);
}

BOOST_AUTO_TEST_CASE(sampling_is_chosen_only_with_evacuated_tubes) {
    BOOST_TEST(dimension_in(space_of("orchard_lane_3"), "sampling runs") == nullptr);
    const auto tubes = space_of("orchard_lane_3", {"collectors.kind=evacuated_tube"});
    BOOST_TEST(texts_of(tubes, "sampling runs").front() == "off");
    BOOST_TEST(offers(tubes, "sampling runs", "every 30 min for 30 s"));
}

BOOST_AUTO_TEST_CASE(windows_as_delivered_stand_among_the_others_by_their_hours) {
    const auto texts = texts_of(space_of("orchard_lane_3"), "backup windows");
    const std::vector<std::string> wanted = {"00:00 – 24:00",
                                             "05:30 – 22:30",
                                             "06:00 – 22:00",
                                             "05:00 – 09:00, 15:00 – 22:00",
                                             "04:00 – 07:00, 16:00 – 21:00",
                                             "14:00 – 22:00",
                                             "16:00 – 21:00",
                                             "04:00 – 07:00"};
    BOOST_TEST(texts == wanted, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_grid_walks_all_that_fit_together_and_nothing_else) {
    const SearchSpace space = space_of("orchard_lane_3");
    const Grid grid = grid_of(space);
    BOOST_TEST_REQUIRE(grid.levels.size() == space.dimensions.size());
    const GridPoint own = delivered_point(space);
    BOOST_TEST(grid.is_possible(grid.candidate_of(own)));
    int possible = 0;
    for (std::size_t start = 0; start < grid.levels[0]; ++start) {
        for (std::size_t stop = 0; stop < grid.levels[1]; ++stop) {
            GridPoint point = own;
            point[0] = start;
            point[1] = stop;
            const Settings settings = settings_at(space, point);
            const int gap =
                settings[Setting::start_difference] - settings[Setting::stop_difference];
            const bool is_possible = grid.is_possible(grid.candidate_of(point));
            BOOST_TEST(is_possible == (gap >= 150), "gap of " << gap / 100.0 << " K");
            possible += is_possible ? 1 : 0;
        }
    }
    BOOST_TEST(possible == 30);  // of 8 x 5: starts of 4, 5, 6 and 7 K rule out 4, 3, 2 and 1 stops
}

BOOST_AUTO_TEST_CASE(a_candidate_is_written_as_a_scenario_would_have_it) {
    const Scenario site = site_named("orchard_lane_3");
    Settings changed = site.controller.settings;
    changed[Setting::start_difference] = 650;
    changed[Setting::solar_first] = 0;
    const std::string text = candidate_text(site.controller.settings, changed);
    BOOST_TEST(text == "start_difference=6.5 K; solar_first=off");
    const Scenario again = site_named(
        "orchard_lane_3", {"controller.start_difference=6.5 K", "controller.solar_first=off"});
    BOOST_TEST((again.controller.settings == changed));
}

BOOST_AUTO_TEST_SUITE_END()
