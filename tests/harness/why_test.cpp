// SPDX-License-Identifier: MIT
#include "harness/bench/why.hpp"
#include "harness/bench/clock.hpp"

#include <boost/test/unit_test.hpp>

#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(why)

namespace {

using namespace noonbench::harness;
using noonbench::traces::Event;

const std::int64_t first_day = midnight_of({2026, 4, 15});

std::int64_t at(int hour, int minute, int second = 0) {
    return first_day + hour * 3600 + minute * 60 + second;
}

/// A short morning, as a run would leave it.
std::vector<Event> morning() {
    return {
        {at(0, 0), "reason", "pump_reason", "", "waiting_for_sun", "It is dark."},
        {at(0, 0), "relay", "pump_relay", "", "off", ""},
        {at(0, 0), "reason", "backup_reason", "", "out_of_window", "Backup off."},
        {at(0, 0), "relay", "backup_relay", "", "off", ""},
        {at(8, 10), "reason", "pump_reason", "waiting_for_sun", "collecting", "Collecting."},
        {at(8, 10), "relay", "pump_relay", "off", "on", ""},
        {at(9, 0), "lever", "flow_factor", "", "0", "shut valve"},
        {at(9, 5), "advice", "no_flow_although_running", "off", "on", "Check the pressure."},
        {at(9, 20), "advice", "no_flow_although_running", "on", "off", "Check the pressure."},
        {at(9, 30), "hand", "pump", "", "off", ""},
        {at(9, 30), "reason", "pump_reason", "collecting", "hand_off", "Off by hand."},
        {at(9, 30), "relay", "pump_relay", "on", "off", ""},
        {at(24, 1), "hand", "pump", "", "automatic", ""},
    };
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_reason_stands_with_the_relay_of_its_second) {
    const auto lines = chain_of_reasons(morning(), at(8, 10), 1);
    BOOST_TEST(lines == (std::vector<std::string>{"08:10:00  pump on: Collecting."}),
               boost::test_tools::per_element());
    const auto stopped = chain_of_reasons(morning(), at(9, 30), 1);
    BOOST_TEST(stopped.front() == "09:30:00  pump off: Off by hand.");
}

BOOST_AUTO_TEST_CASE(the_second_asked_for_counts_and_the_next_does_not) {
    BOOST_TEST(chain_of_reasons(morning(), at(8, 9, 59), 1).back() == "00:00:00  Backup off.");
    BOOST_TEST(chain_of_reasons(morning(), at(8, 10), 1).front() ==
               "08:10:00  pump on: Collecting.");
}

BOOST_AUTO_TEST_CASE(lines_come_oldest_first_and_as_many_as_asked) {
    const auto lines = chain_of_reasons(morning(), at(9, 45), 4);
    const std::vector<std::string> expected{
        "09:05:00  advice comes: Check the pressure.", "09:20:00  advice goes: Check the pressure.",
        "09:30:00  hand pump -> off", "09:30:00  pump off: Off by hand."};
    BOOST_TEST(lines == expected, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_lever_names_its_fault) {
    BOOST_TEST(chain_of_reasons(morning(), at(9, 1), 1).back() ==
               "09:00:00  lever flow_factor -> 0 (shut valve)");
}

BOOST_AUTO_TEST_CASE(dates_stand_in_front_where_the_chain_leaves_the_day) {
    const auto lines = chain_of_reasons(morning(), at(24, 2), 2);
    BOOST_TEST(lines.size() == 2U);
    BOOST_TEST(lines.front() == "2026-04-15 09:30:00  pump off: Off by hand.");
    BOOST_TEST(lines.back() == "00:01:00  hand pump -> automatic");
}

BOOST_AUTO_TEST_CASE(before_anything_has_happened_the_chain_is_empty) {
    BOOST_TEST(chain_of_reasons(morning(), at(0, 0) - 1, 6).empty());
    BOOST_TEST(chain_of_reasons({}, at(12, 0), 6).empty());
}

BOOST_AUTO_TEST_CASE(more_links_than_events_gives_them_all_but_the_relays) {
    BOOST_TEST(chain_of_reasons(morning(), at(48, 0), 1000).size() == 9U);
}

BOOST_AUTO_TEST_CASE(why_the_pump_stands_as_it_does_is_told_whatever_else_has_happened_since) {
    std::vector<Event> events = morning();
    events.pop_back();
    for (int minute = 31; minute < 50; ++minute) {
        events.push_back({at(9, minute), "reason", "backup_reason", "", "in_window", "Backup on."});
    }
    const auto lines = chain_of_reasons(events, at(10, 0), 6);
    BOOST_TEST(lines.size() == 7U);
    BOOST_TEST(lines.front() == "09:30:00  pump off: Off by hand.");
}

BOOST_AUTO_TEST_SUITE_END()
