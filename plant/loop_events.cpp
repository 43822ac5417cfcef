// SPDX-License-Identifier: MIT
#include "loop_events.hpp"

#include "collector.hpp"
#include "loop_picture.hpp"
#include "si.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace noonbench::plant {
namespace {

constexpr double reference_pa = 2.0e5;  // at which leaks are stated, above the atmosphere
constexpr double day_s = 86400.0;
constexpr double litre_m3 = 1e-3;
constexpr double atmosphere_c = 20.0;  // of the litres in which trapped air is stated

struct LoopNow {
    const Circuit& circuit;
    const Levers& levers;
    Amounts& amounts;
    LoopMemory& memory;
    EdgeAmounts& edges;

    [[nodiscard]] const Layout& layout() const { return circuit.layout; }
    [[nodiscard]] double& amount(int i) const { return amounts[static_cast<std::size_t>(i)]; }
    [[nodiscard]] std::size_t rows() const { return static_cast<std::size_t>(layout().rows); }
    [[nodiscard]] double& row_kg(std::size_t r) const {
        return amounts[static_cast<std::size_t>(layout().row_kg_first) + r];
    }
    [[nodiscard]] double& steam_j(std::size_t r) const {
        return amounts[static_cast<std::size_t>(layout().steam_first) + r];
    }
    [[nodiscard]] double density() const { return circuit.filled.fill_kg_m3; }
    [[nodiscard]] double atmosphere_pa() const { return circuit.filled.atmosphere_pa; }
};

double air_kg(const LoopNow& l, double litres_m3) {
    return litres_m3 * l.atmosphere_pa() / (air_gas_j_kgk * (atmosphere_c + zero_celsius_k));
}

/// Energy of liquid that is taken at the vessel: its own as long as it holds some, then what counts
/// at the room's temperature.
double taken_from_vessel_j(const Circuit& circuit, double kg, double vessel_kg, double vessel_j) {
    const double warm_kg = std::clamp(kg, 0.0, std::max(vessel_kg, 0.0));
    const double room_j_kg = circuit.loop_fluid.energy_j_kg(circuit.filled.vessel_c);
    return warm_kg * vessel_liquid(circuit, vessel_kg, vessel_j).e_j_kg +
           (kg - warm_kg) * room_j_kg;
}

// ------------------------------------------------------------ levers that are acts

/// Moves liquid between the vessel's and what is set aside; below zero it comes back.
void set_aside(const LoopNow& l, double kg) {
    const Layout& at = l.layout();
    if (kg == 0.0) return;
    const double j =
        kg > 0.0 ? taken_from_vessel_j(l.circuit, kg, l.amount(at.vessel_kg), l.amount(at.vessel))
                 : kg * l.amount(at.set_aside) / l.memory.set_aside_kg;
    l.amount(at.vessel_kg) -= kg;
    l.amount(at.vessel) -= j;
    l.memory.set_aside_kg += kg;
    l.amount(at.set_aside) += j;
}

/// A cap that shuts keeps what the vessel holds at that moment, and gives back that when it opens:
/// what a drowned part holds stays set aside.
void move_cap(const LoopNow& l) {
    const bool shut = is_set(l.levers.vessel_cap_closed);
    if (shut == l.memory.vessel_shut) return;
    const FilledLoop& filled = l.circuit.filled;
    if (shut) {
        const LoopPicture picture = look_at_loop(l.circuit, l.levers, l.memory, l.amounts.data());
        const Vessel vessel{filled.vessel.volume_m3 * (1.0 - l.memory.waterlogged_share),
                            filled.vessel.precharge_pa * l.levers.vessel_precharge_factor};
        const double held_m3 =  // without gas it would swallow more than there is
            std::min(water_volume_m3(vessel, picture.pressure.gauge_pa),
                     std::max(picture.contents.liquid_m3, 0.0));
        set_aside(l, held_m3 / filled.fluid.at(picture.vessel_c));
    } else {
        const double drowned_kg = l.memory.waterlogged_share * filled.reserve_kg;
        set_aside(l, std::min(drowned_kg - l.memory.set_aside_kg, 0.0));
    }
    l.memory.vessel_shut = shut;
    l.memory.next_s = 0;
}

/// The rest of a waterlogged vessel acts like a smaller one that holds its part of the reserve; the
/// water in the drowned part was topped up and never counted in the loop.
void drown_vessel(const LoopNow& l) {
    const double share = l.levers.vessel_waterlogged_share;
    if (share == l.memory.waterlogged_share || l.memory.vessel_shut) return;
    const double reserve_kg = l.circuit.filled.reserve_kg;
    const double kg = reserve_kg * (share - l.memory.waterlogged_share);
    set_aside(l, std::max(kg, -l.memory.set_aside_kg));
    l.memory.waterlogged_share = share;
    l.memory.next_s = 0;
}

void obey_levers(const LoopNow& l) {
    const Levers& levers = l.levers;
    if (levers.lost_fluid_m3 != l.memory.let_out_m3) {
        const double given_kg = (l.memory.let_out_m3 - levers.lost_fluid_m3) * l.density();
        const Edge cause = given_kg > 0.0 ? Edge::filled_mass : Edge::taken_mass;
        give_fluid(l.circuit, given_kg, cause, l.amounts, l.edges);
        l.memory.let_out_m3 = levers.lost_fluid_m3;
        l.memory.next_s = 0;
    }
    if (levers.trapped_air_m3 != l.memory.air_let_in_m3) {
        l.memory.air_kg = std::max(
            0.0, l.memory.air_kg + air_kg(l, levers.trapped_air_m3 - l.memory.air_let_in_m3));
        l.memory.air_let_in_m3 = levers.trapped_air_m3;
        l.memory.next_s = 0;
    }
    move_cap(l);
    drown_vessel(l);
}

// ------------------------------------------------------------ out: valve, leaks, vent

/// In one jump, so much that the pressure falls to where the valve shuts: from the balance of
/// volumes at that pressure, no iteration.
void lift_relief_valve(const LoopNow& l, const LoopPicture& picture) {
    const FilledLoop& filled = l.circuit.filled;
    const double opening_pa = l.circuit.parameters.loop.relief_valve_pa;
    const double over_pa = picture.pressure.gauge_pa - filled.atmosphere_pa;
    if (over_pa <= opening_pa) return;
    // No lower than the top bears: at a negative pressure gas would have less room than none.
    const double shut_pa =
        std::max(filled.atmosphere_pa + opening_pa * l.levers.relief_valve_reseat,
                 filled.room.static_pa + least_top_pa);
    const double excess_m3 = picture.excess_m3(l.circuit, l.levers, l.memory, shut_pa);
    give_fluid(l.circuit, -excess_m3 / filled.fluid.at(picture.vessel_c), Edge::relief_mass,
               l.amounts, l.edges);
    l.memory.relief_lifted = true;
}

void leak(const LoopNow& l, double litres_a_day, double over_pa, double seconds, Edge cause) {
    if (litres_a_day <= 0.0 || over_pa <= 0.0) return;
    const double kg =
        litres_a_day * litre_m3 / day_s * l.density() * std::sqrt(over_pa / reference_pa) * seconds;
    give_fluid(l.circuit, -kg, cause, l.amounts, l.edges);
}

void lose_by_leaks(const LoopNow& l, const LoopPicture& picture, double seconds) {
    const double over_pa = picture.pressure.gauge_pa - l.atmosphere_pa();
    leak(l, l.levers.loop_leak, over_pa, seconds, Edge::leak_mass);
    if (l.memory.relief_lifted) {
        leak(l, l.levers.relief_valve_weeping, over_pa, seconds, Edge::relief_mass);
    }
}

/// A split absorber drains its row and lets everything above the atmosphere out at the top.
void lose_by_burst(const LoopNow& l, const LoopPicture& picture) {
    constexpr double litres_a_day = 5000.0;  // a finger's breadth of crack; assumed
    constexpr double drains_kg_s = 0.02;
    leak(l, litres_a_day, picture.pressure.top_pa - l.atmosphere_pa(), 1.0, Edge::leak_mass);
    for (std::size_t r = 0; r < l.rows(); ++r) {
        const auto first = static_cast<std::size_t>(l.layout().row_first[r]);
        const auto cells = static_cast<std::size_t>(l.layout().row_cells[r]);
        if (picture.ice[first] > stuck_ice_share) continue;
        const double kg = std::min(drains_kg_s, 0.1 * l.row_kg(r));
        double carried_j = 0.0;
        for (std::size_t i = first; i < first + cells; ++i) {
            const double cell_j = kg / static_cast<double>(cells) * picture.e_j_kg[i];
            l.amounts[i] -= cell_j;
            carried_j += cell_j;
        }
        l.row_kg(r) -= kg;
        at(l.edges, Edge::fluid_out) += carried_j;
        at(l.edges, Edge::leak_mass) += kg;
    }
}

/// An open vent on the roof lets steam go as long as there is pressure behind it.
void lose_steam(const LoopNow& l, const LoopPicture& picture) {
    constexpr double kg_s_pa = 5e-10;  // assumed: a tenth of a gram a second at 2 bar
    const double over_pa = picture.pressure.top_pa - l.atmosphere_pa();
    if (over_pa <= 0.0 || picture.steam_m3 <= 0.0) return;
    for (std::size_t r = 0; r < l.rows(); ++r) {
        const double kg = std::min(0.3 * std::max(picture.steam_kg[r], 0.0),
                                   kg_s_pa * over_pa / static_cast<double>(l.rows()));
        l.steam_j(r) -= kg * steam_j_kg(l.circuit);
        at(l.edges, Edge::fluid_out) += kg * steam_j_kg(l.circuit);
        at(l.edges, Edge::vent_mass) += kg;
    }
}

// ------------------------------------------------------------ air

void breathe(const LoopNow& l, const LoopPicture& picture) {
    constexpr double in_kg_s_pa = 4e-10;  // a litre in some minutes at a tenth of a bar; assumed
    constexpr double out_kg_s_pa = 4e-9;
    const bool vent = is_set(l.levers.roof_vent_open) || l.memory.burst;
    const double under_pa = l.atmosphere_pa() - picture.pressure.top_pa;
    if (under_pa > 0.0 && (vent || is_set(l.levers.top_draws_air))) {
        // No more than fills the loop up to the atmosphere's pressure.
        const double p_pa = l.atmosphere_pa() + l.circuit.filled.room.static_pa;
        const double room_m3 = -picture.excess_m3(l.circuit, l.levers, l.memory, p_pa);
        const double top_k = picture.contents.top_c + zero_celsius_k;
        const double most_kg = room_m3 * l.atmosphere_pa() / (air_gas_j_kgk * top_k);
        l.memory.air_kg += std::clamp(in_kg_s_pa * under_pa, 0.0, std::max(most_kg, 0.0));
    } else if (under_pa < 0.0 && vent && l.memory.air_kg > 0.0) {
        l.memory.air_kg -= std::min(l.memory.air_kg, -out_kg_s_pa * under_pa);
    }
}

/// The separator at the station takes what the flow carries down: nothing below the speed at which
/// bubbles rise in the falling pipe. 0.9 sqrt(g d) is the speed that clears a full bore bubble from
/// a pipe that runs down (from memory).
void separate_air(const LoopNow& l, double flow_m3_s) {
    if (l.memory.air_kg <= 0.0 || flow_m3_s <= 0.0) return;
    constexpr double onset_m_s = 0.05;
    const double bore_m = std::sqrt(4.0 / std::numbers::pi * l.circuit.hot_bore_m2);
    const double speed_m_s = flow_m3_s / l.circuit.hot_bore_m2;
    const double clears_m_s = 0.9 * std::sqrt(standard_gravity_m_s2 * bore_m);
    const double carried = std::clamp((speed_m_s - clears_m_s) / onset_m_s, 0.0, 1.0);
    const double length_m = l.circuit.parameters.loop.hot_pipe.length_m;
    l.memory.air_kg *= 1.0 - std::min(carried * speed_m_s / length_m, 1.0);
    if (l.memory.air_kg < 1e-7) l.memory.air_kg = 0.0;
}

void lose_bubbles(const LoopNow& l, double flow_m3_s, double seconds) {
    constexpr double running_s = 60.0 * 3600.0;  // a week or two of sunny days; assumed
    if (flow_m3_s <= 0.0 || l.memory.bubbles_kg <= 0.0) return;
    l.memory.bubbles_kg *= std::exp(-seconds / running_s);
}

// ------------------------------------------------------------ calm and disturbed

bool is_full(const LoopNow& l) {
    constexpr double nearly = 1e-4;
    for (std::size_t r = 0; r < l.rows(); ++r) {
        const double full_kg = l.circuit.row_full_kg[r];
        if (std::abs(l.row_kg(r) - full_kg) > nearly * full_kg) return false;
    }
    return true;
}

/// Liquid between a row and the vessel, carried at the giver's energy.
void top_up_row(const LoopNow& l, const LoopPicture& picture, std::size_t r) {
    const Layout& at = l.layout();
    const double kg = l.circuit.row_full_kg[r] - l.row_kg(r);
    const auto first = static_cast<std::size_t>(at.row_first[r]);
    const double j = kg * (kg > 0.0 ? picture.vessel_j_kg : picture.e_j_kg[first]);
    l.amount(at.vessel) -= j;
    l.amount(at.vessel_kg) -= kg;
    l.amounts[first] += j;
    l.row_kg(r) = l.circuit.row_full_kg[r];
}

/// The last milligram of steam goes over to the liquid, or its mass would decay for ever.
void condense_rest(const LoopNow& l) {
    constexpr double least_kg = 1e-9;
    for (std::size_t r = 0; r < l.rows(); ++r) {
        double& steam_j = l.steam_j(r);
        if (steam_j == 0.0 || std::abs(steam_j) > least_kg * steam_j_kg(l.circuit)) continue;
        l.row_kg(r) += steam_j / steam_j_kg(l.circuit);
        l.amount(l.layout().row_first[r]) += steam_j;
        steam_j = 0.0;
    }
}

bool has_steam(const LoopNow& l) {
    for (std::size_t r = 0; r < l.rows(); ++r) {
        if (l.steam_j(r) != 0.0) return true;
    }
    return false;
}

void judge_regime(const LoopNow& l, const LoopPicture& picture) {
    constexpr double thawed_k = 0.5;
    const bool boils = picture.hottest_wet_c > picture.boiling_c;
    const bool holds_gas =
        has_steam(l) || l.memory.air_kg > 0.0 || picture.pressure.cavity_m3 > 0.0;
    const double margin_k = l.memory.regime == LoopRegime::calm ? 0.0 : thawed_k;
    const bool is_icy =
        picture.most_ice > 0.0 || picture.coldest_c < l.circuit.icy.freezing_c + margin_k;
    if (boils || holds_gas || is_icy || !is_full(l)) {
        l.memory.regime = LoopRegime::disturbed;
    } else if (l.memory.regime == LoopRegime::disturbed) {
        for (std::size_t r = 0; r < l.rows(); ++r) top_up_row(l, picture, r);
        l.memory.regime = LoopRegime::calm;
    }
}

constexpr double quickest_heating_k_s = 0.1;  // a collector without flow in full sun

/// No cell gets from `coldest_c` to frost sooner: what cools is loss alone, to the coldest air
/// under the clearest sky in a storm. Fluid that comes from elsewhere is no colder than the
/// coldest.
double quickest_cooling_k_s(const LoopNow& l, double coldest_c) {
    constexpr RowWeather polar{0.0, -40.0, 20.0, -200.0};  // more than any site meets; assumed
    const Circuit& c = l.circuit;
    double quickest = 0.0;
    for (std::size_t r = 0; r < l.rows(); ++r) {
        const RowCoefficients& row = c.rows[r];
        const double loss_w =
            row.cell_area_m2 * collector_loss_w_m2(row.collector, polar, coldest_c);
        quickest = std::max(quickest, loss_w * c.quickest_row_k_j[r]);
    }
    const double factor =
        std::max({1.0, l.levers.hot_pipe_loss_factor, l.levers.cold_pipe_loss_factor});
    for (std::size_t i = 0; i < static_cast<std::size_t>(l.layout().chain_cells); ++i) {
        const double to_all_w_k = c.to_air_w_k[i] + c.to_room_w_k[i];
        const double loss_w = factor * to_all_w_k * (coldest_c - polar.air_c);
        quickest = std::max(quickest, loss_w / c.b_j_k[i]);
    }
    return quickest;
}

/// Until the liquid, warming as quickly as it can, has taken the room that the vessel leaves below
/// the relief valve's pressure; below zero where it has.
double until_valve_s(const LoopNow& l, const LoopPicture& picture) {
    constexpr double swells_1_k = 1.2e-3;  // more than any mixture below its boiling point
    const double near_pa = 0.8 * l.circuit.parameters.loop.relief_valve_pa + l.atmosphere_pa();
    if (picture.pressure.gauge_pa >= near_pa) return -1.0;
    const double room_m3 = -picture.excess_m3(l.circuit, l.levers, l.memory, near_pa);
    return room_m3 / (picture.contents.liquid_m3 * swells_1_k * quickest_heating_k_s);
}

/// Every second near an event, seldom where none can come sooner.
std::int32_t next_look_s(const LoopNow& l, const LoopPicture& picture) {
    constexpr double often_s = 10.0;
    constexpr double seldom_s = 600.0;
    constexpr double near_k = 3.0;
    const double to_boiling_k = picture.boiling_c - picture.hottest_wet_c;
    const double to_frost_s =
        (picture.coldest_c - l.circuit.icy.freezing_c) / quickest_cooling_k_s(l, picture.coldest_c);
    const double to_valve_s = until_valve_s(l, picture);
    if (l.memory.regime == LoopRegime::disturbed || l.memory.burst || to_valve_s < 0.0 ||
        to_boiling_k < near_k || to_frost_s < often_s) {
        return 1;
    }
    const bool loses = l.levers.loop_leak > 0.0 || l.levers.relief_valve_weeping > 0.0 ||
                       l.memory.bubbles_kg > 0.0;
    const double safe_s =
        std::min({(to_boiling_k - near_k) / quickest_heating_k_s, to_valve_s, to_frost_s});
    return static_cast<std::int32_t>(loses ? often_s : std::clamp(safe_s, often_s, seldom_s));
}

void split_by_ice(const LoopNow& l, const LoopPicture& picture) {
    for (std::size_t r = 0; r < l.rows(); ++r) {
        const auto first = static_cast<std::size_t>(l.layout().row_first[r]);
        const auto end = first + static_cast<std::size_t>(l.layout().row_cells[r]);
        for (std::size_t i = first; i < end; ++i) {
            if (picture.ice[i] > solid_ice_share && picture.wet[r] > 0.95) l.memory.burst = true;
        }
    }
}

void remember(const LoopNow& l, const LoopPicture& picture, double seconds) {
    if (picture.hottest_wet_c > ageing_from_c) l.memory.hot_fluid_s += seconds;
    if (picture.steam_m3 > 1e-5) l.memory.steam_s += seconds;
}

}  // namespace

double give_fluid(const Circuit& circuit, double kg, Edge cause, Amounts& amounts,
                  EdgeAmounts& edges) {
    const Layout& at = circuit.layout;
    double& vessel_kg = amounts[static_cast<std::size_t>(at.vessel_kg)];
    double& vessel_j = amounts[static_cast<std::size_t>(at.vessel)];
    if (kg >= 0.0) {
        const double j = kg * circuit.loop_fluid.energy_j_kg(circuit.filled.vessel_c);
        vessel_kg += kg;
        vessel_j += j;
        plant::at(edges, Edge::fluid_in) += j;
        plant::at(edges, cause) += kg;
        return kg;
    }
    double there_kg = vessel_kg;
    for (std::size_t r = 0; r < static_cast<std::size_t>(at.rows); ++r) {
        there_kg += amounts[static_cast<std::size_t>(at.row_kg_first) + r];
    }
    const double taken_kg = std::min(-kg, std::max(there_kg, 0.0));
    const double j = taken_from_vessel_j(circuit, taken_kg, vessel_kg, vessel_j);
    vessel_kg -= taken_kg;
    vessel_j -= j;
    plant::at(edges, Edge::fluid_out) += j;
    plant::at(edges, cause) += taken_kg;
    return -taken_kg;
}

void loop_events(const Circuit& circuit, const Levers& levers, double flow_m3_s, Amounts& amounts,
                 LoopMemory& memory, EdgeAmounts& edges) {
    const LoopNow now{circuit, levers, amounts, memory, edges};
    obey_levers(now);
    if (circuit.parameters.loop.hydraulics == Hydraulics::given) return;
    if (++memory.calm_s < memory.next_s) return;
    const auto seconds = static_cast<double>(memory.calm_s);
    memory.calm_s = 0;
    condense_rest(now);
    separate_air(now, flow_m3_s);
    lose_bubbles(now, flow_m3_s, seconds);
    const LoopPicture picture = look_at_loop(circuit, levers, memory, amounts.data());
    remember(now, picture, seconds);
    lift_relief_valve(now, picture);
    lose_by_leaks(now, picture, seconds);
    if (is_set(levers.roof_vent_open)) lose_steam(now, picture);
    split_by_ice(now, picture);
    if (memory.burst) lose_by_burst(now, picture);
    breathe(now, picture);
    judge_regime(now, picture);
    memory.next_s = next_look_s(now, picture);
}

}  // namespace noonbench::plant
