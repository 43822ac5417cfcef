// SPDX-License-Identifier: MIT
// Backup heat in the upper coil: weekly windows, thermostat, leaving it to the sun, and the
// sanitise cycle. Who wins is the table in priority.hpp.
#pragma once
#include "settings.hpp"
#include "situation.hpp"
#include "state.hpp"

namespace noonbench::firmware {

/// Values of Setting::sanitise_sensor.
enum class SanitiseSensor : std::int16_t { store_top, store_bottom };

/// While a sanitise cycle holds its temperature, the heat goes off this far above it and on again
/// half as far: the hold must not be broken by the heater's own hysteresis.
inline constexpr TemperatureDifference sanitise_margin{200};

/// What the backup must know of the solar side.
struct SolarSide {
    bool at_ceiling = false;  // GuardsState::at_ceiling: the ceiling bars all sources of heat
    bool gaining = false;     // the pump is collecting
};

/// The temperature that has to prove the sanitising, if the store's sensors are good.
Temperature sanitise_proof(const Settings& settings, const Situation& situation) noexcept;

/// Settles relay and reason for the coming second.
///  - Thermostat: within a window the top is heated from temperature - hysteresis up to the
///    temperature. While the clock is unset all windows are closed, and the clock-unset
///    temperature is kept instead: heating to it shows clock_unset, not needing to shows
///    out_of_window.
///  - Leaving it to the sun: in a window, only while the sun is gaining, and for at most
///    solar_first_longest from the first time that it was left to the sun in that window.
///  - With backup control off, only a hand switches the backup on.
void decide_backup(const Settings& settings, const Situation& situation, const SolarSide& solar,
                   BackupState& backup) noexcept;

/// Watches and drives the sanitise cycle; called by decide_backup.
///  - The store is sanitised when the proving sensor has shown the temperature without a break for
///    the hold, whoever heated it; the date is noted, a miss forgiven.
///  - A cycle begins at sanitise_from of the first day on which sanitise_every days have passed
///    since, or the date is not known, once a day at most. It ends with success, or as missed
///    after sanitise_longest. With backup control off nobody can do it, and it is missed at once.
///  - Without a set clock no cycle begins and no date is noted.
void keep_sanitise(const Settings& settings, const Situation& situation,
                   BackupState& backup) noexcept;

}  // namespace noonbench::firmware
