// SPDX-License-Identifier: MIT
#include "cautions.hpp"

#include "plant/expansion.hpp"
#include "plant/fluid.hpp"

#include <fmt/format.h>

#include <cmath>

namespace noonbench::harness {
namespace {

bool ran_for_frost(const RunResult& result) {
    return result.total.reason_h[static_cast<std::size_t>(firmware::PumpReason::guarding_frost)] >
           0.0;
}

void add_pressure_cautions(const RunResult& result, std::vector<std::string>& cautions) {
    const plant::Loop& loop = result.scenario.plant.loop;
    const double opening_bar = loop.relief_valve_pa / 1e5;
    if (result.total.gauge_highest_bar >= opening_bar) {
        cautions.push_back(fmt::format(
            "Relief valve: the gauge reached {:.1f} bar, and the valve opens at {:.1f} bar. It "
            "would lift here; what it lets go is not computed yet. Its outlet belongs in a marked "
            "can, never on a roof or a person.",
            result.total.gauge_highest_bar, opening_bar));
    }
    const double column_bar = plant::static_pressure_pa(loop) / 1e5;
    if (result.total.gauge_least_bar < column_bar) {
        cautions.push_back(fmt::format(
            "Low pressure: the gauge fell to {:.1f} bar, less than the {:.1f} bar that lifts the "
            "fluid to the collector's top. Such a loop draws in air and stops flowing. Find the "
            "leak "
            "first; fill only cold or covered.",
            result.total.gauge_least_bar, column_bar));
    }
}

}  // namespace

namespace {

std::string fate_of_ice(const RunResult& result) {
    if (result.scenario.plant.loop.hydraulics == plant::Hydraulics::given) {
        return "Ice and burst are not computed here: on a real roof this collector would have been "
               "lost.";
    }
    return result.fluid.burst
               ? "It froze solid and split: such a loop empties itself when it thaws."
               : "Slush stops the flow, solid ice splits the absorber: never start a pump against "
                 "it, let it thaw and look for damage first.";
}

}  // namespace

std::vector<std::string> cautions_of(const RunResult& result) {
    std::vector<std::string> cautions;
    const Sums& total = result.total;
    const bool glycol = result.scenario.plant.loop.glycol_mass_share > 0.0;
    if (total.collector_highest_c >= result.boiling_point_c) {
        cautions.push_back(fmt::format(
            "Steam: the collector reached {:.0f} °C, and at the pressure it began with the fluid "
            "boils from about {:.0f} °C. Never open a vent, drain or filling valve on a hot loop; "
            "wait for evening or cover the collectors.",
            total.collector_highest_c, result.boiling_point_c));
    }
    add_pressure_cautions(result, cautions);
    if (total.store_top_highest_c > 60.0) {
        cautions.push_back(fmt::format(
            "Scalding: the store reached {:.0f} °C. A thermostatic mixing valve belongs on the hot "
            "outlet; test it at handover with a thermometer. Water of 60 °C scalds in seconds.",
            total.store_top_highest_c));
    }
    cautions.emplace_back(
        "Legionella: a thermostat's figure is not a proof. Vulnerable users, large systems and "
        "rented homes need the local rule and its log book.");
    if (!glycol || ran_for_frost(result)) {
        cautions.emplace_back(
            "Frost: a frost guard needs mains and a healthy pump; in a power cut a water-filled "
            "collector freezes and bursts. It is no substitute for the right fluid.");
    }
    const double freezes_c = plant::freezing_point_c(result.scenario.plant.loop.glycol_mass_share);
    if (total.collector_lowest_c <= freezes_c) {
        cautions.push_back(fmt::format(
            "Frozen: the collector fell to {:.1f} °C and its fluid freezes at {:.1f} °C. {}",
            total.collector_lowest_c, std::abs(freezes_c) < 0.05 ? 0.0 : freezes_c,  // no "-0.0"
            fate_of_ice(result)));
    }
    cautions.emplace_back(
        "Pressure: the store's own safety chain (thermostat, non-self-resetting stat that also "
        "stops the solar pump, temperature-and-pressure valve, expansion valve) is hard-wired and "
        "outside the controller; the store ceiling here never replaces it. Unvented stores are for "
        "licensed people.");
    cautions.emplace_back(
        "Mains and height: isolate and prove dead before opening a terminal box; plan safe access "
        "before going on any roof, and measure on the ground first.");
    cautions.emplace_back(
        "Hand mode: here 'on by hand' still obeys the store ceiling. Many real controllers "
        "override "
        "everything in hand mode: set back to automatic before you leave.");
    cautions.emplace_back("Local codes and licensed practice decide, not this bench.");
    return cautions;
}

}  // namespace noonbench::harness
