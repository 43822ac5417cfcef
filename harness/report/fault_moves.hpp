// SPDX-License-Identifier: MIT
// What a fault moves, in plain words.
#pragma once
#include "harness/scenario/scenario.hpp"

#include <string>
#include <vector>

namespace noonbench::harness {

/// One lever, wire, setting, key or hand.
struct MovedThing {
    std::string name;   // as it is written: "check_valve_leak"
    std::string what;   // "opening of the check valve against reverse flow while the pump rests"
    std::string range;  // "from 0.05 to 0.6; healthy: 0"; empty where `what` says all
    std::string here;   // what this run does: "0.15", "open from 12:30 on"; may be empty
};

/// The ranges of the scenario's fault in their order, then whatever else its moves move.
[[nodiscard]] std::vector<MovedThing> moved_things(const Scenario& scenario);

}  // namespace noonbench::harness
