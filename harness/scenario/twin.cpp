// SPDX-License-Identifier: MIT
#include "twin.hpp"

#include "read.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace noonbench::harness {

namespace {

bool is_of_fault(const Move& move) {
    return !move.fault.empty();
}

/// No move of a fault, and no word about it.
void forget_fault(Scenario& scenario) {
    std::erase_if(scenario.moves, is_of_fault);
    scenario.fault.reset();
    scenario.title =
        scenario.title.empty() ? "The healthy twin" : scenario.title + ", the healthy twin";
    scenario.about = "The same site, the same sky and the same people, with nothing broken.";
    scenario.name += "_healthy";
}

}  // namespace

bool has_twin(const Scenario& scenario) {
    return (scenario.fault && !scenario.fault->twin.empty()) ||
           std::any_of(scenario.moves.begin(), scenario.moves.end(), is_of_fault);
}

Scenario healthy_twin_of(const Node& root, const std::filesystem::path& file) {
    Scenario scenario = read_scenario_tree(root, file);
    if (!has_twin(scenario)) {
        throw InputRefused({{file.string(), 0, 0,
                             scenario.fault ? "has no healthy twin: its fault changes nothing"
                                            : "has no healthy twin: it shows no fault",
                             "a file with faults: or with fault.twin: [path.to.key=VALUE]"}});
    }
    if (scenario.fault && !scenario.fault->twin.empty())
        scenario = read_twin_tree(root, scenario.fault->twin, file);
    forget_fault(scenario);
    return scenario;
}

Scenario healthy_twin(const std::filesystem::path& file, std::span<const std::string> sets) {
    return healthy_twin_of(composed_tree(file, sets), file);
}

}  // namespace noonbench::harness
