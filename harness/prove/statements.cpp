// SPDX-License-Identifier: MIT
#include "statements.hpp"

namespace noonbench::harness {

const std::vector<std::string_view>& not_a_certificate() {
    static const std::vector<std::string_view> lines{
        "This is NOT a certificate of conformity with EN 12977-5 or with any other standard.",
        "Of EN 12977-5 only the published scope was at hand. Its test clauses were not: test "
        "temperatures, ramps, repeats, limits of accuracy and hysteresis, clock and speed tests, "
        "influence of mains voltage.",
        "Procedures and allowed deviations are common laboratory practice, no source, unless a "
        "line "
        "names one."};
    return lines;
}

const std::vector<std::string_view>& not_covered() {
    static const std::vector<std::string_view> lines{
        "Sensors other than temperature: irradiance, pressure, level, flow, heat meters.",
        "Actuators: pumps, solenoid and motor valves, relay contacts under load, anodes.",
        "Influence of mains voltage and frequency, interference, surges.",
        "Durability, heat, cold and humidity; ageing and stagnation of the sensors themselves.",
        "Mounting and time constants of sensors, the loop and the store.",
        "Anything that shows only on the display: readings, reasons, heat counter."};
    return lines;
}

const std::vector<std::string_view>& board_cautions() {
    static const std::vector<std::string_view> lines{
        "Mains: the pump, backup and supply terminals of a real board carry 230 V and kill. Wiring "
        "is for a licensed electrician, behind a residual-current device; isolate and prove dead "
        "before any wire is moved.",
        "Load: lamps, not a pump or a heater. The backup relay is on for hours here; an immersion "
        "heater without water burns.",
        "Safety chain: nothing on this sheet replaces a store's thermostat, non-self-resetting "
        "stat "
        "and relief valves."};
    return lines;
}

}  // namespace noonbench::harness
