// SPDX-License-Identifier: MIT
// Heat tally and pump counters. Nothing here changes from tick to tick without cause: heat is
// booked by appointment (every 60 s of a run, when the drive level changes, when the run ends, at
// a pulse), and the run time is read from the tick at which the run began.
#pragma once
#include "quantities.hpp"
#include "settings.hpp"
#include "terminals.hpp"

#include <array>
#include <cstdint>
#include <type_traits>

namespace noonbench::firmware {

/// Values of Setting::tally_source.
enum class TallySource : std::int16_t { typed_in_flow, pulse_meter };

inline constexpr std::uint32_t tally_every_s = 60;

/// What is kept through a power cut.
struct TallyCounters {
    std::uint32_t heat_wh = 0;
    std::uint32_t heat_rest_uj = 0;  // 0..3'599'999'999: less than one Wh, in microjoule
    std::uint32_t pump_starts = 0;
    std::uint32_t pump_run_s = 0;  // at the moment of the saving, or of ended runs

    friend constexpr bool operator==(const TallyCounters&, const TallyCounters&) = default;
};

struct TallyState {
    TallyCounters counters{};    // pump_run_s: of ended runs only
    Ticks run_since{};           // begin of the run, while `running`
    Ticks booked_until{};        // typed-in flow is booked up to here, while `running`
    std::uint8_t running = 0;    // the pump was on during the second that has just ended
    std::uint8_t level_pct = 0;  // drive level since `booked_until`
    std::uint16_t reserved = 0;
};
static_assert(std::has_unique_object_representations_v<TallyState>);

/// What one tick tells the tally: pulses of the second that has ended, and the decision for the
/// second that begins.
struct TallyTick {
    Ticks now{};
    std::uint16_t flow_pulses = 0;
    std::uint8_t pump_on = 0;
    std::uint8_t level_pct = 0;
};

/// Volumetric heat capacity of the loop's fluid at 50 degC in J/(l K), for 0 to 60 % propylene
/// glycol by volume (shares outside are taken as the nearer end). Within 2 % of the same fluid
/// between 20 and 80 degC.
std::uint32_t heat_capacity_j_per_litre_k(std::int16_t glycol_share_pct) noexcept;

/// Books what the appointments ask for. Hot side: collector; cold side: station_return where
/// fitted, else store_bottom. The counter runs forward only: a difference below zero books
/// nothing, and so does a second in which one of the two sensors is not good. The typed-in flow
/// is that of the full level and is taken in proportion to the level.
void keep_tally(const Settings& settings, const std::array<Reading, sensor_count>& readings,
                const TallyTick& tick, TallyState& state) noexcept;

/// Is there a booking to make at `now` even if nothing changes? (Then the tick may not be skipped.)
bool tally_appointment(Ticks now, const TallyState& state) noexcept;

/// Counters as they stand at `now`, a running run included. For reading and for saving.
TallyCounters counters_at(const TallyState& state, Ticks now) noexcept;

/// A state that goes on from saved counters, with the pump at rest.
TallyState resume_tally(const TallyCounters& saved) noexcept;

}  // namespace noonbench::firmware
