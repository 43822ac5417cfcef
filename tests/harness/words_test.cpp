// SPDX-License-Identifier: MIT
#include "firmware-model/settings.hpp"
#include "firmware-model/terminals.hpp"

#include "harness/bench/words.hpp"

#include <boost/test/unit_test.hpp>

#include <set>
#include <string>

BOOST_AUTO_TEST_SUITE(words)

namespace {

using namespace noonbench::harness;
using namespace noonbench::firmware;

Outputs healthy() {
    Outputs out;
    for (Reading& r : out.readings) r.status = SensorStatus::good;
    out.readings[0].temperature = {5130};  // collector
    out.readings[1].temperature = {4740};  // store bottom
    out.readings[2].temperature = {6000};  // store top
    out.readings[3].status = SensorStatus::not_fitted;
    out.readings[4].status = SensorStatus::not_fitted;
    return out;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

template <typename Reason, typename Check>
void for_each_reason(std::size_t count, Check check) {
    for (std::size_t i = 0; i < count; ++i) {
        const auto reason = static_cast<Reason>(i);
        BOOST_TEST_CONTEXT(name_of(reason)) {
            check(reason);
        }
    }
}

template <typename Check>
void for_all_reasons(Check check) {
    for_each_reason<PumpReason>(pump_reason_count, check);
    for_each_reason<BackupReason>(backup_reason_count, check);
}

std::string default_text(Setting setting) {
    return setting_text(setting, default_settings()[setting]);
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_reason_has_a_sentence_that_ends) {
    for_all_reasons([](auto reason) {
        const std::string text = sentence_template(reason, default_settings());
        BOOST_TEST(text.size() > 15U);
        BOOST_TEST((!text.empty() && text.back() == '.'), text);
        BOOST_TEST(!has(text, "  "), text);
    });
}

BOOST_AUTO_TEST_CASE(short_words_are_few_and_tell_the_reasons_apart) {
    std::set<std::string> pump;
    std::set<std::string> backup;
    for_each_reason<PumpReason>(pump_reason_count,
                                [&](auto reason) { pump.insert(short_words(reason)); });
    for_each_reason<BackupReason>(backup_reason_count,
                                  [&](auto reason) { backup.insert(short_words(reason)); });
    BOOST_TEST(pump.size() == pump_reason_count);
    BOOST_TEST(backup.size() == backup_reason_count);
    for_all_reasons([](auto reason) {
        const std::string text = short_words(reason);
        BOOST_TEST(!text.empty());
        BOOST_TEST(text.size() <= 26U, text);
        BOOST_TEST(!has(text, "_"), text);
    });
}

BOOST_AUTO_TEST_CASE(no_brace_and_no_identifier_is_left_after_filling) {
    for_all_reasons([](auto reason) {
        const std::string text = filled(sentence_template(reason, default_settings()), healthy());
        BOOST_TEST(!has(text, "{"), text);
        BOOST_TEST(!has(text, "}"), text);
        BOOST_TEST(!has(text, "_"), text);
    });
}

BOOST_AUTO_TEST_CASE(a_filled_sentence_says_what_the_controller_reads) {
    const Settings settings = default_settings();
    BOOST_TEST(filled(sentence_template(PumpReason::waiting_for_sun, settings), healthy()) ==
               "Waiting for sun: the collector (51.3 °C) is 3.9 K above the store bottom "
               "(47.4 °C); " +
                   default_text(Setting::start_difference) + " are needed to start.");
    Outputs cold = healthy();
    cold.readings[0].temperature = {-310};
    BOOST_TEST(has(filled(sentence_template(PumpReason::waiting_for_sun, settings), cold),
                   "the collector (-3.1 °C) is 50.5 K below the store bottom (47.4 °C)"));
}

BOOST_AUTO_TEST_CASE(a_sentence_follows_the_settings_in_force) {
    Settings settings = default_settings();
    settings[Setting::start_difference] = 1250;
    settings[Setting::store_limit] = 5800;
    settings[Setting::collector_cut_out] = 12500;
    BOOST_TEST(has(sentence_template(PumpReason::waiting_for_sun, settings), "12.5 K are needed"));
    BOOST_TEST(has(sentence_template(PumpReason::store_full, settings), "limit of 58 °C"));
    BOOST_TEST(has(sentence_template(PumpReason::collector_cut_out, settings), "from 125 °C"));
}

BOOST_AUTO_TEST_CASE(a_lost_sensor_is_called_lost_and_gives_no_figure) {
    for (const auto status :
         {SensorStatus::open, SensorStatus::shorted, SensorStatus::out_of_range}) {
        Outputs out = healthy();
        out.readings[0] = {{25780}, status, 0};
        const std::string text =
            filled(sentence_template(PumpReason::sensor_lost, default_settings()), out);
        BOOST_TEST(has(text, "collector lost"), text);
        BOOST_TEST(!has(text, "257"), text);
        BOOST_TEST(has(text, "bottom 47.4 °C"), text);
    }
}

BOOST_AUTO_TEST_CASE(no_sentence_gives_a_gap_that_a_lost_sensor_makes_up) {
    Outputs out = healthy();
    out.readings[0] = {{25780}, SensorStatus::open, 0};
    for_all_reasons([&](auto reason) {
        const std::string text = filled(sentence_template(reason, default_settings()), out);
        BOOST_TEST(!has(text, "210.4 K"), text);
    });
}

// The pump runs for the warmer of two collectors, so the sentence must speak of that one.
BOOST_AUTO_TEST_CASE(with_two_roof_planes_the_sentence_speaks_of_the_warmer_one) {
    Outputs out = healthy();
    out.readings[4] = {{6040}, SensorStatus::good, 0};
    BOOST_TEST(has(filled(sentence_template(PumpReason::collecting, default_settings()), out),
                   "the collector (60.4 °C) is 13.0 K above"));
    out.readings[4].status = SensorStatus::open;
    BOOST_TEST(has(filled(sentence_template(PumpReason::collecting, default_settings()), out),
                   "the collector (51.3 °C) is 3.9 K above"));
    out.readings[4].status = SensorStatus::not_fitted;
    BOOST_TEST(has(filled(sentence_template(PumpReason::collecting, default_settings()), out),
                   "the collector (51.3 °C) is 3.9 K above"));
}

BOOST_AUTO_TEST_CASE(while_sensors_settle_no_temperature_is_claimed) {
    Outputs out;  // all settling
    const std::string text =
        filled(sentence_template(PumpReason::waiting_for_sun, default_settings()), out);
    BOOST_TEST(!has(text, "°C"), text);
}

BOOST_AUTO_TEST_CASE(an_order_by_hand_is_told_even_while_sensors_settle) {
    const Outputs out;
    BOOST_TEST(has(filled(sentence_template(PumpReason::hand_off, default_settings()), out),
                   "Off by hand"));
}

// ------------------------------------------------------------------ settings

BOOST_AUTO_TEST_CASE(every_setting_has_a_text_at_its_default_its_least_and_its_most) {
    for (std::size_t i = 0; i < setting_count; ++i) {
        const SettingInfo& row = setting_table()[i];
        for (const std::int16_t value : {row.initial, row.least, row.most}) {
            BOOST_TEST_CONTEXT(row.name << " = " << value) {
                const std::string text = setting_text(static_cast<Setting>(i), value);
                BOOST_TEST(!text.empty());
                BOOST_TEST(!has(text, "_"), text);
                BOOST_TEST(!has(text, "--"), text);
                BOOST_TEST(text.back() != '.', text);
                BOOST_TEST(text != "1 days", text);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(different_values_of_a_setting_read_differently) {
    for (std::size_t i = 0; i < setting_count; ++i) {
        const SettingInfo& row = setting_table()[i];
        std::set<std::string> texts;
        int count = 0;
        for (int value = row.least; value <= row.most; ++value, ++count) {
            texts.insert(setting_text(static_cast<Setting>(i), static_cast<std::int16_t>(value)));
        }
        BOOST_TEST(texts.size() == static_cast<std::size_t>(count), row.name);
    }
}

BOOST_AUTO_TEST_CASE(values_read_as_a_person_writes_them) {
    BOOST_TEST(setting_text(Setting::start_difference, 800) == "8 K");
    BOOST_TEST(setting_text(Setting::start_difference, 750) == "7.5 K");
    BOOST_TEST(setting_text(Setting::start_difference, 705) == "7.05 K");
    BOOST_TEST(setting_text(Setting::frost_start, -50) == "-0.5 °C");
    BOOST_TEST(setting_text(Setting::window_1_from, 390) == "06:30");
    BOOST_TEST(setting_text(Setting::window_1_until, 1440) == "24:00");
    BOOST_TEST(setting_text(Setting::least_run_time, 60) == "1 min");
    BOOST_TEST(setting_text(Setting::least_run_time, 90) == "90 s");
    BOOST_TEST(setting_text(Setting::exercise_after, 1) == "1 day");
    BOOST_TEST(setting_text(Setting::typed_in_flow, 260) == "2.6 l/min");
    BOOST_TEST(setting_text(Setting::collector_height, 85) == "8.5 m");
    BOOST_TEST(setting_text(Setting::window_1_days, 127) == "every day");
    BOOST_TEST(setting_text(Setting::window_1_days, 0) == "never");
    BOOST_TEST(setting_text(Setting::window_1_days, 0b1000001) == "Mon Sun");
    BOOST_TEST(setting_text(Setting::holiday_from, 0) == "never");
    BOOST_TEST(setting_text(Setting::holiday_from, 9601) == "2026-04-15");
    BOOST_TEST(setting_text(Setting::pump_drive, 1) == "target difference");
}

BOOST_AUTO_TEST_SUITE_END()
