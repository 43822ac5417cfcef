// SPDX-License-Identifier: MIT
#include "theory_effects.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace noonbench::harness {

namespace {

constexpr const char* textbook =
    "Duffie & Beckman, Solar Engineering of Thermal Processes, controls (from memory, derived "
    "anew)";

double in_kelvin(const firmware::Settings& settings, firmware::Setting setting) {
    return settings[setting] / 100.0;
}

/// The level down to which the speed is taken back; 1 when it is not.
double lowest_level(const Scenario& scenario) {
    const firmware::Settings& settings = scenario.controller.settings;
    const plant::Pump& pump = scenario.plant.loop.pump;
    if (!pump.takes_speed_signal || settings[firmware::Setting::pump_drive] == 0) return 1.0;
    return std::max(settings[firmware::Setting::least_level] / 100.0, pump.least_level);
}

struct AtLevel {
    std::string name;  // "full flow", "30 % flow"
    LoopFigures loop;
    LoopTheory theory;
};

AtLevel at_level(const Scenario& scenario, double level, const Differences& differences,
                 const Moment& moment) {
    AtLevel result;
    result.name = level == 1.0 ? "full flow" : number_text(100.0 * level, 0) + " % flow";
    result.loop = loop_figures(scenario.plant, level);
    result.theory = loop_theory(result.loop, differences, moment);
    return result;
}

TheoryLine rule_line(const AtLevel& at, const Differences& differences) {
    const bool kept = differences.stop_k <= at.theory.rise_k;
    const std::string set =
        differences.stop_k > 0.0 ? number_text(differences.start_k / differences.stop_k, 1) : "any";
    return {
        .name = "start over stop, " + at.name,
        .rule =
            "no start and stop by turns in weak sun if start/stop is at least "
            "ε ṁ c / (A F_R U_L)",
        .source = textbook,
        .theory = fmt::format("at least {}; set {}: {}", number_text(at.theory.start_over_stop, 1),
                              set, kept ? "steady" : "starts and stops by turns"),
        .simulated = {},
        .why = {}};
}

TheoryLine sun_line(const AtLevel& at) {
    return {.name = "sun that starts and keeps, " + at.name,
            .rule =
                "standing collector reaches the start difference; running one holds the stop "
                "difference, coil and pipes counted",
            .source = "steady balance of the loop (ours, after the textbook)",
            .theory = fmt::format("starts at {}, runs on from {} W/m²",
                                  number_text(at.theory.start_w_m2, 0),
                                  number_text(at.theory.keep_w_m2, 0)),
            .simulated = {},
            .why = {}};
}

TheoryLine critical_line(const AtLevel& at, const Moment& moment) {
    return {.name = "critical irradiance",
            .rule = fmt::format("F_R U_L (T_store − T_air) / F_R(τα), store {} °C, air {} °C",
                                number_text(moment.store_c, 0), number_text(moment.air_c, 0)),
            .source = "Duffie & Beckman, equation 6.8.2 (quoted in public documentation)",
            .theory = fmt::format("{} W/m²; {} before the coil gets any",
                                  number_text(at.theory.critical_w_m2, 0),
                                  number_text(at.theory.useful_w_m2, 0)),
            .simulated = {},
            .why = {}};
}

TheoryLine coil_line(const AtLevel& at) {
    return {.name = "coil, " + at.name,
            .rule = "F_R'/F_R = 1 / (1 + A F_R U_L / (ṁ c) (1/ε − 1))",
            .source = "de Winter 1975 (from memory)",
            .theory = fmt::format("{}: costs {} % of the gain; effectiveness {}",
                                  number_text(at.theory.exchanger_factor, 3),
                                  number_text(100.0 * (1.0 - at.theory.exchanger_factor), 1),
                                  number_text(at.loop.coil_effectiveness, 2)),
            .simulated = {},
            .why = {}};
}

TheoryLine worth_line(const AtLevel& at, double electricity_weight) {
    const double least_k = least_worthwhile_stop_k(at.loop.pump_w, electricity_weight,
                                                   at.loop.flow_w_k, at.loop.coil_effectiveness);
    return {.name = "stop difference that pays, " + at.name,
            .rule = fmt::format("at least P w / (ε ṁ c), electricity counted {} times",
                                number_text(electricity_weight, 1)),
            .source = "Alcone & Herman 1981 (from memory)",
            .theory = fmt::format("{} K with {} W", number_text(least_k, 1),
                                  number_text(at.loop.pump_w, 0)),
            .simulated = {},
            .why = {}};
}

TheoryLine flow_line(const Scenario& scenario, const AtLevel& at, const Moment& moment) {
    const FlowChange change = change_with_flow(scenario.plant, 1.0 / 3.0, moment);
    return {.name = "a third of the flow",
            .rule = fmt::format("F'' at {} against {} l/h m²; published: about −6 % from 54 to 18, "
                                "more than repaid by layers in the store",
                                number_text(at.loop.flow_l_h_m2 / 3.0, 0),
                                number_text(at.loop.flow_l_h_m2, 0)),
            .source = "Duffie & Beckman, chapter 6 (from memory); Kalogirou (excerpts seen)",
            .theory = fmt::format("collector {} %, with the coil {} %",
                                  number_text(100.0 * change.collector, 1),
                                  number_text(100.0 * change.with_coil, 1)),
            .simulated = {},
            .why = {}};
}

}  // namespace

std::vector<TheoryLine> theory_lines(const Scenario& scenario, const Moment& moment,
                                     double electricity_weight) {
    const firmware::Settings& settings = scenario.controller.settings;
    const Differences differences{in_kelvin(settings, firmware::Setting::start_difference),
                                  in_kelvin(settings, firmware::Setting::stop_difference)};
    const AtLevel full = at_level(scenario, 1.0, differences, moment);
    std::vector<TheoryLine> lines{rule_line(full, differences), sun_line(full)};
    const double lowest = lowest_level(scenario);
    if (lowest < 1.0) {
        const AtLevel least = at_level(scenario, lowest, differences, moment);
        lines.push_back(rule_line(least, differences));
        lines.push_back(sun_line(least));
    }
    lines.push_back(critical_line(full, moment));
    lines.push_back(coil_line(full));
    lines.push_back(worth_line(full, electricity_weight));
    lines.push_back(flow_line(scenario, full, moment));
    return lines;
}

}  // namespace noonbench::harness
