// SPDX-License-Identifier: MIT
#include "sensors.hpp"

namespace noonbench::firmware {
namespace {

// The table has one entry for each 256 counts, so that the high byte is the segment.
constexpr std::uint32_t first_knot = 73;  // -51.3 degC
constexpr std::uint32_t last_knot = 127;  // 257.8 degC
constexpr std::size_t knot_count = last_knot - first_knot + 1;
constexpr std::uint32_t eighths_per_segment = 256 * 8;

// IEC 60751: R(t) = R0 (1 + A t + B t^2 + [t < 0] C (t - 100) t^3) with A = 3.9083e-3, B =
// -5.775e-7, C = -4.183e-12, here in integers for R0 = 1000 ohm: t in millikelvin over 0 degC, the
// result in microohm. Range: |t| <= 400'000, so the largest product, t^2 B, is below 1e15.
consteval std::int64_t platinum_microohm(std::int64_t t_mk) {
    const std::int64_t linear = 39083 * t_mk / 10;
    const std::int64_t square = -5775 * t_mk * t_mk / 10'000'000;
    const std::int64_t cube_e12 = t_mk * t_mk / 1'000 * t_mk / 1'000;
    const std::int64_t quartic =
        t_mk < 0 ? -4183 * ((t_mk - 100'000) * cube_e12 / 1'000'000) / 1'000'000 : 0;
    return 1'000'000'000 + linear + square + quartic;
}

// R(t) rises all over the range, so bisection finds the last hundredth of a degree whose upper half
// (5 mK above it) does not reach the resistance; the next one is the nearest.
consteval std::int16_t centicelsius_at_knot(std::int64_t counts) {
    const std::int64_t wanted = std::int64_t{reference_resistor_milliohm} * 1000 * counts /
                                (std::int64_t{full_scale_counts} - counts);
    std::int64_t low = -10'000;
    std::int64_t high = 32'767;
    while (high - low > 1) {
        const std::int64_t middle = (low + high) / 2;
        (platinum_microohm(middle * 10 + 5) < wanted ? low : high) = middle;
    }
    return static_cast<std::int16_t>(high);
}

consteval std::array<std::int16_t, knot_count> make_table() {
    std::array<std::int16_t, knot_count> table{};
    for (std::size_t i = 0; i < knot_count; ++i) {
        table[i] = centicelsius_at_knot(static_cast<std::int64_t>(first_knot + i) * 256);
    }
    return table;
}
constexpr std::array<std::int16_t, knot_count> table_centicelsius = make_table();
static_assert(table_centicelsius.front() < least_temperature.centicelsius);
static_assert(table_centicelsius.back() > most_temperature.centicelsius);

constexpr Temperature convert(std::uint32_t count_eighths) {
    constexpr std::uint32_t begin = first_knot * eighths_per_segment;
    constexpr std::uint32_t end = last_knot * eighths_per_segment;
    std::uint32_t in_table = 0;
    if (count_eighths >= end) {
        in_table = end - begin - 1;
    } else if (count_eighths > begin) {
        in_table = count_eighths - begin;
    }
    const std::size_t segment = in_table / eighths_per_segment;
    const auto part = static_cast<std::int32_t>(in_table % eighths_per_segment);
    const std::int32_t low = table_centicelsius[segment];
    const std::int32_t rise = table_centicelsius[segment + 1] - low;  // below 900
    constexpr std::int32_t whole = eighths_per_segment;
    // The rise is positive, so adding half a unit rounds to the nearest whatever the sign of low.
    return {static_cast<std::int16_t>(low + (rise * part + whole / 2) / whole)};
}

// The first count at or above a temperature; by bisection, since conversion never falls.
consteval std::uint16_t first_count_at(Temperature wanted) {
    std::uint32_t low = first_knot * 256;
    std::uint32_t high = last_knot * 256;
    while (high - low > 1) {
        const std::uint32_t middle = (low + high) / 2;
        (convert(middle * 8) < wanted ? low : high) = middle;
    }
    return static_cast<std::uint16_t>(high);
}
constexpr std::uint16_t trusted_from_counts = first_count_at(least_temperature);
constexpr std::uint16_t hot_from_counts =
    first_count_at({static_cast<std::int16_t>(most_temperature.centicelsius + 1)});

bool is_fault(SensorStatus status) {
    return status != SensorStatus::good && status != SensorStatus::settling;
}

void take_good(std::uint16_t counts, SensorState& s) {
    s.bad_run = 0;
    if (is_fault(s.status)) {
        if (++s.good_run < samples_to_recover) return;
        s.status = SensorStatus::settling;
    }
    s.window[s.next] = counts;
    s.next = static_cast<std::uint8_t>((s.next + 1U) % filter_samples);
    if (s.filled < filter_samples) ++s.filled;
    if (s.filled == filter_samples) s.status = SensorStatus::good;
}

void take_bad(SensorStatus kind, SensorState& s) {
    s.good_run = 0;
    if (s.bad_run < samples_to_fault) ++s.bad_run;
    if (s.bad_run < samples_to_fault) return;
    s.status = kind;
    s.next = 0;
    s.filled = 0;
}

Temperature filtered(std::uint16_t counts, const SensorState& s) {
    if (s.filled == 0) return convert(counts * 8U);
    std::uint32_t sum = 0;  // at most 8 * 65535
    for (std::size_t i = 0; i < s.filled; ++i) sum += s.window[i];
    constexpr std::uint32_t full = filter_samples;  // a power of two: no division
    return convert(s.filled == full ? sum * 8U / full : sum * 8U / s.filled);
}

}  // namespace

bool is_fitted(const Settings& settings, Sensor sensor) noexcept {
    if (sensor == Sensor::station_return) {
        return settings[Setting::station_return_fitted] != 0;
    }
    if (sensor == Sensor::second_collector) {
        return settings[Setting::second_collector_fitted] != 0;
    }
    return true;
}

bool of_one_status(std::uint16_t least, std::uint16_t most) noexcept {
    // The good counts lie in one piece between those that are out of range.
    const bool around_the_good = least < trusted_from_counts && most >= hot_from_counts;
    return status_of(least) == status_of(most) && !around_the_good;
}

Temperature temperature_of(std::uint32_t count_eighths) noexcept {
    return convert(count_eighths);
}

SensorStatus status_of(std::uint16_t counts) noexcept {
    if (counts < shorted_below_counts) return SensorStatus::shorted;
    if (counts >= open_from_counts) return SensorStatus::open;
    const bool trusted = counts >= trusted_from_counts && counts < hot_from_counts;
    return trusted ? SensorStatus::good : SensorStatus::out_of_range;
}

std::array<Reading, sensor_count> read_sensors(const Settings& settings, const Inputs& inputs,
                                               SensorsState& state) noexcept {
    std::array<Reading, sensor_count> readings{};
    for (std::size_t i = 0; i < sensor_count; ++i) {
        SensorState& s = state.sensor[i];
        if (!is_fitted(settings, static_cast<Sensor>(i))) {
            s = SensorState{};  // so that a sensor fitted later settles first
            readings[i].status = SensorStatus::not_fitted;
            continue;
        }
        const SensorStatus sample = status_of(inputs.counts[i]);
        if (sample == SensorStatus::good) {
            take_good(inputs.counts[i], s);
        } else {
            take_bad(sample, s);
        }
        readings[i] = {filtered(inputs.counts[i], s), s.status, 0};
    }
    return readings;
}

}  // namespace noonbench::firmware
