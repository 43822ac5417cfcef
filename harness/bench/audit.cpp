// SPDX-License-Identifier: MIT
#include "audit.hpp"

#include "weather_now.hpp"

#include "plant/fluid.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>

namespace noonbench::harness {
namespace {

double store_content_j(const Bench& bench) {
    const plant::View v = plant::view(bench.plant());
    const double layer_kg = bench.scenario().plant.store.volume_m3 * plant::water_density_kg_m3 /
                            static_cast<double>(v.layers);
    double sum_j = 0.0;
    for (std::size_t i = 0; i < static_cast<std::size_t>(v.layers); ++i) {
        sum_j += layer_kg * plant::water_heat_content.energy_j_kg(v.layer_c[i]);
    }
    return sum_j;
}

/// What the store must have gained, from the booked edges.
double store_gain_j(const plant::Books& books) {
    using plant::Edge;
    return books.of(Edge::coil) + books.of(Edge::backup) + books.of(Edge::cold_in) -
           books.of(Edge::hot_out) - books.of(Edge::store_loss) - books.of(Edge::circulation_loss);
}

double gap(double found_j, double booked_j) {
    return std::abs(found_j - booked_j) / std::max(std::abs(booked_j), 1.0e6);
}

}  // namespace

Audit::Audit(const Bench& bench) : store_at_start_j_(store_content_j(bench)) {}

void Audit::stretch(const Bench& bench, int seconds) {
    const plant::Parameters& p = bench.scenario().plant;
    const WeatherNow sky =
        weather_at(bench.weather(), static_cast<double>(bench.now()) - 0.5 * seconds);
    for (std::size_t r = 0; r < p.rows.size(); ++r) {
        const plant::Row& row = p.rows[r];
        absorbed_j_ += sky.absorbable_w_m2[r] * row.collector.eta0 * row.collector.area_m2 *
                       row.collectors_in_series * bench.plant().levers.glass_clearness * seconds;
    }
    const double kg = bench.tap_flow_kg_s();
    if (kg > 0.0) {
        const auto& water = plant::water_heat_content;
        tapped_j_ += seconds * kg *
                     (water.energy_j_kg(bench.plant().last.delivered_c) -
                      water.energy_j_kg(bench.mains_c()));
    }
}

double Audit::largest_gap(const Bench& bench) const {
    const plant::Books& books = bench.plant().books;
    return std::max({gap(absorbed_j_, books.of(plant::Edge::absorbed)),
                     gap(tapped_j_, books.tapped_j()),
                     gap(store_content_j(bench) - store_at_start_j_, store_gain_j(books))});
}

}  // namespace noonbench::harness
