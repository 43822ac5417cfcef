// SPDX-License-Identifier: MIT
#include "firmware-model/settings.hpp"

#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/setting_text.hpp"

#include <boost/test/unit_test.hpp>

#include <clocale>
#include <cmath>
#include <numbers>
#include <string>

BOOST_AUTO_TEST_SUITE(quantity_text)

namespace {

using namespace noonbench::harness;

double si(const char* text, const Range& range) {
    const Parsed<double> parsed = parse_quantity(text, range);
    BOOST_TEST_CONTEXT(text << ": " << parsed.what) {
        BOOST_REQUIRE(parsed.value.has_value());
    }
    return *parsed.value;
}

/// "what; allowed" of a refusal.
template <class T>
std::string refusal(const Parsed<T>& parsed) {
    BOOST_REQUIRE(!parsed.value.has_value());
    return parsed.what + "; " + parsed.allowed;
}

std::string refusal(const char* text, const Range& range) {
    return refusal(parse_quantity(text, range));
}

constexpr Range volume{"l", 50, 2000};
constexpr Range difference{"K", 0, 20};

}  // namespace

BOOST_AUTO_TEST_CASE(units_become_si_to_the_last_bit) {
    BOOST_TEST(si("7 K", difference) == 7.0);
    BOOST_TEST(si("2.6 l/min", {"l/min", 0, 20}) == 2.6 / 60000.0);
    BOOST_TEST(si("90 l/h", {"l/min", 0, 20}) == 90.0 / 3.6e6);
    BOOST_TEST(si("11 m", {"m", 0, 100}) == 11.0);
    BOOST_TEST(si("19 mm", {"mm", 0, 100}) == 0.019);
    BOOST_TEST(si("38 deg", {"deg", 0, 90}) == 38.0 * std::numbers::pi / 180.0);
    BOOST_TEST(si("300 l", volume) == 0.3);
    BOOST_TEST(si("3 kW", {"kW", 0, 10}) == 3000.0);
    BOOST_TEST(si("2 bar", {"bar", 0, 6}) == 2e5);
    BOOST_TEST(si("150 kPa", {"bar", 0, 6}) == 1.5e5);
    BOOST_TEST(si("45 s", {"s", 0, 60}) == 45.0);
    BOOST_TEST(si("1.5 h", {"min", 0, 600}) == 5400.0);
    BOOST_TEST(si("2 days", {"day", 0, 600}) == 172800.0);
    BOOST_TEST(si("1 year", {"day", 0, 3650}) == 31536000.0);
    BOOST_TEST(si("-5.5 degC", {"degC", -40, 50}) == -5.5);
    BOOST_TEST(si("40 %", {"%", 0, 60}) == 0.4);
    BOOST_TEST(si("1.6 W/K", {"W/K", 0, 60}) == 1.6);
    BOOST_TEST(si("3.6 W/(m2 K)", {"W/(m2 K)", 0, 60}) == 3.6);
    BOOST_TEST(si("7 kJ/(m2 K)", {"kJ/(m2 K)", 0, 60}) == 7000.0);
    BOOST_TEST(si("1.4 kWh", {"kWh", 0, 60}) == 1.4 * 3.6e6);
    BOOST_TEST(si("20 kohm", {"ohm", 0, 1e6}) == 20000.0);
    BOOST_TEST(si("0.8", {"", 0, 1}) == 0.8);
}

BOOST_AUTO_TEST_CASE(spellings_of_a_unit_are_forgiven_where_they_mean_the_same) {
    BOOST_TEST(si("7K", difference) == 7.0);
    BOOST_TEST(si("  7   K ", difference) == 7.0);
    BOOST_TEST(si("+7 K", difference) == 7.0);
    BOOST_TEST(si("20 \u00b0C", {"degC", 0, 60}) == 20.0);
    BOOST_TEST(si("38\u00b0", {"deg", 0, 90}) == si("38 deg", {"deg", 0, 90}));
    BOOST_TEST(si("3.6 W/m2K", {"W/(m2 K)", 0, 60}) == 3.6);
    BOOST_TEST(si("3.6 W/(m\u00b2\u00b7K)", {"W/(m2 K)", 0, 60}) == 3.6);
}

BOOST_AUTO_TEST_CASE(a_missing_unit_names_those_accepted) {
    BOOST_TEST(refusal("300", volume) == "\"300\" has no unit; 50 l to 2000 l (units: l, ml, m3)");
    BOOST_TEST(refusal("8", difference) == "\"8\" has no unit; 0 K to 20 K (units: K)");
}

BOOST_AUTO_TEST_CASE(a_wrong_unit_names_those_accepted) {
    BOOST_TEST(refusal("300 m", volume) ==
               "\"m\" is not a unit of volume; 50 l to 2000 l (units: l, ml, m3)");
    BOOST_TEST(refusal("8 degC", difference) ==
               "\"degC\" is not a unit of temperature difference; 0 K to 20 K (units: K)");
    BOOST_TEST(refusal("3 l", {"", 1, 10}) ==
               "\"3 l\" has a unit, a plain number is wanted; a number from 1 to 10");
}

BOOST_AUTO_TEST_CASE(a_decimal_comma_gets_its_own_sentence) {
    BOOST_TEST(refusal("2,6 l/min", {"l/min", 0.2, 20}) ==
               "\"2,6 l/min\" has a decimal comma; write a decimal point; 0.2 l/min to 20 l/min "
               "(units: l/min, l/h, m3/h)");
}

BOOST_AUTO_TEST_CASE(a_range_is_shown_in_the_unit_that_was_written) {
    BOOST_TEST(refusal("3 m3", volume) == "3 m3 is out of range; 0.05 m3 to 2 m3");
    BOOST_TEST(refusal("3000 l", volume) == "3000 l is out of range; 50 l to 2000 l");
    BOOST_TEST(refusal("-1 K", difference) == "-1 K is out of range; 0 K to 20 K");
}

BOOST_AUTO_TEST_CASE(the_edges_of_a_range_belong_to_it_in_every_unit) {
    BOOST_TEST(si("30 cm", {"m", 0.1, 0.3}) == 0.3);
    BOOST_TEST(si("100 mm", {"m", 0.1, 0.3}) == 0.1);
    BOOST_TEST(si("2 m3", volume) == 2.0);
}

BOOST_AUTO_TEST_CASE(what_is_no_finite_number_is_refused) {
    for (const char* text : {"nan K", "inf K", "-inf K", "infinity K", "1e999 K", "warm", "", "K",
                             "- 3 K", "--3 K", ".", "0x10 K", "1e K"}) {
        BOOST_TEST_CONTEXT(text) {
            BOOST_TEST(!parse_quantity(text, difference).value.has_value());
        }
    }
    BOOST_TEST(refusal("nan K", difference) == "\"nan K\" is not a number; 0 K to 20 K (units: K)");
}

BOOST_AUTO_TEST_CASE(the_locale_changes_nothing) {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    for (const char* locale : {"de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8"}) {
        std::setlocale(LC_ALL, locale);  // null where it is not installed: then nothing changes
        BOOST_TEST(si("2.6 K", difference) == 2.6);
        BOOST_TEST(noonbench::harness::quantity_text(2.6, "K") == "2.6 K");
    }
    std::setlocale(LC_ALL, before.c_str());
}

BOOST_AUTO_TEST_CASE(si_goes_back_to_text) {
    BOOST_TEST(noonbench::harness::quantity_text(0.3, "l") == "300 l");
    BOOST_TEST(noonbench::harness::quantity_text(2.6 / 60000.0, "l/min") == "2.6 l/min");
    BOOST_TEST(noonbench::harness::quantity_text(-0.0, "K") == "0 K");
    BOOST_TEST(noonbench::harness::quantity_text(0.25, "") == "0.25");
}

BOOST_AUTO_TEST_CASE(times_of_day_and_dates) {
    BOOST_TEST(*parse_time_of_day("06:30").value == 23400);
    BOOST_TEST(*parse_time_of_day("6:30:15").value == 23415);
    BOOST_TEST(*parse_time_of_day("24:00").value == 86400);
    BOOST_TEST(*parse_date_time("2000-01-01").value == 0);
    BOOST_TEST(*parse_date_time("2000-03-01").value == 60 * 86400);  // 2000 was a leap year
    BOOST_TEST(*parse_date_time("1999-12-31 23:59:59").value == -1);
    BOOST_TEST(*parse_date_time("2026-04-15 06:30").value ==
               *parse_date_time("2026-04-15T06:30").value);
    for (const char* text : {"24:01", "6:3", "06:60", "06", "06:30:60", "-6:30", "06.30", "noon"})
        BOOST_TEST_CONTEXT(text) BOOST_TEST(!parse_time_of_day(text).value.has_value());
    for (const char* text : {"2026-02-29", "2026-13-01", "2026-4-15", "15.04.2026", "2026-04-15 ",
                             "2026-04-15 25:00", "2500-01-01"})
        BOOST_TEST_CONTEXT(text) BOOST_TEST(!parse_date_time(text).value.has_value());
    BOOST_TEST(moment_text(*parse_date_time("1987-06-05 04:03:02").value) == "1987-06-05 04:03:02");
    BOOST_TEST(moment_text(*parse_date_time("2028-02-29").value) == "2028-02-29 00:00");
}

BOOST_AUTO_TEST_CASE(the_nearest_word_is_near) {
    constexpr std::string_view words[] = {"start_difference", "stop_difference", "store_limit"};
    BOOST_TEST(nearest_word("start_diference", words) == "start_difference");
    BOOST_TEST(nearest_word("store_limt", words) == "store_limit");
    BOOST_TEST(nearest_word("pressure", words) == "");
    BOOST_TEST(refusal(parse_word("store_limt", words)) ==
               "\"store_limt\" is not one of the words (did you mean store_limit?); "
               "start_difference, stop_difference, store_limit");
}

BOOST_AUTO_TEST_CASE(quotes_cut_long_text_and_leave_out_control_characters) {
    BOOST_TEST(in_quotes("a\x1b[31mb") == "\"a[31mb\"");
    BOOST_TEST(in_quotes(std::string(100, 'x')) == "\"" + std::string(40, 'x') + "...\"");
    // The cut falls into the middle of a two-byte letter.
    BOOST_TEST(in_quotes(std::string(39, 'x') + "\u00e9\u00e9") ==
               "\"" + std::string(39, 'x') + "...\"");
}

BOOST_AUTO_TEST_CASE(every_setting_is_written_and_read_back) {
    using namespace noonbench::firmware;
    for (const SettingInfo& info : setting_table()) {
        for (const int value : {int{info.least}, int{info.initial}, int{info.most}}) {
            const auto stored = static_cast<std::int16_t>(value);
            const std::string text = written_setting(info, stored);
            const Parsed<std::int16_t> back = parse_setting(info, text);
            BOOST_TEST_CONTEXT(info.name << " = " << text << ": " << back.what) {
                BOOST_REQUIRE(back.value.has_value());
                BOOST_TEST(*back.value == stored);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(settings_are_refused_off_range_off_step_and_off_unit) {
    const auto* start = find_setting("start_difference");
    BOOST_REQUIRE(start != nullptr);
    BOOST_TEST(*parse_setting(*start, "7 K").value == 700);
    BOOST_TEST(refusal(parse_setting(*start, "7.3 K")) ==
               "\"7.3 K\" lies between two steps; 2 K to 20 K in steps of 0.5 K");
    BOOST_TEST(refusal(parse_setting(*start, "30 K")) == "30 K is out of range; 2 K to 20 K");
    BOOST_TEST(refusal(parse_setting(*start, "7 degC")) ==
               "\"degC\" is not a unit of temperature difference; 2 K to 20 K (units: K)");
    const auto* days = find_setting("window_1_days");
    BOOST_TEST(*parse_setting(*days, "monday, friday").value == 0b0010001);
    BOOST_TEST(*parse_setting(*days, "every_day").value == 127);
    BOOST_TEST(refusal(parse_setting(*days, "munday")) ==
               "\"munday\" is not one of the words (did you mean monday?); every_day, never, or "
               "names such as monday friday (monday to sunday)");
    const auto* holiday = find_setting("holiday_from");
    BOOST_TEST(*parse_setting(*holiday, "2000-01-02").value == 1);
    BOOST_TEST(*parse_setting(*holiday, "never").value == 0);
    const auto* guard = find_setting("frost_guard");
    BOOST_TEST(*parse_setting(*guard, "yes").value == 1);
    BOOST_TEST(refusal(parse_setting(*guard, "maybe")) ==
               "\"maybe\" is not one of the words; off, on");
    BOOST_TEST(find_setting("start_diference") == nullptr);
}

BOOST_AUTO_TEST_SUITE_END()
