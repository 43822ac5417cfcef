// SPDX-License-Identifier: MIT
// The only place where the plant's temperatures become terminal integers: sensor element, cable,
// plug, damp, and the controller's input stage (divider and converter). Faults "on the wires" are
// states of these structs; the plant and the firmware know nothing of them.
#pragma once
#include "firmware-model/terminals.hpp"
#include "plant/plant.hpp"

#include "harness/scenario/scenario.hpp"

#include <array>
#include <cstdint>

namespace noonbench::harness {

/// Resistance of a sensor element at a temperature. Platinum: IEC 60751, -50..400 degC; the 10 k
/// NTC: Steinhart-Hart (coefficients of a common curve); the 2 k silicon: R25 = 2000 ohm, a
/// quadratic through 1630/2000/3392 ohm at 0/25/100 degC (typical, from memory).
double element_ohm(SensorType type, double temperature_c);

/// What the socket sees: element, offset of the element, cable in series, damp in parallel, breaks.
/// `noise` is a bounded random number of unit variance for this sensor and tick.
std::uint32_t socket_milliohm(const SensorWire& wire, double temperature_c, double noise);

/// An unplugged socket.
inline constexpr std::uint32_t open_socket_milliohm = 4'000'000'000;

/// One number for each sensor, indexed by firmware::Sensor.
using OfSensors = std::array<double, firmware::sensor_count>;

/// Temperature at the end of each sensor's cable.
[[nodiscard]] OfSensors felt_c(const plant::Readings& readings);

/// What the converter counts at each socket, whichever sensor is plugged into it; an empty socket
/// is an open one. `noise` as for socket_milliohm().
[[nodiscard]] std::array<std::uint16_t, firmware::sensor_count> counts_at_sockets(
    const Wiring& wiring, const OfSensors& temperature_c, const OfSensors& noise);

/// What a move can change on a wire, as a number (see WireField).
void set_wire(SensorWire& wire, WireField field, double value);
double wire_number(const SensorWire& wire, WireField field);

/// The input stage: 16-bit counts of the divider for a resistance at the socket.
std::uint16_t counts_from_milliohm(std::uint32_t milliohm);

}  // namespace noonbench::harness
