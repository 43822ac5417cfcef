// SPDX-License-Identifier: MIT
#include "tables.hpp"

#include "text.hpp"

#include "harness/bench/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace noonbench::harness {
namespace {

using firmware::Setting;
using traces::SignalKind;
using traces::Visibility;

constexpr auto logged = Visibility::customers_log;
constexpr auto on_site = Visibility::read_on_site;
constexpr auto bench_only = Visibility::bench_only;

std::string figure(const char* words, const std::string& value, Visibility visible) {
    return fmt::format("<tr><th scope=\"row\">{}</th><td class=\"loc\">{}</td><td>{}</td></tr>",
                       words, value, words_of(visible));
}

std::string celsius(double value) {
    return number_text(value, 1) + " °C";
}

/// Snake case as words: "store_layer_01_c" stays a name, "start_difference" becomes two words.
std::string spaced(std::string name) {
    std::replace(name.begin(), name.end(), '_', ' ');
    return name;
}

std::string printed(const traces::Table& trace, std::size_t column, std::int32_t raw) {
    const traces::Signal& signal = trace.signals()[column];
    if (raw == traces::Table::no_value) return "none";
    if (signal.kind == SignalKind::on_off) return raw != 0 ? "on" : "off";
    if (signal.kind == SignalKind::choice) {
        return spaced(signal.choices.at(static_cast<std::size_t>(raw)));
    }
    return number_text(static_cast<double>(raw) / std::pow(10.0, signal.decimals),
                       std::min(signal.decimals, 1));
}

std::string signal_row(const traces::Table& trace, std::size_t column) {
    const traces::Signal& signal = trace.signals()[column];
    std::int32_t least = traces::Table::no_value;
    std::int32_t most = traces::Table::no_value;
    for (std::size_t row = 0; row < trace.row_count(); ++row) {
        const std::int32_t raw = trace.raw(row, column);
        if (raw == traces::Table::no_value) continue;
        if (least == traces::Table::no_value || raw < least) least = raw;
        most = std::max(most, raw);
    }
    const bool ordered = signal.kind == SignalKind::number;
    const std::int32_t last =
        trace.row_count() == 0 ? traces::Table::no_value : trace.raw(trace.row_count() - 1, column);
    const std::string unit = signal.unit == "degC" ? "°C" : signal.unit;
    return fmt::format(
        "<tr class=\"loc\"><th scope=\"row\">{}</th><td><code>{}</code></td><td>{}"
        "</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr>",
        escaped(signal.meaning), escaped(signal.name), escaped(unit),
        ordered ? printed(trace, column, least) : "", ordered ? printed(trace, column, most) : "",
        printed(trace, column, last), words_of(signal.visible));
}

struct SettingLine {
    std::string name;
    std::string value;
    std::string delivered;
    std::string meaning;
    bool changed = false;
};

SettingLine setting_line(const firmware::Settings& settings, std::size_t index) {
    const auto& info = firmware::setting_table().at(index);
    const auto setting = static_cast<Setting>(index);
    const std::int16_t value = settings[setting];
    return {spaced(info.name), setting_text(setting, value), setting_text(setting, info.initial),
            info.meaning, value != info.initial};
}

std::string setting_rows(const firmware::Settings& settings, bool changed_only) {
    std::string out;
    for (std::size_t i = 0; i < firmware::setting_count; ++i) {
        const SettingLine line = setting_line(settings, i);
        if (changed_only && !line.changed) continue;
        out += fmt::format(
            "<tr class=\"loc{}\"><th scope=\"row\">{}{}</th><td>{}</td><td>{}</td>"
            "<td>{}</td></tr>",
            line.changed ? " changed" : "",
            line.changed ? "<span class=\"mark-changed\">changed</span> " : "", escaped(line.name),
            escaped(line.value), escaped(line.delivered), escaped(line.meaning));
    }
    return out;
}

std::string settings_table(const std::string& caption, const std::string& rows) {
    return "<table><caption>" + caption +
           "</caption><thead><tr><th scope=\"col\">setting</th><th scope=\"col\">value</th><th "
           "scope=\"col\">as delivered</th><th scope=\"col\">meaning</th></tr></thead><tbody>" +
           rows + "</tbody></table>";
}

}  // namespace

const char* words_of(Visibility visible) {
    switch (visible) {
        case Visibility::customers_log:
            return "customer's log";
        case Visibility::read_on_site:
            return "read on site";
        case Visibility::bench_only:
            break;
    }
    return "bench only";
}

namespace {

/// Only what happened: a calm loop needs no row.
std::string fluid_figures(const RunResult& result) {
    const FluidCourse& fluid = result.fluid;
    std::string out;
    if (fluid.steam_h > 0.0) {
        out += figure(
            "steam in the collectors, and for how long",
            number_text(fluid.most_steam_l, 1) + " l, " + number_text(fluid.steam_h, 1) + " h",
            bench_only);
    }
    if (fluid.most_gas_l > 0.0) {
        out += figure("air or empty room at the top", number_text(fluid.most_gas_l, 1) + " l",
                      bench_only);
    }
    if (fluid.most_ice_share > 0.0) {
        out +=
            figure(fluid.burst ? "ice, and the absorber split" : "ice where there was most of it",
                   number_text(fluid.most_ice_share * 100.0, 0) + " %", bench_only);
    }
    if (fluid.lost_l > 0.0) {
        out += figure("fluid lost, of it in the can",
                      number_text(fluid.lost_l, 2) + " l, " + number_text(fluid.can_l, 2) + " l",
                      on_site);
    }
    if (fluid.tundish_l > 0.0) {
        out += figure("water from the store at the tundish", number_text(fluid.tundish_l, 1) + " l",
                      on_site);
    }
    return out;
}

}  // namespace

std::string figures_table(const RunResult& result) {
    const Sums& t = result.total;
    std::string out =
        "<table class=\"figures\"><caption>The run in figures</caption><thead><tr><th "
        "scope=\"col\">what</th><th scope=\"col\">figure</th><th scope=\"col\">who can see it</th>"
        "</tr></thead><tbody>";
    out += figure("sun on each square metre", kwh_text(t.sun_kwh_m2), bench_only);
    out += figure("heat into the store from the sun", kwh_text(t.to_store_kwh), bench_only);
    out +=
        figure("the controller's own heat counter (estimated)", kwh_text(result.tally_kwh), logged);
    out += figure("backup heat", kwh_text(t.backup_kwh), bench_only);
    out += figure("hot water at the taps, over cold", kwh_text(t.tapped_kwh), bench_only);
    out += figure("asked for but not warm enough", kwh_text(t.missing_kwh), bench_only);
    out += figure("water at the taps", number_text(t.tapped_l, 0) + " l", bench_only);
    out += figure("of it cooler than wanted", number_text(t.cool_l, 0) + " l", bench_only);
    out += figure("hottest water at a tap", t.tapped_l > 0.0 ? celsius(t.tap_hottest_c) : "none",
                  on_site);
    out += figure("pump switched on", number_text(t.pump_run_h, 2) + " h", logged);
    out += figure("pump starts", fmt::format("{}", t.pump_starts), logged);
    out += figure("pump electricity", kwh_text(t.pump_electricity_kwh), bench_only);
    out += figure("backup on", number_text(t.backup_run_h, 2) + " h", on_site);
    out += figure("hottest place of the collector", celsius(t.collector_highest_c), bench_only);
    out += figure("collector above 120 °C", number_text(t.stagnation_h, 2) + " h", bench_only);
    out += figure("store bottom, coldest and warmest",
                  celsius(t.store_bottom_lowest_c) + " to " + celsius(t.store_bottom_highest_c),
                  bench_only);
    out +=
        figure("store top, coldest and warmest",
               celsius(t.store_top_lowest_c) + " to " + celsius(t.store_top_highest_c), bench_only);
    out += figure(
        "pressure at the gauge, least and greatest",
        number_text(t.gauge_least_bar, 2) + " to " + number_text(t.gauge_highest_bar, 2) + " bar",
        on_site);
    out += figure("boiling point at the collector's top, at the start",
                  celsius(result.boiling_point_c), bench_only);
    out += fluid_figures(result);
    return out + "</tbody></table>";
}

std::string signals_table(const RunResult& result) {
    std::string out =
        "<table><caption>Every column of trace.csv</caption><thead><tr><th scope=\"col\">what</th>"
        "<th scope=\"col\">column</th><th scope=\"col\">unit</th><th scope=\"col\">lowest</th><th "
        "scope=\"col\">highest</th><th scope=\"col\">at the end</th><th scope=\"col\">who can see "
        "it</th></tr></thead><tbody>";
    for (std::size_t i = 0; i < result.trace.column_count(); ++i) {
        out += signal_row(result.trace, i);
    }
    return out + "</tbody></table>";
}

std::string settings_tables(const RunResult& result) {
    const firmware::Settings& settings = result.scenario.controller.settings;
    const std::string changed = setting_rows(settings, true);
    std::string out;
    if (changed.empty()) {
        out += "<p>Every setting is as delivered.</p>";
    } else {
        out += settings_table("Changed from what is delivered", changed);
    }
    const auto moved = std::any_of(
        result.scenario.moves.begin(), result.scenario.moves.end(), [](const Move& move) {
            // without a name it is a sealed fault's, which only the reasons tell
            return std::holds_alternative<SettingMove>(move.what) && !move.name.empty();
        });
    if (moved) out += "<p>Settings were changed during the run as well; see events.csv.</p>";
    return out + "<details><summary>All settings at the start, with their meaning</summary>" +
           settings_table("All settings", setting_rows(settings, false)) + "</details>";
}

std::string settings_on_paper(const RunResult& result) {
    std::string out = "<p class=\"loc\">";
    for (std::size_t i = 0; i < firmware::setting_count; ++i) {
        const SettingLine line = setting_line(result.scenario.controller.settings, i);
        out += fmt::format("<span>{} <b>{}</b>{}</span>", escaped(line.name), escaped(line.value),
                           line.changed ? " (changed)" : "");
        out += i + 1 < firmware::setting_count ? "; " : ".";
    }
    return out + "</p>";
}

}  // namespace noonbench::harness
