// SPDX-License-Identifier: MIT
#include "opened.hpp"

#include "plant/si.hpp"
#include "plant/sun.hpp"

#include "harness/bench/clock.hpp"
#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/setting_text.hpp"
#include "harness/scenario/wire_names.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <string_view>
#include <utility>

namespace noonbench::harness {
namespace {

namespace json = boost::json;

json::string text(std::string_view words) {
    return json::string(words);
}

double degrees(double rad) {
    return rad * 180.0 / std::numbers::pi;
}

json::array words_of(std::span<const std::string_view> words) {
    json::array list;
    for (const std::string_view word : words) list.emplace_back(text(word));
    return list;
}

json::array signals_json(const std::vector<Column>& columns) {
    constexpr std::array<std::string_view, 3> kinds{"number", "on_off", "choice"};
    constexpr std::array<std::string_view, 3> seen_by{"customers_log", "read_on_site",
                                                      "bench_only"};
    json::array list;
    for (const Column& column : columns) {
        const traces::Signal& s = column.signal;
        json::array words;
        for (const std::string& word : s.choices) words.emplace_back(word);
        list.emplace_back(
            json::object{{"name", s.name},
                         {"unit", s.unit},
                         {"meaning", s.meaning},
                         {"decimals", s.decimals},
                         {"kind", text(kinds[static_cast<std::size_t>(s.kind)])},
                         {"words", words},
                         {"seen_by", text(seen_by[static_cast<std::size_t>(s.visible)])}});
    }
    return list;
}

/// How a page lets a setting be typed in: a number between bounds, one of some words, or the text
/// that a scenario would hold.
json::object setting_json(const firmware::SettingInfo& info, std::int16_t value) {
    json::object one{{"name", info.name},
                     {"meaning", info.meaning},
                     {"ground", info.ground},
                     {"value", written_setting(info, value)},
                     {"allowed", allowed_text(info)}};
    const SettingScale scale = scale_of(info.unit);
    const std::vector<std::string_view> choices = choices_of(info);
    if (scale.unit != nullptr) {
        const auto number = [&](std::int16_t stored) {
            return static_cast<double>(stored) / scale.per_unit;
        };
        one["kind"] = "number";
        one["unit"] = scale.unit;
        one["number"] = number(value);
        one["least"] = number(info.least);
        one["most"] = number(info.most);
        one["step"] = number(info.step);
    } else if (!choices.empty()) {
        one["kind"] = "choice";
        one["words"] = words_of(choices);
    } else {
        one["kind"] = "text";
    }
    return one;
}

json::array settings_json(const firmware::Settings& settings) {
    json::array list;
    std::size_t index = 0;
    for (const firmware::SettingInfo& info : firmware::setting_table()) {
        list.emplace_back(setting_json(info, settings[static_cast<firmware::Setting>(index++)]));
    }
    return list;
}

json::array levers_json() {
    json::array list;
    for (const plant::LeverInfo& lever : plant::lever_table) {
        list.emplace_back(json::object{{"name", text(lever.name)},
                                       {"unit", text(lever.unit)},
                                       {"least", lever.least},
                                       {"most", lever.most},
                                       {"healthy", lever.healthy},
                                       {"meaning", text(lever.meaning)}});
    }
    return list;
}

/// A field of a wire as the run begins, in a scenario's words.
std::string written_field(const SensorWire& wire, WireField field) {
    const WireFieldInfo& info = wire_fields()[static_cast<std::size_t>(field)];
    const auto word = [&](auto value) {
        return std::string(info.words[static_cast<std::size_t>(value)]);
    };
    const auto quantity = [&](double value) { return quantity_text(value, info.range.unit); };
    switch (field) {
        case WireField::state:
            return word(wire.state);
        case WireField::type:
            return word(wire.type);
        case WireField::offset:
            return quantity(wire.offset_k);
        case WireField::lead_resistance:
            return quantity(wire.lead_resistance_ohm);
        case WireField::leakage:
            return quantity(wire.leakage_ohm);
        case WireField::noise:
            return quantity(wire.noise_k);
        case WireField::plugged_into:
            break;
    }
    return word(wire.plugged_into);
}

json::array wires_json(const Wiring& wiring) {
    json::array list;
    for (std::size_t s = 0; s < sensor_names.size(); ++s) {
        for (std::size_t f = 0; f < wire_fields().size(); ++f) {
            const WireFieldInfo& field = wire_fields()[f];
            list.emplace_back(json::object{
                {"name", std::string(sensor_names[s]) + "." + std::string(field.name)},
                {"meaning", text(field.meaning)},
                {"words", words_of(field.words)},
                {"unit", text(field.range.unit)},
                {"value", written_field(wiring.sensors[s], static_cast<WireField>(f))}});
        }
    }
    const std::array<std::pair<std::string_view, bool>, 4> others{
        {{"mains_power", true},
         {"speed_wire", wiring.speed_wire_connected},
         {"pulse_meter", wiring.pulse_meter.fitted},
         {"pump_bridge", wiring.pump_bridged}}};
    for (const auto& [wire, connected] : others) {
        list.emplace_back(json::object{{"name", text(wire)},
                                       {"meaning", ""},
                                       {"words", json::array{"yes", "no"}},
                                       {"unit", ""},
                                       {"value", connected ? "yes" : "no"}});
    }
    return list;
}

json::object house_json(const plant::Parameters& p) {
    constexpr std::array<std::string_view, 3> backups{"none", "boiler", "immersion"};
    json::array rows;
    for (const plant::Row& row : p.rows) {
        rows.emplace_back(
            json::object{{"azimuth_deg", degrees(row.azimuth_rad)},
                         {"slope_deg", degrees(row.slope_rad)},
                         {"collectors", row.collectors_in_series},
                         {"area_m2", row.collector.area_m2 * row.collectors_in_series}});
    }
    const auto bore_mm = [](const plant::PipeRun& run) {
        return 1e3 * (run.outer_diameter_m - 2.0 * run.wall_m);
    };
    return {{"rows", rows},
            {"layers", p.layers},
            {"store_l", 1e3 * p.store.volume_m3},
            {"coil", json::array{p.store.solar_coil.from_height, p.store.solar_coil.to_height}},
            {"backup", json::array{p.backup.from_height, p.backup.to_height}},
            {"backup_kind", text(backups[static_cast<std::size_t>(p.backup.kind)])},
            {"bottom_sensor", p.store.bottom_sensor_height},
            {"top_sensor", p.store.top_sensor_height},
            {"hot_pipe_m", p.loop.hot_pipe.length_m},
            {"cold_pipe_m", p.loop.cold_pipe.length_m},
            {"bore_mm", bore_mm(p.loop.hot_pipe)},
            {"relief_valve_bar", p.loop.relief_valve_pa / 1e5},
            {"full_flow_lpm", p.loop.pump.full_flow_m3_s * 60000.0},
            {"latitude_deg", degrees(p.site.latitude_rad)},
            {"longitude_deg", degrees(p.site.longitude_rad)}};
}

}  // namespace

json::object opened_message(const LiveBench& bench, const std::string& path) {
    const Scenario& s = bench.scenario();
    return {{"is", "opened"},
            {"path", path},
            {"title", s.title},
            {"about", s.about},
            {"start", date_time_text(s.start_s)},
            {"length_s", s.length_s},
            {"signals", signals_json(bench.columns())},
            {"settings", settings_json(s.controller.settings)},
            {"levers", levers_json()},
            {"wires", wires_json(s.record.sealed ? default_wiring() : s.wiring)},
            {"house", house_json(s.plant)}};
}

json::object sun_message(const LiveBench& bench, CivilSeconds midnight) {
    constexpr std::int64_t every_s = 600;
    json::array path;
    for (std::int64_t second = 0; second < plant::seconds_a_day; second += every_s) {
        const plant::SunPosition sun = plant::sun_position(bench.scenario().plant.site,
                                                           static_cast<double>(midnight + second));
        if (sun.apparent_elevation_rad <= 0.0) continue;
        const auto tenths = [](double rad) { return std::round(degrees(rad) * 10.0) / 10.0; };
        path.emplace_back(
            json::array{second, tenths(sun.apparent_elevation_rad), tenths(sun.azimuth_rad)});
    }
    return {{"is", "sun"},
            {"day", (midnight - day_start(bench.scenario().start_s)) / plant::seconds_a_day},
            {"path", path}};
}

}  // namespace noonbench::harness
