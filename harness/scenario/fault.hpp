// SPDX-License-Identifier: MIT
// What a fault file tells about the fault that it shows: the customer's words, what can be
// measured, the remedy, and what the fault moves. Plain data.
#pragma once
#include "problem.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace noonbench::harness {

/// How the fault comes.
enum class Onset : std::uint8_t { sudden, gradual, after_service, with_weather, from_the_start };

/// What kind of thing a fault moves: a lever of the plant, a wire, a setting of the controller, or
/// any key of the scenario.
enum class RangeKind : std::uint8_t { lever, wire, setting, key };

/// One thing that a fault moves and between which values it is met. Either a band (`least` below
/// `most`) or the one value `to`; the texts are written as the lever, wire, setting or key wants
/// them and have been read once, so that they are known to be allowed.
struct FaultRange {
    RangeKind kind = RangeKind::lever;
    std::string name;  // "check_valve_leak", "collector.offset", "start_difference", "roof.slope"
    std::string least;
    std::string most;
    std::string to;  // empty where there is a band
    Place place;     // of the name
    Place least_place;
    Place most_place;
    Place to_place;
};

/// One override path.to.key=VALUE of the healthy twin.
struct TwinSet {
    std::string set;
    Place place;
};

struct FaultText {
    std::string customer_says;
    std::string log_shows;
    std::string on_site;
    std::string measure_first;
    std::string remedy;
    std::string caution;  // empty where nothing can hurt anybody
    Onset onset = Onset::sudden;
    bool nothing_wrong = false;           // the picture alarms, nothing is broken
    std::string bench_differs;            // may be empty
    std::vector<std::string> looks_like;  // names of fault files that a log cannot tell from it
    std::vector<FaultRange> ranges;
    std::vector<TwinSet> twin;
};

}  // namespace noonbench::harness
