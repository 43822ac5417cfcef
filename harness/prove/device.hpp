// SPDX-License-Identifier: MIT
// A controller as a laboratory sees it: a closed box with terminals, a clock and settings typed in
// by hand. Whatever stands behind this interface can be put through the same tests; nothing here
// shows a reason, a reading or a state.
#pragma once
#include "firmware-model/settings.hpp"
#include "firmware-model/terminals.hpp"

#include "harness/scenario/scenario.hpp"

#include <array>
#include <cstdint>
#include <functional>
#include <memory>

namespace noonbench::harness {

/// What the laboratory puts on the terminals for one second.
struct TerminalsIn {
    std::array<std::uint32_t, firmware::sensor_count> milliohm{};  // at the sensor sockets
    std::uint16_t flow_pulses = 0;                                 // during the last second
    bool mains = true;
    firmware::HandRequest pump_hand = firmware::HandRequest::none;  // pressed in the last second
    firmware::HandRequest backup_hand = firmware::HandRequest::none;
};

/// What it finds there during that second.
struct TerminalsOut {
    bool pump_relay = false;
    bool backup_relay = false;
    std::uint8_t speed_signal_pct = 0;  // duty of the speed-signal wire
};

class Device {
  public:
    Device() = default;
    Device(const Device&) = delete;
    Device& operator=(const Device&) = delete;
    virtual ~Device() = default;

    /// Types settings in, as a person does on the powered device; takes no time.
    virtual void set_by_hand(const firmware::Settings& settings) = 0;
    /// Sets the clock to local standard time.
    virtual void set_clock(CivilSeconds standard_time) = 0;
    /// One second on these terminals.
    virtual TerminalsOut second(const TerminalsIn& in) = 0;
};

/// What can be asked of a sample before it goes to the tests.
struct DeviceSpec {
    double clock_drift_s_per_day = 0.0;  // of its clock chip; a real board brings its own
};

/// A fresh device, powered and as delivered.
using DeviceMaker = std::function<std::unique_ptr<Device>(const DeviceSpec&)>;

}  // namespace noonbench::harness
