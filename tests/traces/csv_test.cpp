// SPDX-License-Identifier: MIT
// The grammar is that of RFC 4180, section 2.
#include "traces/csv.hpp"
#include "tests/traces/sample.hpp"

#include <boost/test/unit_test.hpp>

#include <sstream>

BOOST_AUTO_TEST_SUITE(csv)

using namespace noonbench::traces;

namespace {

std::string written(const Table& table) {
    std::ostringstream out;
    write_csv(out, table);
    return out.str();
}

/// Reading the text must fail at that line and column with those words.
template <typename Read>
void check_refused(Read read, const std::string& text, const std::string& place_and_words) {
    BOOST_TEST_CONTEXT("text: " << text) {
        std::istringstream in(text);
        try {
            read(in);
            BOOST_ERROR("was read");
        } catch (const ReadError& problem) {
            BOOST_TEST(std::string(problem.what()).starts_with(place_and_words),
                       problem.what() << " does not begin with " << place_and_words);
        }
    }
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_trace_is_written_with_a_header_and_fixed_decimals) {
    BOOST_TEST(written(sample::table()) ==
               "time_s,collector_sensor_c,pump_relay,pump_reason,flow_lpm\r\n"
               "829872000,-3.250,0,waiting_for_sun,0.00\r\n"
               "829872001,0.000,0,waiting_for_sun,0.00\r\n"
               "829872002,41.063,1,collecting,2.61\r\n"
               "829872003,,0,sensor_lost,0.00\r\n"
               "829872010,123.457,0,waiting_for_sun,0.00\r\n");
}

BOOST_AUTO_TEST_CASE(what_was_written_reads_back_to_the_same_bytes) {
    const std::string text = written(sample::table());
    std::istringstream known(text);
    std::istringstream unknown(text);
    BOOST_TEST(written(read_csv(known, sample::signals())) == text);
    const Table learned = read_csv(unknown);
    BOOST_TEST(written(learned) == text);
    BOOST_TEST(learned.start_s() == sample::start_s);
    BOOST_TEST(learned.signals()[0].decimals == 3);
    BOOST_CHECK(learned.signals()[2].kind == SignalKind::choice);
}

BOOST_AUTO_TEST_CASE(bare_line_feeds_and_a_missing_last_one_are_read) {
    std::istringstream in("time_s,a_c\n1,2.5\n2,3.5");
    const Table table = read_csv(in);
    BOOST_TEST(table.row_count() == 2U);
    BOOST_TEST(table.value(1, 0) == 3.5);
}

BOOST_AUTO_TEST_CASE(every_error_says_line_and_column) {
    const auto learn = [](std::istream& in) { (void)read_csv(in); };
    check_refused(learn, "", "1:1: the file is empty");
    check_refused(learn, "a,b\n", "1:1: the first column is time_s");
    check_refused(learn, "time_s,a\n1\n", "2:1: a row of 1 cells under 2 headings");
    check_refused(learn, "time_s,a\n1,2\n1.5,2\n", "3:1: '1.5' is not a time");
    check_refused(learn, "time_s,a\n5,2\n5,2\n", "3:1: time 5 s is not after 5");
    check_refused(learn, "time_s,a\n1,2.50\n2,2.5\n", "3:3: a: '2.5' does not have 2 decimals");
    check_refused(learn, "time_s,a\n1,2\n2,on\n", "3:3: a: 'on' is not a number");
    check_refused(learn, "time_s,a\n1,+2\n", "1:1: signal 'a': the word '+2'");
    check_refused(learn, "time_s,a\n1,\"2\n", "2:3: the quote is never closed");
    check_refused(learn, "time_s,a\n1,\"2\"3\n", "2:6: after a closing quote");
    check_refused(learn, "time_s,a\n1,2\"\n", "2:4: a quote inside");
    check_refused(learn, "time_s,a\r1,2\n", "1:9: a CR without its LF");
    check_refused(learn, "time_s,a,a\n1,2,3\n", "1:1: signal 'a': the name stands twice");

    const auto known = [](std::istream& in) { (void)read_csv(in, sample::signals()); };
    const std::string header = "time_s,collector_sensor_c,pump_relay,pump_reason,flow_lpm\n";
    check_refused(known, header + "1,1.000,0,dreaming,1.00\n",
                  "2:11: pump_reason: 'dreaming' is none of its words");
    check_refused(known, header + "1,1.000,2,collecting,1.00\n", "2:1: signal 'pump_relay'");
    check_refused(known, "time_s,collector_sensor_c,pump_relay,flow_lpm,pump_reason\n",
                  "1:38: the column 'flow_lpm' stands where 'pump_reason' belongs");
}

BOOST_AUTO_TEST_CASE(events_keep_commas_quotes_and_line_ends) {
    const std::vector<Event> events{
        {5, "reason", "pump_reason", "resting", "collecting", "12.4 K, more than 8.0 K"},
        {5, "lever", "pump_power", "1", "0", "she said \"off\"\nand left"},
        {9, "mode", "", "", "\"", ""}};
    std::ostringstream out;
    write_events_csv(out, events);
    BOOST_TEST(
        out.str().starts_with("time_s,what,name,from,to,because\r\n5,reason,pump_reason,"
                              "resting,collecting,\"12.4 K, more than 8.0 K\"\r\n"));
    std::istringstream in(out.str());
    BOOST_CHECK(read_events_csv(in) == events);
}

BOOST_AUTO_TEST_CASE(events_that_go_back_in_time_are_refused) {
    const auto read = [](std::istream& in) { (void)read_events_csv(in); };
    const std::string header = "time_s,what,name,from,to,because\n";
    check_refused(read, header + "5,a,b,c,d,\n4,a,b,c,d,\n", "3:1: time 4 s goes backward");
    check_refused(read, "time_s,what,name,from,to,why\n", "1:26: the column is named because");
}

BOOST_AUTO_TEST_SUITE_END()
