// SPDX-License-Identifier: MIT
#include "signals.hpp"

#include "weather_now.hpp"

#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <string>

namespace noonbench::harness {
namespace {

using firmware::Sensor;
using firmware::Setting;
using traces::Signal;
using traces::SignalKind;
using traces::Visibility;

constexpr auto logged = Visibility::customers_log;
constexpr auto on_site = Visibility::read_on_site;
constexpr auto bench_only = Visibility::bench_only;

Signal number(std::string name, std::string unit, Visibility visible, int decimals,
              std::string meaning) {
    return {std::move(name), std::move(unit), SignalKind::number, {},
            visible,         decimals,        std::move(meaning)};
}

Signal on_off(std::string name, Visibility visible, std::string meaning) {
    return {std::move(name), "", SignalKind::on_off, {}, visible, 0, std::move(meaning)};
}

template <typename Reason>
Signal choice(std::string name, std::size_t count, Visibility visible, std::string meaning) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < count; ++i) words.emplace_back(name_of(static_cast<Reason>(i)));
    return {std::move(name), "", SignalKind::choice, std::move(words),
            visible,         0,  std::move(meaning)};
}

void add_controller(std::vector<Signal>& s, const firmware::Settings& settings) {
    s.push_back(
        number("collector_reading_c", "degC", logged, 2, "collector as the controller reads it"));
    s.push_back(number("store_bottom_reading_c", "degC", logged, 2,
                       "store bottom as the controller reads it"));
    s.push_back(
        number("store_top_reading_c", "degC", logged, 2, "store top as the controller reads it"));
    if (settings[Setting::second_collector_fitted] != 0) {
        s.push_back(number("second_collector_reading_c", "degC", logged, 2,
                           "second collector as the controller reads it"));
    }
    if (settings[Setting::station_return_fitted] != 0) {
        s.push_back(number("station_return_reading_c", "degC", logged, 2,
                           "cold pipe at the station as the controller reads it"));
    }
    s.push_back(
        number("difference_k", "K", logged, 2, "difference that decided the pump's reason"));
    s.push_back(number("threshold_k", "K", logged, 2, "what that difference was held against"));
    s.push_back(choice<firmware::PumpReason>("pump_reason", firmware::pump_reason_count, logged,
                                             "why the pump is on or off"));
    s.push_back(on_off("pump_relay", logged, "the controller sends mains to the pump"));
    s.push_back(number("pump_speed_pct", "%", logged, 0, "pump speed the controller asks for"));
    s.push_back(choice<firmware::BackupReason>("backup_reason", firmware::backup_reason_count,
                                               logged, "why the backup heat is on or off"));
    s.push_back(on_off("backup_relay", logged, "the controller asks for backup heat"));
    s.push_back(number("heat_counter_kwh", "kWh", logged, 3, "the controller's own heat counter"));
}

void add_site(std::vector<Signal>& s) {
    s.push_back(number("station_hot_c", "degC", on_site, 2, "hot thermometer at the pump station"));
    s.push_back(
        number("station_cold_c", "degC", on_site, 2, "cold thermometer at the pump station"));
    s.push_back(number("flow_lpm", "l/min", on_site, 3, "flow through the loop (sight glass)"));
    s.push_back(on_off("pump_powered", on_site, "mains reaches the pump"));
    s.push_back(on_off("pump_turning", on_site, "the pump turns"));
    s.push_back(number("tap_c", "degC", on_site, 2, "water at the tap, after the mixing valve"));
    s.push_back(number("tap_flow_lpm", "l/min", on_site, 3, "flow at the tap"));
    s.push_back(number("air_c", "degC", on_site, 2, "outside air"));
}

void add_bench(std::vector<Signal>& s, const plant::Parameters& plant) {
    for (std::size_t row = 1; row <= plant.rows.size(); ++row) {
        s.push_back(number(fmt::format("sun_row_{}_w_m2", row), "W/m2", bench_only, 1,
                           fmt::format("sun on the plane of row {}", row)));
        s.push_back(number(fmt::format("row_{}_outlet_c", row), "degC", bench_only, 2,
                           fmt::format("fluid at the hot end of row {}", row)));
        s.push_back(number(fmt::format("row_{}_hottest_c", row), "degC", bench_only, 2,
                           fmt::format("hottest place of row {}", row)));
    }
    for (int layer = 1; layer <= plant.layers; ++layer) {
        s.push_back(number(fmt::format("store_layer_{:02}_c", layer), "degC", bench_only, 2,
                           fmt::format("store layer {} counted from the bottom", layer)));
    }
    s.push_back(number("absorbed_w", "W", bench_only, 1, "sun taken up by the absorbers"));
    s.push_back(number("collector_loss_w", "W", bench_only, 1, "heat lost by the collectors"));
    s.push_back(number("pipe_loss_w", "W", bench_only, 1, "heat lost by pipes and station"));
    s.push_back(number("to_store_w", "W", bench_only, 1, "heat through the solar coil"));
    s.push_back(number("store_loss_w", "W", bench_only, 1, "heat lost by the store"));
    s.push_back(number("backup_w", "W", bench_only, 1, "backup heat into the store"));
    s.push_back(number("tapped_w", "W", bench_only, 1, "heat drawn at the tap"));
    s.push_back(number("pump_w", "W", bench_only, 1, "electric power of the pump"));
}

double reading_c(const firmware::Outputs& out, Sensor sensor) {
    const firmware::Reading& r = out.readings[static_cast<std::size_t>(sensor)];
    if (r.status != firmware::SensorStatus::good) return std::numeric_limits<double>::quiet_NaN();
    return r.temperature.centicelsius / 100.0;
}

void fill_controller(const Bench& bench, std::vector<double>& row) {
    const firmware::Outputs& out = bench.outputs();
    row.push_back(reading_c(out, Sensor::collector));
    row.push_back(reading_c(out, Sensor::store_bottom));
    row.push_back(reading_c(out, Sensor::store_top));
    // the columns are those of the settings at the start, whatever a move has changed since
    const firmware::Settings& at_start = bench.scenario().controller.settings;
    if (at_start[Setting::second_collector_fitted] != 0) {
        row.push_back(reading_c(out, Sensor::second_collector));
    }
    if (at_start[Setting::station_return_fitted] != 0) {
        row.push_back(reading_c(out, Sensor::station_return));
    }
    const auto shown = [&](double value) {  // a dark display shows nothing and reasons nothing
        return bench.controller_powered() ? value : std::numeric_limits<double>::quiet_NaN();
    };
    row.push_back(shown(out.difference.centikelvin / 100.0));
    row.push_back(shown(out.threshold.centikelvin / 100.0));
    row.push_back(shown(static_cast<double>(out.pump_reason)));
    row.push_back(out.pump_relay);
    row.push_back(out.drive_level_pct);
    row.push_back(shown(static_cast<double>(out.backup_reason)));
    row.push_back(out.backup_relay);
    row.push_back(shown(out.tally_wh / 1000.0));
}

}  // namespace

std::vector<Signal> signals_of(const Scenario& scenario) {
    std::vector<Signal> signals;
    add_controller(signals, scenario.controller.settings);
    add_site(signals);
    add_bench(signals, scenario.plant);
    return signals;
}

void fill_row(const Bench& bench, std::vector<double>& row) {
    const plant::View v = plant::view(bench.plant());
    const WeatherNow sky = weather_at(bench.weather(), static_cast<double>(bench.now()));
    row.clear();
    fill_controller(bench, row);
    row.push_back(v.sensors.station_hot_c);
    row.push_back(v.sensors.station_cold_c);
    row.push_back(v.flow_m3_s * 60000.0);
    row.push_back(v.pump_powered ? 1.0 : 0.0);
    row.push_back(v.pump_turning ? 1.0 : 0.0);
    row.push_back(bench.tap_flow_kg_s() > 0.0 ? v.delivered_c
                                              : std::numeric_limits<double>::quiet_NaN());
    row.push_back(bench.tap_flow_kg_s() * 60.0);
    row.push_back(sky.air_c);
    for (std::size_t r = 0; r < static_cast<std::size_t>(v.rows); ++r) {
        row.push_back(sky.received_w_m2[r]);
        row.push_back(v.row_outlet_c[r]);
        row.push_back(v.row_hottest_c[r]);
    }
    for (std::size_t i = 0; i < static_cast<std::size_t>(v.layers); ++i)
        row.push_back(v.layer_c[i]);
    row.insert(row.end(), {v.absorbed_w, v.collector_loss_w, v.pipe_loss_w, v.coil_w,
                           v.store_loss_w, v.backup_w, v.tapped_w, v.pump_power_w});
}

}  // namespace noonbench::harness
