// SPDX-License-Identifier: MIT
// The three kinds of number that the control logic must never mix up. Each is one integer; only
// operators that mean something exist, so that "temperature + temperature" does not compile.
#pragma once
#include <compare>
#include <cstdint>

namespace noonbench::firmware {

/// A difference of two temperatures, in hundredths of a kelvin; range of int32.
struct TemperatureDifference {
    std::int32_t centikelvin = 0;

    friend constexpr auto operator<=>(TemperatureDifference, TemperatureDifference) = default;
    constexpr TemperatureDifference operator-() const { return {-centikelvin}; }
};

constexpr TemperatureDifference operator+(TemperatureDifference a, TemperatureDifference b) {
    return {a.centikelvin + b.centikelvin};
}
constexpr TemperatureDifference operator-(TemperatureDifference a, TemperatureDifference b) {
    return {a.centikelvin - b.centikelvin};
}

/// A point on the Celsius scale, in hundredths of a degree; -327.68 to 327.67.
struct Temperature {
    std::int16_t centicelsius = 0;

    friend constexpr auto operator<=>(Temperature, Temperature) = default;
};

constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
    return {std::int32_t{a.centicelsius} - std::int32_t{b.centicelsius}};
}

/// Seconds of the controller's own tick counter; wraps after 136 years, so only differences count.
struct Ticks {
    std::uint32_t count = 0;

    friend constexpr bool operator==(Ticks, Ticks) = default;
};

/// Seconds that have passed from `earlier` to `later`; right across the wrap of the counter.
constexpr std::uint32_t seconds_between(Ticks earlier, Ticks later) {
    return later.count - earlier.count;
}

}  // namespace noonbench::firmware
