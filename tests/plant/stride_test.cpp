// SPDX-License-Identifier: MIT
// Strides against single seconds of the fixed-step reference (classical Runge-Kutta, 1 s) on the
// same right-hand side: same decisions, same heat, at a fraction of the work.
#include "stride_day.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>

BOOST_AUTO_TEST_SUITE(stride)

using namespace noonbench::plant;
using namespace noonbench::plant::testing;

namespace {

Plant house(Method method = Method::reference) {
    Plant plant = make_plant(Parameters{}, 18.0, 50.0, 8.0);
    plant.method = method;
    return plant;
}

}  // namespace

BOOST_AUTO_TEST_CASE(three_days_in_strides_are_those_of_the_reference) {
    for (const CivilSeconds knot_s : {CivilSeconds{60}, CivilSeconds{3600}}) {
        Plant reference = house();
        Plant strided = house();
        const Course by_seconds = live_by_seconds(reference, 3, knot_s);
        const Course by_strides = live_by_strides(strided, 3, knot_s);
        const double heat_j = reference.books.of(Edge::coil);
        const double off = strided.books.of(Edge::coil) / heat_j - 1.0;
        BOOST_TEST_CONTEXT("knots "
                           << knot_s << " s: " << by_seconds.starts << " and " << by_strides.starts
                           << " starts, " << by_seconds.running_s << " and " << by_strides.running_s
                           << " s, heat off by " << off << ", " << by_seconds.evaluations << " and "
                           << by_strides.evaluations << " evaluations in " << by_strides.strides
                           << " strides") {
            BOOST_TEST(by_seconds.starts > 5);
            BOOST_TEST(by_strides.starts == by_seconds.starts);
            BOOST_TEST(std::abs(by_strides.running_s - by_seconds.running_s) <= 3);
            BOOST_CHECK_SMALL(off, 1e-5);  // 0.001 %
            BOOST_TEST(by_strides.evaluations * 8 < by_seconds.evaluations);
            for (std::size_t k = 0; k < 12; ++k) {
                BOOST_CHECK_SMALL(layer_c(strided, k) - layer_c(reference, k), 2e-3);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(energy_is_booked_to_the_last_joule) {
    Plant plant = house();
    live_by_strides(plant, 1, 60);
    BOOST_TEST(balance_of_run(plant).holds());
    BOOST_TEST(plant.balance.worst_step_ratio <= 1.0);
    BOOST_TEST(plant.balance.steps == seconds_a_day);
}

BOOST_AUTO_TEST_CASE(the_sensors_course_is_the_references_at_every_second) {
    Plant seconds = house();
    Plant plant = house();
    const WeatherSpan sun = april_span(CivilSeconds{11} * 3600, 3600);
    Actions actions;
    actions.pump_relay = true;
    CivilSeconds now = CivilSeconds{11} * 3600;
    double worst_k = 0.0;
    int longest = 0;
    while (now < CivilSeconds{11} * 3600 + 1800) {
        const StrideReport report = noonbench::plant::stride(plant, sun, now, actions, 0.0, 600);
        longest = std::max(longest, report.seconds);
        for (int s = 1; s <= report.seconds; ++s, ++now) {
            advance(seconds, sun, now, actions, 0.0);
            const Readings told = report.sensors.at(s);
            const Readings known = readings(seconds);
            worst_k =
                std::max({worst_k, std::abs(told.collector_sensor_c - known.collector_sensor_c),
                          std::abs(told.store_bottom_sensor_c - known.store_bottom_sensor_c),
                          std::abs(told.store_top_sensor_c - known.store_top_sensor_c),
                          std::abs(told.station_cold_c - known.station_cold_c)});
        }
    }
    BOOST_TEST(longest >= 8);
    BOOST_TEST(worst_k < 5e-3, "off by " << worst_k << " K at worst, strides up to " << longest);
}

BOOST_AUTO_TEST_CASE(a_copy_takes_the_same_strides_to_the_same_bits) {
    Plant plant = house();
    live_by_strides(plant, 1, 60);
    Plant copy = plant;
    live_by_strides(plant, 1, 60);
    live_by_strides(copy, 1, 60);
    BOOST_TEST((plant.amounts == copy.amounts));
    BOOST_TEST(plant.stride_s == copy.stride_s);
}

// Steam, air and ice are carried by single seconds, as everywhere else.
BOOST_AUTO_TEST_CASE(a_boiling_loop_goes_by_seconds) {
    Plant plant = house(Method::everyday);
    Plant seconds = plant;
    plant.levers.pump_healthy = 0.0;
    seconds.levers.pump_healthy = 0.0;
    const Actions none;
    bool boiled = false;
    CivilSeconds now = CivilSeconds{8} * 3600;
    while (now < CivilSeconds{14} * 3600) {
        WeatherSpan sun = april_span(now, 3600);
        for (PlaneKnot* knot : {&sun.from, &sun.to}) knot->absorbable_w_m2[0] *= 1.3;
        const StrideReport report = noonbench::plant::stride(plant, sun, now, none, 0.0,
                                                             static_cast<int>(sun.to.at_s - now));
        for (int s = 0; s < report.seconds; ++s) advance(seconds, sun, now + s, none, 0.0);
        now += report.seconds;
        if (plant.modes.loop.regime == LoopRegime::disturbed) {
            boiled = true;
            BOOST_TEST(report.seconds == 1);
        }
    }
    BOOST_TEST(boiled);
    BOOST_TEST(balance_of_run(plant).holds());
    BOOST_CHECK_SMALL(row_hottest_c(plant, 0) - row_hottest_c(seconds, 0), 0.05);
}

BOOST_AUTO_TEST_SUITE_END()
