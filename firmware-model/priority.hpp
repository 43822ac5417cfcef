// SPDX-License-Identifier: MIT
// Who wins. These two tables ARE the arbitration: pump.cpp and backup.cpp collect who claims, and
// the first row with a claim decides. The documentation is made from them as well.
//
// Two decisions that deserve their reason:
//  - Hand `on` passes the collector cut-out and runs with a broken collector sensor: whoever
//    switched it on stands beside the station, and the two things that he most often wants to know
//    are whether the pump turns at all and whether a hot loop moves again. What he risks is steam
//    noise. It does not pass the store ceiling, nor a broken store sensor behind which the ceiling
//    would be blind: what that risks is somebody else's scalded skin. Many boards let it pass.
//  - Frost guard ranks below the sensors: without a collector temperature there is no frost to see,
//    and without a store temperature the floor under it is gone.
#pragma once
#include "reason.hpp"

#include <array>
#include <cstddef>
#include <cstdint>

namespace noonbench::firmware {

enum class Forces : std::uint8_t { off, on };
enum class LeastRun : std::uint8_t { kept, broken };
enum class LeastRest : std::uint8_t { kept, broken };

/// Who may claim the pump, in order of rank: the first has the highest.
enum class PumpClaim : std::uint8_t {
    store_ceiling,
    store_sensor,
    hand_on,
    hand_off,
    collector_sensor,
    collector_cut_out,
    frost_guard,
    day_shedding,
    night_shedding,
    store_limit,
    difference,
    sampling_run,
    exercise_run,
    nobody,  // always claims
};
inline constexpr std::size_t pump_claim_count = 14;

struct PumpRow {
    PumpClaim who;
    PumpReason reason;  // shown while this row decides
    Forces forces;
    LeastRun least_run;    // may this row stop a run that has not lasted its least time?
    LeastRest least_rest;  // may this row end a rest that has not lasted its least time?
};

// A row that may not break a least time waits for it: the reason then is least_run or resting. A
// sensor that has not given a reading since power came shows waiting_for_sun, not sensor_lost.
inline constexpr std::array<PumpRow, pump_claim_count> pump_priority = {{
    {PumpClaim::store_ceiling, PumpReason::ceiling_reached, Forces::off, LeastRun::broken,
     LeastRest::kept},
    {PumpClaim::store_sensor, PumpReason::sensor_lost, Forces::off, LeastRun::broken,
     LeastRest::kept},
    {PumpClaim::hand_on, PumpReason::hand_on, Forces::on, LeastRun::kept, LeastRest::broken},
    {PumpClaim::hand_off, PumpReason::hand_off, Forces::off, LeastRun::broken, LeastRest::kept},
    {PumpClaim::collector_sensor, PumpReason::sensor_lost, Forces::off, LeastRun::broken,
     LeastRest::kept},
    {PumpClaim::collector_cut_out, PumpReason::collector_cut_out, Forces::off, LeastRun::broken,
     LeastRest::kept},
    {PumpClaim::frost_guard, PumpReason::guarding_frost, Forces::on, LeastRun::kept,
     LeastRest::broken},
    {PumpClaim::day_shedding, PumpReason::shedding_by_day, Forces::on, LeastRun::kept,
     LeastRest::kept},
    {PumpClaim::night_shedding, PumpReason::shedding_by_night, Forces::on, LeastRun::kept,
     LeastRest::kept},
    {PumpClaim::store_limit, PumpReason::store_full, Forces::off, LeastRun::broken,
     LeastRest::kept},
    {PumpClaim::difference, PumpReason::collecting, Forces::on, LeastRun::kept, LeastRest::kept},
    {PumpClaim::sampling_run, PumpReason::sampling, Forces::on, LeastRun::kept, LeastRest::kept},
    {PumpClaim::exercise_run, PumpReason::exercising, Forces::on, LeastRun::kept, LeastRest::kept},
    {PumpClaim::nobody, PumpReason::waiting_for_sun, Forces::off, LeastRun::kept, LeastRest::kept},
}};

/// Who may claim the backup heat, in order of rank.
enum class BackupClaim : std::uint8_t {
    store_ceiling,
    store_sensor,
    hand_on,
    hand_off,
    sanitise_cycle,
    sanitise_hold,
    clock_unset_minimum,
    solar_first,
    thermostat,
    thermostat_content,
    nobody,  // always claims
};
inline constexpr std::size_t backup_claim_count = 11;

struct BackupRow {
    BackupClaim who;
    BackupReason reason;
    Forces forces;
};

// A store sensor that has not given a reading since power came shows out_of_window.
inline constexpr std::array<BackupRow, backup_claim_count> backup_priority = {{
    {BackupClaim::store_ceiling, BackupReason::ceiling_reached, Forces::off},
    {BackupClaim::store_sensor, BackupReason::sensor_lost, Forces::off},
    {BackupClaim::hand_on, BackupReason::hand_on, Forces::on},
    {BackupClaim::hand_off, BackupReason::hand_off, Forces::off},
    {BackupClaim::sanitise_cycle, BackupReason::sanitising, Forces::on},
    {BackupClaim::sanitise_hold, BackupReason::warm_enough, Forces::off},
    {BackupClaim::clock_unset_minimum, BackupReason::clock_unset, Forces::on},
    {BackupClaim::solar_first, BackupReason::leaving_it_to_the_sun, Forces::off},
    {BackupClaim::thermostat, BackupReason::in_window, Forces::on},
    {BackupClaim::thermostat_content, BackupReason::warm_enough, Forces::off},
    {BackupClaim::nobody, BackupReason::out_of_window, Forces::off},
}};

/// Row n must be claim n: then a set of claims is a set of bits, its lowest bit the winner.
template <class Table>
constexpr bool in_order_of_rank(const Table& table) {
    for (std::size_t rank = 0; rank < table.size(); ++rank) {
        if (static_cast<std::size_t>(table[rank].who) != rank) {
            return false;
        }
    }
    return true;
}
static_assert(in_order_of_rank(pump_priority));
static_assert(in_order_of_rank(backup_priority));

/// A set of claims on one relay.
struct Claims {
    std::uint16_t bits = 0;

    template <class Claim>
    constexpr void add_if(bool claims, Claim who) {
        if (claims) {
            bits = static_cast<std::uint16_t>(bits | 1U << static_cast<unsigned>(who));
        }
    }
};

/// The first row with a claim; the last row, if nobody else claims.
template <class Table>
constexpr const typename Table::value_type& winner(const Table& table, Claims claims) {
    std::size_t rank = 0;
    while (rank + 1 < table.size() && ((claims.bits >> rank) & 1U) == 0) {
        ++rank;
    }
    return table[rank];
}

}  // namespace noonbench::firmware
