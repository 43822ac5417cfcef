// SPDX-License-Identifier: MIT
// Settings as quantities: from the stored int16 to the types that the decisions compute with, and
// the one written rule for pairs that contradict each other.
#pragma once
#include "bounds.hpp"
#include "quantities.hpp"
#include "settings.hpp"

#include <cstdint>

namespace noonbench::firmware {

/// A temperature as its difference to 0 degC: sums and thresholds then cannot overflow.
constexpr TemperatureDifference above_zero(Temperature t) {
    return {t.centicelsius};
}

constexpr bool is_on(const Settings& settings, Setting choice) {
    return settings[choice] != 0;
}

constexpr TemperatureDifference difference_of(const Settings& settings, Setting difference) {
    return {settings[difference]};
}

/// A temperature setting as its difference to 0 degC.
constexpr TemperatureDifference degrees_of(const Settings& settings, Setting temperature) {
    return {settings[temperature]};
}

/// Seconds in one unit of a duration; 0 for units that are none.
constexpr std::uint32_t seconds_in(SettingUnit unit) {
    switch (unit) {
        case SettingUnit::seconds:
            return 1;
        case SettingUnit::minutes:
            return 60;
        case SettingUnit::hours:
            return 3600;
        case SettingUnit::days:
            return 86400;
        default:
            return 0;
    }
}

/// A duration in seconds, by the unit of its row in the table of settings.
std::uint32_t duration_s(const Settings& settings, Setting duration) noexcept;

/// Two thresholds of one switch stay at least so far apart, whatever the settings say.
inline constexpr TemperatureDifference least_gap{100};

// Contradicting pairs are accepted, shown as advice, and resolved by one rule: the threshold that
// starts a thing stands, and the one that ends it moves to keep the least gap.

/// Stop difference in force: min(stop, start - 1 K).
constexpr TemperatureDifference stop_difference(const Settings& settings) {
    return lesser(difference_of(settings, Setting::stop_difference),
                  difference_of(settings, Setting::start_difference) - least_gap);
}

/// Collector release in force: min(release, cut-out - 1 K).
constexpr TemperatureDifference collector_release(const Settings& settings) {
    return lesser(degrees_of(settings, Setting::collector_release),
                  degrees_of(settings, Setting::collector_cut_out) - least_gap);
}

/// End of frost guarding in force: max(stop, start + 1 K).
constexpr TemperatureDifference frost_stop(const Settings& settings) {
    return greater(degrees_of(settings, Setting::frost_stop),
                   degrees_of(settings, Setting::frost_start) + least_gap);
}

/// Does any pair that is in force contradict itself? Besides the three pairs above: thresholds
/// that another one makes unreachable, and a holiday that ends before it begins.
bool settings_contradict(const Settings& settings) noexcept;

}  // namespace noonbench::firmware
