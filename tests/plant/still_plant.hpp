// SPDX-License-Identifier: MIT
// Plants reduced to one effect at a time, and weather that does not change, for the tests.
#pragma once
#include "plant/circuit.hpp"
#include "plant/plant.hpp"

#include <array>
#include <cstddef>

namespace noonbench::plant::testing {

/// The same weather for ever.
inline WeatherSpan constant_weather(double absorbable_w_m2, double air_c, double sky_c) {
    PlaneKnot knot;
    for (double& value : knot.absorbable_w_m2) value = absorbable_w_m2;
    for (double& value : knot.received_w_m2) value = absorbable_w_m2;
    knot.air_c = air_c;
    knot.sky_c = sky_c;
    knot.wind_m_s = 3.0;
    WeatherSpan span{knot, knot};
    span.from.at_s = -1'000'000'000;
    span.to.at_s = 1'000'000'000;
    return span;
}

/// No loss anywhere, no stirring, no conduction: what is left is what a test puts in.
inline Parameters lossless() {
    Parameters p;
    Row& row = p.rows.front();
    row.collector.a1_w_m2k = 0.0;
    row.collector.a2_w_m2k2 = 0.0;
    row.collector.a4 = 0.0;
    for (PipeRun* run : {&p.loop.hot_pipe, &p.loop.cold_pipe}) run->surface_w_m2k = 1e-12;
    p.loop.station_ua_w_k = 0.0;
    p.loop.pump.heat_share = 0.0;
    p.store.side_ua_w_k = 0.0;
    p.store.connection_ua_w_k = 0.0;
    p.store.conductivity_w_mk = 0.0;
    p.store.inlet_mixing = 0.0;
    p.backup.kind = BackupKind::none;
    p.tap.mixer_fitted = false;
    return p;
}

/// A collector so heavy that it stays at its temperature: a source of constant hot fluid.
// Its flow is given: a step that is known exactly.
inline Parameters with_constant_source() {
    Parameters p = lossless();
    p.loop.hydraulics = Hydraulics::given;
    p.rows.front().collector.a5_j_m2k = 1e12;
    return p;
}

inline Actions pump_running() {
    Actions actions;
    actions.pump_relay = true;
    return actions;
}

inline std::array<double, most_amounts> temperatures_c(const Plant& plant) {
    std::array<double, most_amounts> t_c{};
    cell_temperatures(*plant.circuit, plant.amounts.data(), t_c.data());
    return t_c;
}

inline double temperature_c(const Plant& plant, int cell) {
    return temperatures_c(plant)[static_cast<std::size_t>(cell)];
}

/// Advances without a draw.
inline void run(Plant& plant, const WeatherSpan& weather, const Actions& actions, int seconds,
                CivilSeconds from = 0) {
    for (int s = 0; s < seconds; ++s) advance(plant, weather, from + s, actions, 0.0);
}

}  // namespace noonbench::plant::testing
