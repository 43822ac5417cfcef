// SPDX-License-Identifier: MIT
#include "traces/table.hpp"
#include "tests/traces/sample.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(table)

using noonbench::traces::Signal;
using noonbench::traces::SignalKind;
using noonbench::traces::Table;

BOOST_AUTO_TEST_CASE(values_come_back_as_they_are_printed) {
    const Table table = sample::table();
    BOOST_TEST(table.row_count() == 5U);
    BOOST_TEST(table.value(0, 0) == -3.25);
    BOOST_TEST(table.raw(1, 0) == 0);      // -0.0004 has no thousandth
    BOOST_TEST(table.raw(2, 0) == 41063);  // 41.0625, half away from zero
    BOOST_TEST(std::isnan(table.value(3, 0)));
    BOOST_TEST(table.raw(4, 0) == 123457);
    BOOST_TEST(table.word(2, table.column("pump_reason")) == "collecting");
}

BOOST_AUTO_TEST_CASE(columns_are_found_by_name) {
    const Table table = sample::table();
    BOOST_TEST(table.column("flow_lpm") == 3U);
    BOOST_TEST(!table.find("flow").has_value());
    BOOST_CHECK_EXCEPTION((void)table.column("flow"), std::out_of_range, [](const auto& problem) {
        return std::string(problem.what()) == "no column 'flow' in the trace";
    });
}

BOOST_AUTO_TEST_CASE(a_refused_row_leaves_the_table_as_it_was) {
    Table table = sample::table();
    const std::int64_t next_s = sample::start_s + 11;
    const auto refused = [&](std::int64_t at_s, std::vector<double> row, const std::string& words) {
        BOOST_TEST_CONTEXT(words) {
            BOOST_CHECK_EXCEPTION(
                table.append(at_s, row), std::invalid_argument, [&](const auto& problem) {
                    BOOST_TEST_MESSAGE(problem.what());
                    return std::string(problem.what()).find(words) != std::string::npos;
                });
        }
    };
    refused(next_s, {1.0, 0.0, 0.0}, "3 values for 4 columns");
    refused(sample::start_s + 10, {1.0, 0.0, 0.0, 0.0}, "is not after");
    refused(next_s, {1.0, 2.0, 0.0, 0.0}, "signal 'pump_relay': the value");
    refused(next_s, {1.0, 0.0, 3.0, 0.0}, "signal 'pump_reason': the value");
    refused(next_s, {1.0, 0.0, 0.5, 0.0}, "is not whole");
    refused(next_s, {3e6, 0.0, 0.0, 0.0}, "signal 'collector_sensor_c': the value");
    refused(next_s, {1.0, 0.0, 0.0, INFINITY}, "signal 'flow_lpm': the value");
    BOOST_TEST(table.row_count() == 5U);
    table.append(next_s, std::array{1.0, 0.0, 0.0, 0.0});
    BOOST_TEST(table.row_count() == 6U);
}

BOOST_AUTO_TEST_CASE(signals_that_could_not_be_written_are_refused) {
    const auto refused = [](Signal signal) {
        BOOST_TEST_CONTEXT(signal.name) {
            BOOST_CHECK_THROW(Table({signal}), std::invalid_argument);
        }
    };
    Signal signal{.name = "flow_lpm", .unit = "l/min", .decimals = 2, .meaning = {}};
    BOOST_CHECK_NO_THROW(Table({signal}));
    BOOST_CHECK_THROW(Table({signal, signal}), std::invalid_argument);
    for (const char* name : {"", "Flow", "flow lpm", "flow,lpm", "2flow", "time_s"}) {
        signal.name = name;
        refused(signal);
    }
    refused({.name = "a", .unit = {}, .decimals = 7, .meaning = {}});
    refused({.name = "a", .unit = {}, .kind = SignalKind::choice, .meaning = {}});
    refused(
        {.name = "a", .unit = {}, .kind = SignalKind::choice, .choices = {"b c"}, .meaning = {}});
}

BOOST_AUTO_TEST_CASE(a_row_before_the_start_is_refused) {
    Table table(sample::signals(), sample::start_s);
    BOOST_CHECK_THROW(table.append(sample::start_s - 1, std::array{0.0, 0.0, 0.0, 0.0}),
                      std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
