// SPDX-License-Identifier: MIT
#include "circuit.hpp"

#include "coil.hpp"
#include "pipe.hpp"

#include <cmath>
#include <cstddef>
#include <numeric>
#include <stdexcept>
#include <vector>

namespace noonbench::plant {
namespace {

void require(bool holds, const char* reason) {
    if (!holds) throw std::invalid_argument(reason);
}

void check_loop(const Parameters& p) {
    require(!p.rows.empty() && p.rows.size() <= static_cast<std::size_t>(most_rows),
            "a plant has one to five rows of collectors");
    for (const Row& row : p.rows) {
        require(row.collectors_in_series >= 1 && row.collectors_in_series <= 12,
                "a row has 1 to 12 collectors in series");
        require(row.collector.area_m2 > 0.0 && row.collector.content_m3 > 0.0,
                "a collector needs an area and a content above zero");
        require(row.collector.a1_w_m2k >= 0.0 && row.collector.a2_w_m2k2 >= 0.0,
                "loss coefficients a1 and a2 are not negative");
    }
    require(p.pipe_cells >= 1 && p.pipe_cells <= 24, "a pipe leg has 1 to 24 cells");
    for (const PipeRun* run : {&p.loop.hot_pipe, &p.loop.cold_pipe}) {
        require(run->length_m > 0.0 && run->outer_diameter_m > 2.0 * run->wall_m,
                "a pipe needs a length and a bore");
    }
    require(p.loop.glycol_mass_share >= 0.0 && p.loop.glycol_mass_share <= most_glycol_share,
            "the glycol share is 0 to 0.6 by mass");
    require(p.loop.station_content_m3 > 0.0, "the station holds some fluid");
    require(p.loop.pump.shut_off_head_m > 0.0 && p.loop.pump.free_flow_m3_s > 0.0,
            "a pump has a head at no flow and a flow at no head");
    require(p.loop.pump.full_flow_m3_s > 0.0, "the pump's full flow is above zero");
    require(p.loop.check_valve_opening_pa >= 0.0 && p.loop.fittings_zeta >= 0.0,
            "check valve and fittings resist");
    require(p.store.solar_coil.bore_m > 0.0, "the solar coil has a bore");
    require(p.loop.vessel_volume_m3.value_or(1.0) > 0.0, "an expansion vessel has a volume");
    require(p.loop.gauge_pressure_pa >= 0.0 && p.loop.vessel_precharge_pa.value_or(0.0) >= 0.0 &&
                p.loop.relief_valve_pa > 0.0,
            "fill pressure and precharge are not below the atmosphere, the valve opens above it");
}

void check_store(const Parameters& p) {
    require(p.layers >= 1 && p.layers <= most_layers, "a store has 1 to 32 layers");
    require(p.store.volume_m3 > 0.0 && p.store.height_m > 0.0, "a store needs volume and height");
    require(p.store.solar_coil.content_m3 > 0.0, "the solar coil holds some fluid");
    require(p.store.solar_coil.from_height < p.store.solar_coil.to_height &&
                p.backup.from_height < p.backup.to_height,
            "a coil reaches from a lower to a higher place");
    require(p.circulation.flow_kg_s > 0.0, "the circulation has a flow above zero");
    require(p.lags.collector_s > 0.0 && p.lags.store_s > 0.0 && p.lags.pipe_s > 0.0,
            "sensor lags are above zero");
}

Layout make_layout(const Circuit& c, int coil_cells) {
    Layout layout;
    layout.pipe_cells = c.parameters.pipe_cells;
    layout.station_hot = layout.pipe_cells;
    layout.coil = layout.station_hot + 1;
    layout.coil_cells = coil_cells;
    layout.station_cold = layout.coil + coil_cells;
    layout.cold_pipe = layout.station_cold + 1;
    layout.chain_cells = layout.cold_pipe + layout.pipe_cells;
    layout.rows = static_cast<int>(c.parameters.rows.size());
    int next = layout.chain_cells;
    for (std::size_t r = 0; r < c.parameters.rows.size(); ++r) {
        layout.row_first[r] = next;
        layout.row_cells[r] = c.rows[r].cells;
        next += c.rows[r].cells;
    }
    layout.layers_first = next;
    layout.layers = c.parameters.layers;
    layout.bodies = next + layout.layers;
    layout.vessel = layout.bodies;
    layout.set_aside = layout.vessel + 1;
    layout.steam_first = layout.set_aside + 1;
    layout.cells = layout.steam_first + layout.rows;
    layout.row_sensor = layout.cells;
    layout.store_bottom_sensor = layout.row_sensor + layout.rows;
    layout.store_top_sensor = layout.store_bottom_sensor + 1;
    layout.station_hot_sensor = layout.store_top_sensor + 1;
    layout.station_cold_sensor = layout.station_hot_sensor + 1;
    layout.row_kg_first = layout.station_cold_sensor + 1;
    layout.vessel_kg = layout.row_kg_first + layout.rows;
    layout.edges_first = layout.vessel_kg + 1;
    layout.total = layout.edges_first + edge_count;
    require(layout.total <= most_amounts, "too many cells for one plant");
    return layout;
}

void set_cell(Circuit& c, int cell, double fluid_kg, double metal_j_k, const HeatContent& fluid) {
    const auto i = static_cast<std::size_t>(cell);
    c.fluid_kg[i] = fluid_kg;
    c.metal_j_k[i] = metal_j_k;
    c.b_j_k[i] = fluid_kg * fluid.c0_j_kgk + metal_j_k;
    c.b_squared[i] = c.b_j_k[i] * c.b_j_k[i];
    c.four_a[i] = 2.0 * fluid_kg * fluid.c1_j_kgk2;  // a = m c1 / 2
}

void set_pipe(Circuit& c, int first, const std::vector<PipeCell>& cells, bool from_collector) {
    auto at = static_cast<std::size_t>(first);
    for (std::size_t i = 0; i < cells.size(); ++i, ++at) {
        const PipeCell& cell = cells[from_collector ? i : cells.size() - 1 - i];
        set_cell(c, static_cast<int>(at), cell.fluid_kg, cell.metal_j_k, c.loop_fluid);
        c.to_air_w_k[at] = cell.to_air_w_k;
        c.to_room_w_k[at] = cell.to_room_w_k;
    }
}

void set_chain(Circuit& c, const std::vector<LayerShare>& reached) {
    const Layout& layout = c.layout;
    const Loop& loop = c.parameters.loop;
    const double density = c.loop_density_kg_m3;
    set_pipe(c, layout.hot_pipe, pipe_cells(loop.hot_pipe, layout.pipe_cells, density), true);
    set_pipe(c, layout.cold_pipe, pipe_cells(loop.cold_pipe, layout.pipe_cells, density), false);
    for (int station : {layout.station_hot, layout.station_cold}) {
        set_cell(c, station, loop.station_content_m3 * density, 0.0, c.loop_fluid);
        c.to_room_w_k[static_cast<std::size_t>(station)] = 0.5 * loop.station_ua_w_k;
    }
    const Coil& coil = c.parameters.store.solar_coil;
    for (std::size_t k = 0; k < reached.size(); ++k) {
        const LayerShare& from_top = reached[reached.size() - 1 - k];
        set_cell(c, layout.coil + static_cast<int>(k), coil.content_m3 * from_top.share * density,
                 0.0, c.loop_fluid);
        c.coil_ua_w_k[k] = coil.ua_w_k * from_top.share;
        c.coil_layer[k] = from_top.layer;
    }
}

void set_quickest(Circuit& c) {
    const auto quickest = [&c](int first, int count) {
        double least_j_k = 1e300;
        for (int i = first; i < first + count; ++i) {
            least_j_k = std::min(least_j_k, c.b_j_k[static_cast<std::size_t>(i)]);
        }
        return 1.0 / least_j_k;
    };
    c.quickest_chain_k_j = quickest(0, c.layout.chain_cells);
    c.quickest_coil_k_j = quickest(c.layout.coil, c.layout.coil_cells);
    for (std::size_t r = 0; r < c.parameters.rows.size(); ++r) {
        c.quickest_row_k_j[r] = quickest(c.layout.row_first[r], c.layout.row_cells[r]);
    }
}

Segment make_segment(const Circuit& c, int first, int count) {
    Segment segment{first, count};
    for (int i = first; i < first + count; ++i) {
        segment.b_j_k += c.b_j_k[static_cast<std::size_t>(i)];
        segment.four_a += c.four_a[static_cast<std::size_t>(i)];
    }
    segment.b_squared = segment.b_j_k * segment.b_j_k;
    return segment;
}

void set_segments(Circuit& c) {
    const Layout& at = c.layout;
    c.segments.hot_pipe = make_segment(c, at.hot_pipe, at.pipe_cells);
    c.segments.station_hot = make_segment(c, at.station_hot, 1);
    c.segments.coil = make_segment(c, at.coil, at.coil_cells);
    c.segments.station_cold = make_segment(c, at.station_cold, 1);
    c.segments.cold_pipe = make_segment(c, at.cold_pipe, at.pipe_cells);
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        c.segments.rows[r] = make_segment(c, at.row_first[r], at.row_cells[r]);
    }
}

double mean_c(const Segment& segment, const Amounts& amounts) {
    double energy_j = 0.0;
    for (int i = segment.first; i < segment.first + segment.count; ++i) {
        energy_j += amounts[static_cast<std::size_t>(i)];
    }
    return 2.0 * energy_j /
           (segment.b_j_k + std::sqrt(segment.b_squared + segment.four_a * energy_j));
}

double loop_fluid_kg(const Circuit& c) {
    const double* first = c.fluid_kg.data();
    return std::accumulate(first, first + c.layout.layers_first, 0.0);
}

void set_room_for_gas(Circuit& c) {
    for (std::size_t r = 0; r < static_cast<std::size_t>(c.layout.rows); ++r) {
        c.row_full_kg[r] = c.rows[r].cells * c.rows[r].fluid_kg;
        c.row_m3[r] = c.row_full_kg[r] / c.filled.fill_kg_m3;
    }
    c.hot_bore_m2 = pipe_content_m3_m(c.parameters.loop.hot_pipe);
    c.water = specific_volume(0.0);
    c.icy = icy_fluid(c.parameters.loop.glycol_mass_share);
    c.freezes = c.parameters.loop.hydraulics == Hydraulics::solved;
}

}  // namespace

Circuit make_circuit(const Parameters& parameters) {
    check_loop(parameters);
    check_store(parameters);
    Circuit c;
    c.parameters = parameters;
    c.loop_fluid = loop_heat_content(parameters.loop.glycol_mass_share);
    c.loop_density_kg_m3 = density_kg_m3(parameters.loop.glycol_mass_share, 20.0);
    c.loop_cp_j_kgk = c.loop_fluid.specific_heat_j_kgk(50.0);
    for (std::size_t r = 0; r < parameters.rows.size(); ++r) {
        c.rows[r] = row_coefficients(parameters.rows[r], c.loop_fluid, c.loop_density_kg_m3);
    }
    c.store = store_coefficients(parameters);
    const Coil& coil = parameters.store.solar_coil;
    const auto reached = layers_between(coil.from_height, coil.to_height, parameters.layers);
    c.layout = make_layout(c, static_cast<int>(reached.size()));
    set_chain(c, reached);
    for (std::size_t r = 0; r < parameters.rows.size(); ++r) {
        for (int i = 0; i < c.rows[r].cells; ++i) {
            set_cell(c, c.layout.row_first[r] + i, c.rows[r].fluid_kg, c.rows[r].metal_j_k,
                     c.loop_fluid);
        }
    }
    for (int k = 0; k < c.layout.layers; ++k) {
        set_cell(c, c.layout.layers_first + k, c.store.layer_kg, 0.0, water_heat_content);
    }
    set_quickest(c);
    set_segments(c);
    c.hydraulics = make_hydraulics(parameters);
    c.filled = fill_loop(parameters, loop_fluid_kg(c));
    set_room_for_gas(c);
    return c;
}

double cell_energy_j(const Circuit& circuit, int cell, double t_c) {
    const auto i = static_cast<std::size_t>(cell);
    return t_c * (circuit.b_j_k[i] + 0.25 * circuit.four_a[i] * t_c);
}

LoopFluids loop_fluids(const Circuit& circuit, const Amounts& amounts) {
    const LoopSegments& segments = circuit.segments;
    const FluidTable& fluid = circuit.hydraulics.fluid;
    const auto filling = [&](const Segment& segment) { return fluid.at(mean_c(segment, amounts)); };
    LoopFluids fluids;
    fluids.hot_pipe = filling(segments.hot_pipe);
    fluids.station_hot = filling(segments.station_hot);
    fluids.coil = filling(segments.coil);
    fluids.station_cold = filling(segments.station_cold);
    fluids.cold_pipe = filling(segments.cold_pipe);
    for (std::size_t r = 0; r < static_cast<std::size_t>(circuit.layout.rows); ++r) {
        fluids.rows[r] = filling(segments.rows[r]);
    }
    return fluids;
}

double cell_temperature(const Circuit& circuit, std::size_t cell, double energy_j) {
    const double root = std::sqrt(circuit.b_squared[cell] + circuit.four_a[cell] * energy_j);
    return 2.0 * energy_j / (circuit.b_j_k[cell] + root);
}

void cell_temperatures(const Circuit& circuit, const double* energy_j, double* t_c) {
    const auto cells = static_cast<std::size_t>(circuit.layout.bodies);
    for (std::size_t i = 0; i < cells; ++i) t_c[i] = cell_temperature(circuit, i, energy_j[i]);
}

}  // namespace noonbench::plant
