// SPDX-License-Identifier: MIT
// Everything that survives a tick: one plain struct without padding, so that comparing, copying
// and check-summing its bytes is sound. Times are moments of the tick counter, never counts that
// change each second: between two appointments a quiet tick changes `now` and the sensor filters
// only. Flags are 0 or 1; a moment or value whose flag is 0 is 0 as well.
#pragma once
#include "memory.hpp"
#include "quantities.hpp"
#include "reason.hpp"
#include "sensors.hpp"
#include "settings.hpp"
#include "tally.hpp"
#include "terminals.hpp"

#include <array>
#include <cstdint>
#include <type_traits>

namespace noonbench::firmware {

/// The pump's relay and why it stands as it does.
struct PumpState {
    Ticks changed_at{};                  // the relay last changed; a first start counts as a change
    TemperatureDifference difference{};  // stored when the reason changed: what decided it ...
    TemperatureDifference threshold{};   // ... and what it was held against
    PumpReason reason = PumpReason::waiting_for_sun;
    HandRequest hand = HandRequest::automatic;  // never `none`
    std::uint8_t relay_on = 0;
    std::uint8_t reserved = 0;
};
static_assert(sizeof(PumpState) == 16);

/// Latches of the guards: set at the one threshold, released at the other.
struct GuardsState {
    std::uint8_t at_ceiling = 0;         // store ceiling reached, not yet released
    std::uint8_t at_limit = 0;           // store limit reached, not yet released
    std::uint8_t cut_out = 0;            // collector too hot, not yet released
    std::uint8_t frost = 0;              // collector too cold, not yet released
    std::uint8_t shedding_by_day = 0;    // above the store limit, to keep the collector cool
    std::uint8_t shedding_by_night = 0;  // store heat given back to the sky
    std::uint16_t reserved = 0;
};
static_assert(sizeof(GuardsState) == 8);

/// The pump's level and the memory of its regulator.
struct DriveState {
    std::int32_t integral_millipercent = 0;  // least level to 100'000 while `regulating`
    Ticks appointment_at{};                  // the regulator last acted
    std::uint8_t level_pct = 0;              // 0 exactly while the pump is off
    std::uint8_t regulating = 0;
    std::uint16_t reserved = 0;
};
static_assert(sizeof(DriveState) == 12);

/// Backup heat and the sanitise cycle.
struct BackupState {
    Ticks held_off_since{};          // the sun was first left to do it, while `held_off`
    Ticks hot_since{};               // the proving sensor became hot enough, while `hot`
    Ticks cycle_since{};             // the sanitise cycle began, while `cycle`
    std::uint16_t sanitised_on = 0;  // date of the last success, days since 2000-01-01; 0 = never
    std::uint16_t tried_on = 0;      // date of the last cycle begun; 0 = never
    BackupReason reason = BackupReason::out_of_window;
    HandRequest hand = HandRequest::automatic;  // never `none`
    std::uint8_t relay_on = 0;
    std::uint8_t demand = 0;  // the thermostat asks for heat
    std::uint8_t held_off = 0;
    std::uint8_t hot = 0;
    std::uint8_t cycle = 0;   // a sanitise cycle is under way
    std::uint8_t missed = 0;  // the last cycle ended without success
};
static_assert(sizeof(BackupState) == 24);

/// What the advice remembers between its marks, which are ten minutes apart.
struct AdviceState {
    Advice shown{};                    // as of the last tick, for the event ring
    std::int16_t running_mark_ck = 0;  // difference at the last mark, while `ran_at_mark`
    Temperature resting_mark{};        // collector at the last mark, while `rested_at_mark`
    std::uint8_t ran_at_mark = 0;
    std::uint8_t rested_at_mark = 0;
    std::uint8_t dark_marks = 0;      // marks in a row without a trace of sun
    std::uint8_t inverted_marks = 0;  // marks in a row with the store upside down
    std::uint8_t no_flow = 0;
    std::uint8_t warm_night = 0;
    std::uint8_t swapped = 0;
    std::uint8_t reserved = 0;
};
static_assert(sizeof(AdviceState) == 14);

struct State {
    Ticks now{};  // number of the tick to come; 0 when power comes
    PumpState pump{};
    GuardsState guards{};
    DriveState drive{};
    BackupState backup{};
    SensorsState sensors{};
    TallyState tally{};
    EventRing ring{};
    AdviceState advice{};
    std::uint16_t reserved = 0;
};
static_assert(std::is_trivially_copyable_v<State>);
static_assert(std::has_unique_object_representations_v<State>, "padding would hide in checksums");
static_assert(sizeof(State) + sizeof(Settings) <= 1024, "the budget of working memory");

}  // namespace noonbench::firmware
