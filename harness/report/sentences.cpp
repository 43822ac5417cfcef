// SPDX-License-Identifier: MIT
#include "sentences.hpp"

#include "text.hpp"

#include <fmt/format.h>

#include <cstdint>

namespace noonbench::harness {
namespace {

std::string celsius(double value) {
    return number_text(value, 0) + " °C";
}

/// The run's own length: a night from noon to noon touches two days and is one day long.
double length_days(const RunResult& result) {
    return static_cast<double>(result.total.until_s - result.total.from_s) / 86400.0;
}

std::string sun_sentence(const RunResult& result) {
    const Sums& total = result.total;
    if (total.sun_kwh <= 0.0) return "No sun reached the collectors.";
    std::string text;
    if (result.days.size() > 1) text = fmt::format("In {} the ", length_text(result));
    text += fmt::format("{}un brought {} to each square metre; of the {} on the glass, {}",
                        text.empty() ? "The s" : "s", kwh_text(total.sun_kwh_m2),
                        kwh_text(total.sun_kwh), kwh_text(total.to_store_kwh));
    if (total.to_store_kwh >= 0.0) {
        text += fmt::format(" ({} %)", number_text(100.0 * total.to_store_kwh / total.sun_kwh, 0));
    }
    return text + " reached the store.";
}

std::string runs(std::int64_t starts) {
    return starts == 1 ? "in one run" : fmt::format("in {} runs", starts);
}

std::string pump_sentence(const RunResult& result) {
    const Sums& total = result.total;
    if (total.pump_run_h <= 0.0) return "The pump never ran.";
    const std::string electricity = kwh_text(total.pump_electricity_kwh) + " of electricity";
    if (result.days.size() != 1) {
        const std::string text =
            fmt::format("The pump ran {} h {} and used {}",
                        number_text(total.pump_run_h, total.pump_run_h < 100.0 ? 1 : 0),
                        runs(total.pump_starts), electricity);
        const double days = length_days(result);
        if (days < 2.0) return text + ".";
        return text + fmt::format(": {} h and {} starts a day.",
                                  number_text(total.pump_run_h / days, 1),
                                  number_text(static_cast<double>(total.pump_starts) / days, 1));
    }
    const Sums& day = result.days.front();
    std::string text = "The pump ";
    if (day.first_start_s >= 0) text += "first started at " + hour_text(day.first_start_s) + ", ";
    if (day.last_stop_s >= 0) text += "last stopped at " + hour_text(day.last_stop_s) + ", ";
    return text + fmt::format("ran {} h {} and used {}.", number_text(day.pump_run_h, 1),
                              runs(day.pump_starts), electricity);
}

std::string store_sentence(const RunResult& result) {
    const Sums& total = result.total;
    const double change = result.store_change_kwh;
    return fmt::format(
        "The store lay between {} and {} at its bottom and between {} and {} at its top; in the "
        "end store and pipes held {} {} than at the start.",
        celsius(total.store_bottom_lowest_c), celsius(total.store_bottom_highest_c),
        celsius(total.store_top_lowest_c), celsius(total.store_top_highest_c),
        kwh_text(change < 0.0 ? -change : change), change < 0.0 ? "less" : "more");
}

std::string tap_sentence(const RunResult& result) {
    const Sums& total = result.total;
    std::string text = "No hot water was drawn";
    if (total.tapped_l > 0.0) {
        text = fmt::format("The taps drew {} l of hot water ({})", number_text(total.tapped_l, 0),
                           kwh_text(total.tapped_kwh));
        text += total.cool_l >= 0.5
                    ? fmt::format(", {} l of it cooler than wanted", number_text(total.cool_l, 0))
                    : ", none of it cooler than wanted";
    }
    if (result.scenario.plant.backup.kind == plant::BackupKind::none) {
        return text + "; there is no backup heat.";
    }
    if (total.backup_kwh <= 0.0) {
        return text + fmt::format("; the {} was not needed.", backup_name(result.scenario));
    }
    return text + fmt::format("; the {} gave {} in {} h.", backup_name(result.scenario),
                              kwh_text(total.backup_kwh), number_text(total.backup_run_h, 1));
}

std::string heat_sentence(const RunResult& result) {
    const Sums& total = result.total;
    const auto barred = static_cast<std::size_t>(firmware::PumpReason::collector_cut_out);
    std::string text = "The collector reached " + celsius(total.collector_highest_c);
    if (total.stagnation_h > 0.0) {
        text += fmt::format(", stood above 120 °C for {} h", number_text(total.stagnation_h, 1));
    }
    if (total.reason_h.at(barred) > 0.0) {
        text += fmt::format(" and kept the pump barred for {} h",
                            number_text(total.reason_h.at(barred), 1));
    } else {
        text += " and never barred the pump";
    }
    return text + (result.advice.empty() ? "; the controller asks for no check."
                                         : "; the controller asks for a check, see below.");
}

}  // namespace

std::string length_text(const RunResult& result) {
    const std::int64_t length_s = result.total.until_s - result.total.from_s;
    if (length_s == 86400) return "one day";
    if (length_s % 86400 == 0) return fmt::format("{} days", length_s / 86400);
    const double hours = static_cast<double>(length_s) / 3600.0;
    return number_text(hours, length_s % 3600 == 0 ? 0 : 2) + " hours";
}

const char* backup_name(const Scenario& scenario) {
    switch (scenario.plant.backup.kind) {
        case plant::BackupKind::boiler:
            return "boiler";
        case plant::BackupKind::immersion:
            return "immersion heater";
        case plant::BackupKind::none:
            break;
    }
    return "backup";
}

std::vector<std::string> what_happened(const RunResult& result) {
    return {sun_sentence(result), pump_sentence(result), store_sentence(result),
            tap_sentence(result), heat_sentence(result)};
}

}  // namespace noonbench::harness
