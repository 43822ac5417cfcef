// SPDX-License-Identifier: MIT
#include "candidates_choosing.hpp"

#include "harness/scenario/setting_text.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace noonbench::harness {

std::int16_t stored_setting(double value, double scale) {
    return static_cast<std::int16_t>(std::lround(value * scale));
}

std::string setting_words(firmware::Setting setting, std::int16_t value) {
    return written_setting(firmware::setting_table()[static_cast<std::size_t>(setting)], value);
}

void Choosing::add(SettingDimension dimension, SettingChoice own, Before before) {
    auto& choices = dimension.choices;
    auto found = std::find_if(choices.begin(), choices.end(), [&](const SettingChoice& each) {
        return std::all_of(each.sets.begin(), each.sets.end(), [&](const auto& set) {
            return space_.as_delivered[set.first] == set.second;
        });
    });
    if (found == choices.end()) {
        found = std::find_if(choices.begin(), choices.end(),
                             [&](const SettingChoice& each) { return before(own, each); });
        found = choices.insert(found, std::move(own));
    }
    dimension.as_delivered = static_cast<std::size_t>(found - choices.begin());
    if (choices.size() > 1) space_.dimensions.push_back(std::move(dimension));
}

void Choosing::add_degrees(std::string name, firmware::Setting setting, std::string ground,
                           std::initializer_list<double> values, double most) {
    SettingDimension dimension{std::move(name), std::move(ground), {}, 0};
    for (const double value : values) {
        if (value > most) continue;
        dimension.choices.push_back(choice_of(setting, stored_setting(value)));
    }
    add(std::move(dimension), choice_of(setting, own()[setting]), smaller_first);
}

SettingChoice Choosing::choice_of(firmware::Setting setting, std::int16_t value) {
    return {setting_words(setting, value), {{setting, value}}};
}

bool Choosing::smaller_first(const SettingChoice& a, const SettingChoice& b) {
    return a.sets.front().second < b.sets.front().second;
}

bool Choosing::in_front(const SettingChoice& /*own*/, const SettingChoice& /*other*/) {
    return true;
}

}  // namespace noonbench::harness
