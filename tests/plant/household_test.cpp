// SPDX-License-Identifier: MIT
#include "plant/household.hpp"
#include "plant/draw_pattern.hpp"
#include "plant/si.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <vector>

BOOST_AUTO_TEST_SUITE(household)

using namespace noonbench::plant;

namespace {

constexpr double cp_j_kgk = 4186.0;
constexpr double cold_c = 10.0;
constexpr double comfort_c = 40.0;

// A source that delivers at once, and always, what the tap asks for at a given temperature.
Delivered fake_source(double flow_kg_s, double temperature_c) {
    return {flow_kg_s, temperature_c, flow_kg_s * cp_j_kgk * (temperature_c - cold_c)};
}

template <typename Temperature>
void run(HouseholdState& state, const std::vector<Draw>& draws, CivilSeconds from_s,
         CivilSeconds until_s, Temperature temperature_c) {
    for (CivilSeconds now_s = from_s; now_s < until_s; ++now_s) {
        const double flow_kg_s = begin_tick(state, draws, now_s);
        end_tick(state, fake_source(flow_kg_s, temperature_c(now_s)), comfort_c);
    }
}

Draw shower(CivilSeconds at_s) {
    return {at_s, 1.4 * 3.6e6, 6.0 / 60000.0, 40.0, 0.0};
}

double imbalance_j(const HouseholdState& state) {
    const HouseholdTotals& totals = state.totals;
    double open_j = state.open_j;
    for (int i = state.running ? 1 : 0; i < state.waiting; ++i) {
        open_j += state.queue[static_cast<std::size_t>(i)].energy_j;
    }
    return totals.asked_j - totals.delivered_j - totals.missing_j + totals.surplus_j - open_j;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_draw_ends_with_its_energy_to_the_joule) {
    HouseholdState state;
    run(state, {shower(100)}, 0, 2000, [](CivilSeconds) { return 50.0; });
    BOOST_TEST(!state.running);
    // Constant temperature: the last, partial tick is exact but for rounding.
    BOOST_CHECK_CLOSE(state.totals.delivered_j, 1.4 * 3.6e6, 1e-9);
    BOOST_CHECK_CLOSE(state.totals.drawn_kg, 1.4 * 3.6e6 / (cp_j_kgk * 40.0), 1e-9);
    BOOST_CHECK_SMALL(state.totals.missing_j, 1e-3);
    BOOST_TEST(state.totals.draws_given_up == 0);
    BOOST_TEST(state.totals.below_comfort_kg == 0.0);
}

BOOST_AUTO_TEST_CASE(the_tap_opens_and_closes_on_ticks_with_a_partial_last_one) {
    HouseholdState state;
    const std::vector<Draw> draws{shower(100)};
    int full = 0;
    int partial = 0;
    for (CivilSeconds now_s = 0; now_s < 1000; ++now_s) {
        const double flow_kg_s = begin_tick(state, draws, now_s);
        if (now_s < 100) {
            BOOST_TEST(flow_kg_s == 0.0);
        } else if (flow_kg_s > 0.1 - 1e-12) {
            ++full;
            BOOST_TEST(partial == 0);
        } else if (flow_kg_s > 0.0) {
            ++partial;
        }
        end_tick(state, fake_source(flow_kg_s, 50.0), comfort_c);
    }
    // 1.4 kWh / (0.1 kg/s 4186 J/(kg K) 40 K) = 301.0 s: 300 or 301 full ticks and the rest.
    const double ticks = 1.4 * 3.6e6 / (0.1 * cp_j_kgk * 40.0);
    BOOST_TEST(full == static_cast<int>(ticks));
    BOOST_TEST(partial == 1);
}

BOOST_AUTO_TEST_CASE(water_counts_only_from_its_useful_temperature_on) {
    HouseholdState state;
    // The pipe is cold for the first 20 s.
    run(state, {shower(0)}, 0, 2000, [](CivilSeconds now_s) { return now_s < 20 ? 30.0 : 50.0; });
    BOOST_CHECK_CLOSE(state.totals.delivered_j, 1.4 * 3.6e6, 1e-9);
    BOOST_CHECK_CLOSE(state.totals.drawn_kg, 20 * 0.1 + 1.4 * 3.6e6 / (cp_j_kgk * 40.0), 1e-9);
    BOOST_CHECK_CLOSE(state.totals.below_comfort_kg, 20 * 0.1, 1e-9);
}

BOOST_AUTO_TEST_CASE(a_cold_store_is_given_up_after_three_nominal_durations) {
    HouseholdState state;
    const Draw draw = shower(0);
    const auto patience_s = 3 * static_cast<CivilSeconds>(std::ceil(nominal_duration_s(draw)));
    run(state, {draw}, 0, patience_s - 1, [](CivilSeconds) { return 35.0; });
    BOOST_TEST(state.running);
    run(state, {draw}, patience_s - 1, patience_s + 10, [](CivilSeconds) { return 35.0; });
    BOOST_TEST(!state.running);
    BOOST_TEST(state.totals.draws_given_up == 1);
    BOOST_TEST(state.totals.delivered_j == 0.0);
    BOOST_CHECK_CLOSE(state.totals.missing_j, draw.energy_j, 1e-12);
    BOOST_CHECK_CLOSE(state.totals.drawn_kg, 0.1 * static_cast<double>(patience_s), 1e-9);
    BOOST_CHECK_CLOSE(state.totals.below_comfort_kg, state.totals.drawn_kg, 1e-12);
}

BOOST_AUTO_TEST_CASE(a_store_that_cools_down_leaves_the_rest_missing) {
    HouseholdState state;
    const Draw draw = shower(0);
    run(state, {draw}, 0, 4000, [](CivilSeconds now_s) { return now_s < 100 ? 45.0 : 39.0; });
    const double came_j = 100 * 0.1 * cp_j_kgk * 35.0;
    BOOST_CHECK_CLOSE(state.totals.delivered_j, came_j, 1e-9);
    BOOST_CHECK_CLOSE(state.totals.missing_j, draw.energy_j - came_j, 1e-9);
    BOOST_TEST(state.totals.draws_given_up == 1);
}

BOOST_AUTO_TEST_CASE(draws_queue_in_their_order) {
    HouseholdState state;
    Draw small = shower(10);
    small.energy_j = 1e5;
    small.flow_m3_s = 3.0 / 60000.0;
    const std::vector<Draw> draws{shower(0), small, shower(10)};
    std::vector<double> flows;
    for (CivilSeconds now_s = 0; now_s < 2000; ++now_s) {
        const double flow_kg_s = begin_tick(state, draws, now_s);
        const bool full = std::abs(flow_kg_s - 0.1) < 1e-12 || std::abs(flow_kg_s - 0.05) < 1e-12;
        if (full && (flows.empty() || std::abs(flows.back() - flow_kg_s) > 1e-12)) {
            flows.push_back(flow_kg_s);
        }
        end_tick(state, fake_source(flow_kg_s, 50.0), comfort_c);
        BOOST_REQUIRE_SMALL(imbalance_j(state), 1e-6);
    }
    BOOST_REQUIRE(flows.size() == 3);
    BOOST_TEST(flows[1] < flows[0]);
    BOOST_TEST(state.totals.draws_started == 3);
    BOOST_CHECK_CLOSE(state.totals.delivered_j, 2 * 1.4 * 3.6e6 + 1e5, 1e-9);
}

BOOST_AUTO_TEST_CASE(a_full_queue_turns_draws_away_and_books_them_as_missing) {
    HouseholdState state;
    const std::vector<Draw> draws(most_waiting_draws + 3, shower(0));
    begin_tick(state, draws, 0);
    BOOST_TEST(state.waiting == most_waiting_draws);
    BOOST_TEST(state.totals.draws_given_up == 3);
    BOOST_CHECK_CLOSE(state.totals.missing_j, 3 * 1.4 * 3.6e6, 1e-12);
    BOOST_CHECK_SMALL(imbalance_j(state), 1e-6);
}

BOOST_AUTO_TEST_CASE(a_draw_runs_on_over_midnight) {
    HouseholdState state;
    const std::vector<Draw> today{shower(seconds_a_day - 50)};
    const std::vector<Draw> tomorrow{shower(seconds_a_day + 100)};
    const auto warm = [](CivilSeconds) { return 50.0; };
    run(state, today, seconds_a_day - 100, seconds_a_day, warm);
    BOOST_TEST(state.running);
    run(state, tomorrow, seconds_a_day, seconds_a_day + 2000, warm);
    BOOST_TEST(state.totals.draws_started == 2);
    BOOST_CHECK_CLOSE(state.totals.delivered_j, 2 * 1.4 * 3.6e6, 1e-9);
}

BOOST_AUTO_TEST_CASE(a_bench_switched_on_at_noon_does_not_catch_up_the_morning) {
    HouseholdState state;
    const std::vector<Draw> draws = draws_of_day(DrawPattern{}, 0);
    run(state, draws, 12 * 3600, 24 * 3600, [](CivilSeconds) { return 60.0; });
    double afternoon_j = 0.0;
    for (const Draw& draw : draws) {
        afternoon_j += draw.at_s >= 12 * 3600 ? draw.energy_j : 0.0;
    }
    BOOST_TEST(state.totals.asked_j == afternoon_j);
    BOOST_CHECK_SMALL(imbalance_j(state), 1e-6);
}

BOOST_AUTO_TEST_CASE(a_peak_counts_once_reached) {
    HouseholdState state;
    const Draw kitchen{0, 0.315 * 3.6e6, 4.0 / 60000.0, 10.0, 55.0};
    run(state, {kitchen}, 0, 1000, [](CivilSeconds) { return 50.0; });
    BOOST_TEST(state.totals.peaks_missed == 1);
    BOOST_CHECK_CLOSE(state.totals.delivered_j, kitchen.energy_j, 1e-9);
    HouseholdState hot;
    run(hot, {kitchen}, 0, 1000, [](CivilSeconds now_s) { return now_s == 30 ? 55.0 : 50.0; });
    BOOST_TEST(hot.totals.peaks_missed == 0);
}

BOOST_AUTO_TEST_CASE(a_whole_profile_balances_under_a_restless_source) {
    for (const DrawProfile profile :
         {DrawProfile::small, DrawProfile::medium, DrawProfile::large, DrawProfile::extra_large}) {
        HouseholdState state;
        DrawPattern pattern;
        pattern.profile = profile;
        const auto draws = draws_of_day(pattern, 0);
        run(state, draws, 0, seconds_a_day, [](CivilSeconds now_s) {
            return 48.0 + 6.0 * std::sin(static_cast<double>(now_s) / 40.0);
        });
        BOOST_TEST_CONTEXT("profile " << static_cast<int>(profile)) {
            BOOST_CHECK_SMALL(imbalance_j(state), 1e-6);
            BOOST_TEST(state.totals.draws_started == static_cast<std::int64_t>(draws.size()));
            // The last flow is sized by the tick before: within a tenth of a percent a draw.
            BOOST_CHECK_CLOSE(state.totals.delivered_j, energy_asked_j(draws), 0.1);
        }
    }
}

BOOST_AUTO_TEST_CASE(a_fork_goes_on_to_the_same_bytes) {
    const auto draws = draws_of_day(DrawPattern{}, 0);
    const auto warm = [](CivilSeconds) { return 47.0; };
    HouseholdState state;
    run(state, draws, 0, 7 * 3600 + 5 * 60 + 30, warm);
    BOOST_TEST(state.running);
    HouseholdState fork = state;
    run(state, draws, 7 * 3600 + 5 * 60 + 30, 12 * 3600, warm);
    run(fork, draws, 7 * 3600 + 5 * 60 + 30, 12 * 3600, warm);
    BOOST_TEST(state.totals.delivered_j == fork.totals.delivered_j);
    BOOST_TEST(state.totals.drawn_kg == fork.totals.drawn_kg);
}

BOOST_AUTO_TEST_CASE(the_next_opening_is_announced) {
    HouseholdState state;
    const std::vector<Draw> draws{shower(100), shower(5000)};
    BOOST_TEST(next_opening_s(state, draws, 0) == 100);
    BOOST_TEST(next_opening_s(state, draws, 5001) == seconds_a_day);
    begin_tick(state, draws, 100);
    BOOST_TEST(next_opening_s(state, draws, 101) == 101);
}

BOOST_AUTO_TEST_SUITE_END()
