// SPDX-License-Identifier: MIT
#include "bench_days.hpp"

#include "harness/bench/audit.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(audit)

namespace {

using namespace noonbench::harness;
using namespace noonbench::harness::testing;

constexpr double promised = 1e-3;  // of the boundary powers, the bound of the balance page

/// A day with sun, draws, backup, a leaking check valve, dirty glass that gets dirtier.
std::string busy() {
    return "household:\n  people: 5\nstore: {start_top: 30 degC, start_bottom: 20 degC}\n"
           "moves:\n"
           "  - {at: \"05:00:00\", lever: check_valve_leak, to: 0.5}\n"
           "  - {at: \"10:00:00\", over: 3 h, lever: glass_clearness, to: 0.6}\n"
           "  - {at: \"15:00:00\", lever: connection_loss_factor, to: 4}\n";
}

/// The audit of one bench, told what another shows.
double gap_when_told_of(const Scenario& booked, const Scenario& shown) {
    Bench bench(booked);
    Bench other(shown);
    Audit audit(bench);
    while (bench.now() < booked.start_s + booked.length_s) {
        bench.tick();
        other.tick();
        audit.stretch(other, 1);
    }
    return audit.largest_gap(bench);
}

}  // namespace

BOOST_AUTO_TEST_CASE(boundary_powers_of_a_busy_day_agree_with_the_books) {
    const RunResult result = run(april(busy()));
    BOOST_TEST(result.total.backup_kwh > 0.0);
    BOOST_TEST(result.total.tapped_kwh > 2.0);
    BOOST_TEST(result.total.absorbed_kwh > 5.0);
    BOOST_TEST(result.balance.boundary_gap < promised);
    BOOST_TEST(result.balance.holds);
    BOOST_TEST(result.balance.run_throughput_j > 1e7);
}

BOOST_AUTO_TEST_CASE(a_wrong_optical_factor_of_two_thousandths_is_found) {
    Scenario wrong = april(busy());
    wrong.plant.rows[0].collector.eta0 *= 1.002;
    BOOST_TEST(gap_when_told_of(april(busy()), april(busy())) < promised);
    BOOST_TEST(gap_when_told_of(april(busy()), wrong) > promised);
}

BOOST_AUTO_TEST_CASE(hot_water_that_the_books_do_not_know_of_is_found) {
    Scenario wrong = april(busy());
    wrong.household.pattern.people = 6;
    BOOST_TEST(gap_when_told_of(april(busy()), wrong) > promised);
}

BOOST_AUTO_TEST_CASE(seconds_that_the_audit_has_not_seen_are_found) {
    const Scenario scenario = april(busy());
    Bench bench(scenario);
    Audit audit(bench);
    for (int second = 0; second < 86400; ++second) {
        bench.tick();
        const bool missed = second >= 12 * 3600 && second < 12 * 3600 + 300;
        if (!missed) audit.stretch(bench, 1);
    }
    BOOST_TEST(audit.largest_gap(bench) > promised);
}

BOOST_AUTO_TEST_CASE(a_forgotten_edge_would_break_the_balance_of_the_run) {
    Bench bench(april(busy()));
    run_for(bench, 86400);
    const auto& plant = bench.plant();
    using noonbench::plant::Edge;
    BOOST_TEST(noonbench::plant::balance_of_run(plant).holds());
    for (const Edge edge : {Edge::absorbed, Edge::collector_loss, Edge::pipe_loss, Edge::store_loss,
                            Edge::backup, Edge::cold_in, Edge::hot_out}) {
        BOOST_TEST_CONTEXT("edge " << static_cast<int>(edge)) {
            BOOST_TEST(!noonbench::plant::balance_of_run(plant, edge).holds());
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
