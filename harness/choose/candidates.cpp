// SPDX-License-Identifier: MIT
#include "candidates.hpp"

#include "candidates_choosing.hpp"

#include "firmware-model/setting_values.hpp"
#include "plant/plant.hpp"

#include "harness/bench/run.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace noonbench::harness {

namespace {

using firmware::Setting;
using firmware::Settings;

constexpr double boiling_reserve_k = 7.0;  // as the ground of collector_cut_out in the table says
constexpr double release_below_k = 10.0;   // collector release under its cut-out, as delivered

void add_differences(Choosing& choosing) {
    choosing.add_degrees("start difference", Setting::start_difference,
                         "Textbook range 4 to 11 K, and a little beyond.",
                         {4, 5, 6, 7, 8, 10, 12, 14});
    choosing.add_degrees(
        "stop difference", Setting::stop_difference,
        "Textbook range 2 to 5 K; above the 1.2 K by which two class B sensors may "
        "differ.",
        {2, 3, 4, 5, 6});
}

/// On and off, or by speed to a difference: a target means nothing to a pump driven on and off.
void add_pump_drive(Choosing& choosing, const Scenario& scenario) {
    if (!scenario.plant.loop.pump.takes_speed_signal || !scenario.wiring.speed_wire_connected) {
        return;  // what the site's file says stays: commissioning made it on and off
    }
    SettingDimension dimension{"pump drive",
                               "A 4 m2 field at noon warms the fluid by 7 to 15 K at the usual "
                               "flows; less than 6 K is full speed nearly always.",
                               {{"on and off", {{Setting::pump_drive, std::int16_t{0}}}}},
                               0,
                               false};
    for (const double target_k : {6.0, 8.0, 10.0, 12.0, 15.0}) {
        const std::int16_t target = stored_setting(target_k);
        dimension.choices.push_back(
            {fmt::format("speed for {}", setting_words(Setting::target_difference, target)),
             {{Setting::pump_drive, std::int16_t{1}}, {Setting::target_difference, target}}});
    }
    const Settings& own = choosing.own();
    SettingChoice as_given{fmt::format("{}, as delivered", setting_words(Setting::pump_drive,
                                                                         own[Setting::pump_drive])),
                           {{Setting::pump_drive, own[Setting::pump_drive]},
                            {Setting::target_difference, own[Setting::target_difference]}}};
    if (own[Setting::pump_drive] == 1) {
        as_given.text = fmt::format("speed for {}", setting_words(Setting::target_difference,
                                                                  own[Setting::target_difference]));
    }
    choosing.add(std::move(dimension), std::move(as_given),
                 [](const SettingChoice& a, const SettingChoice& b) {
                     return a.sets.back().second < b.sets.back().second && b.sets.size() > 1;
                 });
}

void add_store_limit(Choosing& choosing, const plant::Store& store) {
    double most = choosing.own()[Setting::store_ceiling] / stored_per_kelvin - store_reserve_k;
    if (store.high_limit_fitted) most = std::min(most, store.high_limit_c - store_reserve_k);
    choosing.add_degrees("store limit", Setting::store_limit,
                         "60 to 65 degC with hard water, more with soft (common practice, no "
                         "source); 5 K below the ceiling and the high-limit stat, which does not "
                         "reset itself.",
                         {60, 65, 70, 75, 80, 85}, most);
}

void add_cut_out(Choosing& choosing, const Scenario& scenario) {
    const StartTemperatures& start = scenario.start_temperatures;
    const double boiling_c = boiling_point_at_top_c(
        plant::make_plant(scenario.plant, start.store_bottom_c, start.store_top_c, 10.0));
    SettingDimension dimension{
        "collector cut-out",
        fmt::format("At the cold pressure of this loop the fluid at the top boils near {:.0f} "
                    "degC; 7 K less and below. The release follows 10 K under it.",
                    boiling_c),
        {},
        0};
    for (const double cut_out_c : {100.0, 110.0, 115.0, 120.0, 125.0, 130.0, 140.0, 150.0}) {
        if (cut_out_c > boiling_c - boiling_reserve_k) continue;
        const std::int16_t cut_out = stored_setting(cut_out_c);
        dimension.choices.push_back(
            {setting_words(Setting::collector_cut_out, cut_out),
             {{Setting::collector_cut_out, cut_out},
              {Setting::collector_release, stored_setting(cut_out_c - release_below_k)}}});
    }
    const Settings& own = choosing.own();
    SettingChoice as_given{
        setting_words(Setting::collector_cut_out, own[Setting::collector_cut_out]),
        {{Setting::collector_cut_out, own[Setting::collector_cut_out]},
         {Setting::collector_release, own[Setting::collector_release]}}};
    choosing.add(std::move(dimension), std::move(as_given), Choosing::smaller_first);
}

bool is_tube(const plant::Row& row) {
    const plant::IncidenceModifier& incidence = row.collector.incidence;
    return incidence.b0 == 0.0 && incidence.longitudinal != incidence.transversal;
}

/// Tubes are told by their modifier, which differs along and across.
void add_sampling(Choosing& choosing, const Scenario& scenario) {
    const auto& rows = scenario.plant.rows;
    if (std::none_of(rows.begin(), rows.end(), is_tube)) return;
    SettingDimension dimension{"sampling runs",
                               "Every 20 to 60 min (common practice, no source), for as long as "
                               "the manifold's content takes to pass.",
                               {{"off", {{Setting::sampling, std::int16_t{0}}}}},
                               0,
                               false};
    for (const int every_min : {60, 30, 20}) {
        for (const int for_s : {20, 30, 60}) {
            dimension.choices.push_back(
                {fmt::format("every {} min for {} s", every_min, for_s),
                 {{Setting::sampling, std::int16_t{1}},
                  {Setting::sampling_every, static_cast<std::int16_t>(every_min)},
                  {Setting::sampling_for, static_cast<std::int16_t>(for_s)}}});
        }
    }
    const Settings& own = choosing.own();
    SettingChoice as_given{fmt::format("every {} min for {} s", own[Setting::sampling_every],
                                       own[Setting::sampling_for]),
                           {{Setting::sampling, own[Setting::sampling]},
                            {Setting::sampling_every, own[Setting::sampling_every]},
                            {Setting::sampling_for, own[Setting::sampling_for]}}};
    choosing.add(std::move(dimension), std::move(as_given), Choosing::in_front);
}

/// A guard is only moved upward from 3 degC: under a clear sky the absorber is colder than its
/// sensor.
void add_frost(Choosing& choosing, const Scenario& scenario) {
    const Settings& own = choosing.own();
    if (scenario.plant.loop.glycol_mass_share > 0.0 || own[Setting::frost_guard] == 0) return;
    const auto pair = [](std::int16_t start, std::int16_t stop) {
        return SettingChoice{
            fmt::format("{}, off at {}", setting_words(Setting::frost_start, start),
                        setting_words(Setting::frost_stop, stop)),
            {{Setting::frost_start, start}, {Setting::frost_stop, stop}}};
    };
    SettingDimension dimension{"frost guard",
                               "Starts at 3 to 5 degC and stops 2 K above (common practice, no "
                               "source): an absorber under a clear sky is colder than its sensor.",
                               {},
                               0,
                               false};
    for (const double start_c : {3.0, 4.0, 5.0, 6.0}) {
        dimension.choices.push_back(pair(stored_setting(start_c), stored_setting(start_c + 2.0)));
    }
    choosing.add(std::move(dimension), pair(own[Setting::frost_start], own[Setting::frost_stop]),
                 Choosing::smaller_first);
}

std::vector<std::string> choice_cautions(const Scenario& scenario) {
    const Settings& own = scenario.controller.settings;
    std::vector<std::string> cautions;
    cautions.emplace_back(
        "Hard water wants a store limit of 60 to 65 degC, whatever the search found; nothing here "
        "knows how hard the water is.");
    if (!switches_backup(scenario)) {
        cautions.emplace_back(
            "This controller does not switch the backup heat: its thermostat and windows were not "
            "searched.");
        return cautions;
    }
    cautions.emplace_back(
        "The local rule against legionella goes before every temperature chosen here.");
    if (own[Setting::backup_temperature] < stored_setting(least_backup_c)) {
        cautions.push_back(fmt::format(
            "As delivered the backup keeps {}, less than the 55 degC that stored hot water needs.",
            setting_words(Setting::backup_temperature, own[Setting::backup_temperature])));
    }
    if (own[Setting::sanitise] == 0) {
        cautions.emplace_back("The sanitise cycle is off as delivered and stays off.");
    }
    return cautions;
}

}  // namespace

SearchSpace search_space(const Scenario& scenario) {
    SearchSpace space;
    space.as_delivered = scenario.controller.settings;
    space.cautions = choice_cautions(scenario);
    Choosing choosing(space);
    add_differences(choosing);
    add_pump_drive(choosing, scenario);
    add_store_limit(choosing, scenario.plant.store);
    add_cut_out(choosing, scenario);
    add_backup_dimensions(choosing, scenario);
    add_frost(choosing, scenario);
    add_sampling(choosing, scenario);
    return space;
}

Settings settings_at(const SearchSpace& space, std::span<const std::size_t> levels) {
    Settings settings = space.as_delivered;
    for (std::size_t i = 0; i < space.dimensions.size(); ++i) {
        for (const auto& [setting, value] : space.dimensions[i].choices[levels[i]].sets) {
            settings[setting] = value;
        }
    }
    return settings;
}

GridPoint delivered_point(const SearchSpace& space) {
    GridPoint point;
    point.reserve(space.dimensions.size());
    for (const SettingDimension& each : space.dimensions) point.push_back(each.as_delivered);
    return point;
}

bool fits_together(const SearchSpace& space, std::span<const std::size_t> levels) {
    const Settings settings = settings_at(space, levels);
    if (settings == space.as_delivered) return true;
    const int gap = settings[Setting::start_difference] - settings[Setting::stop_difference];
    return gap >= stored_setting(least_switching_k) &&
           (!firmware::settings_contradict(settings) ||
            firmware::settings_contradict(space.as_delivered));
}

Grid grid_of(const SearchSpace& space) {
    Grid grid;
    grid.levels.reserve(space.dimensions.size());
    for (const SettingDimension& each : space.dimensions) {
        grid.levels.push_back(each.choices.size());
    }
    grid.exists = [&space](std::span<const std::size_t> levels) {
        return fits_together(space, levels);
    };
    return grid;
}

std::string candidate_text(const Settings& as_delivered, const Settings& candidate) {
    std::string text;
    for (std::size_t i = 0; i < firmware::setting_count; ++i) {
        const auto setting = static_cast<Setting>(i);
        if (candidate[setting] == as_delivered[setting]) continue;
        if (!text.empty()) text += "; ";
        text += fmt::format("{}={}", firmware::setting_table()[i].name,
                            setting_words(setting, candidate[setting]));
    }
    return text.empty() ? "as delivered" : text;
}

}  // namespace noonbench::harness
