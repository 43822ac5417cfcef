// SPDX-License-Identifier: MIT
#include "theory.hpp"

#include "plant/coil.hpp"
#include "plant/fluid.hpp"
#include "plant/pipe.hpp"
#include "plant/pump.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

namespace noonbench::harness {

double flow_factor(double loss_w_m2k, double flow_w_m2k) {
    const double transfer_units = loss_w_m2k / flow_w_m2k;
    return transfer_units == 0.0 ? 1.0 : -std::expm1(-transfer_units) / transfer_units;
}

double most_stop_share(double field_w_k, double flow_w_k, double effectiveness) {
    return field_w_k / (effectiveness * flow_w_k);
}

double least_worthwhile_stop_k(double pump_w, double price_ratio, double flow_w_k,
                               double effectiveness) {
    return pump_w * price_ratio / (effectiveness * flow_w_k);
}

double critical_irradiance_w_m2(double loss_w_m2k, double gain, double excess_k) {
    return loss_w_m2k * excess_k / gain;
}

double balance_irradiance_w_m2(double eta0, double a1_w_m2k, double a2_w_m2k2, double excess_k) {
    return critical_irradiance_w_m2(a1_w_m2k + a2_w_m2k2 * excess_k, eta0, excess_k);
}

double exchanger_factor(double field_w_k, double flow_w_k, double effectiveness) {
    return 1.0 / (1.0 + field_w_k / flow_w_k * (1.0 / effectiveness - 1.0));
}

namespace {

/// W/K of one leg without the station, and its content.
struct Leg {
    double to_air_w_k = 0.0;
    double to_room_w_k = 0.0;
    double content_m3 = 0.0;
};

Leg leg_of(const plant::PipeRun& run) {
    const double u_w_mk = plant::linear_transmittance_w_mk(run.outer_diameter_m, run.insulation_m,
                                                           run.insulation_w_mk, run.surface_w_m2k);
    return {u_w_mk * run.outdoor_m, u_w_mk * (run.length_m - run.outdoor_m),
            plant::pipe_content_m3_m(run) * run.length_m};
}

/// Collectors into `loop`; returns their content, m3.
double add_field(LoopFigures& loop, const plant::Parameters& parameters) {
    double content_m3 = 0.0;
    for (const plant::Row& row : parameters.rows) {
        const plant::Collector& collector = row.collector;
        const double area_m2 = row.collectors_in_series * collector.area_m2;
        loop.area_m2 += area_m2;
        loop.eta0 += area_m2 * collector.eta0;
        loop.a1_w_m2k += area_m2 * collector.a1_w_m2k;
        loop.a2_w_m2k2 += area_m2 * collector.a2_w_m2k2;
        content_m3 += row.collectors_in_series * collector.content_m3;
    }
    if (!(loop.area_m2 > 0.0)) throw std::invalid_argument("the loop has no collector");
    loop.eta0 /= loop.area_m2;
    loop.a1_w_m2k /= loop.area_m2;
    loop.a2_w_m2k2 /= loop.area_m2;
    return content_m3;
}

/// Flow and power of a sound pump at this level, whatever signal it takes.
plant::PumpState pump_at(plant::Pump pump, double level) {
    pump.takes_speed_signal = true;
    pump.more_is_slower = false;
    pump.least_level = 0.0;
    plant::Actions actions;
    actions.pump_relay = true;
    actions.speed_signal = level;
    return plant::pump_state(pump, actions, plant::Levers{}, false);
}

/// A steady loop with running pump: what the collector's outlet does to its inlet, both over the
/// store: inlet = share * outlet - drop_k.
struct Return {
    double outlet_share = 0.0;
    double drop_k = 0.0;
    double hot_share = 0.0;   // of the outlet's excess that reaches the coil,
    double hot_drop_k = 0.0;  // less this
};

Return return_of(const LoopFigures& loop, const Moment& moment) {
    const double over_air_k = moment.store_c - moment.air_c;
    const double over_room_k = moment.store_c - loop.room_c;
    Return r;
    r.hot_share = 1.0 - (loop.hot_pipe_to_air_w_k + loop.hot_pipe_to_room_w_k) / loop.flow_w_k;
    r.hot_drop_k =
        (loop.hot_pipe_to_air_w_k * over_air_k + loop.hot_pipe_to_room_w_k * over_room_k) /
        loop.flow_w_k;
    const double cold_share =
        1.0 - (loop.cold_pipe_to_air_w_k + loop.cold_pipe_to_room_w_k) / loop.flow_w_k;
    const double cold_drop_k =
        (loop.cold_pipe_to_air_w_k * over_air_k + loop.cold_pipe_to_room_w_k * over_room_k) /
        loop.flow_w_k;
    const double past_coil = 1.0 - loop.coil_effectiveness;
    r.outlet_share = cold_share * past_coil * r.hot_share;
    r.drop_k = cold_share * past_coil * r.hot_drop_k + cold_drop_k;
    return r;
}

/// The sun in which the steady loop has this outlet over the store.
double irradiance_for_outlet_w_m2(const LoopFigures& loop, const LoopTheory& theory,
                                  const Return& back, double outlet_k, double over_air_k) {
    const double inlet_k = back.outlet_share * outlet_k - back.drop_k;
    const double useful_w_m2 =
        loop.flow_w_k * (outlet_k - inlet_k) / (loop.area_m2 * theory.flow_factor);
    return useful_w_m2 / loop.eta0 +
           balance_irradiance_w_m2(loop.eta0, loop.a1_w_m2k, loop.a2_w_m2k2, over_air_k + inlet_k);
}

}  // namespace

LoopFigures loop_figures(const plant::Parameters& parameters, double level) {
    if (!(level > 0.0 && level <= 1.0)) {
        throw std::invalid_argument("a level of " + std::to_string(level) + " is not above 0 to 1");
    }
    constexpr double working_c = 50.0;
    constexpr double density_at_c = 20.0;
    const plant::Loop& pipework = parameters.loop;
    const plant::PumpState pump = pump_at(pipework.pump, level);
    const double flow_m3_s = pump.flow_m3_s;
    if (!(flow_m3_s > 0.0)) throw std::invalid_argument("the loop has no flow");
    LoopFigures loop;
    const double field_m3 = add_field(loop, parameters);
    loop.flow_l_h_m2 = flow_m3_s * 3.6e6 / loop.area_m2;
    loop.flow_w_k =
        flow_m3_s * plant::density_kg_m3(pipework.glycol_mass_share, density_at_c) *
        plant::loop_heat_content(pipework.glycol_mass_share).specific_heat_j_kgk(working_c);
    loop.coil_effectiveness =
        plant::isothermal_effectiveness(parameters.store.solar_coil.ua_w_k, loop.flow_w_k);
    const Leg hot = leg_of(pipework.hot_pipe);
    const Leg cold = leg_of(pipework.cold_pipe);
    loop.hot_pipe_to_air_w_k = hot.to_air_w_k;
    loop.hot_pipe_to_room_w_k = hot.to_room_w_k + 0.5 * pipework.station_ua_w_k;
    loop.cold_pipe_to_air_w_k = cold.to_air_w_k;
    loop.cold_pipe_to_room_w_k = cold.to_room_w_k + 0.5 * pipework.station_ua_w_k;
    loop.round_trip_s =
        (field_m3 + hot.content_m3 + cold.content_m3 + 2.0 * pipework.station_content_m3 +
         parameters.store.solar_coil.content_m3) /
        flow_m3_s;
    loop.pump_w = pump.power_w;
    loop.room_c = parameters.store.room_c;
    return loop;
}

LoopTheory loop_theory(const LoopFigures& loop, const Differences& differences,
                       const Moment& moment) {
    const double over_air_k = moment.store_c - moment.air_c;
    LoopTheory theory;
    // The chord of the loss between store and start temperature: exact at the start.
    theory.loss_w_m2k = loop.a1_w_m2k + loop.a2_w_m2k2 * (2.0 * over_air_k + differences.start_k);
    theory.flow_factor = flow_factor(theory.loss_w_m2k, loop.flow_w_k / loop.area_m2);
    theory.field_w_k = loop.area_m2 * theory.flow_factor * theory.loss_w_m2k;
    theory.exchanger_factor =
        exchanger_factor(theory.field_w_k, loop.flow_w_k, loop.coil_effectiveness);
    theory.stop_share = most_stop_share(theory.field_w_k, loop.flow_w_k, loop.coil_effectiveness);
    theory.start_over_stop = 1.0 / theory.stop_share;
    theory.rise_k = theory.stop_share * differences.start_k;

    // Q = m cp (outlet - inlet) = A F_R U_L (start - inlet), all over the store; see Return.
    const Return back = return_of(loop, moment);
    const double k = theory.field_w_k / loop.flow_w_k;
    theory.steady_rise_k =
        (k * differences.start_k - (1.0 - k) * back.drop_k) / (1.0 - (1.0 - k) * back.outlet_share);

    const auto balance = [&](double excess_k) {
        return balance_irradiance_w_m2(loop.eta0, loop.a1_w_m2k, loop.a2_w_m2k2, excess_k);
    };
    theory.critical_w_m2 = balance(over_air_k);
    theory.start_w_m2 = balance(over_air_k + differences.start_k);
    theory.useful_w_m2 = irradiance_for_outlet_w_m2(loop, theory, back,
                                                    back.hot_drop_k / back.hot_share, over_air_k);
    theory.keep_w_m2 =
        irradiance_for_outlet_w_m2(loop, theory, back, differences.stop_k, over_air_k);
    return theory;
}

FlowChange change_with_flow(const plant::Parameters& parameters, double share,
                            const Moment& moment) {
    const auto factors = [&](double level) {
        const LoopFigures loop = loop_figures(parameters, level);
        // The loss at the store's temperature: no start difference is in this question.
        const double loss_w_m2k = loop.a1_w_m2k + loop.a2_w_m2k2 * (moment.store_c - moment.air_c);
        const double factor = flow_factor(loss_w_m2k, loop.flow_w_k / loop.area_m2);
        return FlowChange{
            factor, factor * exchanger_factor(loop.area_m2 * factor * loss_w_m2k, loop.flow_w_k,
                                              loop.coil_effectiveness)};
    };
    const FlowChange full = factors(1.0);
    const FlowChange low = factors(share);
    return {low.collector / full.collector - 1.0, low.with_coil / full.with_coil - 1.0};
}

}  // namespace noonbench::harness
