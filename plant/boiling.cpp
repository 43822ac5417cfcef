// SPDX-License-Identifier: MIT
#include "boiling.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::plant {
namespace {

struct Frame {
    const Circuit& circuit;
    const LoopPicture& picture;
    double* rate;

    [[nodiscard]] double& row_kg(std::size_t row) const {
        return rate[static_cast<std::size_t>(circuit.layout.row_kg_first) + row];
    }
    [[nodiscard]] double& vessel_kg() const { return rate[circuit.layout.vessel_kg]; }
    [[nodiscard]] double& steam_j(std::size_t row) const {
        return rate[static_cast<std::size_t>(circuit.layout.steam_first) + row];
    }
};

// Share of the condensing that walls would do if there were steam without end. Odd in the steam:
// should rounding leave less than nothing, the walls give it back.
double steam_presence(double steam_kg, double endless_kg_s, double vanish_s) {
    constexpr double speck_kg = 1e-9;
    return steam_kg / (std::abs(steam_kg) + endless_kg_s * vanish_s + speck_kg);
}

// W/K from steam to the walls of one of the row's cells. A little reaches wet walls too.
double condensing_w_k(const Circuit& c, const LoopPicture& p, std::size_t row) {
    return (1.02 - std::min(p.wet[row], 1.0)) * condensing_w_m2k * c.rows[row].cell_area_m2;
}

double heat_capacity_j_k(const Circuit& c, const LoopPicture& p, std::size_t cell) {
    return c.metal_j_k[cell] + p.kg[cell] * c.loop_fluid.specific_heat_j_kgk(p.t_c[cell]);
}

// What the row's walls would condense of steam without end, kg/s.
double endless_kg_s(const Circuit& c, const LoopPicture& p, std::size_t row) {
    double below_k = 0.0;
    const auto first = static_cast<std::size_t>(c.layout.row_first[row]);
    for (std::size_t i = first; i < first + static_cast<std::size_t>(c.layout.row_cells[row]);
         ++i) {
        below_k += std::max(p.boiling_c - p.t_c[i], 0.0);
    }
    return condensing_w_k(c, p, row) * below_k / evaporation_j_kg;
}

void boil_rows(const Frame& f) {
    const Layout& at = f.circuit.layout;
    const double steam_j = steam_j_kg(f.circuit);
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        const auto first = static_cast<std::size_t>(at.row_first[r]);
        const auto end = first + static_cast<std::size_t>(at.row_cells[r]);
        const LoopPicture& p = f.picture;
        const double condensing_kg_s_k =
            condensing_w_k(f.circuit, p, r) / evaporation_j_kg *
            steam_presence(p.steam_kg[r], endless_kg_s(f.circuit, p, r), vanish_in_row_s);
        const auto boiling_kg_s_k = [&](std::size_t i) {
            return p.wet[r] * heat_capacity_j_k(f.circuit, p, i) / (boiling_s * evaporation_j_kg);
        };
        const auto kg_s_k = [&](std::size_t i) {
            return p.t_c[i] > p.boiling_c ? boiling_kg_s_k(i) : condensing_kg_s_k;
        };
        double all_kg_s_k = 0.0;
        for (std::size_t i = first; i < end; ++i) all_kg_s_k += std::abs(kg_s_k(i));
        const double held_back = 1.0 / (1.0 + all_kg_s_k * p.boiling_k_kg * feedback_s);
        for (std::size_t i = first; i < end; ++i) {
            const double kg_s = held_back * kg_s_k(i) * (p.t_c[i] - p.boiling_c);
            f.rate[i] -= kg_s * steam_j;
            f.steam_j(r) += kg_s * steam_j;
            f.row_kg(r) -= kg_s;
        }
    }
}

double rows_m3(const Circuit& c) {
    double sum_m3 = 0.0;
    for (std::size_t r = 0; r < static_cast<std::size_t>(c.layout.rows); ++r) sum_m3 += c.row_m3[r];
    return sum_m3;
}

// Liquid that comes into the vessel with what it carries. What a vessel is short of was booked out
// at the room's temperature (give_fluid), though it left as warm as the loop stands there: the
// difference goes after it, or it would heat or cool an empty vessel without end.
void enter_vessel(const Frame& f, double kg_s, double carried_w) {
    const Layout& at = f.circuit.layout;
    const double room_j_kg = f.circuit.loop_fluid.energy_j_kg(f.circuit.filled.vessel_c);
    const double kept_w = f.picture.vessel_kg < 0.0 ? kg_s * room_j_kg : carried_w;
    f.rate[at.vessel] += kept_w;
    f.rate[at.edges_first + static_cast<int>(Edge::fluid_out)] += carried_w - kept_w;
    f.vessel_kg() += kg_s;
}

// Steam that has outgrown the collectors condenses in the pipes, hot and cold alike. The condensate
// runs on to the vessel with its own heat; what it gave up stays in the pipe.
void condense_in_pipe(const Frame& f, int first, int step, double reach_m3) {
    const Circuit& c = f.circuit;
    const LoopPicture& p = f.picture;
    const double steam_j = steam_j_kg(c);
    double steam_kg = 0.0;
    for (const double each : p.steam_kg) steam_kg += std::max(each, 0.0);
    const double length_m = c.parameters.loop.hot_pipe.length_m / c.layout.pipe_cells;
    const double most_k = std::max(p.boiling_c - p.coldest_c, 0.0);
    const double endless =
        c.layout.pipe_cells * condensing_w_mk * length_m * most_k / evaporation_j_kg;
    const double presence = steam_presence(steam_kg, endless, vanish_in_pipe_s);
    int cell = first;
    for (int k = 0; k < c.layout.pipe_cells && reach_m3 > 0.0; ++k, cell += step) {
        const auto i = static_cast<std::size_t>(cell);
        const double cell_m3 = c.fluid_kg[i] / c.filled.fill_kg_m3;
        const double share = std::min(reach_m3 / cell_m3, 1.0);
        const double below_k = std::max(p.boiling_c - p.t_c[i], 0.0);
        const double kg_s =
            share * condensing_w_mk * length_m * below_k / evaporation_j_kg * presence;
        reach_m3 -= cell_m3;
        f.rate[i] += kg_s * (steam_j - p.e_j_kg[i]);
        enter_vessel(f, kg_s, kg_s * p.e_j_kg[i]);
        for (std::size_t r = 0; r < static_cast<std::size_t>(c.layout.rows); ++r) {
            f.steam_j(r) -= kg_s * steam_j * std::max(p.steam_kg[r], 0.0) / steam_kg;
        }
    }
}

// One stream of liquid along chain cells [from, to] in steps, ending in the vessel.
void push_to_vessel(const Frame& f, int from, int to, double kg_s, double enters_w) {
    const int step = from <= to ? 1 : -1;
    double face_w = enters_w;
    for (int i = from;; i += step) {
        const double leaves_w = kg_s * f.picture.e_j_kg[static_cast<std::size_t>(i)];
        f.rate[i] += face_w - leaves_w;
        face_w = leaves_w;
        if (i == to) break;
    }
    enter_vessel(f, kg_s, face_w);
}

// Liquid driven out of the rows goes down both pipes and joins at the station.
void push_out(const Frame& f, std::size_t row, double kg_s) {
    const Layout& at = f.circuit.layout;
    const auto first = static_cast<std::size_t>(at.row_first[row]);
    const auto cells = static_cast<std::size_t>(at.row_cells[row]);
    double leaves_w = 0.0;
    for (std::size_t i = first; i < first + cells; ++i) {
        const double cell_w = kg_s / static_cast<double>(cells) * f.picture.e_j_kg[i];
        f.rate[i] -= cell_w;
        leaves_w += cell_w;
    }
    f.row_kg(row) -= kg_s;
    push_to_vessel(f, 0, at.station_cold, 0.5 * kg_s, 0.5 * leaves_w);
    push_to_vessel(f, at.chain_cells - 1, at.station_cold, 0.5 * kg_s, 0.5 * leaves_w);
}

// It comes back by the cold pipe alone: the check valve bars the other way.
void draw_back(const Frame& f, std::size_t row, double kg_s) {
    const Layout& at = f.circuit.layout;
    double face_w = kg_s * f.picture.vessel_j_kg;
    f.rate[at.vessel] -= face_w;
    f.vessel_kg() -= kg_s;
    for (int i = at.station_cold; i < at.chain_cells; ++i) {
        const double leaves_w = kg_s * f.picture.e_j_kg[static_cast<std::size_t>(i)];
        f.rate[i] += face_w - leaves_w;
        face_w = leaves_w;
    }
    for (int i = 0; i < at.row_cells[row]; ++i) {
        f.rate[at.row_first[row] + i] += face_w / at.row_cells[row];
    }
    f.row_kg(row) += kg_s;
}

}  // namespace

double displaced_kg_s(const Circuit& circuit, const LoopPicture& picture, std::size_t row) {
    const double full_kg = circuit.row_full_kg[row];
    const double room = std::max(0.0, 1.0 - picture.gas_m3[row] / circuit.row_m3[row]);
    return full_kg * (picture.wet[row] - room) / displacement_s;
}

void add_boiling_rates(const Circuit& circuit, const LoopPicture& picture, double* rate) {
    const Frame frame{circuit, picture, rate};
    boil_rows(frame);
    const double in_pipes_m3 = picture.steam_m3 - rows_m3(circuit);
    if (in_pipes_m3 > 0.0) {
        condense_in_pipe(frame, circuit.layout.hot_pipe, 1, 0.5 * in_pipes_m3);
        condense_in_pipe(frame, circuit.layout.chain_cells - 1, -1, 0.5 * in_pipes_m3);
    }
    for (std::size_t r = 0; r < static_cast<std::size_t>(circuit.layout.rows); ++r) {
        const double kg_s = displaced_kg_s(circuit, picture, r);
        if (kg_s > 0.0) push_out(frame, r, kg_s);
        if (kg_s < 0.0) draw_back(frame, r, -kg_s);
    }
}

double stiffest_boiling_per_s(const Circuit& circuit, const LoopPicture& picture) {
    const Layout& at = circuit.layout;
    double stiffest = 1.0 / boiling_s + 1.0 / displacement_s;
    double moved_kg_s = 0.0;
    bool has_steam = picture.hottest_wet_c > picture.boiling_c;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        moved_kg_s += std::abs(displaced_kg_s(circuit, picture, r));
        has_steam = has_steam || picture.steam_kg[r] != 0.0;
    }
    if (has_steam) stiffest += 1.0 / vanish_in_row_s + 1.0 / feedback_s + 2.0 / vanish_in_pipe_s;
    double least_kg = 1e300;
    for (int i = at.station_cold; i < at.chain_cells; ++i) {
        least_kg = std::min(least_kg, circuit.fluid_kg[static_cast<std::size_t>(i)]);
    }
    return std::max(stiffest, moved_kg_s / least_kg);
}

}  // namespace noonbench::plant
