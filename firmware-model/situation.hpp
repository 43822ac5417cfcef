// SPDX-License-Identifier: MIT
// What the decisions see at one tick: readings and clock brought into the form they are asked in.
#pragma once
#include "calendar.hpp"
#include "quantities.hpp"
#include "settings.hpp"
#include "terminals.hpp"

#include <array>

namespace noonbench::firmware {

using Readings = std::array<Reading, sensor_count>;

/// How far the temperatures of one body may be trusted: as far as its worst sensor.
enum class Trust : std::uint8_t { good, settling, lost };

struct Situation {
    Ticks now{};
    CivilTime time{};  // meaningless while clock_is_set is false
    bool clock_is_set = false;

    Trust collector = Trust::lost;
    Temperature hottest_collector{};  // of one or two fitted sensors, if `collector` is good
    Temperature coldest_collector{};

    Trust store = Trust::lost;
    Temperature store_bottom{};  // if `store` is good
    Temperature store_top{};
    bool store_seen = false;      // at least one store sensor is good
    Temperature hottest_store{};  // of those that are good, if `store_seen`

    TemperatureDifference difference{};  // hottest collector minus store bottom, if both are good

    [[nodiscard]] bool sees_difference() const {
        return collector == Trust::good && store == Trust::good;
    }
};

/// A second collector sensor counts if it is fitted: the hotter one starts the pump and trips the
/// cut-out, the colder one calls the frost guard, and a broken one stops the pump.
Situation see(const Settings& settings, const Readings& readings, const Inputs& inputs,
              Ticks now) noexcept;

/// Daylight by the clock: the window of the sampling run. Never while the clock is unset.
bool by_day(const Settings& settings, const Situation& situation) noexcept;

/// The opposite, equally never while the clock is unset.
bool by_night(const Settings& settings, const Situation& situation) noexcept;

}  // namespace noonbench::firmware
