// SPDX-License-Identifier: MIT
// Who draws hot water, when nobody does, how warm it has to be, and the cold water's temperature.
#include "key_making.hpp"

#include <algorithm>

namespace noonbench::harness {

namespace {

Household& household(Draft& d) {
    return d.scenario.household;
}
plant::Mains& mains(Draft& d) {
    return d.scenario.mains;
}
plant::Tap& tap(Draft& d) {
    return d.scenario.plant.tap;
}

Key draws_key() {
    std::vector<Key> items;
    items.push_back(required(
        key_of(Form::time_of_day, "at", "every day", [](Draft& d) { return &d.draw.at_s; })));
    items.push_back(required(number_key("energy", {"kWh", 0.001, 50}, "over the cold water",
                                        [](Draft& d) { return &d.draw.energy_j; })));
    items.push_back(number_key("flow", {"l/min", 0.5, 60}, "at the tap",
                               [](Draft& d) { return &d.draw.flow_m3_s; }));
    items.push_back(number_key("useful_from", {"degC", 0, 70},
                               "water counts from this temperature on; 0 degC: all of it",
                               [](Draft& d) { return &d.draw.useful_from_c; }));
    items.push_back(number_key("peak", {"degC", 0, 70},
                               "to be reached during the draw; 0 degC: none",
                               [](Draft& d) { return &d.draw.peak_c; }));
    Key key = list_key("household.draws", {"", 0, 200}, "the draws of every day, instead",
                       std::move(items));
    key.open = [](Draft& d) { household(d).draws.clear(); };
    key.begin = [](Draft& d) { d.draw = {}; };
    key.take = [](Draft& d) -> std::vector<Objection> {
        auto& draws = household(d).draws;
        const auto later = [](const DailyDraw& a, const DailyDraw& b) { return a.at_s < b.at_s; };
        draws.insert(std::upper_bound(draws.begin(), draws.end(), d.draw, later), d.draw);
        return {};
    };
    return key;
}

Key absent_key() {
    std::vector<Key> items;
    items.push_back(required(key_of(Form::date_time, "from", "first day away",
                                    [](Draft& d) { return &d.away.first_s; })));
    items.push_back(required(key_of(Form::date_time, "until", "day of coming home",
                                    [](Draft& d) { return &d.away.end_s; })));
    Key key =
        list_key("household.absent", {"", 0, 100}, "whole days without draws", std::move(items));
    key.open = [](Draft& d) { household(d).pattern.away.clear(); };
    key.begin = [](Draft& d) { d.away = {}; };
    key.take = [](Draft& d) -> std::vector<Objection> {
        if (d.away.first_s % plant::seconds_a_day != 0 || d.away.end_s % plant::seconds_a_day != 0)
            return {{"an absence has a time of day", "whole days, from: and until: dates", {}}};
        if (d.away.end_s <= d.away.first_s)
            return {{"an absence ends before it begins", "until: a date after from:", {}}};
        household(d).pattern.away.push_back(d.away);
        return {};
    };
    return key;
}

void add_mains_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("mains.mean", {"degC", 1, 35}, "cold water, mean of the year",
                              [](Draft& d) { return &mains(d).mean_c; }));
    keys.push_back(number_key("mains.swing", {"K", 0, 15}, "half of warmest minus coldest",
                              [](Draft& d) { return &mains(d).amplitude_k; }));
    keys.push_back(number_key("mains.warmest_day", {"", 1, 366}, "day of the year, 1 is 1 January",
                              [](Draft& d) { return &mains(d).warmest_day; }));
    keys.push_back(key_of(Form::flag, "mains.from_air",
                          "yes: by the correlation with the air temperatures below, instead",
                          [](Draft& d) { return &mains(d).from_air; }));
    keys.push_back(number_key("mains.air_mean", {"degC", -10, 35}, "air, mean of the year",
                              [](Draft& d) { return &mains(d).air_mean_c; }));
    keys.push_back(number_key("mains.air_range", {"K", 0, 50},
                              "air, warmest minus coldest month's mean",
                              [](Draft& d) { return &mains(d).air_range_k; }));
    keys.push_back(key_of(Form::flag, "mains.southern", "warmest in January or February",
                          [](Draft& d) { return &mains(d).southern; }));
}

}  // namespace

void add_household_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("household.people", {"", 1, 20},
                              "seeded draws of so many people at home",
                              [](Draft& d) { return &household(d).pattern.people; }));
    keys.push_back(number_key("household.litres_a_person", {"l", 5, 200},
                              "a day, at 45 degC (with `people`)",
                              [](Draft& d) { return &household(d).pattern.volume_m3_person_day; }));
    keys.push_back(word_key("household.profile", {"none", "S", "M", "L", "XL"},
                            "load profile of Regulation (EU) 812/2013, instead",
                            [](Draft& d) { return byte_of(household(d).pattern.profile); }));
    keys.push_back(draws_key());
    keys.push_back(number_key("household.scale", {"%", 0, 500},
                              "multiplies the energy of every draw",
                              [](Draft& d) { return &household(d).pattern.scale; }));
    keys.push_back(absent_key());
    keys.push_back(key_of(Form::flag, "tap.mixer_fitted", "a thermostatic mixing valve",
                          [](Draft& d) { return &tap(d).mixer_fitted; }));
    keys.push_back(number_key("tap.mixer_set", {"degC", 30, 65}, "what it is set to",
                              [](Draft& d) { return &tap(d).mixer_set_c; }));
    keys.push_back(number_key("tap.comfort", {"degC", 30, 60}, "litres below this are counted",
                              [](Draft& d) { return &tap(d).comfort_c; }));
    add_mains_keys(keys);
}

}  // namespace noonbench::harness
