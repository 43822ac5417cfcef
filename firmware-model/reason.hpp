// SPDX-License-Identifier: MIT
// Why the pump and the backup do what they do: exactly one reason each at every tick, and the
// controller's own suspicions (advice). The names are the identifiers used in every output file.
#pragma once
#include <cstddef>
#include <cstdint>

namespace noonbench::firmware {

enum class PumpReason : std::uint8_t {
    waiting_for_sun,
    collecting,
    resting,            // difference is there, but the least rest is not over
    least_run,          // difference is gone, but the least run is not over
    store_full,         // store limit reached
    ceiling_reached,    // store ceiling: nothing overrides it
    collector_cut_out,  // collector too hot: pump barred
    shedding_by_day,
    shedding_by_night,
    guarding_frost,
    sampling,
    exercising,
    hand_on,
    hand_off,
    sensor_lost,
};
inline constexpr std::size_t pump_reason_count = 15;

enum class BackupReason : std::uint8_t {
    in_window,
    out_of_window,
    warm_enough,
    leaving_it_to_the_sun,
    sanitising,
    clock_unset,
    ceiling_reached,
    hand_on,
    hand_off,
    sensor_lost,
};
inline constexpr std::size_t backup_reason_count = 10;

/// One bit each in Advice::bits.
enum class AdviceKind : std::uint8_t {
    no_flow_although_running,
    warm_collector_at_night,
    sensors_swapped,
    sensor_implausible,
    sensor_broken,
    sanitise_missed,
    contradicting_settings,
    cut_out_above_boiling_point,
    clock_unset,
};
inline constexpr std::size_t advice_count = 9;

struct Advice {
    std::uint16_t bits = 0;

    [[nodiscard]] constexpr bool has(AdviceKind kind) const {
        return (bits >> static_cast<unsigned>(kind)) & 1U;
    }
    friend constexpr bool operator==(Advice, Advice) = default;
};

/// Identifier as written into traces ("waiting_for_sun"); never null.
const char* name_of(PumpReason reason) noexcept;
const char* name_of(BackupReason reason) noexcept;
const char* name_of(AdviceKind kind) noexcept;

/// One short line whose first words say what to do ("Check the pressure and the air vent: ...").
const char* text_of(AdviceKind kind) noexcept;

}  // namespace noonbench::firmware
