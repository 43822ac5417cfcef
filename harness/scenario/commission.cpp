// SPDX-License-Identifier: MIT
#include "commission.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace noonbench::harness {

namespace {

using firmware::Sensor;
using firmware::Setting;

bool is_fitted(const Scenario& scenario, Sensor sensor) {
    const SensorWire& wire = scenario.wiring.sensors[static_cast<std::size_t>(sensor)];
    return wire.type != SensorType::not_fitted;
}

/// The nearest value that could be typed in.
std::int16_t typed(const firmware::SettingInfo& info, double stored) {
    const double step = std::max<double>(info.step, 1.0);
    const double on_step = info.least + std::round((stored - info.least) / step) * step;
    return static_cast<std::int16_t>(std::clamp<double>(on_step, info.least, info.most));
}

}  // namespace

void commission(Scenario& scenario, const Given& given) {
    const plant::Loop& loop = scenario.plant.loop;
    constexpr double on_off = 0;  // the first word of pump_drive
    const double as_delivered = firmware::default_settings()[Setting::pump_drive];
    const std::pair<Setting, double> on_site[] = {
        {Setting::typed_in_flow, loop.pump.full_flow_m3_s * 60000.0 * 100.0},
        // By volume; within 0.4 of a per cent of the share by mass (ASHRAE Fundamentals: 40 % by
        // mass is 39.6 % by volume), and the refractometer shows no more.
        {Setting::glycol_share, loop.glycol_mass_share * 100.0},
        {Setting::site_pressure, loop.gauge_pressure_pa / 1e5 * 100.0},
        {Setting::collector_height, loop.height_m * 10.0},
        {Setting::pulses_per_litre, scenario.wiring.pulse_meter.pulses_per_litre},
        {Setting::second_collector_fitted, is_fitted(scenario, Sensor::second_collector) ? 1 : 0},
        {Setting::station_return_fitted, is_fitted(scenario, Sensor::station_return) ? 1 : 0},
        {Setting::speed_signal, loop.pump.more_is_slower ? 1 : 0},
        {Setting::pump_drive, loop.pump.takes_speed_signal ? as_delivered : on_off},
    };
    for (const auto& [setting, stored] : on_site) {
        const firmware::SettingInfo& info =
            firmware::setting_table()[static_cast<std::size_t>(setting)];
        if (given.contains(std::string("controller.") + info.name)) continue;
        scenario.controller.settings[setting] = typed(info, stored);
    }
}

}  // namespace noonbench::harness
