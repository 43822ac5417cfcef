// SPDX-License-Identifier: MIT
// When the backup heats, how far, and whether it lets the sun go first.
#include "candidates_choosing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>

namespace noonbench::harness {

namespace {

using firmware::Setting;
using firmware::Settings;

constexpr double coil_needs_k = 5.0;  // boiler flow over the water that it is to heat; judged

struct Window {
    int from_h = 0;
    int until_h = 0;
};

/// One day's pattern; the second window may be empty.
struct WindowPattern {
    Window first;
    Window second;
};

/// From the most hours to the fewest. Common practice, no source: before the household rises, and
/// when the sun has done what it can.
constexpr std::array<WindowPattern, 7> window_patterns{{
    {{0, 24}, {0, 0}},
    {{6, 22}, {0, 0}},
    {{5, 9}, {15, 22}},
    {{4, 7}, {16, 21}},
    {{14, 22}, {0, 0}},
    {{16, 21}, {0, 0}},
    {{4, 7}, {0, 0}},
}};

std::string window_text(const Settings& settings) {
    constexpr std::array<std::array<Setting, 3>, 3> windows{{
        {Setting::window_1_days, Setting::window_1_from, Setting::window_1_until},
        {Setting::window_2_days, Setting::window_2_from, Setting::window_2_until},
        {Setting::window_3_days, Setting::window_3_from, Setting::window_3_until},
    }};
    std::string text;
    for (const auto& [days, from, until] : windows) {
        if (settings[days] == 0) continue;
        if (!text.empty()) text += ", ";
        text += fmt::format("{} – {}", setting_words(from, settings[from]),
                            setting_words(until, settings[until]));
        if (settings[days] != 127) text += " on " + setting_words(days, settings[days]);
    }
    return text.empty() ? "never" : text;
}

/// Minutes a week for which a choice of windows_of() is open, each window by itself.
int open_minutes(const SettingChoice& windows) {
    int minutes = 0;
    for (std::size_t i = 0; i + 2 < windows.sets.size(); i += 3) {
        const int days = std::popcount(static_cast<unsigned>(windows.sets[i].second));
        const int length = windows.sets[i + 2].second - windows.sets[i + 1].second;
        minutes += days * (length < 0 ? length + 1440 : length);
    }
    return minutes;
}

SettingChoice windows_of(const Settings& settings) {
    SettingChoice choice{window_text(settings), {}};
    for (const Setting setting :
         {Setting::window_1_days, Setting::window_1_from, Setting::window_1_until,
          Setting::window_2_days, Setting::window_2_from, Setting::window_2_until,
          Setting::window_3_days, Setting::window_3_from, Setting::window_3_until}) {
        choice.sets.emplace_back(setting, settings[setting]);
    }
    return choice;
}

void add_windows(Choosing& choosing) {
    SettingDimension dimension{"backup windows",
                               "A few ordinary days (common practice, no source), each for every "
                               "day of the week.",
                               {},
                               0,
                               false};
    const auto minute = [](int hour) { return static_cast<std::int16_t>(60 * hour); };
    for (const WindowPattern& pattern : window_patterns) {
        Settings settings = choosing.own();
        const bool has_second = pattern.second.until_h > pattern.second.from_h;
        settings[Setting::window_1_days] = 127;
        settings[Setting::window_1_from] = minute(pattern.first.from_h);
        settings[Setting::window_1_until] = minute(pattern.first.until_h);
        settings[Setting::window_2_days] = has_second ? std::int16_t{127} : std::int16_t{0};
        settings[Setting::window_2_from] = minute(pattern.second.from_h);
        settings[Setting::window_2_until] = minute(pattern.second.until_h);
        settings[Setting::window_3_days] = 0;
        dimension.choices.push_back(windows_of(settings));
    }
    choosing.add(std::move(dimension), windows_of(choosing.own()),
                 [](const SettingChoice& a, const SettingChoice& b) {
                     return open_minutes(a) > open_minutes(b);
                 });
}

void add_thermostat(Choosing& choosing, const plant::Backup& backup) {
    double most = choosing.own()[Setting::store_ceiling] / stored_per_kelvin - store_reserve_k;
    if (backup.kind == plant::BackupKind::boiler) {
        most = std::min(most, backup.flow_temperature_c - coil_needs_k);
    }
    choosing.add_degrees("backup temperature", Setting::backup_temperature,
                         "Not below 55 degC, which stored hot water needs against legionella; not "
                         "nearer than 5 K to the boiler's flow.",
                         {least_backup_c, 58, 60, 62, 65}, most);
}

/// The floor below which comfort does not wait stays as it is.
void add_solar_first(Choosing& choosing) {
    SettingDimension dimension{"solar first",
                               "Off, or for up to a long summer's morning; the temperature below "
                               "which comfort does not wait stays as delivered.",
                               {{"off", {{Setting::solar_first, std::int16_t{0}}}}},
                               0,
                               false};
    const auto waiting = [](std::int16_t longest_min) {
        return SettingChoice{
            fmt::format("for up to {}", setting_words(Setting::solar_first_longest, longest_min)),
            {{Setting::solar_first, std::int16_t{1}}, {Setting::solar_first_longest, longest_min}}};
    };
    for (const int longest_min : {60, 120, 240, 360, 480}) {
        dimension.choices.push_back(waiting(static_cast<std::int16_t>(longest_min)));
    }
    choosing.add(std::move(dimension), waiting(choosing.own()[Setting::solar_first_longest]),
                 [](const SettingChoice& a, const SettingChoice& b) {
                     return b.sets.size() > 1 && a.sets.back().second < b.sets.back().second;
                 });
}

}  // namespace

bool switches_backup(const Scenario& scenario) {
    return scenario.plant.backup.kind != plant::BackupKind::none &&
           scenario.plant.backup.by_controller &&
           scenario.controller.settings[Setting::backup_control] != 0;
}

void add_backup_dimensions(Choosing& choosing, const Scenario& scenario) {
    if (!switches_backup(scenario)) return;
    add_windows(choosing);
    add_thermostat(choosing, scenario.plant.backup);
    add_solar_first(choosing);
}

}  // namespace noonbench::harness
