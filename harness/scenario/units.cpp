// SPDX-License-Identifier: MIT
#include "units.hpp"

#include <array>
#include <numbers>
#include <utility>

namespace noonbench::harness {

namespace {

constexpr double pi = std::numbers::pi;

constexpr Unit plain[] = {{""}};
constexpr Unit lengths[] = {{"mm", 1, 1000}, {"cm", 1, 100}, {"m"}};
constexpr Unit areas[] = {{"m2"}};
constexpr Unit volumes[] = {{"l", 1, 1000}, {"ml", 1, 1e6}, {"m3"}};
constexpr Unit angles[] = {{"deg", pi, 180}};
constexpr Unit temperatures[] = {{"degC"}};
constexpr Unit differences[] = {{"K"}};
constexpr Unit shares[] = {{"%", 1, 100}};
constexpr Unit durations[] = {{"s"},          {"min", 60},     {"h", 3600},
                              {"day", 86400}, {"days", 86400}, {"year", 365 * 86400}};
constexpr Unit drifts[] = {{"s/day"}, {"min/day", 60}};
constexpr Unit flows[] = {{"l/min", 1, 60000}, {"l/h", 1, 3.6e6}, {"m3/h", 1, 3600}};
constexpr Unit losses[] = {{"l/day", 1, 1000 * 86400}};
constexpr Unit mass_flows[] = {{"kg/s"}, {"kg/h", 1, 3600}};
constexpr Unit powers[] = {{"W"}, {"kW", 1000}};
constexpr Unit energies[] = {{"kWh", 3.6e6}, {"Wh", 3600}, {"MJ", 1e6}, {"kJ", 1e3}};
constexpr Unit irradiances[] = {{"W/m2"}, {"kW/m2", 1000}};
constexpr Unit irradiations[] = {{"kWh/m2", 3.6e6}, {"Wh/m2", 3600}, {"MJ/m2", 1e6}};
constexpr Unit pressures[] = {{"bar", 1e5}, {"kPa", 1000}, {"hPa", 100}, {"Pa"}};
constexpr Unit speeds[] = {{"m/s"}};
constexpr Unit resistances[] = {{"ohm"}, {"kohm", 1000}, {"Mohm", 1e6}};
constexpr Unit conductances[] = {{"W/K"}};
constexpr Unit conductivities[] = {{"W/(m K)"}};
constexpr Unit transmittances[] = {{"W/(m2 K)"}};
constexpr Unit transmittance_rises[] = {{"W/(m2 K2)"}};
constexpr Unit wind_losses[] = {{"J/(m3 K)"}};
constexpr Unit capacities[] = {{"kJ/(m2 K)", 1000}, {"J/(m2 K)"}};
constexpr Unit pulses[] = {{"pulses/l"}};
constexpr Unit gains[] = {{"%/K"}};

constexpr std::array kinds = {
    UnitKind{"a plain number", plain},
    UnitKind{"a length", lengths},
    UnitKind{"an area", areas},
    UnitKind{"a volume", volumes},
    UnitKind{"an angle", angles},
    UnitKind{"a temperature", temperatures},
    UnitKind{"a temperature difference", differences},
    UnitKind{"a share", shares},
    UnitKind{"a length of time", durations},
    UnitKind{"a clock drift", drifts},
    UnitKind{"a flow", flows},
    UnitKind{"a loss of fluid", losses},
    UnitKind{"a mass flow", mass_flows},
    UnitKind{"a power", powers},
    UnitKind{"an energy", energies},
    UnitKind{"an irradiance", irradiances},
    UnitKind{"an irradiation", irradiations},
    UnitKind{"a pressure", pressures},
    UnitKind{"a speed", speeds},
    UnitKind{"a resistance", resistances},
    UnitKind{"a heat loss rate", conductances},
    UnitKind{"a heat conductivity", conductivities},
    UnitKind{"a heat loss per area", transmittances},
    UnitKind{"a rise of heat loss per area", transmittance_rises},
    UnitKind{"a wind dependence of heat loss", wind_losses},
    UnitKind{"a heat capacity per area", capacities},
    UnitKind{"a meter constant", pulses},
    UnitKind{"a gain", gains},
};

/// One spelling of all: no blanks, no parentheses, typographic signs as plain letters.
std::string plain_spelling(std::string_view text) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 9> replaced = {{
        {"\u00b0", "deg"},
        {"\u00b2", "2"},
        {"\u00b3", "3"},
        {"\u00b7", ""},
        {"\u03a9", "ohm"},
        {"\u2126", "ohm"},
        {" ", ""},
        {"(", ""},
        {")", ""},
    }};
    std::string out;
    while (!text.empty()) {
        bool done = false;
        for (const auto& [from, to] : replaced) {
            if (!text.starts_with(from)) continue;
            out += to;
            text.remove_prefix(from.size());
            done = true;
            break;
        }
        if (done) continue;
        out += text.front();
        text.remove_prefix(1);
    }
    return out;
}

}  // namespace

const Unit* find_unit_in(const UnitKind& kind, std::string_view text) {
    const std::string wanted = plain_spelling(text);
    for (const Unit& unit : kind.units)
        if (plain_spelling(unit.text) == wanted) return &unit;
    return nullptr;
}

UnitFound find_unit(std::string_view text) {
    for (const UnitKind& kind : kinds)
        if (const Unit* unit = find_unit_in(kind, text)) return {&kind, unit};
    return {};
}

}  // namespace noonbench::harness
