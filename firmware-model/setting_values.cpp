// SPDX-License-Identifier: MIT
#include "setting_values.hpp"

#include <cstddef>

namespace noonbench::firmware {

namespace {

/// Switches that would never let go, or would let go at once.
bool pairs_contradict(const Settings& s) {
    const bool frost = is_on(s, Setting::frost_guard);
    return s[Setting::stop_difference] > stop_difference(s).centikelvin ||
           s[Setting::collector_release] > collector_release(s).centikelvin ||
           (frost && s[Setting::frost_stop] < frost_stop(s).centikelvin);
}

/// A threshold beyond one that ranks higher is never reached.
bool out_of_reach(const Settings& s, Setting lower, Setting higher) {
    return s[lower] >= s[higher];
}

bool overheat_contradicts(const Settings& s) {
    return out_of_reach(s, Setting::store_limit, Setting::store_ceiling) ||
           (is_on(s, Setting::day_shedding) &&
            out_of_reach(s, Setting::day_shedding_start, Setting::collector_cut_out)) ||
           (is_on(s, Setting::night_shedding) &&
            out_of_reach(s, Setting::night_shedding_target, Setting::store_limit));
}

bool backup_contradicts(const Settings& s) {
    return is_on(s, Setting::backup_control) &&
           (out_of_reach(s, Setting::backup_temperature, Setting::store_ceiling) ||
            (is_on(s, Setting::sanitise) &&
             (out_of_reach(s, Setting::sanitise_temperature, Setting::store_ceiling) ||
              out_of_reach(s, Setting::sanitise_hold, Setting::sanitise_longest))));
}

bool holiday_contradicts(const Settings& s) {
    return s[Setting::holiday_until] < s[Setting::holiday_from];
}

}  // namespace

std::uint32_t duration_s(const Settings& settings, Setting duration) noexcept {
    const SettingUnit unit = setting_table()[static_cast<std::size_t>(duration)].unit;
    return static_cast<std::uint16_t>(settings[duration]) * seconds_in(unit);
}

bool settings_contradict(const Settings& settings) noexcept {
    return pairs_contradict(settings) || overheat_contradicts(settings) ||
           backup_contradicts(settings) || holiday_contradicts(settings);
}

}  // namespace noonbench::firmware
