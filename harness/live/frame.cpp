// SPDX-License-Identifier: MIT
#include "frame.hpp"

#include "text.hpp"

#include "firmware-model/reason.hpp"

#include "harness/bench/words.hpp"
#include "harness/scenario/setting_text.hpp"
#include "harness/scenario/wire_names.hpp"

#include <fmt/format.h>

#include <iterator>
#include <limits>
#include <string_view>
#include <utility>

namespace noonbench::harness {
namespace {

constexpr double no_value = std::numeric_limits<double>::quiet_NaN();

template <class Reason>
void append_reason(std::string& out, Reason reason, const SeenTick& seen) {
    if (!seen.powered) {
        out += R"({"reason":"no_mains","words":"no mains","sentence":)";
        append_quoted(out, "No mains: the controller is dark, nothing is driven.");
    } else {
        out += R"({"reason":)";
        append_quoted(out, firmware::name_of(reason));
        out += R"(,"words":)";
        append_quoted(out, short_words(reason));
        out += R"(,"sentence":)";
        append_quoted(out, filled(sentence_template(reason, seen.settings), seen.outputs));
    }
    out += '}';
}

double shown_c(const SeenTick& seen, const firmware::Reading& reading) {
    if (!seen.powered || reading.status != firmware::SensorStatus::good) return no_value;
    return reading.temperature.centicelsius / 100.0;
}

double reading_c(const SeenTick& seen, firmware::Sensor sensor) {
    return shown_c(seen, seen.outputs.readings[static_cast<std::size_t>(sensor)]);
}

void append_needle(std::string& out, const SeenTick& seen) {
    const auto kelvin = [&](firmware::Setting setting) { return seen.settings[setting] / 100.0; };
    out += R"({"gap_k":)";
    append_number(out,
                  shown_c(seen, deciding_collector(seen.outputs)) -
                      reading_c(seen, firmware::Sensor::store_bottom),
                  2);
    out += R"(,"start_k":)";
    append_number(out, kelvin(firmware::Setting::start_difference), 2);
    out += R"(,"stop_k":)";
    append_number(out, kelvin(firmware::Setting::stop_difference), 2);
    out += '}';
}

void append_advice(std::string& out, const SeenTick& seen) {
    out += '[';
    for (std::size_t i = 0; i < firmware::advice_count; ++i) {
        const auto kind = static_cast<firmware::AdviceKind>(i);
        if (!seen.powered || !seen.outputs.advice.has(kind)) continue;
        if (out.back() != '[') out += ',';
        append_quoted(out, firmware::text_of(kind));
    }
    out += ']';
}

/// Settings that differ from when the run began.
void append_settings(std::string& out, const LiveBench& bench) {
    const firmware::Settings& before = bench.scenario().controller.settings;
    out += '{';
    std::size_t index = 0;
    for (const firmware::SettingInfo& info : firmware::setting_table()) {
        const auto setting = static_cast<firmware::Setting>(index++);
        const std::int16_t value = bench.seen().settings[setting];
        if (value == before[setting]) continue;
        if (out.back() != '{') out += ',';
        append_quoted(out, info.name);
        out += ':';
        append_quoted(out, written_setting(info, value));
    }
    out += '}';
}

/// Of a sealed run only the hands outside the system: any other lever could be what is wrong.
void append_levers(std::string& out, const LiveBench& bench) {
    const plant::Levers& levers = bench.bench().plant().levers;
    const bool is_sealed = bench.scenario().record.sealed;
    out += '{';
    for (const plant::LeverInfo& lever : plant::lever_table) {
        if (levers.*lever.value == lever.healthy) continue;
        const std::string_view lever_name = lever.name;
        if (is_sealed && lever_name != "passing_cloud" && lever_name != "open_tap") continue;
        if (out.back() != '{') out += ',';
        append_quoted(out, lever.name);
        out += ':';
        append_number(out, levers.*lever.value, 4);
    }
    out += '}';
}

void append_hands(std::string& out, const SeenTick& seen) {
    const auto word = [](firmware::HandRequest hand) {
        return hand == firmware::HandRequest::on    ? "on"
               : hand == firmware::HandRequest::off ? "off"
                                                    : "automatic";
    };
    fmt::format_to(std::back_inserter(out), R"({{"pump":"{}","backup":"{}"}})", word(seen.hands[0]),
                   word(seen.hands[1]));
}

void append_event(std::string& out, const traces::Event& event, CivilSeconds start_s) {
    fmt::format_to(std::back_inserter(out), R"({{"at_s":{})", event.at_s - start_s);
    const std::pair<std::string_view, const std::string&> parts[] = {{"what", event.what},
                                                                     {"name", event.name},
                                                                     {"from", event.from},
                                                                     {"to", event.to},
                                                                     {"because", event.because}};
    for (const auto& [key, value] : parts) {
        fmt::format_to(std::back_inserter(out), R"(,"{}":)", key);
        append_quoted(out, value);
    }
    out += '}';
}

/// Ohms as the divider's counts tell them: R = R_ref counts / (full - counts).
double socket_ohm(std::uint16_t counts) {
    constexpr double full = firmware::full_scale_counts;
    return firmware::reference_resistor_milliohm / 1e3 * counts / (full - counts);
}

void append_terminals(std::string& out, const SeenTick& seen) {
    out += R"({"sensors":[)";
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) {
        if (s > 0) out += ',';
        const std::uint16_t counts = seen.counts[s];
        const bool open = counts >= firmware::open_from_counts;
        out += R"({"name":)";
        append_quoted(out, sensor_names[s]);
        out += R"(,"ohm":)";
        append_number(out, open ? no_value : socket_ohm(counts), 1);
        fmt::format_to(std::back_inserter(out), R"(,"counts":{},"reading_c":)", counts);
        append_number(out, reading_c(seen, static_cast<firmware::Sensor>(s)), 2);
        out += '}';
    }
    fmt::format_to(
        std::back_inserter(out), R"(],"pump_relay":{},"backup_relay":{},"speed_signal_pct":{}}})",
        seen.outputs.pump_relay, seen.outputs.backup_relay, seen.outputs.speed_signal_pct);
}

}  // namespace

void FrameRows::take(const SeenTick& tick, std::size_t most_rows) {
    events_.insert(events_.end(), tick.events.begin(), tick.events.end());
    if (taken_++ % every_ != 0) return;
    rows_.push_back(tick);
    if (rows_.size() <= most_rows) return;
    std::size_t kept = 0;
    for (std::size_t i = 0; i < rows_.size(); i += 2, ++kept) {
        if (kept != i) rows_[kept] = std::move(rows_[i]);
    }
    rows_.resize(kept);
    every_ *= 2;
}

void FrameRows::clear() {
    rows_.clear();
    events_.clear();
    every_ = 1;
    taken_ = 0;
}

void FrameRows::forget_after(CivilSeconds at_s) {
    std::erase_if(rows_, [&](const SeenTick& row) { return row.at_s > at_s; });
    std::erase_if(events_, [&](const traces::Event& event) { return event.at_s > at_s; });
}

void FrameRows::keep_newest_events(std::size_t most) {
    if (events_.size() <= most) return;
    events_.erase(events_.begin(), events_.end() - static_cast<std::ptrdiff_t>(most));
}

void append_row(std::string& out, const LiveBench& bench, const SeenTick& tick) {
    fmt::format_to(std::back_inserter(out), "[{}", tick.at_s - bench.scenario().start_s);
    for (std::size_t i = 0; i < tick.values.size(); ++i) {
        out += ',';
        append_number(out, static_cast<double>(tick.values[i]), bench.columns()[i].signal.decimals);
    }
    out += ']';
}

void append_bench(std::string& out, const LiveBench& bench, const FrameRows& since,
                  bool with_terminals, bool whole) {
    const SeenTick& seen = bench.seen();
    out += R"({"now":[)";
    for (std::size_t i = 0; i < seen.values.size(); ++i) {
        if (i > 0) out += ',';
        append_number(out, static_cast<double>(seen.values[i]), bench.columns()[i].signal.decimals);
    }
    out += R"(],"rows":[)";
    for (const SeenTick& row : since.rows()) {
        if (&row != &since.rows().front()) out += ',';
        append_row(out, bench, row);
    }
    out += whole ? R"(],"events_from":0,"events":[)" : R"(],"events":[)";
    for (const traces::Event& event : since.events()) {
        if (&event != &since.events().front()) out += ',';
        append_event(out, event, bench.scenario().start_s);
    }
    out += R"(],"pump":)";
    append_reason(out, seen.outputs.pump_reason, seen);
    out += R"(,"backup":)";
    append_reason(out, seen.outputs.backup_reason, seen);
    out += R"(,"needle":)";
    append_needle(out, seen);
    out += R"(,"advice":)";
    append_advice(out, seen);
    out += R"(,"hands":)";
    append_hands(out, seen);
    out += R"(,"settings":)";
    append_settings(out, bench);
    out += R"(,"levers":)";
    append_levers(out, bench);
    if (with_terminals) {
        out += R"(,"terminals":)";
        append_terminals(out, seen);
    }
    out += '}';
}

}  // namespace noonbench::harness
