// SPDX-License-Identifier: MIT
// The language of requirements: what sentences mean, and how those that mean nothing are refused.
#include "requirement_signals.hpp"

#include <boost/test/unit_test.hpp>

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {

using namespace noonbench;
using namespace noonbench::harness;

struct Language {
    std::vector<traces::Signal> signals = test::default_signals();

    [[nodiscard]] std::string understood(std::string_view text) const {
        return test::understood(text, signals);
    }
    /// Every text with what it is understood as, or its refusal.
    void check(std::initializer_list<std::pair<const char*, const char*>> pairs) const {
        for (const auto& [text, meaning] : pairs)
            BOOST_TEST_CONTEXT(text) BOOST_TEST(understood(text) == meaning);
    }
};

}  // namespace

BOOST_FIXTURE_TEST_SUITE(sentence, Language)

BOOST_AUTO_TEST_CASE(not_binds_closer_than_and_than_or_than_until_and_phrases_reach_to_the_right) {
    check({
        {"not pump_relay is on and flow_lpm > 1 l/min or backup_relay is on",
         "(!(pump_relay = on) & (flow_lpm > 1)) | (backup_relay = on)"},
        {"pump_relay is on or pump_relay is off until flow_lpm > 1 l/min and flow_lpm < 2 l/min",
         "((pump_relay = on) | (pump_relay = off)) U ((flow_lpm > 1) & (flow_lpm < 2))"},
        {"backup_relay is off and always pump_relay is on or flow_lpm > 1 l/min",
         "(backup_relay = off) & G((pump_relay = on) | (flow_lpm > 1))"},
        {"(always pump_relay is on) or sometime flow_lpm > 1 l/min",
         "G(pump_relay = on) | F(flow_lpm > 1)"},
        {"if pump_relay is on, then flow_lpm > 1 l/min and pump_w > 0 W",
         "(pump_relay = on) -> ((flow_lpm > 1) & (pump_w > 0))"},
        {"air_c + 2 K * 3 - 1 K < tap_c", "air_c + 2 * 3 - 1 < tap_c"},
        {"difference_k - (threshold_k - 1 K) > -(2 K + 3 K) / 2",
         "difference_k - (threshold_k - 1) > -(2 + 3) / 2"},
        {"((difference_k)) > ((4 K))", "difference_k > 4"},
    });
}

BOOST_AUTO_TEST_CASE(line_breaks_are_blanks_and_a_comma_or_colon_may_follow_a_leading_phrase) {
    check({
        {"each day:\n  starts of pump_relay\n  is below 10",
         "G(day_ends -> (starts_day(pump_relay = on) < 10))"},
        {"always, flow_lpm < 20 l/min", "G(flow_lpm < 20)"},
        {"at 12:00:30 pump_relay is on", "G((clock = 12:00:30) -> (pump_relay = on))"},
    });
}

BOOST_AUTO_TEST_CASE(windows_by_the_clock_may_pass_midnight_and_end_with_the_day) {
    check({
        {"sometime between 22:00 and 02:00 backup_relay is on",
         "G((clock = 22:00) -> F[0,14399](backup_relay = on))"},
        {"sometime between 00:00 and 24:00 backup_relay is on",
         "G((clock = 00:00) -> F[0,86399](backup_relay = on))"},
        {"always between 12:00 and 12:00 pump_relay is on",
         "1:26: a window that ends when it begins; allowed: another time of day"},
        {"at 25:00, pump_relay is on",
         "1:4: \"25:00\" is not a time of day; allowed: a time of day, 00:00 to 24:00, such as "
         "06:30 or 06:30:15"},
    });
}

BOOST_AUTO_TEST_CASE(literals_come_in_any_unit_of_their_measure) {
    check({
        {"sun_row_1_w_m2 > 0.5 kW/m2", "sun_row_1_w_m2 > 500"},
        {"flow_lpm > 120 l/h", "flow_lpm > 2"},
        {"absorbed_w > 2 kW", "absorbed_w > 2000"},
        {"heat_counter_kwh > 3.6 MJ", "heat_counter_kwh > 1"},
        {"air_c > -5 \u00b0C", "air_c > -5"},
        {"in any 2 days, time with (pump_relay is on) < 0.5 h",
         "G(lasted_172800 -> (time_with_last_172800(pump_relay = on) < 1800))"},
        {"over the run, total of tap_flow_lpm < 1 m3",
         "G(run_ends -> (total_run(tap_flow_lpm) < "
         "1000))"},
        {"over the run, total of sun_row_1_w_m2 > 1 kWh/m2",
         "G(run_ends -> (total_run(sun_row_1_w_m2) > 1))"},
    });
}

BOOST_AUTO_TEST_CASE(numbers_of_different_measures_never_meet) {
    check({
        {"difference_k > 5 kW",
         "1:14: a temperature difference (K) cannot be compared with a power (kW); allowed: K"},
        {"pump_w is above 5 K",
         "1:11: a power (W) cannot be compared with a temperature difference (K); allowed: W, kW"},
        {"difference_k > 5",
         "1:14: a temperature difference (K) cannot be compared with a plain number; allowed: K"},
        {"pump_speed_pct = 50",
         "1:16: a share (%) cannot be compared with a plain number; allowed: %"},
        {"air_c > 5 K",
         "1:7: a temperature (degC) cannot be compared with a temperature difference (K); allowed: "
         "degC"},
        {"each day, first time with (pump_relay is on) < 8 h",
         "1:46: a time of day cannot be compared with a length of time (h); allowed: a time of day "
         "such as 07:15"},
        {"air_c + tap_c > 5 degC",
         "1:7: a temperature (degC) and a temperature (degC) cannot be added; allowed: two of one "
         "measure; a temperature (degC) and a difference (K)"},
        {"5 K - air_c > 5 K",
         "1:5: from a temperature difference (K), a temperature (degC) cannot be subtracted; "
         "allowed: two of one measure; a temperature (degC) less a difference (K)"},
        {"pump_w * pump_w > 5 W",
         "1:8: a power (W) and a power (W) cannot be multiplied; allowed: a plain number with a "
         "plain number or a quantity, but no temperature or time of day"},
        {"air_c / 2 > 5 degC",
         "1:7: a temperature (degC) cannot be divided by a plain number; allowed: a quantity by a "
         "plain number or by one of its measure, but no temperature or time of day"},
        {"lesser(air_c, 5 K) > 5 degC",
         "1:15: a temperature (degC) cannot be compared with a temperature difference (K); "
         "allowed: degC"},
        {"each day, total of difference_k > 3 K",
         "1:11: there is no total of a temperature difference (K); allowed: total of a power (W), "
         "a flow (l/min) or an irradiance (W/m2)"},
        {"difference_k / 0 K > 3", "1:16: a division by zero; allowed: another number"},
    });
    BOOST_TEST(understood("difference_k > 5 ohm").starts_with("1:18: \"ohm\" is not a unit of "));
}

BOOST_AUTO_TEST_CASE(a_ratio_is_stated_plainly_or_in_percent_and_then_has_its_margin_in_percent) {
    check({
        {"to_store_w / absorbed_w > 0.3", "to_store_w / absorbed_w > 0.3"},
        {"30 % < to_store_w / absorbed_w", "30 < to_store_w / absorbed_w * 100"},
        {"to_store_w / absorbed_w is between 30 % and 90 %",
         "(to_store_w / absorbed_w * 100 >= 30) & (to_store_w / absorbed_w * 100 <= 90)"},
        {"each day, starts of pump_relay < 5 %",
         "1:32: a plain number cannot be compared with a share (%); allowed: a plain number "
         "without "
         "a unit"},
    });
}

BOOST_AUTO_TEST_CASE(unknown_words_are_refused_with_the_nearest_known_one) {
    check({
        {"colector_reading_c > 5 degC",
         "1:1: \"colector_reading_c\" is not a signal (did you mean "
         "collector_reading_c?); allowed: a column of the trace"},
        {"pump_relay is onn",
         "1:15: \"onn\" is not a word of pump_relay (did you mean on?); "
         "allowed: off, on"},
        {"Always pump_relay is on",
         "1:1: \"Always\" is not a word of the language or a signal (did you mean always?); "
         "allowed: `noonbench list phrases` has the words"},
        {"tapped_w is more than 5 kW",
         "1:13: \"more\" is not a word of the language or a signal; "
         "allowed: `noonbench list phrases` has the words"},
        {"pump_relay",
         "1:1: \"pump_relay\" alone says nothing; allowed: pump_relay is on, "
         "pump_relay is off"},
        {"pump_relay > 3",
         "1:1: \"pump_relay\" is no number; allowed: is on, is off, goes on, goes off"},
        {"air_c is on",
         "1:10: air_c is a number and has no words; allowed: is above, is below, is "
         "at least, is at most, is between ... and"},
    });
}

BOOST_AUTO_TEST_CASE(a_sentence_that_does_not_fit_says_what_would_have) {
    check({
        {"if pump_relay is on pump_turning is on",
         "1:21: \"pump_turning\" does not fit here; allowed: and, or, until, then"},
        {"always (pump_relay is on",
         "1:25: the requirement ends too early; allowed: and, or, until, )"},
        {"each day, time with pump_relay is on < 5 min",
         "1:21: \"pump_relay\" does not fit here; allowed: a condition in parentheses"},
        {"difference_k > 1,5 K", "1:17: a decimal comma; allowed: a decimal point"},
        {"always within 10 pump_relay is on",
         "1:15: \"10\" is not a length of time; allowed: a number with s, min, h, day, days, year"},
        {"always within 1.5 s pump_relay is on",
         "1:15: \"1.5 s\" is no window; allowed: whole seconds, 0 s to 31 days"},
        {"always from 10 min to 5 min pump_relay is on",
         "1:23: a window that ends before it begins; allowed: 10 min or more"},
        {"always pump_relay is on\nand flow_lpm",
         "2:5: \"flow_lpm\" is a number where a condition is wanted; allowed: a comparison: is "
         "above, is below, is at least, is at most, is between ... and"},
        {" \n ", "1:1: an empty text; allowed: `noonbench list phrases` has the words"},
    });
}

BOOST_AUTO_TEST_CASE(an_endless_phrase_stands_outermost_only) {
    check({
        {"if always pump_relay is on then not sometime flow_lpm < 1 l/min",
         "G(pump_relay = on) -> !(F(flow_lpm < 1))"},
        {"always always pump_relay is on",
         "1:8: a phrase without a window cannot stand inside another; allowed: a window: always "
         "within 10 min ..., always from 5 min to 10 min ..."},
        {"sometime within 5 min (never pump_relay is on)",
         "1:24: a phrase without a window cannot stand inside another; allowed: a window: never "
         "within 10 min ..., never from 5 min to 10 min ..."},
        {"always pump_relay is on until pump_relay is off",
         "1:8: a phrase without a window cannot stand inside another; allowed: a window: ... until "
         "... within 10 min"},
        {"each day, at 12:00, pump_relay is on",
         "1:11: a phrase without a window cannot stand inside another; allowed: this phrase "
         "outermost, joined to others by and, or, not, if"},
        {"pump_relay is on until (each day, starts of pump_relay < 3) within 5 min",
         "1:25: a phrase without a window cannot stand inside another; allowed: this phrase "
         "outermost, joined to others by and, or, not, if"},
    });
}

BOOST_AUTO_TEST_CASE(a_count_has_one_period_and_looks_at_the_present_alone) {
    check({
        {"starts of pump_relay < 5",
         "1:1: \"starts\" needs a period over which to look; allowed: each day, each month, each "
         "year, over the run or in any 10 min before it"},
        {"each day, starts of (total of pump_w < 3 kWh) < 5",
         "1:22: a count or total cannot stand inside another; allowed: each for itself, joined by "
         "calculations or comparisons"},
        {"each day, starts of (sometime within 3 min pump_relay is on) < 5",
         "1:22: what is counted or timed may not look ahead; allowed: comparisons, joined by and, "
         "or, not, if"},
        {"each day, starts of pump_reason < 5",
         "1:21: \"pump_reason\" alone says nothing; allowed: "
         "pump_reason is waiting_for_sun"},
        {"each day, change of tap_c < 5 K", "G(day_ends -> (change_day(tap_c) < 5))"},
        {"each day, last time with (tap_c < 40 degC) - 07:00 < 3 h",
         "G(day_ends -> (last_time_day(tap_c < 40) - 07:00 < 10800))"},
    });
}

BOOST_AUTO_TEST_CASE(a_time_since_needs_no_period_and_looks_at_the_present_alone) {
    check({
        {"never pump_relay goes off and time since (pump_relay goes on) < 1 min",
         "G(!(fall(pump_relay = on) & (time_since(rise(pump_relay = on)) < 60)))"},
        {"each day, time since (tap_c < 40 degC and tap_flow_lpm > 0 l/min) / 2 > 12 h",
         "G(day_ends -> (time_since((tap_c < 40) & (tap_flow_lpm > 0)) / 2 > 43200))"},
        {"always sometime within 5 min time since (pump_relay is on) has no value",
         "G(F[0,300](!(known(time_since(pump_relay = on)))))"},
        {"always time since (pump_relay is on) < 07:00",
         "1:38: a length of time (s) cannot be compared with a time of day; allowed: s, min, h, "
         "day, days, year"},
        {"always time since (sometime within 3 min pump_relay is on) < 5 min",
         "1:20: what is counted or timed may not look ahead; allowed: comparisons, joined by and, "
         "or, not, if"},
        {"each day, starts of (time since (pump_relay is on) > 5 min) < 5",
         "1:22: a count or total cannot stand inside another; allowed: each for itself, joined by "
         "calculations or comparisons"},
        {"each day, time since (starts of pump_relay > 3) < 1 h",
         "1:23: a count or total cannot stand inside another; allowed: each for itself, joined by "
         "calculations or comparisons"},
        {"always time since pump_relay is on < 5 min",
         "1:19: \"pump_relay\" does not fit here; allowed: a condition in parentheses"},
        {"always time (pump_relay is on) < 5 min",
         "1:13: \"(pump_relay\" does not fit here; allowed: since, with"},
    });
}

BOOST_AUTO_TEST_CASE(depth_and_length_have_limits) {
    const auto nested = [](int levels) {
        return std::string(static_cast<std::size_t>(levels), '(') + "pump_relay is on" +
               std::string(static_cast<std::size_t>(levels), ')');
    };
    BOOST_TEST(understood(nested(60)) == "pump_relay = on");
    BOOST_TEST(understood(nested(70))
                   .find("more than 64 levels deep; allowed: a flatter "
                         "requirement, or several") != std::string::npos);
    BOOST_TEST(understood(std::string(4001, 'a')) ==
               "1:1: a text of 4001 characters; allowed: at most 4000 characters");
}

BOOST_AUTO_TEST_SUITE_END()
