// SPDX-License-Identifier: MIT
// The one list of settings. YAML keys, documentation, forms and registers are all made from it.
#pragma once
#include <array>
#include <cstddef>
#include <cstdint>

namespace noonbench::firmware {

/// Kind of the number stored. A stored value is an int16 of the scale given here.
enum class SettingUnit : std::uint8_t {
    difference_k,   // stored in 0.01 K
    temperature_c,  // stored in 0.01 degC
    seconds,
    minutes,
    hours,
    days,
    percent,
    minute_of_day,      // 0..1440, written as "06:30"
    litres_per_minute,  // stored in 0.01 l/min
    bar,                // gauge, stored in 0.01 bar
    metres,             // stored in 0.1 m
    pulses_per_litre,
    weekdays,          // bit 0 = Monday .. bit 6 = Sunday
    date,              // days since 2000-01-01, 0 = never
    choice,            // 0..n-1, one of SettingInfo::choices
    level_per_kelvin,  // stored in 0.1 % per K
};

struct SettingInfo {
    const char* name;  // snake_case, the YAML key
    SettingUnit unit;
    std::int16_t least;
    std::int16_t most;
    std::int16_t initial;  // the default, as delivered
    std::int16_t step;
    const char* const* choices;  // for SettingUnit::choice: most + 1 words; else null
    const char* meaning;         // one line in an installer's words
    const char* ground;          // where the default comes from
};

/// Index into Settings and setting_table(); the order is that of the table.
enum class Setting : std::uint8_t {
    // difference switch
    start_difference,
    stop_difference,
    least_run_time,
    least_rest_time,
    // pump drive
    pump_drive,  // choice: on_off, target_difference, target_collector
    target_difference,
    target_collector,
    start_boost_time,
    least_level,
    level_gain,
    level_reset_time,
    speed_signal,  // choice: more_is_faster, more_is_slower
    // overheat guard
    store_limit,
    store_limit_release,  // the store must cool this much below the limit
    store_ceiling,
    collector_cut_out,
    collector_release,
    day_shedding,           // choice: off, on
    day_shedding_start,     // collector temperature
    night_shedding,         // choice: off, on
    night_shedding_target,  // store is cooled down to this
    holiday_from,           // date; holiday mode = night shedding between the two dates
    holiday_until,
    // frost guard
    frost_guard,  // choice: off, on
    frost_start,
    frost_stop,
    frost_store_floor,
    // sampling and exercise
    sampling,  // choice: off, on
    sampling_every,
    sampling_for,
    sampling_from,  // daylight window
    sampling_until,
    exercise_after,  // 0 days = off
    exercise_for,
    // backup heat
    backup_control,  // choice: off, on
    backup_temperature,
    backup_hysteresis,
    window_1_days,
    window_1_from,
    window_1_until,
    window_2_days,
    window_2_from,
    window_2_until,
    window_3_days,
    window_3_from,
    window_3_until,
    summer_time,  // choice: none, european (last Sundays of March and October)
    solar_first,  // choice: off, on
    solar_first_longest,
    solar_first_floor,        // store top; below it the backup does not wait for the sun
    clock_unset_temperature,  // the minimum the thermostat keeps when the clock is unset
    // sanitise cycle
    sanitise,  // choice: off, on
    sanitise_temperature,
    sanitise_hold,
    sanitise_every,
    sanitise_from,
    sanitise_longest,
    sanitise_sensor,  // choice: store_top, store_bottom
    // heat tally
    tally_source,  // choice: typed_in_flow, pulse_meter
    typed_in_flow,
    pulses_per_litre,
    glycol_share,
    // sensors and site
    second_collector_fitted,  // choice: no, yes
    station_return_fitted,    // choice: no, yes
    site_pressure,            // at the gauge, cold
    collector_height,         // above the gauge
};
inline constexpr std::size_t setting_count =
    static_cast<std::size_t>(Setting::collector_height) + 1;

/// The settings in force: plain data, int16 each in the scale of the table.
struct Settings {
    std::array<std::int16_t, setting_count> value{};

    [[nodiscard]] constexpr std::int16_t operator[](Setting s) const {
        return value[static_cast<std::size_t>(s)];
    }
    constexpr std::int16_t& operator[](Setting s) { return value[static_cast<std::size_t>(s)]; }
    friend bool operator==(const Settings&, const Settings&) = default;
};

/// All rows, in the order of Setting. The texts live in a section of their own.
const std::array<SettingInfo, setting_count>& setting_table() noexcept;

/// Settings as delivered: every default of the table.
Settings default_settings() noexcept;

/// The same settings, with the default in the place of each value outside its row's limits.
Settings within_limits(const Settings& settings) noexcept;

}  // namespace noonbench::firmware
