// SPDX-License-Identifier: MIT
#include "signals.hpp"

#include "weather_now.hpp"

#include <fmt/format.h>

#include <limits>
#include <string>
#include <utility>

namespace noonbench::harness {
namespace {

using firmware::Sensor;
using firmware::Setting;
using plant::Edge;
using traces::Signal;
using traces::SignalKind;
using traces::Visibility;

constexpr auto logged = Visibility::customers_log;
constexpr auto on_site = Visibility::read_on_site;
constexpr auto bench_only = Visibility::bench_only;

using Read = double (*)(const Bench&, std::size_t);

constexpr double no_value = std::numeric_limits<double>::quiet_NaN();

/// A dark display shows nothing and reasons nothing.
double shown(const Bench& bench, double value) {
    return bench.controller_powered() ? value : no_value;
}

double reading_c(const Bench& bench, std::size_t sensor) {
    const firmware::Reading& r = bench.outputs().readings[sensor];
    if (r.status != firmware::SensorStatus::good) return no_value;
    return r.temperature.centicelsius / 100.0;
}

double now_of(const Bench& bench) {
    return static_cast<double>(bench.now());
}

double power_w(const Bench& bench, Edge edge) {
    return bench.plant().last.edges[static_cast<std::size_t>(edge)];
}

/// Builds the columns of one kind of visibility after the other.
class Columns {
  public:
    explicit Columns(std::vector<Column>& out) : out_(out) {}

    void seen_by(Visibility visible) { visible_ = visible; }
    void number(std::string name, std::string unit, int decimals, std::string meaning, Read read,
                std::size_t index = 0) {
        add({std::move(name),
             std::move(unit),
             SignalKind::number,
             {},
             visible_,
             decimals,
             std::move(meaning)},
            read, index);
    }
    void on_off(std::string name, std::string meaning, Read read, std::size_t index = 0) {
        add({std::move(name), "", SignalKind::on_off, {}, visible_, 0, std::move(meaning)}, read,
            index);
    }
    template <typename Reason>
    void choice(std::string name, std::size_t count, std::string meaning, Read read) {
        std::vector<std::string> words;
        for (std::size_t i = 0; i < count; ++i) words.emplace_back(name_of(static_cast<Reason>(i)));
        add({std::move(name), "", SignalKind::choice, std::move(words), visible_, 0,
             std::move(meaning)},
            read, 0);
    }

  private:
    void add(Signal signal, Read read, std::size_t index) {
        out_.push_back({std::move(signal), read, index});
    }
    std::vector<Column>& out_;
    Visibility visible_ = bench_only;
};

void add_readings(Columns& c, const firmware::Settings& settings) {
    const auto reading = [&](const char* name, const char* what, Sensor sensor) {
        c.number(name, "degC", 2, fmt::format("{} as the controller reads it", what), reading_c,
                 static_cast<std::size_t>(sensor));
    };
    reading("collector_reading_c", "collector", Sensor::collector);
    reading("store_bottom_reading_c", "store bottom", Sensor::store_bottom);
    reading("store_top_reading_c", "store top", Sensor::store_top);
    // the columns are those of the settings at the start, whatever a move changes later
    if (settings[Setting::second_collector_fitted] != 0) {
        reading("second_collector_reading_c", "second collector", Sensor::second_collector);
    }
    if (settings[Setting::station_return_fitted] != 0) {
        reading("station_return_reading_c", "cold pipe at the station", Sensor::station_return);
    }
}

void add_controller(Columns& c, const firmware::Settings& settings) {
    c.seen_by(logged);
    add_readings(c, settings);
    c.number("difference_k", "K", 2, "difference that decided the pump's reason",
             [](const Bench& b, std::size_t) {
                 return shown(b, b.outputs().difference.centikelvin / 100.0);
             });
    c.number("threshold_k", "K", 2, "what that difference was held against",
             [](const Bench& b, std::size_t) {
                 return shown(b, b.outputs().threshold.centikelvin / 100.0);
             });
    c.choice<firmware::PumpReason>("pump_reason", firmware::pump_reason_count,
                                   "why the pump is on or off", [](const Bench& b, std::size_t) {
                                       return shown(b,
                                                    static_cast<double>(b.outputs().pump_reason));
                                   });
    c.on_off("pump_relay", "the controller sends mains to the pump",
             [](const Bench& b, std::size_t) -> double { return b.outputs().pump_relay; });
    c.number("pump_speed_pct", "%", 0, "pump speed the controller asks for",
             [](const Bench& b, std::size_t) -> double { return b.outputs().drive_level_pct; });
    c.choice<firmware::BackupReason>(
        "backup_reason", firmware::backup_reason_count, "why the backup heat is on or off",
        [](const Bench& b, std::size_t) {
            return shown(b, static_cast<double>(b.outputs().backup_reason));
        });
    c.on_off("backup_relay", "the controller asks for backup heat",
             [](const Bench& b, std::size_t) -> double { return b.outputs().backup_relay; });
    c.number("heat_counter_kwh", "kWh", 3, "the controller's own heat counter",
             [](const Bench& b, std::size_t) { return shown(b, b.outputs().tally_wh / 1000.0); });
}

void add_site(Columns& c) {
    c.seen_by(on_site);
    c.number("station_hot_c", "degC", 2, "hot thermometer at the pump station",
             [](const Bench& b, std::size_t) { return plant::readings(b.plant()).station_hot_c; });
    c.number("station_cold_c", "degC", 2, "cold thermometer at the pump station",
             [](const Bench& b, std::size_t) { return plant::readings(b.plant()).station_cold_c; });
    c.number("flow_lpm", "l/min", 3, "flow through the loop (sight glass)",
             [](const Bench& b, std::size_t) { return b.plant().last.flow_m3_s * 60000.0; });
    c.number("gauge_bar", "bar", 2, "pressure at the station's gauge, above the atmosphere",
             [](const Bench& b, std::size_t) { return plant::gauge_pressure_pa(b.plant()) / 1e5; });
    c.on_off("pump_powered", "mains reaches the pump",
             [](const Bench& b, std::size_t) { return b.plant().last.pump.powered ? 1.0 : 0.0; });
    c.on_off("pump_turning", "the pump turns",
             [](const Bench& b, std::size_t) { return b.plant().last.pump.turning ? 1.0 : 0.0; });
    c.number("tap_c", "degC", 2, "water at the tap, after the mixing valve",
             [](const Bench& b, std::size_t) {
                 return b.plant().last.tap_flow_kg_s > 0.0 ? b.plant().last.delivered_c : no_value;
             });
    c.number("tap_flow_lpm", "l/min", 3, "flow at the tap",
             [](const Bench& b, std::size_t) { return b.plant().last.tap_flow_kg_s * 60.0; });
    c.number("air_c", "degC", 2, "outside air",
             [](const Bench& b, std::size_t) { return air_c(b.weather(), now_of(b)); });
}

void add_bodies(Columns& c, const plant::Parameters& plant) {
    c.seen_by(bench_only);
    c.number("top_bar", "bar", 2, "pressure at the collectors' top, above the atmosphere",
             [](const Bench& b, std::size_t) { return plant::top_pressure_pa(b.plant()) / 1e5; });
    for (std::size_t row = 0; row < plant.rows.size(); ++row) {
        c.number(
            fmt::format("sun_row_{}_w_m2", row + 1), "W/m2", 1,
            fmt::format("sun on the plane of row {}", row + 1),
            [](const Bench& b, std::size_t r) { return received_w_m2(b.weather(), now_of(b), r); },
            row);
        c.number(
            fmt::format("row_{}_outlet_c", row + 1), "degC", 2,
            fmt::format("fluid at the hot end of row {}", row + 1),
            [](const Bench& b, std::size_t r) { return plant::row_outlet_c(b.plant(), r); }, row);
        c.number(
            fmt::format("row_{}_hottest_c", row + 1), "degC", 2,
            fmt::format("hottest place of row {}", row + 1),
            [](const Bench& b, std::size_t r) { return plant::row_hottest_c(b.plant(), r); }, row);
    }
    for (std::size_t layer = 0; layer < static_cast<std::size_t>(plant.layers); ++layer) {
        c.number(
            fmt::format("store_layer_{:02}_c", layer + 1), "degC", 2,
            fmt::format("store layer {} counted from the bottom", layer + 1),
            [](const Bench& b, std::size_t l) { return plant::layer_c(b.plant(), l); }, layer);
    }
}

/// Only a solved loop has more than liquid in it.
void add_fluid(Columns& c) {
    c.seen_by(on_site);
    c.number("can_l", "l", 2, "fluid in the can under the relief valve since the start",
             [](const Bench& b, std::size_t) {
                 const plant::LoopFluidState fluid = plant::loop_fluid_state(b.plant());
                 return fluid.can_kg * 1e3 / fluid.fill_kg_m3;
             });
    c.number("tundish_l", "l", 2, "water from the store at its tundish since the start",
             [](const Bench& b, std::size_t) { return plant::tundish_l(b.plant()); });
    c.seen_by(bench_only);
    c.number("lost_fluid_l", "l", 2, "fluid lost by valve, leak, vent and burst since the start",
             [](const Bench& b, std::size_t) {
                 const plant::LoopFluidState fluid = plant::loop_fluid_state(b.plant());
                 return fluid.lost_kg * 1e3 / fluid.fill_kg_m3;
             });
    c.number("steam_l", "l", 2, "steam in the loop", [](const Bench& b, std::size_t) {
        return plant::loop_fluid_state(b.plant()).steam_m3 * 1e3;
    });
    c.number("gas_l", "l", 2, "air at the top, or a cavity", [](const Bench& b, std::size_t) {
        return plant::loop_fluid_state(b.plant()).gas_m3 * 1e3;
    });
    c.number("ice_share", "1", 3, "ice where there is most of it", [](const Bench& b, std::size_t) {
        return plant::loop_fluid_state(b.plant()).most_ice_share;
    });
}

void add_powers(Columns& c) {
    const auto power = [&](const char* name, const char* meaning, Edge edge) {
        c.number(
            name, "W", 1, meaning,
            [](const Bench& b, std::size_t e) { return power_w(b, static_cast<Edge>(e)); },
            static_cast<std::size_t>(edge));
    };
    power("absorbed_w", "sun taken up by the absorbers", Edge::absorbed);
    power("collector_loss_w", "heat lost by the collectors", Edge::collector_loss);
    power("pipe_loss_w", "heat lost by pipes and station", Edge::pipe_loss);
    power("to_store_w", "heat through the solar coil", Edge::coil);
    power("store_loss_w", "heat lost by the store", Edge::store_loss);
    power("backup_w", "backup heat into the store", Edge::backup);
    c.number("tapped_w", "W", 1, "heat drawn at the tap", [](const Bench& b, std::size_t) {
        return power_w(b, Edge::hot_out) - power_w(b, Edge::cold_in);
    });
    c.number("pump_w", "W", 1, "electric power of the pump",
             [](const Bench& b, std::size_t) { return b.plant().last.pump.power_w; });
}

}  // namespace

std::vector<Column> columns_of(const Scenario& scenario) {
    std::vector<Column> columns;
    Columns c(columns);
    add_controller(c, scenario.controller.settings);
    add_site(c);
    add_bodies(c, scenario.plant);
    if (scenario.plant.loop.hydraulics == plant::Hydraulics::solved) add_fluid(c);
    add_powers(c);
    return columns;
}

std::vector<Column> advice_columns() {
    std::vector<Column> columns;
    Columns c(columns);
    c.seen_by(logged);
    for (std::size_t i = 0; i < firmware::advice_count; ++i) {
        const auto kind = static_cast<firmware::AdviceKind>(i);
        c.on_off(
            fmt::format("advice_{}", name_of(kind)), text_of(kind),
            [](const Bench& b, std::size_t k) {
                return b.outputs().advice.has(static_cast<firmware::AdviceKind>(k)) ? 1.0 : 0.0;
            },
            i);
    }
    return columns;
}

std::vector<traces::Signal> signals_of(const std::vector<Column>& columns) {
    std::vector<traces::Signal> signals;
    signals.reserve(columns.size());
    for (const Column& column : columns) signals.push_back(column.signal);
    return signals;
}

}  // namespace noonbench::harness
