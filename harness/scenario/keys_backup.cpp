// SPDX-License-Identifier: MIT
// The second source of heat, and the hot-water circulation.
#include "key_making.hpp"

namespace noonbench::harness {

namespace {

plant::Backup& backup(Draft& d) {
    return d.scenario.plant.backup;
}
plant::Circulation& circulation(Draft& d) {
    return d.scenario.plant.circulation;
}

/// Two windows of the day, each `window_N_from` and `window_N_until`.
void add_window_keys(std::vector<Key>& keys, const std::string& section,
                     std::array<std::int32_t, 4>& (*times)(Draft&)) {
    const char* const names[] = {"window_1_from", "window_1_until", "window_2_from",
                                 "window_2_until"};
    for (std::size_t i = 0; i < 4; ++i)
        keys.push_back(key_of(Form::time_of_day, section + "." + names[i],
                              "a window whose two times are equal is none",
                              [times, i](Draft& d) { return &times(d)[i]; }));
}

void add_own_thermostat_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("backup.own.target", {"degC", 20, 90},
                              "of the backup's own thermostat",
                              [](Draft& d) { return &backup(d).own_target_c; }));
    keys.push_back(number_key("backup.own.hysteresis", {"K", 0.5, 30}, "on again so much below",
                              [](Draft& d) { return &backup(d).own_hysteresis_k; }));
    keys.push_back(number_key("backup.own.sensor_height", {"%", 0, 100},
                              "share of the store's height",
                              [](Draft& d) { return &backup(d).own_sensor_height; }));
    add_window_keys(keys, "backup.own", [](Draft& d) -> std::array<std::int32_t, 4>& {
        return backup(d).own_windows_s;
    });
}

}  // namespace

void add_backup_keys(std::vector<Key>& keys) {
    keys.push_back(word_key("backup.kind", {"none", "boiler", "immersion"},
                            "boiler through the upper coil, or an electric immersion heater",
                            [](Draft& d) { return byte_of(backup(d).kind); }));
    keys.push_back(number_key("backup.power", {"kW", 0.1, 100}, "at most",
                              [](Draft& d) { return &backup(d).power_w; }));
    keys.push_back(number_key("backup.flow_temperature", {"degC", 30, 95},
                              "of the boiler's water into the upper coil",
                              [](Draft& d) { return &backup(d).flow_temperature_c; }));
    keys.push_back(number_key("backup.coil_heat_transfer", {"W/K", 10, 5000}, "of the upper coil",
                              [](Draft& d) { return &backup(d).coil_ua_w_k; }));
    keys.push_back(number_key("backup.from_height", {"%", 0, 100},
                              "lower end of coil or heater, share of the store's height",
                              [](Draft& d) { return &backup(d).from_height; }));
    keys.push_back(number_key("backup.to_height", {"%", 0, 100},
                              "upper end of coil or heater, share of the store's height",
                              [](Draft& d) { return &backup(d).to_height; }));
    keys.push_back(key_of(Form::flag, "backup.by_controller",
                          "no: own thermostat and windows, no wire to the controller",
                          [](Draft& d) { return &backup(d).by_controller; }));
    add_own_thermostat_keys(keys);
    keys.push_back(key_of(Form::flag, "circulation.fitted", "a hot-water circulation loop",
                          [](Draft& d) { return &circulation(d).fitted; }));
    keys.push_back(number_key("circulation.heat_loss", {"W/K", 0, 50}, "of the whole loop",
                              [](Draft& d) { return &circulation(d).loop_ua_w_k; }));
    keys.push_back(number_key("circulation.flow", {"kg/s", 0.005, 0.5}, "of its pump",
                              [](Draft& d) { return &circulation(d).flow_kg_s; }));
    keys.push_back(number_key("circulation.return_height", {"%", 0, 100},
                              "where it comes back, share of the store's height",
                              [](Draft& d) { return &circulation(d).return_height; }));
    add_window_keys(keys, "circulation", [](Draft& d) -> std::array<std::int32_t, 4>& {
        return circulation(d).running_s;
    });
}

}  // namespace noonbench::harness
