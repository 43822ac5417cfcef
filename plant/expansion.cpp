// SPDX-License-Identifier: MIT
#include "expansion.hpp"

#include "fluid.hpp"
#include "si.hpp"
#include "sun.hpp"
#include "vessel_size.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::plant {
namespace {

constexpr int most_halvings = 60;

double steam_m3(double steam_kg, const LoopRoom& room, double top_pa) {
    if (steam_kg <= 0.0) return 0.0;
    const double boiling_c =
        room.boiling ? room.boiling->boiling_c(top_pa) : boiling_point_c(room.glycol_share, top_pa);
    return steam_kg * steam_gas_j_kgk * (boiling_c + zero_celsius_k) / top_pa;
}

double air_m3(const LoopContents& contents, double top_pa) {
    return air_volume_m3(contents.air_kg, contents.top_c, top_pa);
}

/// A pressure at which the surplus is zero or less: all gas taken as large as at the floor.
double upper_bound_pa(const LoopRoom& room, const LoopContents& contents, double floor_pa) {
    const double gases_m3 =
        steam_m3(contents.steam_kg, room, least_top_pa) + air_m3(contents, least_top_pa);
    const double most_m3 = contents.liquid_m3 + gases_m3 - room.volume_m3;
    return std::max(room.fill_pa + std::max(most_m3, 0.0) / room.elasticity_m3_pa, floor_pa);
}

double root_pa(const LoopRoom& room, const Vessel& vessel, const LoopContents& contents,
               double low_pa, double high_pa) {
    constexpr double close_enough = 1e-10;  // the step after it is below a double's spacing
    // Right of the kink, where the cushion begins to give, the curve is bent one way only and
    // Newton's method comes in from the left without a single halving.
    double p_pa = std::clamp(vessel.precharge_pa, low_pa, high_pa);
    for (int i = 0; i < most_halvings; ++i) {
        const double surplus = surplus_m3(room, vessel, contents, p_pa);
        (surplus > 0.0 ? low_pa : high_pa) = p_pa;
        double next_pa = p_pa + surplus / give_m3_pa(room, vessel, contents, p_pa);
        if (!(next_pa >= low_pa && next_pa <= high_pa)) next_pa = 0.5 * (low_pa + high_pa);
        const bool is_done = std::abs(next_pa - p_pa) <= close_enough * p_pa;
        p_pa = next_pa;
        if (is_done) break;
    }
    return p_pa;
}

double content_m3(const Row& row) {
    return row.collectors_in_series * row.collector.content_m3;
}

}  // namespace

double air_volume_m3(double air_kg, double t_c, double p_pa) {
    return air_kg * air_gas_j_kgk * (t_c + zero_celsius_k) / p_pa;
}

double give_m3_pa(const LoopRoom& room, const Vessel& vessel, const LoopContents& contents,
                  double p_pa) {
    const double top_pa = p_pa - room.static_pa;
    double fall = room.elasticity_m3_pa;
    if (p_pa >= vessel.precharge_pa) fall += gas_volume_m3(vessel, p_pa) / p_pa;
    const double gases_m3 = steam_m3(contents.steam_kg, room, top_pa) + air_m3(contents, top_pa);
    return fall + gases_m3 / top_pa;
}

double SpecificVolume::at(double t_c) const {
    const double place = std::clamp(t_c - from_c, 0.0, static_cast<double>(points - 2));
    const auto i = static_cast<std::size_t>(place);
    const double beyond = t_c - from_c - static_cast<double>(i);
    return m3_kg[i] + beyond * (m3_kg[i + 1] - m3_kg[i]);
}

SpecificVolume specific_volume(double glycol_share) {
    SpecificVolume volume;
    for (std::size_t i = 0; i < SpecificVolume::points; ++i) {
        const double t_c = SpecificVolume::from_c + static_cast<double>(i);
        volume.m3_kg[i] = 1.0 / density_kg_m3(glycol_share, t_c);
    }
    return volume;
}

double gas_volume_m3(const Vessel& vessel, double p_pa) {
    return vessel.volume_m3 * std::min(1.0, vessel.precharge_pa / p_pa);
}

double water_volume_m3(const Vessel& vessel, double p_pa) {
    return vessel.volume_m3 - gas_volume_m3(vessel, p_pa);
}

double surplus_m3(const LoopRoom& room, const Vessel& vessel, const LoopContents& contents,
                  double p_pa) {
    const double top_pa = p_pa - room.static_pa;
    return contents.liquid_m3 + steam_m3(contents.steam_kg, room, top_pa) +
           air_m3(contents, top_pa) - water_volume_m3(vessel, p_pa) - room.volume_m3 -
           room.elasticity_m3_pa * (p_pa - room.fill_pa);
}

Pressure solve_pressure(const LoopRoom& room, const Vessel& vessel, const LoopContents& contents) {
    const double floor_pa = least_top_pa + room.static_pa;
    const double at_floor_m3 = surplus_m3(room, vessel, contents, floor_pa);
    if (at_floor_m3 <= 0.0) return {floor_pa, least_top_pa, -at_floor_m3};
    const double high_pa = upper_bound_pa(room, contents, floor_pa);
    const double p_pa = root_pa(room, vessel, contents, floor_pa, high_pa);
    return {p_pa, p_pa - room.static_pa, 0.0};
}

double static_pressure_pa(const Loop& loop) {
    const double cold_kg_m3 = density_kg_m3(loop.glycol_mass_share, 20.0);
    return cold_kg_m3 * standard_gravity_m_s2 * loop.height_m;
}

double vessel_precharge_pa(const Loop& loop) {
    return loop.vessel_precharge_pa.value_or(rule_precharge_pa(loop.gauge_pressure_pa));
}

double vessel_volume_m3(const Parameters& parameters, double loop_m3) {
    const Loop& loop = parameters.loop;
    if (loop.vessel_volume_m3) return *loop.vessel_volume_m3;
    VesselDuty duty{loop_m3, 0.0, vessel_precharge_pa(loop), loop.relief_valve_pa};
    for (const Row& row : parameters.rows) duty.collector_m3 += content_m3(row);
    return next_vessel_m3(needed_vessel_m3(duty));
}

FilledLoop fill_loop(const Parameters& parameters, double loop_kg) {
    const Loop& loop = parameters.loop;
    const double share = loop.glycol_mass_share;
    FilledLoop filled;
    filled.fluid = specific_volume(share);
    filled.fill_kg_m3 = 1.0 / filled.fluid.at(loop.fill_temperature_c);
    filled.atmosphere_pa = standard_pressure_pa(parameters.site.elevation_m);
    filled.vessel_c = parameters.store.room_c;
    LoopRoom& room = filled.room;
    room.volume_m3 = loop_kg / filled.fill_kg_m3;
    room.fill_pa = filled.atmosphere_pa + loop.gauge_pressure_pa;
    room.static_pa = static_pressure_pa(loop);
    room.glycol_share = share;
    room.boiling = std::make_shared<const BoilingCurve>(boiling_curve(share));
    filled.vessel = {vessel_volume_m3(parameters, room.volume_m3),
                     filled.atmosphere_pa + vessel_precharge_pa(loop)};
    filled.reserve_kg = water_volume_m3(filled.vessel, room.fill_pa) * filled.fill_kg_m3;
    return filled;
}

}  // namespace noonbench::plant
