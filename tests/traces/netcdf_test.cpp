// SPDX-License-Identifier: MIT
// Conventions: CF-1.8, sections 3.1 (units), 3.5 (flags), 4.4 (time). The reader is ncdump (Debian
// package netcdf-bin).
#include "traces/netcdf.hpp"
#include "tests/traces/sample.hpp"
#include "traces/file.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(netcdf)

using namespace noonbench::traces;

namespace {

std::string dumped(const sample::Directory& directory, const std::string& options) {
    const auto output = directory / "dump.txt";
    const int status =
        sample::run("ncdump " + options + " '" + (directory / "trace.nc").string() + "'", output);
    BOOST_TEST_REQUIRE(status == 0, "ncdump refuses the file, or netcdf-bin is not installed: "
                                        << sample::content(output));
    return sample::content(output);
}

void check_contains(const std::string& text, const std::string& part) {
    BOOST_TEST(text.find(part) != std::string::npos, "'" << part << "' is not in\n" << text);
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_foreign_reader_sees_names_units_flags_and_values) {
    const sample::Directory directory;
    write_netcdf(directory / "trace.nc", sample::table(), "A clear day");
    BOOST_TEST(dumped(directory, "-k") == "64-bit offset\n");
    const std::string text = dumped(directory, "-p 9,15");
    for (const char* part :
         {"time = 5 ;", "time:units = \"seconds since 2000-01-01 00:00:00\" ;",
          "time:calendar = \"proleptic_gregorian\" ;", ":Conventions = \"CF-1.8\" ;",
          ":title = \"A clear day\" ;", "collector_sensor_c:units = \"degC\" ;",
          "collector_sensor_c:long_name = \"collector sensor\" ;",
          "collector_sensor_c:visible = \"customers_log\" ;", "pump_relay:flag_values = 0b, 1b ;",
          "pump_relay:flag_meanings = \"off on\" ;", "pump_reason:flag_values = 0b, 1b, 2b ;",
          "pump_reason:flag_meanings = \"waiting_for_sun collecting sensor_lost\" ;",
          "collector_sensor_c = -3.25, 0, 41.063, _, 123.457 ;", "pump_relay = 0, 0, 1, 0, 0 ;",
          "pump_reason = 0, 0, 1, 2, 0 ;", "flow_lpm = 0, 0, 2.61, 0, 0 ;"}) {
        check_contains(text, part);
    }
    // CF's own reading of the times: 829872000 s after 2000-01-01 is 9605 days on:
    // 26 * 365 + 7 leap days = 9497 to 2026-01-01, and 108 days more.
    check_contains(dumped(directory, "-t -v time"), "\"2026-04-19\"");
}

BOOST_AUTO_TEST_CASE(the_same_trace_gives_the_same_bytes) {
    const sample::Directory directory;
    write_netcdf(directory / "trace.nc", sample::table(), "A clear day");
    write_netcdf(directory / "again.nc", sample::table(), "A clear day");
    BOOST_CHECK(sample::content(directory / "trace.nc") == sample::content(directory / "again.nc"));
    BOOST_TEST(directory.file_count() == 2U);
}

BOOST_AUTO_TEST_CASE(a_place_that_takes_no_file_is_an_error) {
    const sample::Directory directory;
    BOOST_CHECK_THROW(write_netcdf(directory / "nowhere/trace.nc", sample::table(), ""), FileError);
    BOOST_CHECK_THROW(write_netcdf(directory / "empty.nc", Table(sample::signals()), ""),
                      std::runtime_error);
    BOOST_TEST(directory.file_count() == 0U);
}

BOOST_AUTO_TEST_CASE(units_are_spelled_as_udunits_reads_them) {
    BOOST_TEST(udunits_of("kWh") == "kW.h");
    BOOST_TEST(udunits_of("") == "1");
    BOOST_TEST(udunits_of("l/min") == "l/min");
}

BOOST_AUTO_TEST_SUITE_END()
