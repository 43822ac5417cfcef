// SPDX-License-Identifier: MIT
// The whole plant as a value: copy it and the world is forked. Time is passed in; a tick is one
// second; things with memory (stat, own thermostat) change on ticks only.
#pragma once
#include "balance.hpp"
#include "drive.hpp"
#include "layout.hpp"
#include "levers.hpp"
#include "loop_memory.hpp"
#include "parameters.hpp"
#include "pump.hpp"

#include <array>
#include <memory>
#include <string>

namespace noonbench::plant {

struct Circuit;  // parameters, layout and coefficients; never changes after make_plant

/// Which solver carries the plant through a second; both call the same right-hand side.
enum class Method : std::uint8_t {
    everyday,  // midpoint rule, 2 stages a second
    reference  // classical Runge-Kutta, 4 stages a second
};

/// Everything with memory that is not an amount; moves on ticks.
struct Modes {
    bool high_limit_tripped = false;  // not self-resetting: reset by lever high_limit_closed 0 -> 1
    bool own_thermostat_on = false;
    bool safety_valve_open = false;  // of the store: temperature-and-pressure valve
    LoopMemory loop{};
};

/// What one second did; amounts are joules in this second, so watts in the mean.
struct StepReport {
    EdgeAmounts edges{};
    PumpState pump{};
    double flow_m3_s = 0.0;  // of the loop; negative backward through a leaking check valve
    bool backup_on = false;
    bool circulation_on = false;
    double delivered_c = 0.0;         // at the tap after the mixing valve; mains when nothing flows
    double delivered_energy_j = 0.0;  // over the cold water
    double hot_draw_kg_s = 0.0;       // out of the store
    double tap_flow_kg_s = 0.0;       // out of the tap, mixed
    Residual residual{};
    int substeps = 1;
};

struct Plant {
    std::shared_ptr<const Circuit> circuit;
    Levers levers{};
    Modes modes{};
    Amounts amounts{};
    Books books{};
    Balance balance{};
    double filled_kg = 0.0;  // fluid of the loop at the start
    StepReport last{};
    Method method = Method::everyday;
    double stride_s = 1.0;  // how far the next stride tries to reach, see stride.hpp
};

/// A plant at rest: loop pipes and station at room temperature, collectors at the air's, the store
/// linear from bottom to top, sensors at their bodies' temperatures.
/// Throws std::invalid_argument with the reason when the parameters make no plant.
[[nodiscard]] Plant make_plant(const Parameters& parameters, double start_store_bottom_c,
                               double start_store_top_c, double start_air_c);

[[nodiscard]] const Parameters& parameters_of(const Plant& plant);
[[nodiscard]] const Layout& layout_of(const Plant& plant);
/// With solved hydraulics false when the pump, with the flow setter open and everything at 40 degC,
/// gives less than its full_flow; always true with given hydraulics.
[[nodiscard]] bool full_flow_reached(const Plant& plant);

/// Carries the plant from `now` to `now` + 1 s. `tap_flow_kg_s` is what leaves the tap (mixed).
StepReport advance(Plant& plant, const WeatherSpan& weather, CivilSeconds now,
                   const Actions& actions, double tap_flow_kg_s);

/// What the sensors of the loop and store show; cheap, for every tick.
struct Readings {
    double collector_sensor_c = 0.0;
    double second_collector_sensor_c = 0.0;  // the first again when there is one row
    double store_bottom_sensor_c = 0.0;
    double store_top_sensor_c = 0.0;
    double station_hot_c = 0.0;
    double station_cold_c = 0.0;
};
[[nodiscard]] Readings readings(const Plant& plant);

/// Everything that the bench may show; powers are means of the last second.
struct View {
    Readings sensors{};
    int rows = 0;
    std::array<double, most_rows> row_inlet_c{};
    std::array<double, most_rows> row_outlet_c{};
    std::array<double, most_rows> row_hottest_c{};
    int layers = 0;
    std::array<double, most_layers> layer_c{};  // from the bottom up
    double flow_m3_s = 0.0;                     // negative when the loop flows backward
    bool pump_powered = false;
    bool pump_turning = false;
    bool fluid_moving = false;
    double pump_power_w = 0.0;
    bool high_limit_tripped = false;
    bool backup_on = false;
    bool circulation_on = false;
    double delivered_c = 0.0;
    double hot_draw_kg_s = 0.0;
    double absorbed_w = 0.0;
    double collector_loss_w = 0.0;
    double collector_to_loop_w = 0.0;
    double pipe_loss_w = 0.0;
    double pump_heat_w = 0.0;
    double coil_w = 0.0;
    double store_loss_w = 0.0;
    double backup_w = 0.0;
    double tapped_w = 0.0;
    double circulation_loss_w = 0.0;
    double stored_j = 0.0;
    bool extrapolated = false;  // some loop fluid is above 100 degC, beyond the property tables
};
[[nodiscard]] View view(const Plant& plant);

/// Single places of the same picture, for who watches a few of them every tick; rows and layers
/// count from 0, layers from the bottom up.
[[nodiscard]] double row_outlet_c(const Plant& plant, std::size_t row);
[[nodiscard]] double row_hottest_c(const Plant& plant, std::size_t row);
[[nodiscard]] double layer_c(const Plant& plant, std::size_t layer);

/// Pressures above the atmosphere, Pa, worked out from the amounts when asked for, a fraction of a
/// microsecond. The pump's own pressure is not in them.
struct LoopPressure {
    double gauge_pa = 0.0;       // at the station; below zero the loop sucks
    double top_pa = 0.0;         // at the collectors' top; not below 0.1 bar absolute
    double atmosphere_pa = 0.0;  // absolute, at the site's height above the sea
    double cavity_m3 = 0.0;      // room at the top that no liquid fills
};
[[nodiscard]] LoopPressure loop_pressure(const Plant& plant);

/// The state of the loop's fluid, worked out when asked for.
struct LoopFluidState {
    double steam_m3 = 0.0;
    double gas_m3 = 0.0;          // air at the top and cavity, without the bubbles of a new fill
    double most_ice_share = 0.0;  // of the cell that holds most
    double vessel_c = 0.0;
    double lost_kg =
        0.0;              // by valve, leak and vent since the start; what hands took or gave is not
    double can_kg = 0.0;  // of these, in the can under the relief valve
    double fill_kg_m3 = 0.0;  // density at the fill
    double total_kg = 0.0;    // all fluid of the loop, steam and what is set aside included
};
[[nodiscard]] double loop_fluid_kg(const Plant& plant);
[[nodiscard]] LoopFluidState loop_fluid_state(const Plant& plant);
/// Water from the store at its tundish since the start, l: cold-side expansion without a healthy
/// potable vessel, and the temperature-and-pressure valve.
[[nodiscard]] double tundish_l(const Plant& plant);
/// Kilograms that came in less those that went out, less what the loop holds more than at the
/// start: zero but for rounding.
[[nodiscard]] double fluid_balance_kg(const Plant& plant, Edge left_out = Edge::count);
[[nodiscard]] double gauge_pressure_pa(const Plant& plant);
[[nodiscard]] double top_pressure_pa(const Plant& plant);

/// Balance of the whole run so far; `left_out` shows what a forgotten edge does.
[[nodiscard]] Residual balance_of_run(const Plant& plant, Edge left_out = Edge::count);

}  // namespace noonbench::plant
