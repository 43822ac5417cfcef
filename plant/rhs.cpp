// SPDX-License-Identifier: MIT
#include "rhs.hpp"

#include "boiling.hpp"
#include "mixing_valve.hpp"
#include "sensors.hpp"

#include <algorithm>
#include <cstddef>

namespace noonbench::plant {
namespace {

using Cells = std::array<double, most_amounts>;

struct Frame {
    const Circuit& circuit;
    const Tick& tick;
    const Outside& outside;
    const double* t_c;  // of every cell
    double* rate;       // of every amount
    double* edge;       // rates of the edges
    double vessel_c;

    [[nodiscard]] double& booked(Edge which) const { return edge[static_cast<int>(which)]; }
};

// Pipe cells [first, first + count) to air and room; returns W.
double lose_pipe_heat(const Frame& f, int first, int count, double factor) {
    const double air_c = f.outside.air_c;
    const double room_c = f.circuit.store.room_c;
    const double* to_air = f.circuit.to_air_w_k.data();
    const double* to_room = f.circuit.to_room_w_k.data();
    double sum_w = 0.0;
    for (int i = first; i < first + count; ++i) {
        const double loss_w =
            factor * (to_air[i] * (f.t_c[i] - air_c) + to_room[i] * (f.t_c[i] - room_c));
        f.rate[i] -= loss_w;
        sum_w += loss_w;
    }
    return sum_w;
}

void lose_loop_heat(const Frame& f) {
    const Layout& at = f.circuit.layout;
    double sum_w = lose_pipe_heat(f, at.hot_pipe, at.pipe_cells, f.tick.hot_pipe_loss_factor);
    sum_w += lose_pipe_heat(f, at.station_hot, 1, 1.0);
    sum_w += lose_pipe_heat(f, at.station_cold, 1, 1.0);
    sum_w += lose_pipe_heat(f, at.cold_pipe, at.pipe_cells, f.tick.cold_pipe_loss_factor);
    const double vessel_w = vessel_ua_w_k * (f.vessel_c - f.circuit.store.room_c);
    f.rate[at.vessel] -= vessel_w;
    sum_w += vessel_w;
    f.booked(Edge::pipe_loss) = sum_w;
}

// Warm fluid climbs and cooler fluid sinks inside one pipe, whatever the check valve does.
void climb_in_hot_pipe(const Frame& f) {
    constexpr double free_w_k = 6.0;  // between neighbours, no heat trap; about 20 W up a cold pipe
    const Layout& at = f.circuit.layout;
    for (int i = at.coil; i > at.hot_pipe; --i) {  // each is below the one before it in the chain
        const double heat_w =
            f.tick.hot_pipe_convection * free_w_k * std::max(f.t_c[i] - f.t_c[i - 1], 0.0);
        f.rate[i] -= heat_w;
        f.rate[i - 1] += heat_w;
    }
}

void heat_coil_layers(const Frame& f) {
    const Layout& at = f.circuit.layout;
    double sum_w = 0.0;
    for (int k = 0; k < at.coil_cells; ++k) {
        const auto i = static_cast<std::size_t>(k);
        const int layer = at.layers_first + f.tick.coil_layer[i];
        const double heat_w = f.tick.coil_w_k[i] * (f.t_c[at.coil + k] - f.t_c[layer]);
        f.rate[at.coil + k] -= heat_w;
        f.rate[layer] += heat_w;
        sum_w += heat_w;
    }
    f.booked(Edge::coil) = sum_w;
}

void shine_on_rows(const Frame& f) {
    const Layout& at = f.circuit.layout;
    RowPower sum;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        RowWeather weather = f.outside.row[r];
        weather.absorbable_w_m2 *= f.tick.glass_clearness;
        const RowPower power = add_collector_rates(
            f.circuit.rows[r], weather, f.t_c + at.row_first[r], f.rate + at.row_first[r]);
        sum.absorbed_w += power.absorbed_w;
        sum.lost_w += power.lost_w;
    }
    f.booked(Edge::absorbed) = sum.absorbed_w;
    f.booked(Edge::collector_loss) = sum.lost_w;
}

// Upwind carriage along `count` cells: `face_w[i]` passes from cell i-1 to cell i. The first and
// the last face are given by the caller.
void carry_inside(double flow_kg_s, const double* e_j_kg, double* face_w, int count) {
    const double* upstream = flow_kg_s > 0.0 ? e_j_kg : e_j_kg + 1;
    for (int i = 0; i + 1 < count; ++i) face_w[i + 1] = flow_kg_s * upstream[i];
}

void book_faces(const double* face_w, double* rate_w, int count) {
    for (int i = 0; i < count; ++i) rate_w[i] += face_w[i] - face_w[i + 1];
}

// The loop: one chain from the collectors' outlet back to their inlet, and the rows in parallel.
void carry_round_loop(const Frame& f, const double* e_j_kg) {
    const Layout& at = f.circuit.layout;
    const double flow = f.tick.flow_kg_s;
    const bool forward = flow > 0.0;
    const int last = at.chain_cells - 1;
    Cells face_w;
    double leaves_rows_w = 0.0;
    double enters_rows_w = 0.0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        const int first = at.row_first[r];
        const int count = at.row_cells[r];
        const double row_flow = f.tick.row_flow_kg_s[r];
        face_w[0] = row_flow * (forward ? e_j_kg[last] : e_j_kg[first]);
        face_w[static_cast<std::size_t>(count)] =
            row_flow * (forward ? e_j_kg[first + count - 1] : e_j_kg[0]);
        carry_inside(row_flow, e_j_kg + first, face_w.data(), count);
        book_faces(face_w.data(), f.rate + first, count);
        enters_rows_w += face_w[0];
        leaves_rows_w += face_w[static_cast<std::size_t>(count)];
    }
    // What the rows' faces carry is what the chain's ends carry: one edge, both signs.
    face_w[0] = leaves_rows_w;
    face_w[static_cast<std::size_t>(at.chain_cells)] = enters_rows_w;
    carry_inside(flow, e_j_kg, face_w.data(), at.chain_cells);
    book_faces(face_w.data(), f.rate, at.chain_cells);
    f.booked(Edge::collector_to_loop) = leaves_rows_w - enters_rows_w;
}

void heat_by_pump(const Frame& f) {
    f.rate[f.circuit.layout.station_cold] += f.tick.pump.heat_w;
    f.booked(Edge::pump_heat) = f.tick.pump.heat_w;
}

void move_liquid(const Frame& f) {
    if (f.tick.flow_kg_s == 0.0) return;
    Cells e_j_kg;
    for (int i = 0; i < f.circuit.layout.layers_first; ++i) {
        e_j_kg[static_cast<std::size_t>(i)] = f.circuit.loop_fluid.energy_j_kg(f.t_c[i]);
    }
    carry_round_loop(f, e_j_kg.data());
}

void pass_store_water(const Frame& f) {
    const Layout& at = f.circuit.layout;
    const StoreCoefficients& store = f.circuit.store;
    const double* layer_c = f.t_c + at.layers_first;
    std::array<double, most_layers> e_j_kg;
    for (std::size_t k = 0; k < static_cast<std::size_t>(at.layers); ++k) {
        e_j_kg[k] = water_heat_content.energy_j_kg(layer_c[k]);
    }
    const auto top = static_cast<std::size_t>(at.layers - 1);
    StoreFlow flow;
    const double tapped_kg_s = f.tick.tap_flow_kg_s * hot_share_at_tap(f.tick, e_j_kg[top]);
    flow.draw_kg_s = tapped_kg_s + f.tick.safety_kg_s;
    flow.cold_j_kg = f.tick.cold_j_kg;
    flow.inlet_jet = f.tick.inlet_jet;
    flow.circulation_kg_s = f.tick.circulation_kg_s;
    flow.return_j_kg = water_heat_content.energy_j_kg(
        store.room_c + store.circulation_kept * (layer_c[top] - store.room_c));
    add_store_flow(store, flow, e_j_kg.data(), f.rate + at.layers_first);
    f.booked(Edge::hot_out) = tapped_kg_s * e_j_kg[top];
    f.booked(Edge::cold_in) = tapped_kg_s * flow.cold_j_kg;
    f.booked(Edge::hot_mass) = tapped_kg_s;
    f.booked(Edge::circulation_loss) = flow.circulation_kg_s * (e_j_kg[top] - flow.return_j_kg);
    f.booked(Edge::safety_out) = f.tick.safety_kg_s * e_j_kg[top];
    f.booked(Edge::safety_in) = f.tick.safety_kg_s * flow.cold_j_kg;
    f.booked(Edge::safety_mass) = f.tick.safety_kg_s;
}

void run_store(const Frame& f) {
    const Layout& at = f.circuit.layout;
    const double* layer_c = f.t_c + at.layers_first;
    double* rate_w = f.rate + at.layers_first;
    add_layer_exchange(f.circuit.store, layer_c, rate_w);
    f.booked(Edge::store_loss) = add_store_loss(f.circuit.store, f.tick.store_loss_factor,
                                                f.tick.connection_loss_factor, layer_c, rate_w);
    if (f.tick.backup_on) {
        f.booked(Edge::backup) =
            add_backup_heat(f.circuit.store, f.circuit.parameters.backup, layer_c, rate_w);
    }
    if (f.tick.tap_flow_kg_s + f.tick.safety_kg_s + f.tick.circulation_kg_s > 0.0) {
        pass_store_water(f);
    }
}

void lag_sensors(const Frame& f, const double* amount) {
    const Layout& at = f.circuit.layout;
    const SensorLags& lags = f.circuit.parameters.lags;
    const StoreCoefficients& store = f.circuit.store;
    const auto lag = [&](int sensor, const SensorBody& body, double time_constant_s) {
        f.rate[sensor] = sensor_rate_k_s(amount[sensor], body, time_constant_s);
    };
    for (int r = 0; r < at.rows; ++r) {
        const auto row = static_cast<std::size_t>(r);
        lag(at.row_sensor + r,
            {f.t_c[f.tick.row_sensor_cell[row]], f.outside.air_c, f.tick.row_sensor_contact[row]},
            lags.collector_s);
    }
    const double* layer_c = f.t_c + at.layers_first;
    lag(at.store_bottom_sensor,
        {at_point_c(store.bottom_sensor, layer_c), store.room_c, f.tick.bottom_sensor_contact},
        lags.store_s);
    lag(at.store_top_sensor,
        {at_point_c(store.top_sensor, layer_c), store.room_c, f.tick.top_sensor_contact},
        lags.store_s);
    lag(at.station_hot_sensor, {f.t_c[at.station_hot], store.room_c, 1.0}, lags.pipe_s);
    lag(at.station_cold_sensor, {f.t_c[at.station_cold], store.room_c, 1.0}, lags.pipe_s);
}

}  // namespace

Outside outside_at(const WeatherSpan& weather, const Circuit& circuit, CivilSeconds now,
                   double at_s) {
    const PlaneKnot& from = weather.from;
    const PlaneKnot& to = weather.to;
    const double span_s = static_cast<double>(to.at_s - from.at_s);
    const double into_s = static_cast<double>(now - from.at_s) + at_s;
    const double share = span_s > 0.0 ? into_s / span_s : 0.0;
    const auto between = [share](double a, double b) { return a + share * (b - a); };
    Outside outside;
    outside.air_c = between(from.air_c, to.air_c);
    const double sky_c = between(from.sky_c, to.sky_c);
    const double wind_m_s = between(from.wind_m_s, to.wind_m_s);
    const double sky_w_m2 = sky_balance_w_m2(sky_c, outside.air_c);
    for (std::size_t r = 0; r < static_cast<std::size_t>(circuit.layout.rows); ++r) {
        outside.row[r] = {between(from.absorbable_w_m2[r], to.absorbable_w_m2[r]), outside.air_c,
                          wind_m_s, sky_w_m2};
    }
    return outside;
}

double hot_share_at_tap(const Tick& tick, double top_layer_j_kg) {
    if (tick.mixer_stuck_share >= 0.0) return tick.mixer_stuck_share;
    return hot_share(top_layer_j_kg, tick.cold_j_kg, tick.mixer_set_j_kg);
}

void rates(const Circuit& circuit, const Tick& tick, const Outside& outside, const double* amount,
           double* rate) {
    const Layout& at = circuit.layout;
    for (int i = 0; i < at.total; ++i) rate[i] = 0.0;
    Cells t_c;
    cell_temperatures(circuit, amount, t_c.data());
    const bool is_calm = tick.loop.regime == LoopRegime::calm;
    if (!is_calm) {
        const LoopPicture picture = look_at_loop(circuit, tick.levers, tick.loop, amount);
        std::copy_n(picture.t_c.begin(), at.layers_first, t_c.begin());
        add_boiling_rates(circuit, picture, rate);
        if (tick.flow_kg_s != 0.0) {
            const Frame frame{circuit, tick, outside, t_c.data(), rate, rate + at.edges_first, 0.0};
            carry_round_loop(frame, picture.e_j_kg.data());
        }
    }
    const Frame frame{circuit,
                      tick,
                      outside,
                      t_c.data(),
                      rate,
                      rate + at.edges_first,
                      vessel_liquid(circuit, amount[at.vessel_kg], amount[at.vessel]).t_c};
    lose_loop_heat(frame);
    heat_coil_layers(frame);
    shine_on_rows(frame);
    heat_by_pump(frame);
    if (is_calm) move_liquid(frame);
    if (tick.hot_pipe_convection > 0.0) climb_in_hot_pipe(frame);
    run_store(frame);
    lag_sensors(frame, amount);
}

}  // namespace noonbench::plant
