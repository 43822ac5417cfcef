// SPDX-License-Identifier: MIT
// What the published theory of differential control says about one loop, worked out from what
// stands on its site, so that it can be put beside what the bench found. The theory knows a steady
// loop only: no heat capacities, no clouds, no least run. Where "the textbook" is named, Duffie &
// Beckman, Solar Engineering of Thermal Processes, is meant; its equation of the critical
// irradiance (6.8.2, third edition) was seen quoted, the others are from memory and derived anew.
#pragma once
#include "plant/parameters.hpp"

namespace noonbench::harness {

// ---------------------------------------------------------------- formulas
// Per square metre of collector where a name ends in _w_m2k, of the whole loop where in _w_k.

/// F'' (textbook, chapter 6): heat that a collector gives at this flow over what it would give if
/// it were at its inlet's temperature all along; 0..1. `loss_w_m2k` is F'U_L, the loss for each
/// kelvin of the fluid's mean (a1 and a2 of ISO 9806).
[[nodiscard]] double flow_factor(double loss_w_m2k, double flow_w_m2k);

/// The start/stop rule (textbook, chapter on controls; Kalogirou; Alcone & Herman 1981): the pump
/// does not stop at once after a start if the stop difference is at most this share of the start
/// difference, A F_R U_L / (eps m cp). `field_w_k` is A F_R U_L; effectiveness 1 = no exchanger.
[[nodiscard]] double most_stop_share(double field_w_k, double flow_w_k, double effectiveness);

/// The economic lower bound of the stop difference, K (Alcone & Herman 1981, from memory): below
/// it the pump's electricity is worth more than the heat it brings. `price_ratio` is that of a
/// kilowatt-hour of electricity to one of heat.
[[nodiscard]] double least_worthwhile_stop_k(double pump_w, double price_ratio, double flow_w_k,
                                             double effectiveness);

/// Critical irradiance, W/m2 (textbook, equation 6.8.2): F_R U_L (T_i - T_a) / F_R(tau alpha).
[[nodiscard]] double critical_irradiance_w_m2(double loss_w_m2k, double gain, double excess_k);

/// The same for a loss with a quadratic term (ISO 9806): (a1 x + a2 x^2) / eta0, the sun at which
/// an absorber stands at rest `excess_k` above the air.
[[nodiscard]] double balance_irradiance_w_m2(double eta0, double a1_w_m2k, double a2_w_m2k2,
                                             double excess_k);

/// F_R'/F_R (de Winter 1975, from memory): what is left of the gain when the store's side of an
/// exchanger sets the collector's inlet; 0..1. Here the store's side is the water about a coil,
/// so the loop has the lesser capacity flow.
[[nodiscard]] double exchanger_factor(double field_w_k, double flow_w_k, double effectiveness);

// ---------------------------------------------------------------- this loop

/// The loop as the theory sees it. All rows together are one field, its coefficients weighted by
/// area; full sun square on the glass, wind 3 m/s, no sky radiation.
struct LoopFigures {
    double area_m2 = 0.0;  // gross
    double eta0 = 0.0;
    double a1_w_m2k = 0.0;
    double a2_w_m2k2 = 0.0;
    double flow_l_h_m2 = 0.0;
    double flow_w_k = 0.0;  // m cp, specific heat at 50 degC, density at 20 as in the plant
    double coil_effectiveness = 0.0;  // 1 - exp(-UA / m cp), clean coil
    double hot_pipe_to_air_w_k = 0.0;
    double hot_pipe_to_room_w_k = 0.0;  // with half the station
    double cold_pipe_to_air_w_k = 0.0;
    double cold_pipe_to_room_w_k = 0.0;
    double round_trip_s = 0.0;  // all fluid of the loop over the flow
    double pump_w = 0.0;        // electric, affinity law
    double room_c = 0.0;
};

/// At a level of the pump, share of full speed above 0 to 1; the flow goes in proportion.
/// Throws std::invalid_argument for a level outside, no collector or no flow.
[[nodiscard]] LoopFigures loop_figures(const plant::Parameters& parameters, double level = 1.0);

/// The moment for which the theory is asked.
struct Moment {
    double store_c = 0.0;  // about the coil and at the lower sensor
    double air_c = 0.0;
};

/// The differences in question.
struct Differences {
    double start_k = 0.0;
    double stop_k = 0.0;
};

struct LoopTheory {
    double loss_w_m2k = 0.0;        // F'U_L between store and start temperature
    double flow_factor = 0.0;       // F''
    double field_w_k = 0.0;         // A F_R U_L
    double exchanger_factor = 0.0;  // F_R'/F_R of the coil
    double stop_share = 0.0;        // by the rule; stop / start must not be more
    double start_over_stop = 0.0;   // by the rule: start / stop must be at least this
    double rise_k = 0.0;            // by the rule: collector over store right after the start
    double steady_rise_k = 0.0;     // and in a steady loop with coil and pipes, in the same sun
    double critical_w_m2 = 0.0;     // the collector just balances its loss, inlet as the store
    double useful_w_m2 = 0.0;       // the coil just gets nothing: pipes take what there is
    double start_w_m2 = 0.0;        // the standing collector reaches the start difference
    double keep_w_m2 = 0.0;         // the running collector holds the stop difference, coil and
                                    // pipes counted; above start_w_m2 the sun between makes the
                                    // pump start and stop by turns
};

/// `start_k` must be above 0.
[[nodiscard]] LoopTheory loop_theory(const LoopFigures& loop, const Differences& differences,
                                     const Moment& moment);

/// Change of the useful heat in the same sun and with the same store when the flow falls to `share`
/// of that at full level, in parts of one: of the collector alone (F''), and with the coil
/// (F'' F_R'/F_R). What a better stratified store gains by it is not in these.
struct FlowChange {
    double collector = 0.0;
    double with_coil = 0.0;
};
[[nodiscard]] FlowChange change_with_flow(const plant::Parameters& parameters, double share,
                                          const Moment& moment);

}  // namespace noonbench::harness
