// SPDX-License-Identifier: MIT
// Between roof and store: pipes, fluid, pump, pressure.
#include "key_making.hpp"

namespace noonbench::harness {

namespace {

plant::Loop& loop(Draft& d) {
    return d.scenario.plant.loop;
}

struct PipeKey {
    const char* name;
    Bounds bounds;
    const char* meaning;
    double plant::PipeRun::*value;
};

constexpr PipeKey pipe_keys[] = {
    {"length", {"m", 0.5, 100}, "between collector and station", &plant::PipeRun::length_m},
    {"outdoor_length", {"m", 0, 100}, "part of it in the outside air", &plant::PipeRun::outdoor_m},
    {"outer_diameter", {"mm", 6, 60}, "of the bare pipe", &plant::PipeRun::outer_diameter_m},
    {"wall", {"mm", 0.3, 4}, "thickness of the copper", &plant::PipeRun::wall_m},
    {"insulation", {"mm", 0, 100}, "thickness", &plant::PipeRun::insulation_m},
    {"insulation_conductivity", {"W/(m K)", 0.01, 1}, "", &plant::PipeRun::insulation_w_mk},
    {"surface_transfer",
     {"W/(m2 K)", 2, 50},
     "from the outermost surface to the air",
     &plant::PipeRun::surface_w_m2k},
};

std::string pipe_meaning(const char* leg, const PipeKey& row) {
    std::string meaning = leg;
    if (*row.meaning != '\0') meaning += std::string("; ") + row.meaning;
    return meaning;
}

/// `pipes` gives both legs at once, `hot_pipe` and `cold_pipe` one alone.
void add_pipe_keys(std::vector<Key>& keys) {
    for (const PipeKey& row : pipe_keys) {
        const auto value = row.value;
        Key both = number_key(std::string("loop.pipes.") + row.name, row.bounds,
                              pipe_meaning("each of the two pipes", row),
                              [value](Draft& d) { return &(d.both_pipes.*value); });
        both.take = [value](Draft& d) -> std::vector<Objection> {
            loop(d).hot_pipe.*value = loop(d).cold_pipe.*value = d.both_pipes.*value;
            return {};
        };
        keys.push_back(std::move(both));
    }
    for (const PipeKey& row : pipe_keys) {
        const auto value = row.value;
        keys.push_back(number_key(std::string("loop.hot_pipe.") + row.name, row.bounds,
                                  pipe_meaning("hot pipe", row),
                                  [value](Draft& d) { return &(loop(d).hot_pipe.*value); }));
    }
    for (const PipeKey& row : pipe_keys) {
        const auto value = row.value;
        keys.push_back(number_key(std::string("loop.cold_pipe.") + row.name, row.bounds,
                                  pipe_meaning("cold pipe", row),
                                  [value](Draft& d) { return &(loop(d).cold_pipe.*value); }));
    }
}

void add_pump_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("loop.pump.full_flow", {"l/min", 0.2, 20},
                              "flow at full level, as set at the flow regulator",
                              [](Draft& d) { return &loop(d).pump.full_flow_m3_s; }));
    keys.push_back(number_key("loop.pump.shut_off_head", {"m", 0.5, 30},
                              "head at full level and no flow (solved hydraulics)",
                              [](Draft& d) { return &loop(d).pump.shut_off_head_m; }));
    keys.push_back(number_key("loop.pump.free_flow", {"l/min", 1, 300},
                              "flow at full level and no head (solved hydraulics)",
                              [](Draft& d) { return &loop(d).pump.free_flow_m3_s; }));
    keys.push_back(number_key("loop.pump.least_level", {"%", 0, 90},
                              "below this speed signal nothing moves",
                              [](Draft& d) { return &loop(d).pump.least_level; }));
    keys.push_back(number_key("loop.pump.full_power", {"W", 1, 300}, "electric, at full level",
                              [](Draft& d) { return &loop(d).pump.full_power_w; }));
    keys.push_back(number_key("loop.pump.least_power", {"W", 0, 300}, "electric, when just turning",
                              [](Draft& d) { return &loop(d).pump.least_power_w; }));
    keys.push_back(number_key("loop.pump.heat_share", {"%", 0, 100},
                              "of the electric power that ends in the fluid",
                              [](Draft& d) { return &loop(d).pump.heat_share; }));
    keys.push_back(key_of(Form::flag, "loop.pump.takes_speed_signal",
                          "no: mains alone, full level when powered",
                          [](Draft& d) { return &loop(d).pump.takes_speed_signal; }));
    keys.push_back(key_of(Form::flag, "loop.pump.more_is_slower",
                          "yes: the pump's own profile is that of a heating pump",
                          [](Draft& d) { return &loop(d).pump.more_is_slower; }));
}

void add_pressure_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("loop.fill_temperature", {"degC", -10, 50},
                              "of all fluid when the gauge showed loop.pressure",
                              [](Draft& d) { return &loop(d).fill_temperature_c; }));
    keys.push_back(
        number_key("loop.vessel.volume", {"l", 1, 1000},
                   "of the expansion vessel at the station; not given: by the usual rule",
                   [](Draft& d) { return &loop(d).vessel_volume_m3; }));
    keys.push_back(number_key("loop.vessel.precharge", {"bar", 0, 6},
                              "of its gas, set with the loop empty (above the atmosphere); not "
                              "given: 0.5 bar below loop.pressure",
                              [](Draft& d) { return &loop(d).vessel_precharge_pa; }));
    keys.push_back(number_key("loop.fresh_bubbles", {"l", 0, 5},
                              "fine bubbles of a new fill, as litres of the atmosphere; they leave "
                              "by the separator in the first weeks",
                              [](Draft& d) { return &loop(d).fresh_bubbles_m3; }));
    keys.push_back(number_key("loop.relief_valve.opening", {"bar", 1, 16},
                              "above the atmosphere; shuts again at nine tenths of it",
                              [](Draft& d) { return &loop(d).relief_valve_pa; }));
}

void add_hydraulics_keys(std::vector<Key>& keys) {
    keys.push_back(word_key("loop.hydraulics", {"given", "solved"},
                            "given: full_flow in proportion to the pump's level, all fluid liquid "
                            "whatever happens; solved: where pump curve, resistances and buoyancy "
                            "balance, with steam, air and ice",
                            [](Draft& d) { return byte_of(loop(d).hydraulics); }));
    keys.push_back(number_key("loop.check_valve.opening", {"hPa", 0, 200},
                              "pressure that opens it forward (solved hydraulics)",
                              [](Draft& d) { return &loop(d).check_valve_opening_pa; }));
    keys.push_back(number_key("loop.fittings", {"", 0, 1000},
                              "sum of the resistance coefficients of bends, branches and bodies, "
                              "on the cold pipe's bore (solved hydraulics)",
                              [](Draft& d) { return &loop(d).fittings_zeta; }));
}

}  // namespace

void add_loop_keys(std::vector<Key>& keys) {
    keys.push_back(number_key("loop.glycol_share", {"%", 0, 60},
                              "propylene glycol by mass; 0 % is water",
                              [](Draft& d) { return &loop(d).glycol_mass_share; }));
    keys.push_back(number_key("loop.pressure", {"bar", 0, 6},
                              "cold, at the station's gauge (above the atmosphere)",
                              [](Draft& d) { return &loop(d).gauge_pressure_pa; }));
    keys.push_back(number_key("loop.height", {"m", 0, 40}, "collector's top above the gauge",
                              [](Draft& d) { return &loop(d).height_m; }));
    add_pressure_keys(keys);
    add_hydraulics_keys(keys);
    add_pipe_keys(keys);
    keys.push_back(number_key("loop.station.content", {"l", 0.1, 10},
                              "of each leg, with the thermometer in it",
                              [](Draft& d) { return &loop(d).station_content_m3; }));
    keys.push_back(number_key("loop.station.heat_loss", {"W/K", 0, 10}, "of each leg",
                              [](Draft& d) { return &loop(d).station_ua_w_k; }));
    add_pump_keys(keys);
    keys.push_back(number_key("loop.pipe_cells", {"", 2, 24}, "cells of each pipe in the model",
                              [](Draft& d) { return &d.scenario.plant.pipe_cells; }));
}

}  // namespace noonbench::harness
