// SPDX-License-Identifier: MIT
// The store, its solar coil and what it begins with.
#include "key_making.hpp"

namespace noonbench::harness {

namespace {

plant::Store& store(Draft& d) {
    return d.scenario.plant.store;
}

void add_coil_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("store.solar_coil.heat_transfer", {"W/K", 10, 5000},
                              "clean, at full flow",
                              [](Draft& d) { return &store(d).solar_coil.ua_w_k; }));
    keys.push_back(number_key("store.solar_coil.from_height", {"%", 0, 100},
                              "lower end, share of the store's height",
                              [](Draft& d) { return &store(d).solar_coil.from_height; }));
    keys.push_back(number_key("store.solar_coil.to_height", {"%", 0, 100},
                              "upper end, share of the store's height",
                              [](Draft& d) { return &store(d).solar_coil.to_height; }));
    keys.push_back(number_key("store.solar_coil.content", {"l", 0.5, 50}, "fluid in the coil",
                              [](Draft& d) { return &store(d).solar_coil.content_m3; }));
    keys.push_back(number_key("store.solar_coil.bore", {"mm", 5, 60},
                              "of the coil's tube; its length follows from the content (solved "
                              "hydraulics)",
                              [](Draft& d) { return &store(d).solar_coil.bore_m; }));
}

/// The store's own safety chain, hard-wired and outside the controller.
void add_safety_keys(std::vector<Key>& keys) {
    keys.push_back(key_of(Form::flag, "store.high_limit.fitted",
                          "no: the stat that stops pump and backup was never wired in",
                          [](Draft& d) { return &store(d).high_limit_fitted; }));
    keys.push_back(number_key("store.high_limit.temperature", {"degC", 60, 99},
                              "top of the store at which that stat opens; it does not reset itself",
                              [](Draft& d) { return &store(d).high_limit_c; }));
    keys.push_back(number_key("store.safety_valve.temperature", {"degC", 80, 99},
                              "top of the store at which its own safety valve opens",
                              [](Draft& d) { return &store(d).safety_valve_c; }));
}

}  // namespace

void add_store_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("store.volume", {"l", 50, 2000}, "water in the store",
                              [](Draft& d) { return &store(d).volume_m3; }));
    keys.push_back(number_key("store.height", {"m", 0.4, 4}, "of the water in it",
                              [](Draft& d) { return &store(d).height_m; }));
    keys.push_back(number_key("store.heat_loss", {"W/K", 0.1, 20}, "insulation all round",
                              [](Draft& d) { return &store(d).side_ua_w_k; }));
    keys.push_back(number_key("store.connection_heat_loss", {"W/K", 0, 10},
                              "more loss at the top, by pipes without heat trap",
                              [](Draft& d) { return &store(d).connection_ua_w_k; }));
    keys.push_back(number_key("store.conductivity", {"W/(m K)", 0.5, 10},
                              "upward and downward, wall and coils included",
                              [](Draft& d) { return &store(d).conductivity_w_mk; }));
    keys.push_back(number_key("store.inlet_mixing", {"%", 0, 100},
                              "share of the cold inlet's flow that stirs upward",
                              [](Draft& d) { return &store(d).inlet_mixing; }));
    keys.push_back(number_key("store.room", {"degC", -10, 45}, "air around store and station",
                              [](Draft& d) { return &store(d).room_c; }));
    add_coil_keys(keys);
    add_safety_keys(keys);
    keys.push_back(number_key("store.bottom_sensor_height", {"%", 0, 100},
                              "share of the store's height",
                              [](Draft& d) { return &store(d).bottom_sensor_height; }));
    keys.push_back(number_key("store.top_sensor_height", {"%", 0, 100},
                              "share of the store's height",
                              [](Draft& d) { return &store(d).top_sensor_height; }));
    keys.push_back(number_key("store.start_top", {"degC", 1, 95},
                              "when the run begins; straight line to the bottom",
                              [](Draft& d) { return &d.scenario.start_temperatures.store_top_c; }));
    keys.push_back(
        number_key("store.start_bottom", {"degC", 1, 95}, "when the run begins",
                   [](Draft& d) { return &d.scenario.start_temperatures.store_bottom_c; }));
    keys.push_back(number_key("store.layers", {"", 4, 32}, "layers of the store in the model",
                              [](Draft& d) { return &d.scenario.plant.layers; }));
}

}  // namespace noonbench::harness
