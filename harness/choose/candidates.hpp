// SPDX-License-Identifier: MIT
// Which settings are searched for a site, and the values that each may take. What describes the
// site (flow, glycol share, pressure, height, fitted sensors) and what guards it (ceiling, sanitise
// cycle, least run and rest) is never searched.
#pragma once
#include "halving_grid.hpp"

#include "firmware-model/settings.hpp"

#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace noonbench::harness {

/// One value of a dimension: mostly one setting, sometimes a few that only make sense together.
struct SettingChoice {
    std::string text;  // with unit: "8 K", "06:00 – 08:00, 17:00 – 22:00"
    std::vector<std::pair<firmware::Setting, std::int16_t>> sets;  // in the scale of the table
};

/// One thing to choose. Choices stand in the order of what they mean, so that neighbours are alike.
struct SettingDimension {
    std::string name;                    // in words: "start difference"
    std::string ground;                  // why these values, and where they come from
    std::vector<SettingChoice> choices;  // at least two
    std::size_t as_delivered = 0;        // the choice that the scenario itself holds
    bool scale = true;  // more and less of one quantity: "5 K to 8 K" says something
};

struct SearchSpace {
    firmware::Settings as_delivered{};  // the table's defaults and what the site's file sets
    std::vector<SettingDimension> dimensions;
    std::vector<std::string> cautions;  // about the choices themselves, for whoever uses them
};

/// Least temperature for which a thermostat of the stored hot water is offered, degC: at 60 degC in
/// the store and 50 degC at the outlet legionella die or do not grow (HSG274 part 2); 5 K are for
/// the sensor's place and the hysteresis (common practice, no source).
inline constexpr double least_backup_c = 55.0;

/// What is searched for this site, where it applies: speed only with a pump that takes the signal,
/// windows, thermostat and solar first only where the controller switches the backup, frost only
/// with a frost guard on a water loop, sampling only with evacuated tubes. Each dimension also has
/// the scenario's own value, whatever it is. Throws std::invalid_argument for a scenario that makes
/// no plant.
[[nodiscard]] SearchSpace search_space(const Scenario& scenario);

/// The settings of a candidate: those as delivered with the choices of these levels laid over them.
/// Precondition: one level for each dimension, each below its count of choices.
[[nodiscard]] firmware::Settings settings_at(const SearchSpace& space,
                                             std::span<const std::size_t> levels);

/// The levels of the settings as delivered.
[[nodiscard]] GridPoint delivered_point(const SearchSpace& space);

/// Whether the choices fit together: no pair contradicts itself, and the pump stops at least
/// `least_switching_k` below its start. Settings as delivered always do.
[[nodiscard]] bool fits_together(const SearchSpace& space, std::span<const std::size_t> levels);

/// Start above stop difference, K. Two sensors of class B may differ by 1.2 K at 60 degC (IEC
/// 60751, from memory); a smaller gap would switch on the sensors' own error.
inline constexpr double least_switching_k = 1.5;

/// The grid that the search walks; it refers to `space`, which must outlive it.
[[nodiscard]] Grid grid_of(const SearchSpace& space);

/// What differs from the settings as delivered, as a scenario has it: "store_limit=65 degC;
/// solar_first=off"; "as delivered" where nothing does.
[[nodiscard]] std::string candidate_text(const firmware::Settings& as_delivered,
                                         const firmware::Settings& candidate);

}  // namespace noonbench::harness
