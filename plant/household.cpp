// SPDX-License-Identifier: MIT
#include "household.hpp"

#include "calendar.hpp"
#include "draw_pattern.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {

namespace {

constexpr std::int64_t patience = 3;  // nominal durations before the tap is closed in disgust
// A draw is complete when so little is open: after a full tick only what rounding may leave, after
// a partial one the little by which the temperature moved since the tick that sized it.
constexpr double rounding_j = 1.0;
constexpr double partial_within = 1e-3;

void join_queue(HouseholdState& state, const Draw& draw) {
    state.totals.asked_j += draw.energy_j;
    if (state.waiting == most_waiting_draws) {
        state.totals.missing_j += draw.energy_j;
        ++state.totals.draws_given_up;
        return;
    }
    state.queue[static_cast<std::size_t>(state.waiting)] = draw;
    ++state.waiting;
}

void take_up_due_draws(HouseholdState& state, std::span<const Draw> draws_today,
                       CivilSeconds now_s) {
    const int count = static_cast<int>(draws_today.size());
    const CivilSeconds today = midnight_before(now_s);
    if (state.list_day_s != today) {
        state.list_day_s = today;
        state.next = 0;
        while (state.next < count &&
               draws_today[static_cast<std::size_t>(state.next)].at_s < now_s) {
            ++state.next;  // before the bench was switched on
        }
    }
    while (state.next < count && draws_today[static_cast<std::size_t>(state.next)].at_s <= now_s) {
        join_queue(state, draws_today[static_cast<std::size_t>(state.next)]);
        ++state.next;
    }
}

void open_tap(HouseholdState& state) {
    const Draw& draw = state.queue[0];
    state.running = true;
    state.peak_reached = draw.peak_c <= 0.0;
    state.open_j = draw.energy_j;
    state.running_ticks = 0;
    state.cool_ticks = 0;
    state.most_ticks = std::max<std::int64_t>(
        1, patience * static_cast<std::int64_t>(std::ceil(nominal_duration_s(draw))));
    state.useful_j_kg = 0.0;
    ++state.totals.draws_started;
}

void close_tap(HouseholdState& state) {
    state.totals.missing_j += std::max(0.0, state.open_j);
    state.totals.surplus_j += std::max(0.0, -state.open_j);
    state.totals.peaks_missed += state.peak_reached ? 0 : 1;
    std::shift_left(state.queue.begin(), state.queue.begin() + state.waiting, 1);
    --state.waiting;
    state.running = false;
    state.open_j = 0.0;
    state.running_ticks = 0;
}

}  // namespace

double begin_tick(HouseholdState& state, std::span<const Draw> draws_today, CivilSeconds now_s) {
    take_up_due_draws(state, draws_today, now_s);
    if (!state.running && state.waiting > 0) {
        open_tap(state);
    }
    if (!state.running) {
        state.tick_kg = 0.0;
        return 0.0;
    }
    const double full_kg = state.queue[0].flow_m3_s * tap_water_kg_m3;
    state.tick_kg = full_kg;
    if (state.useful_j_kg > 0.0) {
        state.tick_kg = std::min(full_kg, state.open_j / state.useful_j_kg);
    }
    return state.tick_kg;
}

void end_tick(HouseholdState& state, const Delivered& delivered, double comfort_c) {
    if (!state.running) {
        return;
    }
    const Draw& draw = state.queue[0];
    HouseholdTotals& totals = state.totals;
    totals.drawn_kg += delivered.mass_kg;
    if (delivered.temperature_c < comfort_c) {
        totals.below_comfort_kg += delivered.mass_kg;
    }
    const bool useful = delivered.mass_kg > 0.0 && delivered.energy_j > 0.0 &&
                        delivered.temperature_c >= draw.useful_from_c;
    state.useful_j_kg = useful ? delivered.energy_j / delivered.mass_kg : 0.0;
    if (useful) {
        totals.delivered_j += delivered.energy_j;
        state.open_j -= delivered.energy_j;
    }
    state.peak_reached = state.peak_reached || delivered.temperature_c >= draw.peak_c;
    ++state.running_ticks;
    state.cool_ticks = useful ? 0 : state.cool_ticks + 1;
    const bool too_cool = draw.most_cool_s > 0 && state.cool_ticks >= draw.most_cool_s;

    const bool partial = state.tick_kg < draw.flow_m3_s * tap_water_kg_m3;
    const bool complete =
        state.open_j <=
        (partial ? std::max(rounding_j, partial_within * draw.energy_j) : rounding_j);
    if (complete) {
        close_tap(state);
    } else if (too_cool || state.running_ticks >= state.most_ticks) {
        ++totals.draws_given_up;
        close_tap(state);
    }
}

int full_ticks_left(const HouseholdState& state) {
    constexpr double warmer = 1.05;
    if (!state.running || state.useful_j_kg <= 0.0 || state.tick_kg <= 0.0) return 1;
    const double ticks = state.open_j / (state.useful_j_kg * warmer * state.tick_kg);
    const auto patient = static_cast<double>(state.most_ticks - state.running_ticks);
    return static_cast<int>(std::max(1.0, std::min(ticks, patient)));
}

CivilSeconds next_opening_s(const HouseholdState& state, std::span<const Draw> draws_today,
                            CivilSeconds now_s) {
    if (state.waiting > 0) {
        return now_s;
    }
    const auto due = std::find_if(draws_today.begin(), draws_today.end(),
                                  [now_s](const Draw& draw) { return draw.at_s >= now_s; });
    return due == draws_today.end() ? midnight_before(now_s) + seconds_a_day : due->at_s;
}

}  // namespace noonbench::plant
