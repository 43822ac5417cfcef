// SPDX-License-Identifier: MIT
#include "firmware-model/reason.hpp"

#include <boost/test/unit_test.hpp>

#include <set>
#include <string>
#include <string_view>

BOOST_AUTO_TEST_SUITE(reason)

using namespace noonbench::firmware;

namespace {

template <typename Kind>
std::set<std::string> names(std::size_t count) {
    std::set<std::string> all;
    for (std::size_t i = 0; i < count; ++i) all.insert(name_of(static_cast<Kind>(i)));
    return all;
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_reason_has_a_name_of_its_own) {
    BOOST_TEST(names<PumpReason>(pump_reason_count).size() == pump_reason_count);
    BOOST_TEST(names<BackupReason>(backup_reason_count).size() == backup_reason_count);
    BOOST_TEST(names<AdviceKind>(advice_count).size() == advice_count);
}

BOOST_AUTO_TEST_CASE(names_stand_in_the_order_of_the_enums) {
    BOOST_TEST(name_of(PumpReason::waiting_for_sun) == std::string_view("waiting_for_sun"));
    BOOST_TEST(name_of(PumpReason::least_run) == std::string_view("least_run"));
    BOOST_TEST(name_of(PumpReason::collector_cut_out) == std::string_view("collector_cut_out"));
    BOOST_TEST(name_of(PumpReason::exercising) == std::string_view("exercising"));
    BOOST_TEST(name_of(PumpReason::sensor_lost) == std::string_view("sensor_lost"));
    BOOST_TEST(name_of(BackupReason::in_window) == std::string_view("in_window"));
    BOOST_TEST(name_of(BackupReason::sanitising) == std::string_view("sanitising"));
    BOOST_TEST(name_of(BackupReason::sensor_lost) == std::string_view("sensor_lost"));
    BOOST_TEST(name_of(AdviceKind::sensors_swapped) == std::string_view("sensors_swapped"));
    BOOST_TEST(name_of(AdviceKind::clock_unset) == std::string_view("clock_unset"));
}

BOOST_AUTO_TEST_CASE(a_value_outside_the_enum_still_has_a_name) {
    BOOST_TEST(name_of(static_cast<PumpReason>(pump_reason_count)) ==
               std::string_view("sensor_lost"));
    BOOST_TEST(name_of(static_cast<BackupReason>(backup_reason_count)) ==
               std::string_view("sensor_lost"));
    BOOST_TEST(name_of(static_cast<AdviceKind>(advice_count)) == std::string_view("clock_unset"));
    BOOST_TEST(name_of(static_cast<PumpReason>(200)) == std::string_view("sensor_lost"));
    BOOST_TEST(name_of(static_cast<BackupReason>(200)) == std::string_view("sensor_lost"));
    BOOST_TEST(name_of(static_cast<AdviceKind>(200)) == std::string_view("clock_unset"));
    BOOST_TEST(text_of(static_cast<AdviceKind>(200)) == text_of(AdviceKind::clock_unset));
}

BOOST_AUTO_TEST_CASE(advice_begins_with_what_to_do_and_sends_nobody_up) {
    const std::set<std::string> verbs = {"Check", "Compare", "Measure", "Lower", "Set"};
    std::set<std::string> texts;
    for (std::size_t i = 0; i < advice_count; ++i) {
        const std::string text = text_of(static_cast<AdviceKind>(i));
        BOOST_TEST_CONTEXT(text) {
            BOOST_TEST(verbs.contains(text.substr(0, text.find(' '))));
            BOOST_TEST(text.size() <= 100u);
            BOOST_TEST(text.find('\n') == std::string::npos);
            BOOST_TEST(text.find("roof") == std::string::npos);
            BOOST_TEST(texts.insert(text).second);
        }
    }
}

BOOST_AUTO_TEST_CASE(advice_holds_one_bit_for_each_kind) {
    Advice advice;
    for (std::size_t i = 0; i < advice_count; ++i) {
        const auto kind = static_cast<AdviceKind>(i);
        BOOST_TEST(!advice.has(kind));
        advice.bits = static_cast<std::uint16_t>(advice.bits | 1U << i);
        BOOST_TEST(advice.has(kind));
    }
    BOOST_TEST((advice == Advice{0x1FF}));
    BOOST_TEST(!(advice == Advice{0xFF}));
}

BOOST_AUTO_TEST_SUITE_END()
