// SPDX-License-Identifier: MIT
#include "traces/compare.hpp"
#include "tests/traces/sample.hpp"
#include "traces/read_error.hpp"

#include <boost/test/unit_test.hpp>

#include <functional>
#include <sstream>

BOOST_AUTO_TEST_SUITE(compare)

using namespace noonbench::traces;

namespace {

const std::vector<Signal> one_temperature{
    {.name = "a_c", .unit = "degC", .decimals = 3, .meaning = {}}};
const std::vector<Signal> one_relay{
    {.name = "pump_relay", .unit = {}, .kind = SignalKind::on_off, .meaning = {}}};

/// A column over 0, step, 2 step .. 600 s.
Table course(const std::vector<Signal>& signals, std::int64_t step_s,
             const std::function<double(double)>& value) {
    Table table(signals);
    for (std::int64_t at_s = 0; at_s <= 600; at_s += step_s) {
        table.append(at_s, std::array{value(static_cast<double>(at_s))});
    }
    return table;
}

double jump_at_300(double at_s) {
    return at_s < 300.0 ? 20.0 : 50.0;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_trace_agrees_with_itself_exactly) {
    BOOST_TEST(find_differences(sample::table(), sample::table(), {}).empty());
}

BOOST_AUTO_TEST_CASE(the_largest_deviation_and_its_place_are_told) {
    const auto ramp = [](double at_s) { return 0.01 * at_s; };
    const auto bent = [](double at_s) { return 0.01 * at_s + (at_s == 420.0 ? 0.7 : 0.3); };
    const auto differences = find_differences(
        course(one_temperature, 10, ramp), course(one_temperature, 10, bent), {{"a_c", {0.2, 0}}});
    BOOST_TEST_REQUIRE(differences.size() == 1U);
    BOOST_TEST(differences[0].column == "a_c");
    BOOST_TEST(differences[0].at_s == 420);
    BOOST_TEST(differences[0].expected == "4.200");
    BOOST_TEST(differences[0].found == "4.900");
    // Doubles of thousandths: their difference is off by rounding only.
    BOOST_TEST(differences[0].deviation == 0.7, boost::test_tools::tolerance(1e-12));
    BOOST_TEST(differences[0].rows == 122U);  // 61 rows seen from either side
    BOOST_TEST(
        in_words(differences[0]) ==
        "a_c: at 2000-01-01 00:07:00 expected 4.200, found 4.900; off by 0.7 where 0.2 is allowed "
        "(122 places)");
}

BOOST_AUTO_TEST_CASE(a_deviation_of_just_the_tolerance_is_allowed) {
    const auto flat = [](double) { return 0.1; };
    const auto above = [](double) { return 0.3; };
    const Table one = course(one_temperature, 10, flat);
    const Table other = course(one_temperature, 10, above);
    BOOST_TEST(find_differences(one, other, {{"a_c", {0.2, 0}}}).empty());
    BOOST_TEST(find_differences(one, other, {{"a_c", {0.199, 0}}}).size() == 1U);
}

BOOST_AUTO_TEST_CASE(a_step_may_come_a_little_later_or_earlier) {
    const Table expected = course(one_temperature, 1, jump_at_300);
    for (const double shift_s : {-20.0, 20.0}) {
        const Table found =
            course(one_temperature, 1, [&](double at_s) { return jump_at_300(at_s - shift_s); });
        BOOST_TEST_CONTEXT("shift " << shift_s) {
            BOOST_TEST(find_differences(expected, found, {{"a_c", {0.0, 20}}}).empty());
            BOOST_TEST(find_differences(expected, found, {{"a_c", {0.0, 18}}}).size() == 1U);
            BOOST_TEST(find_differences(expected, found, {{"a_c", {5.0, 0}}}).size() == 1U);
        }
    }
}

BOOST_AUTO_TEST_CASE(a_pulse_that_only_one_of_them_has_is_found_from_either_side) {
    const auto flat = [](double) { return 0.0; };
    const auto pulse = [](double at_s) { return at_s == 300.0 ? 1.0 : 0.0; };
    const Table quiet = course(one_relay, 1, flat);
    const Table busy = course(one_relay, 1, pulse);
    const Tolerances allowed{{"pump_relay", {0.0, 60}}};
    BOOST_TEST(find_differences(quiet, busy, allowed).size() == 1U);
    BOOST_TEST(find_differences(busy, quiet, allowed).size() == 1U);
    BOOST_TEST(find_differences(busy, busy, allowed).empty());
}

BOOST_AUTO_TEST_CASE(rows_of_different_spacing_compare_by_straight_lines) {
    const auto ramp = [](double at_s) { return 0.01 * at_s; };
    const Table fine = course(one_temperature, 1, ramp);
    const Table coarse = course(one_temperature, 300, ramp);
    BOOST_TEST(find_differences(coarse, fine, {}).empty());
    BOOST_TEST(find_differences(fine, coarse, {}).empty());
}

BOOST_AUTO_TEST_CASE(missing_values_columns_and_ends_are_differences) {
    const Table whole = sample::table();
    Table shorter(sample::signals(), sample::start_s);
    for (std::size_t row = 0; row < 3; ++row) {
        std::vector<double> values;
        for (std::size_t i = 0; i < 4; ++i) values.push_back(whole.value(row, i));
        shorter.append(whole.times_s()[row], values);
    }
    BOOST_TEST(find_differences(whole, shorter, {}).size() == 4U);
    BOOST_TEST(find_differences(shorter, whole, {}).size() == 4U);
    auto signals = sample::signals();
    signals.pop_back();
    Table narrow(signals, sample::start_s);
    Table filled(sample::signals(), sample::start_s);
    for (std::size_t row = 0; row < whole.row_count(); ++row) {
        std::vector<double> values;
        for (std::size_t i = 0; i < 4; ++i) values.push_back(whole.value(row, i));
        narrow.append(whole.times_s()[row], std::span(values).first(3));
        if (std::isnan(values[0])) values[0] = 40.0;
        filled.append(whole.times_s()[row], values);
    }
    const auto lost = find_differences(whole, narrow, {});
    BOOST_TEST_REQUIRE(lost.size() == 1U);
    BOOST_TEST(lost[0].column == "flow_lpm");
    BOOST_TEST(find_differences(narrow, whole, {}).size() == 1U);
    BOOST_TEST(find_differences(whole, filled, {{"collector_sensor_c", {1000.0, 0}}}).size() == 1U);
}

BOOST_AUTO_TEST_CASE(events_compare_by_order_target_and_time) {
    const std::vector<Event> expected{{100, "relay", "pump_relay", "0", "1", "sun"},
                                      {110, "reason", "pump_reason", "a", "b", ""},
                                      {200, "relay", "pump_relay", "1", "0", ""}};
    auto found = expected;
    BOOST_TEST(find_differences(expected, found, {}).empty());
    found[2].at_s = 230;
    found[2].because = "other words";
    BOOST_TEST(find_differences(expected, found, {{"events", {0.0, 30}}}).empty());
    const auto late = find_differences(expected, found, {{"events", {0.0, 29}}});
    BOOST_TEST_REQUIRE(late.size() == 1U);
    BOOST_TEST(late[0].column == "relay pump_relay");
    BOOST_TEST(late[0].deviation == 30.0);
    found.pop_back();
    BOOST_TEST(find_differences(expected, found, {}).size() == 1U);
    BOOST_TEST(find_differences(found, expected, {}).size() == 1U);
    found = expected;
    found[1].to = "c";
    BOOST_TEST(find_differences(expected, found, {{"events", {0.0, 1000}}}).size() == 1U);
}

BOOST_AUTO_TEST_CASE(tolerances_are_read_from_a_small_text) {
    std::istringstream good(
        "# name value time\n\ncollector_sensor_c 0.05 60  # cloud edges\r\n"
        "events 0 30\n");
    const auto tolerances = read_tolerances(good);
    BOOST_TEST(tolerances.size() == 2U);
    BOOST_TEST(tolerances.at("collector_sensor_c").value == 0.05);
    BOOST_TEST(tolerances.at("collector_sensor_c").time_s == 60);
    for (const char* text :
         {"a 1\n", "a 1 2 3\n", "a -1 2\n", "a 1 2.5\n", "a x 2\n", "a 1 2\na 1 2\n"}) {
        BOOST_TEST_CONTEXT(text) {
            std::istringstream bad(text);
            BOOST_CHECK_THROW((void)read_tolerances(bad), ReadError);
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
