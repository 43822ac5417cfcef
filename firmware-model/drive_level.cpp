// SPDX-License-Identifier: MIT
#include "drive_level.hpp"

#include "bounds.hpp"
#include "setting_values.hpp"

#include <limits>

namespace noonbench::firmware {

namespace {

constexpr std::int32_t per_percent = 1000;
constexpr std::int32_t full_level = full_level_pct * per_percent;
constexpr std::int32_t most_error_ck = 10'000;

// gain * error with the greatest gain that an int16 can hold
static_assert(std::int64_t{std::numeric_limits<std::int16_t>::max()} * most_error_ck <=
              std::numeric_limits<std::int32_t>::max());
// proportional part * seconds between appointments
static_assert(std::int64_t{full_level} * level_every_s <= std::numeric_limits<std::int32_t>::max());

bool regulates(const Settings& settings, const PumpState& pump, Ticks now) {
    const bool collects =
        pump.reason == PumpReason::collecting || pump.reason == PumpReason::least_run;
    const bool boosted =
        seconds_between(pump.changed_at, now) < duration_s(settings, Setting::start_boost_time);
    return settings[Setting::pump_drive] != static_cast<std::int16_t>(PumpDrive::on_off) &&
           collects && !boosted;
}

/// Positive: the pump should run harder.
std::int32_t error_ck(const Settings& settings, const Situation& situation) {
    const bool by_difference =
        settings[Setting::pump_drive] == static_cast<std::int16_t>(PumpDrive::target_difference);
    const TemperatureDifference error =
        by_difference ? situation.difference - difference_of(settings, Setting::target_difference)
                      : above_zero(situation.hottest_collector) -
                            degrees_of(settings, Setting::target_collector);
    return held_within(error.centikelvin, -most_error_ck, most_error_ck);
}

void act(const Settings& settings, const Situation& situation, DriveState& drive) {
    const std::int32_t least = settings[Setting::least_level] * per_percent;
    const std::int32_t proportional = held_within(
        settings[Setting::level_gain] * error_ck(settings, situation), -full_level, full_level);
    const auto reset_s = static_cast<std::int32_t>(duration_s(settings, Setting::level_reset_time));
    const std::int32_t gained =
        proportional * static_cast<std::int32_t>(level_every_s) / greater<std::int32_t>(reset_s, 1);
    drive.integral_millipercent =
        held_within(drive.integral_millipercent + gained, least, full_level);
    const std::int32_t level =
        held_within(drive.integral_millipercent + proportional, least, full_level);
    drive.level_pct = static_cast<std::uint8_t>((level + per_percent / 2) / per_percent);
}

}  // namespace

std::uint8_t drive_level(const Settings& settings, const Situation& situation,
                         const PumpState& pump, DriveState& drive) noexcept {
    if (pump.relay_on == 0) {
        drive = {};
    } else if (!regulates(settings, pump, situation.now)) {
        drive = {};
        drive.level_pct = full_level_pct;
    } else if (drive.regulating == 0) {
        drive.regulating = 1;
        drive.integral_millipercent = 0;  // raised to the least level by act()
        drive.appointment_at = situation.now;
        act(settings, situation, drive);
    } else if (seconds_between(drive.appointment_at, situation.now) >= level_every_s ||
               drive.level_pct < settings[Setting::least_level]) {  // raised by a hand: at once
        drive.appointment_at = situation.now;
        act(settings, situation, drive);
    }
    return drive.level_pct;
}

std::uint8_t speed_signal_pct(const Settings& settings, std::uint8_t level_pct) noexcept {
    const bool slower =
        settings[Setting::speed_signal] == static_cast<std::int16_t>(SpeedSignal::more_is_slower);
    return slower ? static_cast<std::uint8_t>(full_level_pct - level_pct) : level_pct;
}

}  // namespace noonbench::firmware
