// SPDX-License-Identifier: MIT
// From converter counts to temperatures that may be trusted: conversion, filter, fault detection.
#pragma once
#include "quantities.hpp"
#include "settings.hpp"
#include "terminals.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <type_traits>

namespace noonbench::firmware {

/// The filter is the plain mean of so many good samples (one a second).
inline constexpr std::size_t filter_samples = 8;
/// So many bad samples in a row are a fault. Fewer are a spark or a gust at a chafed cable: they
/// are left out of the mean and the reading stands.
inline constexpr std::uint8_t samples_to_fault = 5;
/// So many good samples in a row end a fault; the reading then settles until the filter is full.
inline constexpr std::uint8_t samples_to_recover = 10;

/// Readings are trusted from -50 to 250 degC, both ends included.
inline constexpr Temperature least_temperature{-5000};
inline constexpr Temperature most_temperature{25000};

/// Below 50 ohm: no sensor, not even a 100 ohm one at -100 degC (60 ohm), is so low; the longest
/// sensible lead is 10 ohm. Counts of 50 ohm = 65535 * 50 / 2050.
inline constexpr std::uint16_t shorted_below_counts = 1599;
/// From 10 kohm on: five times what platinum shows at 250 degC, half of what a broken wire in a
/// damp joint shows. Counts of 10 kohm = 65535 * 10 / 12.
inline constexpr std::uint16_t open_from_counts = 54613;

/// What survives a tick for one sensor.
struct SensorState {
    std::array<std::uint16_t, filter_samples> window{};  // good counts, oldest overwritten first
    std::uint8_t next = 0;                               // place in `window` of the next sample
    std::uint8_t filled = 0;                             // samples in `window`
    std::uint8_t bad_run = 0;   // bad samples in a row, stays at samples_to_fault
    std::uint8_t good_run = 0;  // good samples in a row while a fault stands
    SensorStatus status = SensorStatus::settling;
    std::array<std::uint8_t, 3> reserved{};
};

struct SensorsState {
    std::array<SensorState, sensor_count> sensor{};
};
static_assert(std::has_unique_object_representations_v<SensorsState>);

/// Temperature of a platinum 1000 ohm sensor (IEC 60751) behind the divider of terminals.hpp.
/// `count_eighths` is in eighths of a count. Between -50 and 250 degC the table errs by at most
/// 0.025 K and the rounding by 0.005 K; half a count of the converter is another 0.017 K. Outside
/// the table (about -51 and 258 degC) the result stands at its end.
Temperature temperature_of(std::uint32_t count_eighths) noexcept;

/// What one sample alone says: good, open, shorted or out_of_range.
SensorStatus status_of(std::uint16_t counts) noexcept;

/// Would every count from `least` to `most` (least <= most) say the same?
bool of_one_status(std::uint16_t least, std::uint16_t most) noexcept;

/// Do the settings count on this sensor?
bool is_fitted(const Settings& settings, Sensor sensor) noexcept;

/// Takes in one second's samples. A reading is `settling` until the filter is full after start or
/// after a fault, `not_fitted` where the settings say so; the temperature of a broken sensor is
/// the raw one (an end of the table for open and shorted), for display only.
std::array<Reading, sensor_count> read_sensors(const Settings& settings, const Inputs& inputs,
                                               SensorsState& state) noexcept;

}  // namespace noonbench::firmware
