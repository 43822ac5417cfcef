// SPDX-License-Identifier: MIT
// How dimensions get into a search space; for the sources of candidates.hpp alone.
#pragma once
#include "candidates.hpp"

#include <initializer_list>
#include <string>

namespace noonbench::harness {

inline constexpr double stored_per_kelvin =
    100.0;                                      // the table's scale of temperatures, differences
inline constexpr double store_reserve_k = 5.0;  // below the ceiling: the bottom is the cooler end

/// In the table's scale.
[[nodiscard]] std::int16_t stored_setting(double value, double scale = stored_per_kelvin);
/// "8 K", "06:30": as a scenario has it.
[[nodiscard]] std::string setting_words(firmware::Setting setting, std::int16_t value);

/// Puts dimensions into the space where there is something to choose, each with the scenario's own
/// choice among the others.
class Choosing {
  public:
    explicit Choosing(SearchSpace& space) : space_(space) {}

    /// Whether `a` stands before `b`.
    using Before = bool (*)(const SettingChoice& a, const SettingChoice& b);

    /// `own` is the scenario's choice; unless it is one of the others, it is put before the first
    /// that it stands before.
    void add(SettingDimension dimension, SettingChoice own, Before before);

    /// One setting in the table's temperatures or differences; values ascend, those above `most`
    /// are left out.
    void add_degrees(std::string name, firmware::Setting setting, std::string ground,
                     std::initializer_list<double> values, double most = 1e9);

    static SettingChoice choice_of(firmware::Setting setting, std::int16_t value);
    static bool smaller_first(const SettingChoice& a, const SettingChoice& b);
    static bool in_front(const SettingChoice& own, const SettingChoice& other);

    /// The settings as delivered.
    [[nodiscard]] const firmware::Settings& own() const { return space_.as_delivered; }

  private:
    SearchSpace& space_;
};

/// Windows, thermostat and solar first, if this controller switches the backup.
void add_backup_dimensions(Choosing& choosing, const Scenario& scenario);
[[nodiscard]] bool switches_backup(const Scenario& scenario);

}  // namespace noonbench::harness
