// SPDX-License-Identifier: MIT
// The scenario while it is being read, with the list item that is being read beside it.
#pragma once
#include "scenario.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Text that can only be understood together with its neighbours.
struct Raw {
    std::string text;
    Place place;  // line 0 and no file: not given
    bool given = false;
};

/// Collector sets by name, see collector_kinds.hpp.
enum class CollectorKind : std::uint8_t { flat_plate, flat_plate_basic, evacuated_tube };

/// An item of `moves`, not yet understood.
struct MoveDraft {
    CivilSeconds at_s = 0;
    std::int32_t over_s = 0;
    Raw setting, lever, hand, wire, to;
};

struct FaultDraft {
    std::string name;
    std::string about;
};

/// An item of `uncertain`, not yet understood.
struct UncertainDraft {
    Raw key, lever, least, most;
};

/// An item of `fault.ranges`, not yet understood.
struct FaultRangeDraft {
    Raw lever, wire, setting, key, least, most, to;
};

struct Draft {
    Scenario scenario{};
    // Items of lists, pushed into the scenario when they are complete.
    CollectorKind collector_kind = CollectorKind::flat_plate;
    plant::Row roof{};  // what every row begins as: the plane of the roof
    plant::Row row{};
    plant::PipeRun both_pipes{};
    plant::HorizonPoint horizon{};
    plant::CloudPassage cloud{};
    DailyDraw draw{};
    plant::DaysAway away{};
    FaultDraft fault{};
    MoveDraft move{};
    std::vector<std::uint8_t> swapped;  // the two sensors whose plugs are exchanged
    Raw weather_file{};
    RequirementText requirement{};
    Raw requirement_name{};
    Raw that{};
    Raw scale{};
    std::vector<Raw> fails_with;
    FaultRangeDraft fault_range{};
    std::vector<Raw> looks_like;
    std::vector<Raw> twin;
    UncertainDraft uncertain{};
};

}  // namespace noonbench::harness
