// SPDX-License-Identifier: MIT
// The tap as an automaton that changes only on ticks of one second. A draw is asked for in energy
// over the cold water and runs at a constant flow; litres follow from the temperature delivered.
// The mixing valve and the store are the plant's; here stands only what the hand at the tap does.
#pragma once
#include "draw.hpp"

#include <array>
#include <cstdint>
#include <span>

namespace noonbench::plant {

inline constexpr int most_waiting_draws = 16;
inline constexpr double tap_water_kg_m3 = 1000.0;  // a kilogram at the tap counts as a litre

/// Running sums since the start; asked = delivered + missing - surplus + still open.
struct HouseholdTotals {
    double asked_j = 0.0;           // of all draws that came up
    double delivered_j = 0.0;       // useful: over the cold water, at or above useful_from_c
    double missing_j = 0.0;         // given up or turned away
    double surplus_j = 0.0;         // overshoot of draws shorter than a tick
    double drawn_kg = 0.0;          // all water at the tap (kg = litres)
    double below_comfort_kg = 0.0;  // of it, colder than the comfort temperature
    std::int64_t draws_started = 0;
    std::int64_t draws_given_up = 0;  // a queue too long for a new draw counts here as well
    std::int64_t peaks_missed = 0;    // draws that ended without reaching their peak_c
};

/// Plain data: copy it and the household is forked.
struct HouseholdState {
    std::array<Draw, most_waiting_draws> queue{};  // [0] is running when `running`
    int waiting = 0;                               // entries in use, the running one included
    bool running = false;
    bool peak_reached = false;
    double open_j = 0.0;             // still to come of the running draw
    std::int64_t running_ticks = 0;  // of the running draw
    std::int64_t cool_ticks = 0;     // of them, the last ones in a row without useful water
    std::int64_t most_ticks = 0;     // gives up after so many: three nominal durations
    double tick_kg = 0.0;            // asked for in the tick under way
    double useful_j_kg = 0.0;        // useful energy per kilogram in the last tick; 0: unknown
    CivilSeconds list_day_s = -1;    // day whose list `next` counts in; -1: none yet
    int next = 0;                    // first draw of the day's list that has not come up
    HouseholdTotals totals{};
};

/// What came out of the tap during one tick.
struct Delivered {
    double mass_kg = 0.0;
    double temperature_c = 0.0;
    double energy_j = 0.0;  // over the cold water
};

/// Starts the tick [now_s, now_s + 1): takes up the draws that are due, in order, and returns the
/// mixed flow asked for during this second, kg/s (0: tap closed). `draws_today` is the list of
/// now_s's day; draws of that list before the first tick seen are left out. The last tick of a
/// draw asks for the part of the flow that the last tick's temperature says is enough.
double begin_tick(HouseholdState& state, std::span<const Draw> draws_today, CivilSeconds now_s);

/// Ends the tick: books what was delivered (comfort_c: litres below it are counted).
void end_tick(HouseholdState& state, const Delivered& delivered, double comfort_c);

/// Ticks with the full flow that the running draw surely still has before it, this one included, as
/// long as the water does not become more than a twentieth warmer; at least 1.
int full_ticks_left(const HouseholdState& state);

/// Earliest second from now_s on at which the tap can open, within the day of now_s; now_s itself
/// while a draw runs or waits; the next midnight if nothing is left today.
CivilSeconds next_opening_s(const HouseholdState& state, std::span<const Draw> draws_today,
                            CivilSeconds now_s);

}  // namespace noonbench::plant
