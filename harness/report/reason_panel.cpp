// SPDX-License-Identifier: MIT
#include "reason_panel.hpp"

#include "needle.hpp"
#include "text.hpp"

#include "harness/bench/clock.hpp"
#include "harness/bench/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

namespace noonbench::harness {
namespace {

using firmware::Setting;

constexpr std::size_t most_moments = 3000;
constexpr std::array columns{"collector_reading_c", "store_bottom_reading_c", "store_top_reading_c",
                             "pump_reason",         "backup_reason",          "pump_speed_pct"};
// Only a pump that waits is told by its difference while a sensor has none.
constexpr const char* without_reading =
    "A sensor has no reading yet, so there is no difference to go by: the pump waits.";
constexpr const char* without_power = "The controller has no power: pump and backup are off.";

const Epoch& epoch_at(const std::vector<Epoch>& epochs, std::int64_t at_s) {
    std::size_t i = epochs.size();
    while (i > 1 && epochs[i - 1].from_s > at_s) --i;
    return epochs[i - 1];
}

std::size_t shown_row(const traces::Table& trace, const std::vector<std::size_t>& moments) {
    const std::size_t reason = trace.column("pump_reason");
    for (const std::size_t row : moments) {
        if (trace.raw(row, reason) == static_cast<int>(firmware::PumpReason::collecting)) {
            return row;
        }
    }
    return moments[moments.size() / 2];
}

/// The controller's outputs as far as a sentence needs them, read back from the trace.
firmware::Outputs outputs_at(const traces::Table& trace, std::size_t row) {
    firmware::Outputs out{};
    constexpr std::array sensors{firmware::Sensor::collector, firmware::Sensor::store_bottom,
                                 firmware::Sensor::store_top};
    for (std::size_t i = 0; i < sensors.size(); ++i) {
        auto& reading = out.readings[static_cast<std::size_t>(sensors[i])];
        const std::int32_t raw = trace.raw(row, trace.column(columns[i]));
        const bool good = raw != traces::Table::no_value;
        reading.status = good ? firmware::SensorStatus::good : firmware::SensorStatus::open;
        reading.temperature.centicelsius = good ? static_cast<std::int16_t>(raw) : std::int16_t{0};
    }
    return out;
}

std::optional<double> gap_at(const traces::Table& trace, std::size_t row) {
    const std::int32_t collector = trace.raw(row, trace.column(columns[0]));
    const std::int32_t bottom = trace.raw(row, trace.column(columns[1]));
    if (collector == traces::Table::no_value || bottom == traces::Table::no_value) return {};
    return (collector - bottom) / 100.0;
}

/// A true sentence for the row, with the figures of that row.
std::string sentence_at(const traces::Table& trace, std::size_t row, const Epoch& epoch) {
    if (!epoch.powered) return without_power;
    const auto reason =
        static_cast<firmware::PumpReason>(trace.raw(row, trace.column("pump_reason")));
    const std::string sentence = sentence_template(reason, epoch.settings);
    if (!gap_at(trace, row) && sentence.find("{gap}") != std::string::npos) return without_reading;
    return filled(sentence, outputs_at(trace, row));
}

template <typename Number>
void append_list(std::string& out, const char* name, const std::vector<Number>& list) {
    out += fmt::format("\"{}\":[", name);
    for (std::size_t i = 0; i < list.size(); ++i) {
        out += fmt::format("{}{}", i == 0 ? "" : ",", list[i]);
    }
    out += "]";
}

template <typename Reason>
std::string sentences_json(std::size_t count, const Epoch& epoch) {
    std::string out = "[";
    for (std::size_t i = 0; i < count; ++i) {
        out += joined(
            {i == 0 ? "" : ",",
             json_text(epoch.powered ? sentence_template(static_cast<Reason>(i), epoch.settings)
                                     : std::string(without_power))});
    }
    return out + "]";
}

std::string epoch_json(const Epoch& epoch, std::int64_t start_s) {
    return fmt::format(
        "{{\"from\":{},\"stop\":{},\"start\":{},\"pump\":{},\"backup\":{}}}",
        epoch.from_s - start_s, epoch.settings[Setting::stop_difference] / 100.0,
        epoch.settings[Setting::start_difference] / 100.0,
        sentences_json<firmware::PumpReason>(firmware::pump_reason_count, epoch),
        sentences_json<firmware::BackupReason>(firmware::backup_reason_count, epoch));
}

}  // namespace

bool has_moments(const RunResult& result) {
    const traces::Table& trace = result.trace;
    if (!result.months.empty() || trace.row_count() == 0) return false;
    const auto usable = [&](const char* name) {
        const auto column = trace.find(name);
        if (!column) return false;
        const traces::Signal& signal = trace.signals()[*column];
        return signal.unit != "degC" || signal.decimals == 2;
    };
    return std::all_of(columns.begin(), columns.end(), usable);
}

std::string reason_panel(const RunResult& result) {
    const traces::Table& trace = result.trace;
    const auto moments = moments_of(trace, most_moments);
    const auto epochs = epochs_of(result.scenario);
    const std::size_t row = shown_row(trace, moments);
    const std::int64_t at_s = trace.times_s()[row];
    const Epoch& epoch = epoch_at(epochs, at_s);
    const std::size_t index =
        static_cast<std::size_t>(std::find(moments.begin(), moments.end(), row) - moments.begin());
    const auto backup =
        static_cast<firmware::BackupReason>(trace.raw(row, trace.column("backup_reason")));
    const std::string backup_sentence =
        epoch.powered ? filled(sentence_template(backup, epoch.settings), outputs_at(trace, row))
                      : std::string();
    const Needle needle{gap_at(trace, row), epoch.settings[Setting::stop_difference] / 100.0,
                        epoch.settings[Setting::start_difference] / 100.0};
    return fmt::format(
        "<div class=\"reason\"><div class=\"dial\">{}<p class=\"dial-note\">collector minus store "
        "bottom; between the marks the pump keeps doing what it does</p></div><div "
        "class=\"words\"><p class=\"moment\"><time id=\"moment-time\">{}</time> <span "
        "id=\"moment-speed\"></span></p><p id=\"reason-line\" class=\"reason-line loc\" "
        "aria-live=\"polite\">{}</p><p id=\"backup-line\" class=\"backup-line loc\">{}</p></div>"
        "</div><p class=\"slider script-only\"><label for=\"moment\">Moment</label><input "
        "id=\"moment\" type=\"range\" min=\"0\" max=\"{}\" step=\"1\" value=\"{}\"></p>",
        needle_svg(needle), date_time_text(at_s), escaped(sentence_at(trace, row, epoch)),
        escaped(backup_sentence), moments.size() - 1, index);
}

std::string moments_json(const RunResult& result) {
    const traces::Table& trace = result.trace;
    const std::int64_t start_s = trace.start_s();
    const auto rows = moments_of(trace, most_moments);
    std::vector<std::int64_t> times;
    times.reserve(rows.size());
    for (const std::size_t row : rows) times.push_back(trace.times_s()[row] - start_s);
    std::string out =
        joined({"\"without_reading\":", json_text(without_reading), ",\"moments\":{"});
    append_list(out, "time", times);
    for (const char* name : columns) {
        const std::size_t column = trace.column(name);
        std::vector<std::string> values;
        values.reserve(rows.size());
        for (const std::size_t row : rows) {
            const std::int32_t raw = trace.raw(row, column);
            values.push_back(raw == traces::Table::no_value ? "null" : fmt::format("{}", raw));
        }
        out += ",";
        append_list(out, name, values);
    }
    out += "},\"epochs\":[";
    const auto epochs = epochs_of(result.scenario);
    for (std::size_t i = 0; i < epochs.size(); ++i) {
        out += joined({i == 0 ? "" : ",", epoch_json(epochs[i], start_s)});
    }
    return out + "]";
}

}  // namespace noonbench::harness
