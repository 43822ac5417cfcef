// SPDX-License-Identifier: MIT
// What crosses the seam between the controller and the world, as integers with their unit in the
// name. Behind each sensor socket stands a divider: a platinum 1000 ohm sensor from the input to
// ground, `reference_resistor_milliohm` from the input to the reference voltage, and a converter of
// 16 bit (12 bit oversampled) that measures against the same reference:
//     counts = 65535 * R / (R + R_reference)
#pragma once
#include "quantities.hpp"
#include "reason.hpp"

#include <array>
#include <cstddef>
#include <cstdint>

namespace noonbench::firmware {

inline constexpr std::int32_t reference_resistor_milliohm = 2'000'000;
inline constexpr std::int32_t full_scale_counts = 65535;

/// The sensor sockets, in terminal order.
enum class Sensor : std::uint8_t {
    collector,
    store_bottom,
    store_top,
    station_return,    // cold pipe at the pump station, for the heat tally; may be left unfitted
    second_collector,  // a second roof plane; may be left unfitted
};
inline constexpr std::size_t sensor_count = 5;

/// What a hand asked for on the controller during the second that has just ended.
enum class HandRequest : std::uint8_t { none, automatic, on, off };

/// Everything the controller can know of the world at one tick.
struct Inputs {
    std::array<std::uint16_t, sensor_count> counts{};
    std::uint16_t flow_pulses = 0;  // from a pulse flow meter since the last tick
    std::uint32_t clock_s = 0;  // clock chip: local STANDARD time, seconds since 2000-01-01 00:00
    std::uint8_t clock_is_set = 1;  // 0: the clock chip has lost its time
    HandRequest pump_hand = HandRequest::none;
    HandRequest backup_hand = HandRequest::none;
};

/// How a sensor reading may be trusted.
enum class SensorStatus : std::uint8_t { settling, good, open, shorted, out_of_range, not_fitted };

/// One sensor as the controller sees it, after conversion and filter.
struct Reading {
    Temperature temperature{};
    SensorStatus status = SensorStatus::settling;
    std::uint8_t reserved = 0;
};

/// What the controller does, and why, during the second that begins with this tick.
struct Outputs {
    std::uint8_t pump_relay = 0;        // 1: mains to the pump
    std::uint8_t backup_relay = 0;      // 1: backup heat asked for
    std::uint8_t drive_level_pct = 0;   // wanted pump level, 0 to 100; 100 when driven on/off
    std::uint8_t speed_signal_pct = 0;  // duty of the speed-signal wire for the profile in force
    PumpReason pump_reason = PumpReason::waiting_for_sun;
    BackupReason backup_reason = BackupReason::out_of_window;
    Advice advice{};  // set of suspicions, see reason.hpp
    std::array<Reading, sensor_count> readings{};
    TemperatureDifference difference{};  // the difference that decided the pump's reason ...
    TemperatureDifference threshold{};   // ... and the threshold that it was held against
    std::uint32_t tally_wh = 0;          // heat counter, Wh since the settings were first stored
    std::uint32_t pump_starts = 0;
    std::uint32_t pump_run_s = 0;
};

}  // namespace noonbench::firmware
