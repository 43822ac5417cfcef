// SPDX-License-Identifier: MIT
// The units that a scenario may use, by kind. The only list of them.
#pragma once
#include <span>
#include <string>
#include <string_view>

namespace noonbench::harness {

/// SI = value * times / by; kept as two numbers so that 2.6 l/min is 2.6 / 60000 to the last bit.
struct Unit {
    std::string_view text;
    double times = 1.0;
    double by = 1.0;
};

struct UnitKind {
    std::string_view name;  // "a length"
    std::span<const Unit> units;
};

/// The kind to which the unit belongs and the unit itself; nulls if it is unknown.
struct UnitFound {
    const UnitKind* kind = nullptr;
    const Unit* unit = nullptr;
};
[[nodiscard]] UnitFound find_unit(std::string_view text);

/// The unit within one kind, spelled as people do ("degC", "°C", "W/(m2 K)", "W/m2K"); or null.
[[nodiscard]] const Unit* find_unit_in(const UnitKind& kind, std::string_view text);

}  // namespace noonbench::harness
