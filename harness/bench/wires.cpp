// SPDX-License-Identifier: MIT
#include "wires.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace noonbench::harness {
namespace {

constexpr double open_milliohm = open_socket_milliohm;

/// IEC 60751, R0 = 1000 ohm.
double platinum_ohm(double t_c) {
    constexpr double a = 3.9083e-3, b = -5.775e-7, c = -4.183e-12;
    const double low = t_c < 0.0 ? c * (t_c - 100.0) * t_c * t_c * t_c : 0.0;
    return 1000.0 * (1.0 + a * t_c + b * t_c * t_c + low);
}

/// Steinhart-Hart solved for R: 1/T = A + B x + C x^3 with x = ln R (Cardano, one real root).
double ntc_ohm(double t_c) {
    constexpr double a = 1.129241e-3, b = 2.341077e-4, c = 8.775468e-8;
    const double half = (a - 1.0 / (t_c + 273.15)) / (2.0 * c);
    const double third = b / (3.0 * c);
    const double root = std::sqrt(third * third * third + half * half);
    return std::exp(std::cbrt(root - half) - std::cbrt(root + half));
}

double silicon_ohm(double t_c) {
    const double x = t_c - 25.0;
    return std::max(1.0, 2000.0 + 15.74 * x + 0.0376 * x * x);
}

/// Halves up, of what is not negative; without the call of std::round and without a branch, which
/// nobody could foretell.
std::uint32_t rounded(double x) {
    const auto whole = static_cast<std::int64_t>(x);
    const auto up = static_cast<std::int64_t>(x - static_cast<double>(whole) >= 0.5);
    return static_cast<std::uint32_t>(whole + up);
}

}  // namespace

double element_ohm(SensorType type, double temperature_c) {
    switch (type) {
        case SensorType::platinum_1000:
            return platinum_ohm(std::clamp(temperature_c, -100.0, 400.0));
        case SensorType::ntc_10k:
            return ntc_ohm(std::clamp(temperature_c, -60.0, 250.0));
        case SensorType::not_fitted:
            return open_milliohm / 1000.0;
        case SensorType::silicon_2k:
            return silicon_ohm(std::clamp(temperature_c, -60.0, 250.0));
    }
    return platinum_ohm(temperature_c);
}

std::uint32_t socket_milliohm(const SensorWire& wire, double temperature_c, double noise) {
    if (wire.state == WireState::shorted) return 0;
    if (wire.state == WireState::open || wire.type == SensorType::not_fitted) {
        return static_cast<std::uint32_t>(open_milliohm);
    }
    const double felt_c = temperature_c + wire.offset_k + wire.noise_k * noise;
    double ohm = element_ohm(wire.type, felt_c) + wire.lead_resistance_ohm;
    if (wire.leakage_ohm > 0.0) ohm = ohm * wire.leakage_ohm / (ohm + wire.leakage_ohm);
    return rounded(std::clamp(ohm * 1000.0, 0.0, open_milliohm));
}

OfSensors felt_c(const plant::Readings& r) {
    return {r.collector_sensor_c, r.store_bottom_sensor_c, r.store_top_sensor_c, r.station_cold_c,
            r.second_collector_sensor_c};
}

std::array<std::uint16_t, firmware::sensor_count> counts_at_sockets(const Wiring& wiring,
                                                                    const OfSensors& temperature_c,
                                                                    const OfSensors& noise) {
    std::array<std::uint16_t, firmware::sensor_count> counts{};
    counts.fill(counts_from_milliohm(open_socket_milliohm));
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) {
        const SensorWire& wire = wiring.sensors[s];
        if (wire.type == SensorType::not_fitted) continue;
        counts[static_cast<std::size_t>(wire.plugged_into)] =
            counts_from_milliohm(socket_milliohm(wire, temperature_c[s], noise[s]));
    }
    return counts;
}

void set_wire(SensorWire& wire, WireField field, double value) {
    switch (field) {
        case WireField::state:
            wire.state = static_cast<WireState>(value);
            break;
        case WireField::type:
            wire.type = static_cast<SensorType>(value);
            break;
        case WireField::offset:
            wire.offset_k = value;
            break;
        case WireField::lead_resistance:
            wire.lead_resistance_ohm = value;
            break;
        case WireField::leakage:
            wire.leakage_ohm = value;
            break;
        case WireField::noise:
            wire.noise_k = value;
            break;
        case WireField::plugged_into:
            wire.plugged_into = static_cast<firmware::Sensor>(value);
            break;
    }
}

double wire_number(const SensorWire& wire, WireField field) {
    switch (field) {
        case WireField::state:
            return static_cast<double>(wire.state);
        case WireField::type:
            return static_cast<double>(wire.type);
        case WireField::offset:
            return wire.offset_k;
        case WireField::lead_resistance:
            return wire.lead_resistance_ohm;
        case WireField::leakage:
            return wire.leakage_ohm;
        case WireField::noise:
            return wire.noise_k;
        case WireField::plugged_into:
            return static_cast<double>(wire.plugged_into);
    }
    return 0.0;
}

std::uint16_t counts_from_milliohm(std::uint32_t milliohm) {
    constexpr auto full = static_cast<std::int64_t>(firmware::full_scale_counts);
    constexpr auto reference = static_cast<std::int64_t>(firmware::reference_resistor_milliohm);
    const std::int64_t below = milliohm + reference;
    const std::int64_t above = full * milliohm + below / 2;
    // Both are exact as doubles, whose division is the quicker one; where the quotient is nearly
    // whole it may be rounded up to that.
    auto counts =
        static_cast<std::int64_t>(static_cast<double>(above) / static_cast<double>(below));
    counts -= static_cast<std::int64_t>(counts * below > above);
    return static_cast<std::uint16_t>(counts);
}

}  // namespace noonbench::harness
