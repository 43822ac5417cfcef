// SPDX-License-Identifier: MIT
// The calm plant made linear about one state: how its rates answer to small changes of temperature,
// and the solution of an implicit step's equations by elimination along the flow. What is slow is
// left out (backup, circulation, convection inside a pipe, the flow's own answer); the method that
// uses it keeps its order for any approximation.
#pragma once
#include "circuit.hpp"
#include "rhs.hpp"
#include "tick.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace noonbench::plant {

/// Conductances in W/K, each from one place to another, so that a step's equations add up to what
/// crosses the boundary. Only the entries that the layout uses are set.
struct Linear {
    std::array<double, most_amounts> capacity_j_k;  // of cells and vessel
    std::array<double, most_amounts> carried_w_k;   // out of a loop cell, downstream
    std::array<double, most_amounts> lost_w_k;      // of a cell to the outside
    std::array<double, most_coil_cells> coil_w_k;
    std::array<int, most_coil_cells> coil_layer;
    std::array<double, most_layers> exchanged_w_k;   // layer k with the one above
    std::array<double, most_layers> carried_up_w_k;  // from layer k to the next, by a draw
    double tapped_w_k = 0.0;                         // out of the top layer
    // Plumes pass between the layers from the one to the other; none where `from` is greater.
    std::size_t plumes_from = most_layers;
    std::size_t plumes_to = 0;
    std::array<std::array<double, most_layers>, most_layers> plume_w_k;  // [low][high]
    double vessel_w_k = 0.0;
    bool flows = false;  // forward; backward flow is slow and left out
};

void linearise(const Circuit& circuit, const Tick& tick, const Outside& outside,
               const Amounts& amounts, Linear& linear);

/// What crosses the edges for temperature changes `y_k` of all cells, added to `edge`, W. What
/// warms the cells themselves follows from the equations of a step.
void add_linear_edges(const Circuit& circuit, const Linear& linear, const double* y_k,
                      double* edge);

/// Calls follow(sensor, body, contact, time constant in s) for each sensor; the body is a cell, or
/// a point between two.
template <class Follow>
void each_sensor(const Circuit& c, const Tick& tick, Follow follow) {
    const Layout& at = c.layout;
    const SensorLags& lags = c.parameters.lags;
    for (int r = 0; r < at.rows; ++r) {
        const auto row = static_cast<std::size_t>(r);
        follow(at.row_sensor + r, LayerPoint{tick.row_sensor_cell[row], 0.0},
               tick.row_sensor_contact[row], lags.collector_s);
    }
    const auto layer = [&](const LayerPoint& point) {
        return LayerPoint{at.layers_first + point.lower, point.upper_share};
    };
    follow(at.store_bottom_sensor, layer(c.store.bottom_sensor), tick.bottom_sensor_contact,
           lags.store_s);
    follow(at.store_top_sensor, layer(c.store.top_sensor), tick.top_sensor_contact, lags.store_s);
    follow(at.station_hot_sensor, LayerPoint{at.station_hot, 0.0}, 1.0, lags.pipe_s);
    follow(at.station_cold_sensor, LayerPoint{at.station_cold, 0.0}, 1.0, lags.pipe_s);
}

/// How the rates change with time as the weather moves on: per second, edges too. Wind and
/// sky are left out.
void drive_rates(const Circuit& circuit, const Tick& tick, const WeatherSpan& weather,
                 const Linear& linear, double* rate);

/// (C / step - G) y = right, for temperature changes y: the loop's cells follow each other from the
/// rows' inlet, so all of them are known from that inlet and the layers; what remains is a small
/// dense system without need of pivoting (it is diagonally dominant).
class StepEquations {
  public:
    /// `step_s`: step times the method's diagonal coefficient.
    StepEquations(const Circuit& circuit, const Tick& tick, const Linear& linear, double step_s);

    void solve(const double* right, double* y_k) const;

  private:
    static constexpr std::size_t most_unknowns = most_layers + 1;
    /// Columns of layers, both ends included; none where `first` is greater.
    struct Columns {
        std::size_t first = most_unknowns;
        std::size_t last = 0;
        void reach(const Columns& other) {
            first = std::min(first, other.first);
            last = std::max(last, other.last);
        }
    };
    void follow_loop();
    void follow_chain(double leaves_rows);
    void set_store();
    void mix_layers();
    void couple_coil();
    void eliminate();
    void follow_alone(const double* right, double* y_k) const;
    void solve_store(const double* right, const double* y_k, double* x) const;
    void follow_with(double inlet_k, const double* right, double* y_k) const;

    const Circuit& circuit_;
    const Tick& tick_;
    const Linear& linear_;
    double per_step_;
    std::size_t unknowns_;                       // layers, then the inlet
    std::array<double, most_amounts> inverse_;   // of the diagonal, of a loop cell
    std::array<double, most_amounts> of_inlet_;  // dy/d(inlet) of a loop cell
    std::array<std::array<double, most_layers>, most_coil_cells> of_layer_;  // of coil cells
    std::array<Columns, most_coil_cells> layers_felt_;  // all that is set of of_layer_
    std::array<double, most_layers> last_of_layer_;     // of the chain's last cell
    Columns last_felt_{};
    std::array<std::array<double, most_unknowns>, most_unknowns> matrix_;
    std::array<Columns, most_unknowns> filled_;  // of a row of the matrix; the inlet's always is
};

}  // namespace noonbench::plant
