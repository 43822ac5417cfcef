// SPDX-License-Identifier: MIT
#include "plant/pump.hpp"

#include <boost/test/unit_test.hpp>

#include <string>

BOOST_AUTO_TEST_SUITE(pump)

using namespace noonbench::plant;

namespace {

Actions asking(double signal) {
    Actions actions;
    actions.pump_relay = true;
    actions.speed_signal = signal;
    return actions;
}

}  // namespace

BOOST_AUTO_TEST_CASE(mains_only_pump_runs_full_whatever_the_signal_wire_says) {
    const Pump plain;
    for (double signal : {0.0, 0.5, 1.0})
        BOOST_TEST(pump_level(plain, asking(signal), false) == 1.0);
}

BOOST_AUTO_TEST_CASE(two_signal_profiles_are_opposite_and_meet_a_broken_wire_differently) {
    struct Row {
        bool more_is_slower;
        bool swapped;
        bool wire;
        double signal;
        double level;
    };
    // Exact: one subtraction of numbers that a double holds.
    for (const Row& row : {Row{false, false, true, 1.0, 1.0}, Row{false, false, true, 0.5, 0.5},
                           Row{false, false, true, 0.125, 0.0}, Row{false, false, true, 0.0, 0.0},
                           Row{false, false, false, 1.0, 0.0}, Row{true, false, true, 0.0, 1.0},
                           Row{true, false, true, 0.75, 0.25}, Row{true, false, true, 0.875, 0.0},
                           Row{true, false, true, 1.0, 0.0}, Row{true, false, false, 1.0, 1.0},
                           Row{false, true, true, 0.25, 0.75}, Row{true, true, true, 0.25, 0.25}}) {
        Pump pump;
        pump.takes_speed_signal = true;
        pump.more_is_slower = row.more_is_slower;
        Actions actions = asking(row.signal);
        actions.speed_wire_connected = row.wire;
        BOOST_TEST_CONTEXT("more_is_slower " << row.more_is_slower << ", swapped " << row.swapped
                                             << ", wire " << row.wire << ", signal "
                                             << row.signal) {
            BOOST_TEST(pump_level(pump, actions, row.swapped) == row.level);
        }
    }
}

BOOST_AUTO_TEST_CASE(each_link_of_the_chain_stops_the_ones_behind_it) {
    struct Break {
        std::string lever;
        double value;
        bool powered;
        bool turning;
        bool moving;
    };
    const Pump plain;
    for (const Break& broken :
         {Break{"", 0.0, true, true, true}, Break{"high_limit_closed", 0.0, false, false, false},
          Break{"isolator_closed", 0.0, false, false, false},
          Break{"pump_healthy", 0.0, true, false, false},
          Break{"flow_factor", 0.0, true, true, false}}) {
        Levers levers;
        set_lever(levers, broken.lever, broken.value);
        const PumpState state = pump_state(plain, asking(1.0), levers, false);
        BOOST_TEST_CONTEXT("broken at '" << broken.lever << "'") {
            BOOST_TEST(state.powered == broken.powered);
            BOOST_TEST(state.turning == broken.turning);
            BOOST_TEST(state.moving == broken.moving);
            BOOST_TEST((state.power_w > 0.0) == broken.turning);
        }
    }
    BOOST_TEST(!pump_state(plain, asking(1.0), Levers{}, true).powered);
    BOOST_TEST(!pump_state(plain, Actions{}, Levers{}, false).powered);
}

BOOST_AUTO_TEST_CASE(flow_follows_the_level_and_power_its_cube) {
    Pump pump;
    pump.takes_speed_signal = true;
    const PumpState half = pump_state(pump, asking(0.5), Levers{}, false);
    BOOST_CHECK_CLOSE(half.flow_m3_s, 0.5 * pump.full_flow_m3_s, 1e-10);
    BOOST_CHECK_CLOSE(half.power_w, 6.0 + 29.0 / 8.0, 1e-10);
    BOOST_CHECK_CLOSE(half.heat_w, half.power_w * pump.heat_share, 1e-10);
}

BOOST_AUTO_TEST_SUITE_END()
