// SPDX-License-Identifier: MIT
#include "scenario.hpp"

namespace noonbench::harness {

Wiring default_wiring() {
    Wiring wiring;
    for (std::size_t i = 0; i < wiring.sensors.size(); ++i)
        wiring.sensors[i].plugged_into = static_cast<firmware::Sensor>(i);
    for (const auto sensor : {firmware::Sensor::station_return, firmware::Sensor::second_collector})
        wiring.sensors[static_cast<std::size_t>(sensor)].type = SensorType::not_fitted;
    return wiring;
}

}  // namespace noonbench::harness
