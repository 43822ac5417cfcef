// SPDX-License-Identifier: MIT
#include "linear.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

double buoyant_slope_w_k(double buoyancy_w_k, double excess_k) {
    return buoyancy_w_k * std::clamp(excess_k / buoyancy_onset_k, 0.0, 1.0);
}

void set_loop(const Circuit& c, const Tick& tick, const double* t_c, Linear& l) {
    const Layout& at = c.layout;
    l.flows = tick.flow_kg_s > 0.0;
    const double flow_kg_s = l.flows ? tick.flow_kg_s : 0.0;
    for (int i = 0; i < at.chain_cells; ++i) {
        const auto k = static_cast<std::size_t>(i);
        l.carried_w_k[k] = flow_kg_s * c.loop_fluid.specific_heat_j_kgk(t_c[i]);
        const bool is_hot = i < at.hot_pipe + at.pipe_cells && i >= at.hot_pipe;
        const bool is_cold = i < at.cold_pipe + at.pipe_cells && i >= at.cold_pipe;
        const double factor = is_hot    ? tick.hot_pipe_loss_factor
                              : is_cold ? tick.cold_pipe_loss_factor
                                        : 1.0;
        const bool is_coil = i >= at.coil && i < at.coil + at.coil_cells;
        l.lost_w_k[k] = is_coil ? 0.0 : factor * (c.to_air_w_k[k] + c.to_room_w_k[k]);
    }
    for (std::size_t k = 0; k < static_cast<std::size_t>(at.coil_cells); ++k) {
        l.coil_w_k[k] = tick.coil_w_k[k];
        l.coil_layer[k] = tick.coil_layer[k];
    }
}

void set_rows(const Circuit& c, const Tick& tick, const Outside& outside, const double* t_c,
              Linear& l) {
    constexpr double test_wind_m_s = 3.0;
    const Layout& at = c.layout;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        const RowCoefficients& row = c.rows[r];
        const RowWeather& weather = outside.row[r];
        const double flow_kg_s = l.flows ? tick.row_flow_kg_s[r] : 0.0;
        const double straight_w_m2k =
            row.collector.a1_w_m2k + row.collector.a3_j_m3k * (weather.wind_m_s - test_wind_m_s);
        for (int i = at.row_first[r]; i < at.row_first[r] + at.row_cells[r]; ++i) {
            const auto k = static_cast<std::size_t>(i);
            l.carried_w_k[k] = flow_kg_s * c.loop_fluid.specific_heat_j_kgk(t_c[i]);
            const double over_k = std::abs(t_c[i] - weather.air_c);
            l.lost_w_k[k] =
                row.cell_area_m2 * (straight_w_m2k + 2.0 * row.collector.a2_w_m2k2 * over_k);
        }
    }
}

/// A layer with nothing colder above feeds no plume, and nearly all are such.
void set_plumes(const StoreCoefficients& store, const double* layer_c, Linear& l) {
    const auto top = static_cast<std::size_t>(store.layers) - 1;
    l.plumes_from = most_layers;
    l.plumes_to = 0;
    double coldest_above_c = layer_c[top];
    for (std::size_t low = top; low-- > 0;) {
        if (layer_c[low] > coldest_above_c) {
            if (l.plumes_to == 0) l.plumes_to = top;
            l.plumes_from = low;
        }
        coldest_above_c = std::min(coldest_above_c, layer_c[low]);
    }
    if (l.plumes_to == 0) return;
    while (layer_c[l.plumes_to] >=
           *std::max_element(layer_c + l.plumes_from, layer_c + l.plumes_to)) {
        --l.plumes_to;
    }
    for (std::size_t low = l.plumes_from; low < l.plumes_to; ++low) {
        for (std::size_t high = low + 1; high <= l.plumes_to; ++high) {
            l.plume_w_k[low][high] =
                buoyant_slope_w_k(store.plume_w_k, layer_c[low] - layer_c[high]);
        }
    }
}

void set_layers(const Circuit& c, const Tick& tick, const double* layer_c, Linear& l) {
    const StoreCoefficients& store = c.store;
    const auto layers = static_cast<std::size_t>(store.layers);
    const auto first = static_cast<std::size_t>(c.layout.layers_first);
    const double top_j_kg = water_heat_content.energy_j_kg(layer_c[layers - 1]);
    const double draw_kg_s =
        tick.tap_flow_kg_s > 0.0 ? tick.tap_flow_kg_s * hot_share_at_tap(tick, top_j_kg) : 0.0;
    const double jet = jet_exchange * tick.inlet_jet;
    for (std::size_t k = 0; k < layers; ++k) {
        l.lost_w_k[first + k] = store.side_w_k * tick.store_loss_factor;
        const double cp_j_kgk = water_heat_content.specific_heat_j_kgk(layer_c[k]);
        l.carried_up_w_k[k] = draw_kg_s * cp_j_kgk;
        if (k + 1 == layers) break;
        l.exchanged_w_k[k] = store.conduction_w_k +
                             buoyant_slope_w_k(store.buoyancy_w_k, layer_c[k] - layer_c[k + 1]) +
                             draw_kg_s * (store.inlet_stir[k] + jet) * cp_j_kgk;
    }
    l.tapped_w_k = l.carried_up_w_k[layers - 1];
    l.lost_w_k[first + layers - 1] += store.connection_w_k * tick.connection_loss_factor;
    set_plumes(store, layer_c, l);
}

double lost_w(const Linear& l, const double* y_k, int first, int count) {
    double sum_w = 0.0;
    for (int i = first; i < first + count; ++i) {
        sum_w += l.lost_w_k[static_cast<std::size_t>(i)] * y_k[i];
    }
    return sum_w;
}

}  // namespace

void linearise(const Circuit& circuit, const Tick& tick, const Outside& outside,
               const Amounts& amounts, Linear& l) {
    const Layout& at = circuit.layout;
    std::array<double, most_amounts> t_c;
    cell_temperatures(circuit, amounts.data(), t_c.data());
    for (std::size_t i = 0; i < static_cast<std::size_t>(at.bodies); ++i) {
        l.capacity_j_k[i] = circuit.b_j_k[i] + 0.5 * circuit.four_a[i] * t_c[i];
    }
    const auto vessel = static_cast<std::size_t>(at.vessel);
    const double vessel_kg = std::max(amounts[static_cast<std::size_t>(at.vessel_kg)], 0.0);
    l.capacity_j_k[vessel] = vessel_shell_j_k + vessel_kg * circuit.loop_cp_j_kgk;
    l.vessel_w_k = vessel_ua_w_k;
    set_loop(circuit, tick, t_c.data(), l);
    set_rows(circuit, tick, outside, t_c.data(), l);
    set_layers(circuit, tick, t_c.data() + at.layers_first, l);
}

void add_linear_edges(const Circuit& circuit, const Linear& linear, const double* y_k,
                      double* edge) {
    const Layout& at = circuit.layout;
    const auto booked = [edge](Edge which) -> double& { return edge[static_cast<int>(which)]; };
    const auto carried_w = [&](int cell) {
        return linear.carried_w_k[static_cast<std::size_t>(cell)] * y_k[cell];
    };
    for (int r = 0; linear.flows && r < at.rows; ++r) {
        const auto row = static_cast<std::size_t>(r);
        booked(Edge::collector_to_loop) += carried_w(at.row_first[row] + at.row_cells[row] - 1);
    }
    if (linear.flows) booked(Edge::collector_to_loop) -= carried_w(at.chain_cells - 1);
    double coil_w = 0.0;
    for (int k = 0; k < at.coil_cells; ++k) {
        const auto i = static_cast<std::size_t>(k);
        const int layer = at.layers_first + linear.coil_layer[i];
        coil_w += linear.coil_w_k[i] * (y_k[at.coil + k] - y_k[layer]);
    }
    booked(Edge::coil) += coil_w;
    booked(Edge::pipe_loss) +=
        lost_w(linear, y_k, 0, at.chain_cells) + linear.vessel_w_k * y_k[at.vessel];
    booked(Edge::collector_loss) +=
        lost_w(linear, y_k, at.chain_cells, at.layers_first - at.chain_cells);
    booked(Edge::store_loss) += lost_w(linear, y_k, at.layers_first, at.layers);
    booked(Edge::hot_out) += linear.tapped_w_k * y_k[at.layers_first + at.layers - 1];
}

void drive_rates(const Circuit& circuit, const Tick& tick, const WeatherSpan& weather,
                 const Linear& linear, double* rate) {
    const Layout& at = circuit.layout;
    std::fill_n(rate, at.total, 0.0);
    const auto span_s = static_cast<double>(weather.to.at_s - weather.from.at_s);
    if (!(span_s > 0.0)) return;
    const double air_k_s = (weather.to.air_c - weather.from.air_c) / span_s;
    double* edge = rate + at.edges_first;
    for (int i = 0; i < at.chain_cells; ++i) {
        const double warms_w_s = circuit.to_air_w_k[static_cast<std::size_t>(i)] * air_k_s;
        rate[i] += warms_w_s;
        edge[static_cast<int>(Edge::pipe_loss)] -= warms_w_s;
    }
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        const RowCoefficients& row = circuit.rows[r];
        const double sun_w_s = row.collector.eta0 * row.cell_area_m2 * tick.glass_clearness *
                               (weather.to.absorbable_w_m2[r] - weather.from.absorbable_w_m2[r]) /
                               span_s;
        for (int i = at.row_first[r]; i < at.row_first[r] + at.row_cells[r]; ++i) {
            const double air_w_s = linear.lost_w_k[static_cast<std::size_t>(i)] * air_k_s;
            rate[i] += sun_w_s + air_w_s;
            edge[static_cast<int>(Edge::absorbed)] += sun_w_s;
            edge[static_cast<int>(Edge::collector_loss)] -= air_w_s;
        }
    }
}

// ------------------------------------------------------------------ the equations of a step

StepEquations::StepEquations(const Circuit& circuit, const Tick& tick, const Linear& linear,
                             double step_s)
    : circuit_(circuit),
      tick_(tick),
      linear_(linear),
      per_step_(1.0 / step_s),
      unknowns_(static_cast<std::size_t>(circuit.layout.layers) + 1) {
    follow_loop();
    set_store();
    eliminate();
}

void StepEquations::follow_loop() {
    const Layout& at = circuit_.layout;
    const Linear& l = linear_;
    const auto cells = static_cast<std::size_t>(at.layers_first);
    for (std::size_t i = 0; i < cells; ++i) {
        inverse_[i] = l.capacity_j_k[i] * per_step_ + l.lost_w_k[i] + l.carried_w_k[i];
    }
    const auto coil = static_cast<std::size_t>(at.coil);
    for (std::size_t k = 0; k < static_cast<std::size_t>(at.coil_cells); ++k) {
        inverse_[coil + k] += l.coil_w_k[k];
    }
    for (std::size_t i = 0; i < cells; ++i) inverse_[i] = 1.0 / inverse_[i];
    const auto last = static_cast<std::size_t>(at.chain_cells) - 1;
    double leaves_rows = 0.0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        const auto first = static_cast<std::size_t>(at.row_first[r]);
        const auto end = first + static_cast<std::size_t>(at.row_cells[r]);
        double carried =
            l.flows ? l.carried_w_k[last] * (tick_.row_flow_kg_s[r] / tick_.flow_kg_s) : 0.0;
        for (std::size_t i = first; i < end; ++i) {
            of_inlet_[i] = carried * inverse_[i];
            carried = l.carried_w_k[i] * of_inlet_[i];
        }
        leaves_rows += carried;
    }
    follow_chain(leaves_rows);
}

/// Down the chain each cell feels the inlet and the layers of the coil's cells before it.
void StepEquations::follow_chain(double leaves_rows) {
    const Layout& at = circuit_.layout;
    const Linear& l = linear_;
    const auto coil = static_cast<std::size_t>(at.coil);
    const auto coil_end = coil + static_cast<std::size_t>(at.coil_cells);
    std::fill_n(last_of_layer_.begin(), static_cast<std::size_t>(at.layers), 0.0);
    double carried = leaves_rows;
    for (std::size_t i = 0; i < static_cast<std::size_t>(at.chain_cells); ++i) {
        of_inlet_[i] = carried * inverse_[i];
        carried = l.carried_w_k[i] * of_inlet_[i];
        if (i < coil) continue;
        const double passed_on = (i > 0 ? l.carried_w_k[i - 1] : 0.0) * inverse_[i];
        for (std::size_t k = last_felt_.first; k <= last_felt_.last; ++k) {
            last_of_layer_[k] *= passed_on;
        }
        if (!l.flows) last_felt_ = {};
        if (i >= coil_end) continue;
        const std::size_t cell = i - coil;
        const auto layer = static_cast<std::size_t>(l.coil_layer[cell]);
        last_of_layer_[layer] += l.coil_w_k[cell] * inverse_[i];
        last_felt_.reach({layer, layer});
        layers_felt_[cell] = last_felt_;
        for (std::size_t k = last_felt_.first; k <= last_felt_.last; ++k) {
            of_layer_[cell][k] = last_of_layer_[k];
        }
    }
}

void StepEquations::set_store() {
    const Layout& at = circuit_.layout;
    const Linear& l = linear_;
    const auto layers = static_cast<std::size_t>(at.layers);
    const auto first = static_cast<std::size_t>(at.layers_first);
    for (std::size_t k = 0; k < unknowns_; ++k) std::fill_n(matrix_[k].begin(), unknowns_, 0.0);
    for (std::size_t k = 0; k < layers; ++k) {
        matrix_[k][k] = l.capacity_j_k[first + k] * per_step_ + l.lost_w_k[first + k];
        filled_[k] = {k > 0 ? k - 1 : 0, std::min(k + 1, layers - 1)};
    }
    mix_layers();
    couple_coil();
    for (std::size_t k = last_felt_.first; k <= last_felt_.last; ++k) {
        matrix_[layers][k] = -last_of_layer_[k];
    }
    filled_[layers] = last_felt_;
    matrix_[layers][layers] = 1.0 - of_inlet_[static_cast<std::size_t>(at.chain_cells) - 1];
}

void StepEquations::mix_layers() {
    const Linear& l = linear_;
    const auto layers = static_cast<std::size_t>(circuit_.layout.layers);
    for (std::size_t k = 0; k + 1 < layers; ++k) {
        const double both = l.exchanged_w_k[k];
        const double up = l.carried_up_w_k[k];
        matrix_[k][k] += both + up;
        matrix_[k][k + 1] -= both;
        matrix_[k + 1][k + 1] += both;
        matrix_[k + 1][k] -= both + up;
    }
    matrix_[layers - 1][layers - 1] += l.tapped_w_k;
    const Columns stirred{l.plumes_from, l.plumes_to};
    for (std::size_t low = stirred.first; low <= stirred.last; ++low) {
        filled_[low].reach(stirred);
        for (std::size_t high = low + 1; high <= stirred.last; ++high) {
            const double both = l.plume_w_k[low][high];
            matrix_[low][low] += both;
            matrix_[high][high] += both;
            matrix_[low][high] -= both;
            matrix_[high][low] -= both;
        }
    }
}

void StepEquations::couple_coil() {
    const Layout& at = circuit_.layout;
    const Linear& l = linear_;
    for (std::size_t cell = 0; cell < static_cast<std::size_t>(at.coil_cells); ++cell) {
        const auto layer = static_cast<std::size_t>(l.coil_layer[cell]);
        const double coil_w_k = l.coil_w_k[cell];
        auto& row = matrix_[layer];
        const Columns& felt = layers_felt_[cell];
        filled_[layer].reach(felt);
        row[layer] += coil_w_k;
        for (std::size_t k = felt.first; k <= felt.last; ++k) {
            row[k] -= coil_w_k * of_layer_[cell][k];
        }
        row[unknowns_ - 1] -= coil_w_k * of_inlet_[static_cast<std::size_t>(at.coil) + cell];
    }
}

// Gauss without pivoting; the factors stay below the diagonal, which holds its inverse. Outside the
// columns that a row fills there are only zeros.
void StepEquations::eliminate() {
    const std::size_t inlet = unknowns_ - 1;
    for (std::size_t p = 0; p < inlet; ++p) {
        const auto& above = matrix_[p];
        matrix_[p][p] = 1.0 / matrix_[p][p];
        const std::size_t last = filled_[p].last;
        for (std::size_t r = p + 1; r <= inlet; ++r) {
            auto& row = matrix_[r];
            if (filled_[r].first > p || row[p] == 0.0) continue;
            const double factor = row[p] * above[p];
            row[p] = factor;
            for (std::size_t k = p + 1; k <= last; ++k) row[k] -= factor * above[k];
            row[inlet] -= factor * above[inlet];
            filled_[r].last = std::max(filled_[r].last, last);
        }
    }
    matrix_[inlet][inlet] = 1.0 / matrix_[inlet][inlet];
}

/// What each loop cell would do with nothing from inlet and layers.
void StepEquations::follow_alone(const double* right, double* y_k) const {
    const Layout& at = circuit_.layout;
    const Linear& l = linear_;
    double leaves_rows = 0.0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        const auto first = static_cast<std::size_t>(at.row_first[r]);
        const auto end = first + static_cast<std::size_t>(at.row_cells[r]);
        double carried = 0.0;
        for (std::size_t i = first; i < end; ++i) {
            y_k[i] = (right[i] + carried) * inverse_[i];
            carried = l.carried_w_k[i] * y_k[i];
        }
        leaves_rows += carried;
    }
    double carried = leaves_rows;
    for (std::size_t i = 0; i < static_cast<std::size_t>(at.chain_cells); ++i) {
        y_k[i] = (right[i] + carried) * inverse_[i];
        carried = l.carried_w_k[i] * y_k[i];
    }
}

/// Layers and inlet, once the loop has been followed alone.
void StepEquations::solve_store(const double* right, const double* y_k, double* x) const {
    const Layout& at = circuit_.layout;
    const Linear& l = linear_;
    const std::size_t layers = unknowns_ - 1;
    for (std::size_t k = 0; k < layers; ++k)
        x[k] = right[static_cast<std::size_t>(at.layers_first) + k];
    for (std::size_t cell = 0; cell < static_cast<std::size_t>(at.coil_cells); ++cell) {
        x[static_cast<std::size_t>(l.coil_layer[cell])] +=
            l.coil_w_k[cell] * y_k[static_cast<std::size_t>(at.coil) + cell];
    }
    x[layers] = y_k[at.chain_cells - 1];
    for (std::size_t r = 1; r < unknowns_; ++r) {
        const auto& row = matrix_[r];
        double sum = x[r];
        for (std::size_t k = filled_[r].first; k < r; ++k) sum -= row[k] * x[k];
        x[r] = sum;
    }
    x[layers] *= matrix_[layers][layers];
    for (std::size_t r = layers; r-- > 0;) {
        const auto& row = matrix_[r];
        double sum = x[r] - row[layers] * x[layers];
        for (std::size_t k = r + 1; k <= filled_[r].last; ++k) sum -= row[k] * x[k];
        x[r] = sum * row[r];
    }
}

/// The loop again, now with inlet and layers known.
void StepEquations::follow_with(double inlet_k, const double* right, double* y_k) const {
    const Layout& at = circuit_.layout;
    const Linear& l = linear_;
    const auto layer_first = static_cast<std::size_t>(at.layers_first);
    const auto coil = static_cast<std::size_t>(at.coil);
    for (std::size_t i = static_cast<std::size_t>(at.chain_cells); i < layer_first; ++i) {
        y_k[i] += of_inlet_[i] * inlet_k;
    }
    for (std::size_t i = 0; i < coil; ++i) y_k[i] += of_inlet_[i] * inlet_k;
    double before = l.carried_w_k[coil - 1] * y_k[coil - 1];  // the hot leg comes before the coil
    for (std::size_t i = coil; i < static_cast<std::size_t>(at.chain_cells); ++i) {
        const std::size_t cell = i - coil;
        double in_w = right[i] + before;
        if (cell < static_cast<std::size_t>(at.coil_cells)) {
            in_w +=
                l.coil_w_k[cell] * y_k[layer_first + static_cast<std::size_t>(l.coil_layer[cell])];
        }
        y_k[i] = in_w * inverse_[i];
        before = l.carried_w_k[i] * y_k[i];
    }
}

void StepEquations::solve(const double* right, double* y_k) const {
    const Layout& at = circuit_.layout;
    follow_alone(right, y_k);
    std::array<double, most_unknowns> x;
    solve_store(right, y_k, x.data());
    const std::size_t layers = unknowns_ - 1;
    std::copy_n(x.begin(), layers, y_k + at.layers_first);
    follow_with(x[layers], right, y_k);
    const auto vessel = static_cast<std::size_t>(at.vessel);
    y_k[vessel] = right[vessel] / (linear_.capacity_j_k[vessel] * per_step_ + linear_.vessel_w_k);
    each_sensor(circuit_, tick_,
                [&](int sensor, const LayerPoint& body, double contact, double time_constant_s) {
                    const double pull = contact * at_point_c(body, y_k) / time_constant_s;
                    y_k[sensor] = (right[sensor] + pull) / (per_step_ + 1.0 / time_constant_s);
                });
}

}  // namespace noonbench::plant
