// SPDX-License-Identifier: MIT
// Settings of the controller, straight from the setting table, and its clock.
#include "key_making.hpp"
#include "setting_text.hpp"

namespace noonbench::harness {

namespace {

ControllerClock& clock(Draft& d) {
    return d.scenario.controller.clock;
}

Key setting_key(const firmware::SettingInfo& info) {
    Key key = key_of(Form::setting, std::string("controller.") + info.name, info.meaning, {});
    key.setting = &info;
    return key;
}

}  // namespace

void add_controller_keys(std::vector<Key>& keys) {
    for (const firmware::SettingInfo& info : firmware::setting_table())
        keys.push_back(setting_key(info));
    keys.push_back(number_key("controller.clock.offset", {"min", -20000, 20000},
                              "what the controller's clock shows minus local standard time",
                              [](Draft& d) { return &clock(d).offset_s; }));
    keys.push_back(number_key("controller.clock.drift", {"s/day", -600, 600}, "positive: gains",
                              [](Draft& d) { return &clock(d).drift_s_per_day; }));
    keys.push_back(key_of(Form::flag, "controller.clock.is_set", "no: it has lost its time",
                          [](Draft& d) { return &clock(d).is_set; }));
}

}  // namespace noonbench::harness
