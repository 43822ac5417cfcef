// SPDX-License-Identifier: MIT
#include "words.hpp"

#include "clock.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <string_view>

namespace noonbench::harness {
namespace {

using firmware::BackupReason;
using firmware::PumpReason;
using firmware::Sensor;
using firmware::Setting;
using firmware::SettingUnit;

/// Decimals only where there are any: 8 -> "8", 750 hundredths -> "7.5".
std::string plain(int stored, int scale) {
    const int whole = std::abs(stored) / scale;
    int rest = std::abs(stored) % scale;
    std::string text = fmt::format("{}{}", stored < 0 ? "-" : "", whole);
    if (rest == 0) return text;
    std::string digits = fmt::format("{:0{}}", rest, scale == 100 ? 2 : 1);
    while (digits.back() == '0') digits.pop_back();
    return text + "." + digits;
}

std::string duration_text(int amount, std::string_view unit, int per_next, std::string_view next) {
    if (amount >= per_next && amount % per_next == 0) {
        return fmt::format("{} {}", amount / per_next, next);
    }
    return fmt::format("{} {}", amount, unit);
}

std::string days_text(int days) {
    return fmt::format("{} {}", days, days == 1 ? "day" : "days");
}

std::string weekdays_text(int bits) {
    constexpr std::string_view names[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    if (bits == 127) return "every day";
    std::string text;
    for (unsigned day = 0; day < 7; ++day) {
        if ((static_cast<unsigned>(bits) >> day & 1U) == 0) continue;
        text += (text.empty() ? "" : " ");
        text += names[day];
    }
    return text.empty() ? "never" : text;
}

std::string date_text(int days) {
    if (days == 0) return "never";
    return date_time_text(CivilSeconds{days} * plant::seconds_a_day).substr(0, 10);
}

std::string choice_text(const firmware::SettingInfo& row, int value) {
    std::string words = row.choices[value];
    for (char& c : words) {
        if (c == '_') c = ' ';
    }
    return words;
}

std::string temperature_text(const firmware::Reading& reading) {
    if (reading.status == firmware::SensorStatus::settling) return "not yet read";
    if (reading.status != firmware::SensorStatus::good) return "lost";
    return fmt::format("{:.1f} °C", reading.temperature.centicelsius / 100.0);
}

void replace_all(std::string& text, std::string_view what, const std::string& by) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
        text.replace(at, what.size(), by);
    }
}

}  // namespace

std::string setting_text(Setting setting, std::int16_t value) {
    const auto& row = firmware::setting_table()[static_cast<std::size_t>(setting)];
    switch (row.unit) {
        case SettingUnit::difference_k:
            return plain(value, 100) + " K";
        case SettingUnit::temperature_c:
            return plain(value, 100) + " °C";
        case SettingUnit::seconds:
            return duration_text(value, "s", 60, "min");
        case SettingUnit::minutes:
            return duration_text(value, "min", 60, "h");
        case SettingUnit::hours:
            return value >= 24 && value % 24 == 0 ? days_text(value / 24)
                                                  : fmt::format("{} h", value);
        case SettingUnit::days:
            return days_text(value);
        case SettingUnit::percent:
            return fmt::format("{} %", value);
        case SettingUnit::minute_of_day:
            return fmt::format("{:02}:{:02}", value / 60, value % 60);
        case SettingUnit::litres_per_minute:
            return plain(value, 100) + " l/min";
        case SettingUnit::bar:
            return plain(value, 100) + " bar";
        case SettingUnit::metres:
            return plain(value, 10) + " m";
        case SettingUnit::pulses_per_litre:
            return fmt::format("{} pulses/l", value);
        case SettingUnit::weekdays:
            return weekdays_text(value);
        case SettingUnit::date:
            return date_text(value);
        case SettingUnit::choice:
            return choice_text(row, value);
        case SettingUnit::level_per_kelvin:
            return plain(value, 10) + " %/K";
    }
    return std::to_string(value);
}

std::string sentence_template(PumpReason reason, const firmware::Settings& settings) {
    const auto set = [&](Setting s) { return setting_text(s, settings[s]); };
    switch (reason) {
        case PumpReason::waiting_for_sun:
            return "Waiting for sun: the collector ({collector}) is {gap} the store bottom "
                   "({bottom}); " +
                   set(Setting::start_difference) + " are needed to start.";
        case PumpReason::collecting:
            return "Collecting: the collector ({collector}) is {gap} the store bottom ({bottom}); "
                   "the pump stops at " +
                   set(Setting::stop_difference) + ".";
        case PumpReason::resting:
            return "Resting: the collector ({collector}) is {gap} the store bottom ({bottom}), but "
                   "the pump rests at least " +
                   set(Setting::least_rest_time) + ".";
        case PumpReason::least_run:
            return "Running on: the collector ({collector}) is only {gap} the store bottom "
                   "({bottom}), but a run lasts at least " +
                   set(Setting::least_run_time) + ".";
        case PumpReason::store_full:
            return "Store full: it has reached its limit of " + set(Setting::store_limit) +
                   " and must cool by " + set(Setting::store_limit_release) +
                   " first (bottom {bottom}, top {top}).";
        case PumpReason::ceiling_reached:
            return "Stopped for safety: a store sensor is at the ceiling of " +
                   set(Setting::store_ceiling) +
                   ", or broken (bottom {bottom}, top {top}); nothing overrides this.";
        case PumpReason::collector_cut_out:
            return "Collector too hot: at {collector} the pump is barred (from " +
                   set(Setting::collector_cut_out) + "); it is free again at " +
                   set(Setting::collector_release) + ".";
        case PumpReason::shedding_by_day:
            return "Giving heat away by day: the store is full, and running keeps the collector "
                   "({collector}) from boiling.";
        case PumpReason::shedding_by_night:
            return "Giving heat back at night: the store (bottom {bottom}) is cooled over the "
                   "collector ({collector}).";
        case PumpReason::guarding_frost:
            return "Guarding against frost: the collector ({collector}) is kept above freezing "
                   "with heat from the store.";
        case PumpReason::sampling:
            return "Test run: a short run to bring the true collector temperature to its sensor "
                   "({collector}).";
        case PumpReason::exercising:
            return "Exercise: a few seconds after a long standstill, so that the pump does not "
                   "seize.";
        case PumpReason::hand_on:
            return "On by hand, whatever the sun does (collector {collector}, bottom {bottom}). "
                   "The store ceiling still stops it here; many real controllers do not have that.";
        case PumpReason::hand_off:
            return "Off by hand: the pump stays off until set back to automatic.";
        case PumpReason::sensor_lost:
            return "A sensor is lost (collector {collector}, bottom {bottom}): the pump stays off.";
    }
    return {};
}

std::string sentence_template(BackupReason reason, const firmware::Settings& settings) {
    const auto set = [&](Setting s) { return setting_text(s, settings[s]); };
    switch (reason) {
        case BackupReason::in_window:
            return "Backup on: inside its window, and the store top ({top}) is below " +
                   set(Setting::backup_temperature) + ".";
        case BackupReason::out_of_window:
            return "Backup off: outside its windows (store top {top}).";
        case BackupReason::warm_enough:
            return "Backup off: the store top ({top}) is warm enough.";
        case BackupReason::leaving_it_to_the_sun:
            return "Backup held back: the sun is warming the store (top {top}); for at most " +
                   set(Setting::solar_first_longest) + ".";
        case BackupReason::sanitising:
            return "Heating the store against legionella to " + set(Setting::sanitise_temperature) +
                   " (top {top}, bottom {bottom}).";
        case BackupReason::clock_unset:
            return "Clock not set: the windows count as closed; only a minimum of " +
                   set(Setting::clock_unset_temperature) + " is kept (top {top}).";
        case BackupReason::ceiling_reached:
            return "Backup off for safety: a store sensor is at the ceiling, or broken.";
        case BackupReason::hand_on:
            return "Backup on by hand (store top {top}).";
        case BackupReason::hand_off:
            return "Backup off by hand.";
        case BackupReason::sensor_lost:
            return "Backup off: the store top sensor is lost.";
    }
    return {};
}

const firmware::Reading& deciding_collector(const firmware::Outputs& outputs) {
    const auto& first = outputs.readings[static_cast<std::size_t>(Sensor::collector)];
    const auto& second = outputs.readings[static_cast<std::size_t>(Sensor::second_collector)];
    const bool second_is_warmer = second.status == firmware::SensorStatus::good &&
                                  first.status == firmware::SensorStatus::good &&
                                  second.temperature > first.temperature;
    return second_is_warmer ? second : first;
}

std::string filled(const std::string& sentence, const firmware::Outputs& outputs) {
    const auto reading = [&](Sensor s) -> const firmware::Reading& {
        return outputs.readings[static_cast<std::size_t>(s)];
    };
    const auto& collector = deciding_collector(outputs);
    const auto& bottom = reading(Sensor::store_bottom);
    if (sentence.find('{') == std::string::npos) return sentence;
    if (collector.status == firmware::SensorStatus::settling ||
        bottom.status == firmware::SensorStatus::settling) {
        return "Just switched on: the sensors have not been read yet.";
    }
    const bool comparable = collector.status == firmware::SensorStatus::good &&
                            bottom.status == firmware::SensorStatus::good;
    const double gap_k = (collector.temperature - bottom.temperature).centikelvin / 100.0;
    std::string text = sentence;
    replace_all(text, "{collector}", temperature_text(collector));
    replace_all(text, "{bottom}", temperature_text(bottom));
    replace_all(text, "{top}", temperature_text(reading(Sensor::store_top)));
    replace_all(text, "{gap}",
                comparable
                    ? fmt::format("{:.1f} K {}", std::abs(gap_k), gap_k < 0.0 ? "below" : "above")
                    : "not comparable with");
    return text;
}

std::string short_words(PumpReason reason) {
    switch (reason) {
        case PumpReason::waiting_for_sun:
            return "waiting for sun";
        case PumpReason::collecting:
            return "collecting";
        case PumpReason::resting:
            return "resting";
        case PumpReason::least_run:
            return "running on";
        case PumpReason::store_full:
            return "store full";
        case PumpReason::ceiling_reached:
            return "store at ceiling";
        case PumpReason::collector_cut_out:
            return "collector too hot";
        case PumpReason::shedding_by_day:
            return "giving heat away by day";
        case PumpReason::shedding_by_night:
            return "giving heat back at night";
        case PumpReason::guarding_frost:
            return "guarding against frost";
        case PumpReason::sampling:
            return "test run";
        case PumpReason::exercising:
            return "exercise";
        case PumpReason::hand_on:
            return "on by hand";
        case PumpReason::hand_off:
            return "off by hand";
        case PumpReason::sensor_lost:
            return "sensor lost";
    }
    return {};
}

std::string short_words(BackupReason reason) {
    switch (reason) {
        case BackupReason::in_window:
            return "heating in its window";
        case BackupReason::out_of_window:
            return "outside its windows";
        case BackupReason::warm_enough:
            return "warm enough";
        case BackupReason::leaving_it_to_the_sun:
            return "leaving it to the sun";
        case BackupReason::sanitising:
            return "heating against legionella";
        case BackupReason::clock_unset:
            return "clock not set";
        case BackupReason::ceiling_reached:
            return "store at ceiling";
        case BackupReason::hand_on:
            return "on by hand";
        case BackupReason::hand_off:
            return "off by hand";
        case BackupReason::sensor_lost:
            return "sensor lost";
    }
    return {};
}

}  // namespace noonbench::harness
