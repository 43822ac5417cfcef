// SPDX-License-Identifier: MIT
// A quiet afternoon from which each test departs: all readings good, nobody asks for anything.
#pragma once
#include "firmware-model/reason.hpp"
#include "firmware-model/settings.hpp"
#include "firmware-model/situation.hpp"
#include "firmware-model/state.hpp"

#include <cstdint>
#include <ostream>

namespace noonbench::firmware {

inline std::ostream& operator<<(std::ostream& out, PumpReason reason) {
    return out << name_of(reason);
}
inline std::ostream& operator<<(std::ostream& out, BackupReason reason) {
    return out << name_of(reason);
}

namespace decisions {

constexpr Temperature degrees(double celsius) {
    return {static_cast<std::int16_t>(celsius * 100 + (celsius < 0 ? -0.5 : 0.5))};
}

/// Collector, store bottom and store top; the other fields are left alone.
inline void read(Situation& situation, Temperature collector, Temperature bottom, Temperature top) {
    situation.collector = Trust::good;
    situation.store = Trust::good;
    situation.hottest_collector = collector;
    situation.coldest_collector = collector;
    situation.store_bottom = bottom;
    situation.store_top = top;
    situation.store_seen = true;
    situation.hottest_store = bottom > top ? bottom : top;
    situation.difference = collector - bottom;
}

/// The difference in hundredths of a kelvin over a store bottom of 30 degC.
inline void set_difference(Situation& situation, int centikelvin) {
    read(situation, {static_cast<std::int16_t>(3000 + centikelvin)}, {3000}, {5000});
}

/// Wednesday 2024-05-15, 15:00, a long time after power came.
inline Situation quiet_afternoon() {
    Situation situation;
    situation.now = {1'000'000};
    situation.clock_is_set = true;
    situation.time = {8901, 15 * 60, 2, 1};
    read(situation, {3200}, {3000}, {5000});
    return situation;
}

/// A pump that has stood as it does for so long.
inline PumpState pump_since(const Situation& situation, PumpReason reason, bool on,
                            std::uint32_t seconds) {
    PumpState pump;
    pump.reason = reason;
    pump.relay_on = on;
    pump.changed_at = {situation.now.count - seconds};
    return pump;
}

}  // namespace decisions
}  // namespace noonbench::firmware
