// SPDX-License-Identifier: MIT
// The plant's own right-hand side as foreign solvers want it: a flat state without the booked edges
// but one sum, the heat to the store. Calm loop only.
#pragma once
#include "rule.hpp"
#include "world.hpp"

#include "plant/circuit.hpp"
#include "plant/rhs.hpp"
#include "plant/tick.hpp"

#include <algorithm>
#include <vector>

namespace noonbench::benchmarks {

inline Plant plant_of(const Parameters& parameters) {
    return make_plant(parameters, 18.0, 50.0, 8.0);
}

inline Actions actions_of(const Order& order) {
    Actions actions;
    actions.pump_relay = order.on;
    actions.speed_signal = order.level;
    return actions;
}

/// Right-hand side between two decisions.
class FlatPlant {
  public:
    explicit FlatPlant(const Parameters& parameters)
        : plant_(plant_of(parameters)),
          edges_(static_cast<std::size_t>(plant_.circuit->layout.edges_first)) {}

    [[nodiscard]] std::size_t size() const { return edges_ + 1; }

    [[nodiscard]] std::vector<double> start() const {
        std::vector<double> flat(plant_.amounts.begin(),
                                 plant_.amounts.begin() + static_cast<std::ptrdiff_t>(edges_));
        flat.push_back(0.0);
        return flat;
    }
    void drive(const Stretch& stretch, CivilSeconds from, const Order& order) {
        weather_ = stretch.weather;
        from_ = from;
        tick_ = make_tick(*plant_.circuit, plant_.levers, plant_.modes,
                          {from, actions_of(order), stretch.tap_flow_kg_s}, plant_.amounts);
    }
    /// `t` counts from the start of all.
    void rate(double t, const double* flat, double* rate) {
        std::copy_n(flat, edges_, amounts_.begin());
        renew_flow(*plant_.circuit, plant_.levers, amounts_, tick_);
        rates(*plant_.circuit, tick_,
              outside_at(weather_, *plant_.circuit, from_, t - static_cast<double>(from_)),
              amounts_.data(), rates_.data());
        std::copy_n(rates_.begin(), edges_, rate);
        rate[edges_] = rates_[edges_ + static_cast<std::size_t>(Edge::coil)];
        ++evaluations;
    }
    [[nodiscard]] Readings sensors(const double* flat) const {
        const Layout& at = plant_.circuit->layout;
        Readings shown;
        shown.collector_sensor_c = flat[at.row_sensor];
        shown.store_bottom_sensor_c = flat[at.store_bottom_sensor];
        return shown;
    }
    /// One kelvin of each amount: J/K for energies, 1 for sensors, a joule's worth for the sum.
    [[nodiscard]] std::vector<double> kelvin() const {
        const Circuit& c = *plant_.circuit;
        std::vector<double> scale(size(), 1.0);
        for (std::size_t i = 0; i < static_cast<std::size_t>(c.layout.row_sensor); ++i) {
            scale[i] = c.b_j_k[i] > 0.0 ? c.b_j_k[i] : 1e4;
        }
        scale[edges_] = 1e6;
        return scale;
    }

    long evaluations = 0;

  private:
    Plant plant_;
    std::size_t edges_;
    WeatherSpan weather_{};
    CivilSeconds from_ = 0;
    Tick tick_{};
    Amounts amounts_{};
    Amounts rates_{};
};

}  // namespace noonbench::benchmarks
