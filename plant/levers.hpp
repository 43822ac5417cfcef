// SPDX-License-Identifier: MIT
// What a fault may move inside the plant, at any tick: multipliers and switches with bounds. The
// bodies read them; no body knows a fault. Switches are 0 or 1 and count as set from 0.5 on.
#pragma once
#include <algorithm>
#include <array>
#include <string_view>

namespace noonbench::plant {

struct Levers {
    double coil_fouling = 1.0;
    double flow_factor = 1.0;
    double isolator_closed = 1.0;
    double pump_healthy = 1.0;
    double high_limit_closed = 1.0;
    double speed_profile_swapped = 0.0;
    double check_valve_leak = 0.0;
    double check_valve_held_open = 0.0;
    double strainer_clogging = 0.0;
    double loop_valve_opening = 1.0;
    double fluid_thickening = 1.0;
    double row_1_flow_factor = 1.0;
    double row_2_flow_factor = 1.0;
    double row_3_flow_factor = 1.0;
    double row_4_flow_factor = 1.0;
    double row_5_flow_factor = 1.0;
    double glass_clearness = 1.0;
    double collector_pipes_crossed = 0.0;
    double coil_ports_crossed = 0.0;
    double hot_pipe_loss_factor = 1.0;
    double cold_pipe_loss_factor = 1.0;
    double store_loss_factor = 1.0;
    double connection_loss_factor = 1.0;
    double inlet_jet = 0.0;
    double circulation_forced = 0.0;
    double backup_blocked = 0.0;
    double backup_forced = 0.0;
    double mixer_set_shift_k = 0.0;
    double mixer_stuck_share = -1.0;
    double collector_sensor_contact = 1.0;
    double second_collector_sensor_contact = 1.0;
    double store_bottom_sensor_contact = 1.0;
    double store_top_sensor_contact = 1.0;
    double vessel_precharge_factor = 1.0;
    double vessel_waterlogged_share = 0.0;
    double vessel_cap_closed = 0.0;
    double lost_fluid_m3 = 0.0;
    double relief_valve_reseat = 0.9;
    double relief_valve_weeping = 0.0;
    double loop_leak = 0.0;
    double top_draws_air = 0.0;
    double roof_vent_open = 0.0;
    double trapped_air_m3 = 0.0;
    double hot_pipe_convection = 0.0;
    double potable_vessel_healthy = 1.0;
    double passing_cloud = 0.0;  // this and the next: hands outside, read by the bench
    double open_tap = 0.0;
};

/// One line of the only list of plant levers.
struct LeverInfo {
    std::string_view name;
    double Levers::*value;
    double least;
    double most;
    double healthy;
    std::string_view unit;
    std::string_view meaning;
};

inline constexpr std::array lever_table{
    LeverInfo{"coil_fouling", &Levers::coil_fouling, 0.02, 1.0, 1.0, "1",
              "share of the solar coil's clean heat transfer that scale leaves"},
    LeverInfo{"flow_factor", &Levers::flow_factor, 0.0, 3.0, 1.0, "1",
              "flow against the given one; 0 is a shut valve, air, or an empty loop (multiplies a "
              "solved flow too, so that older scenarios mean the same)"},
    LeverInfo{"isolator_closed", &Levers::isolator_closed, 0.0, 1.0, 1.0, "switch",
              "0: the electrical isolator of the pump is off, or its plug is out"},
    LeverInfo{"pump_healthy", &Levers::pump_healthy, 0.0, 1.0, 1.0, "switch",
              "0: the pump is seized or its electronics are dead"},
    LeverInfo{"high_limit_closed", &Levers::high_limit_closed, 0.0, 1.0, 1.0, "switch",
              "0: the high-limit stat is open although nothing is hot; back to 1 is its reset"},
    LeverInfo{"speed_profile_swapped", &Levers::speed_profile_swapped, 0.0, 1.0, 0.0, "switch",
              "1: the pump takes the speed signal the other way round"},
    LeverInfo{"check_valve_leak", &Levers::check_valve_leak, 0.0, 1.0, 0.0, "1",
              "opening of the check valve against reverse flow while the pump rests"},
    LeverInfo{"check_valve_held_open", &Levers::check_valve_held_open, 0.0, 1.0, 0.0, "switch",
              "1: the check valve is pushed open both ways (solved hydraulics only)"},
    LeverInfo{"strainer_clogging", &Levers::strainer_clogging, 0.0, 0.98, 0.0, "1",
              "share of the strainer's passage that dirt has taken (solved hydraulics only)"},
    LeverInfo{"loop_valve_opening", &Levers::loop_valve_opening, 0.0, 1.0, 1.0, "1",
              "free passage of a shut-off valve in the loop; 0 is shut (solved hydraulics only)"},
    LeverInfo{"fluid_thickening", &Levers::fluid_thickening, 1.0, 20.0, 1.0, "1",
              "viscosity of aged fluid against fresh (solved hydraulics only)"},
    LeverInfo{"row_1_flow_factor", &Levers::row_1_flow_factor, 0.0, 1.0, 1.0, "1",
              "flow through the first row against its fair share; 0 is air-bound"},
    LeverInfo{"row_2_flow_factor", &Levers::row_2_flow_factor, 0.0, 1.0, 1.0, "1",
              "the same for the second row"},
    LeverInfo{"row_3_flow_factor", &Levers::row_3_flow_factor, 0.0, 1.0, 1.0, "1",
              "the same for the third row"},
    LeverInfo{"row_4_flow_factor", &Levers::row_4_flow_factor, 0.0, 1.0, 1.0, "1",
              "the same for the fourth row"},
    LeverInfo{"row_5_flow_factor", &Levers::row_5_flow_factor, 0.0, 1.0, 1.0, "1",
              "the same for the fifth row"},
    LeverInfo{"glass_clearness", &Levers::glass_clearness, 0.0, 1.0, 1.0, "1",
              "share of the sun that dirt, snow or a tree lets through"},
    LeverInfo{
        "collector_pipes_crossed", &Levers::collector_pipes_crossed, 0.0, 1.0, 0.0, "switch",
        "1: hot and cold pipe are exchanged at the roof, so each sensor sits at the other end"},
    LeverInfo{"coil_ports_crossed", &Levers::coil_ports_crossed, 0.0, 1.0, 0.0, "switch",
              "1: the solar coil is fed from its lower end"},
    LeverInfo{"hot_pipe_loss_factor", &Levers::hot_pipe_loss_factor, 0.1, 20.0, 1.0, "1",
              "heat loss of the hot pipe against the insulated one"},
    LeverInfo{"cold_pipe_loss_factor", &Levers::cold_pipe_loss_factor, 0.1, 20.0, 1.0, "1",
              "heat loss of the cold pipe against the insulated one"},
    LeverInfo{"store_loss_factor", &Levers::store_loss_factor, 0.1, 10.0, 1.0, "1",
              "heat loss of the store's jacket against the healthy one"},
    LeverInfo{"connection_loss_factor", &Levers::connection_loss_factor, 0.0, 10.0, 1.0, "1",
              "heat that climbs out by the upper connections against the healthy amount"},
    LeverInfo{"inlet_jet", &Levers::inlet_jet, 0.0, 1.0, 0.0, "1",
              "stirring of the whole store by the cold inlet, 1 = no baffle at all"},
    LeverInfo{"circulation_forced", &Levers::circulation_forced, 0.0, 1.0, 0.0, "switch",
              "1: the hot-water circulation runs day and night"},
    LeverInfo{"backup_blocked", &Levers::backup_blocked, 0.0, 1.0, 0.0, "switch",
              "1: no backup heat whatever is asked"},
    LeverInfo{"backup_forced", &Levers::backup_forced, 0.0, 1.0, 0.0, "switch",
              "1: backup heat whatever is asked"},
    LeverInfo{"mixer_set_shift_k", &Levers::mixer_set_shift_k, -30.0, 30.0, 0.0, "K",
              "how far the mixing valve's setting has drifted"},
    LeverInfo{"mixer_stuck_share", &Levers::mixer_stuck_share, -1.0, 1.0, -1.0, "1",
              "hot share at which the mixing valve is stuck; below 0 it works"},
    LeverInfo{"collector_sensor_contact", &Levers::collector_sensor_contact, 0.0, 1.0, 1.0, "1",
              "first row's sensor: 1 home in its pocket, 0 hangs in the outside air"},
    LeverInfo{"second_collector_sensor_contact", &Levers::second_collector_sensor_contact, 0.0, 1.0,
              1.0, "1", "the same for the second row"},
    LeverInfo{"store_bottom_sensor_contact", &Levers::store_bottom_sensor_contact, 0.0, 1.0, 1.0,
              "1", "lower store sensor: 1 home in its pocket, 0 reads the room"},
    LeverInfo{"store_top_sensor_contact", &Levers::store_top_sensor_contact, 0.0, 1.0, 1.0, "1",
              "upper store sensor: 1 home in its pocket, 0 reads the room"},
    LeverInfo{"vessel_precharge_factor", &Levers::vessel_precharge_factor, 0.0, 1.5, 1.0, "1",
              "gas in the expansion vessel against its precharge (absolute); 0 is none left"},
    LeverInfo{"vessel_waterlogged_share", &Levers::vessel_waterlogged_share, 0.0, 0.99, 0.0, "1",
              "share of the expansion vessel lost to water, topped up to the cold pressure since"},
    LeverInfo{"vessel_cap_closed", &Levers::vessel_cap_closed, 0.0, 1.0, 0.0, "switch",
              "1: the expansion vessel has been shut off since the cold fill"},
    LeverInfo{"lost_fluid_m3", &Levers::lost_fluid_m3, -0.02, 0.02, 0.0, "m3",
              "fluid let out of the loop since it was filled; below 0 it was topped up"},
    LeverInfo{"relief_valve_reseat", &Levers::relief_valve_reseat, 0.05, 0.98, 0.9, "1",
              "share of its opening pressure at which the relief valve shuts again"},
    LeverInfo{"relief_valve_weeping", &Levers::relief_valve_weeping, 0.0, 20.0, 0.0, "l/day",
              "what the relief valve's seat lets pass at 2 bar once it has lifted"},
    LeverInfo{"loop_leak", &Levers::loop_leak, 0.0, 200.0, 0.0, "l/day",
              "fluid lost through a leaky joint at 2 bar"},
    LeverInfo{"top_draws_air", &Levers::top_draws_air, 0.0, 1.0, 0.0, "switch",
              "1: a joint at the collectors' top lets air in when the loop sucks there"},
    LeverInfo{"roof_vent_open", &Levers::roof_vent_open, 0.0, 1.0, 0.0, "switch",
              "1: the automatic vent on the roof is open: air and steam out, air in"},
    LeverInfo{"trapped_air_m3", &Levers::trapped_air_m3, 0.0, 0.01, 0.0, "m3",
              "air left at the loop's top by filling or service, as litres of the atmosphere"},
    LeverInfo{"hot_pipe_convection", &Levers::hot_pipe_convection, 0.0, 1.0, 0.0, "1",
              "how freely heat climbs inside the hot pipe alone; 1 = no heat trap at all"},
    LeverInfo{"potable_vessel_healthy", &Levers::potable_vessel_healthy, 0.0, 1.0, 1.0, "switch",
              "0: the store's own expansion vessel has failed, so its cold side drips as it heats"},
    LeverInfo{"passing_cloud", &Levers::passing_cloud, 0.0, 1.0, 0.0, "1",
              "share of the sun that a cloud passing by takes away"},
    LeverInfo{"open_tap", &Levers::open_tap, 0.0, 30.0, 0.0, "l/min",
              "what somebody draws beside the household's own draws, mixed water"},
};

/// Finds a lever by its name; null when there is none.
[[nodiscard]] constexpr const LeverInfo* find_lever(std::string_view name) {
    for (const LeverInfo& lever : lever_table) {
        if (lever.name == name) return &lever;
    }
    return nullptr;
}

/// Sets one lever, kept within its bounds; false when there is no lever of that name.
constexpr bool set_lever(Levers& levers, std::string_view name, double value) {
    const LeverInfo* lever = find_lever(name);
    if (lever == nullptr) return false;
    levers.*(lever->value) = std::clamp(value, lever->least, lever->most);
    return true;
}

[[nodiscard]] constexpr bool is_set(double lever_switch) {
    return lever_switch >= 0.5;
}

}  // namespace noonbench::plant
