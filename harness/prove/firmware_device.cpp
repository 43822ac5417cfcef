// SPDX-License-Identifier: MIT
#include "firmware_device.hpp"

#include "harness/bench/wires.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::harness {

namespace {

constexpr double day_s = 86400.0;
constexpr std::int64_t save_every_s = 3600;

void write_byte(void* context, std::size_t address, std::uint8_t byte) {
    static_cast<firmware::Block*>(context)->bytes[address] = byte;
}

}  // namespace

FirmwareDevice::FirmwareDevice(const DeviceSpec& spec)
    : spec_(spec), settings_(firmware::load(memory_).settings) {}

void FirmwareDevice::set_by_hand(const firmware::Settings& settings) {
    setting_changed_ = setting_changed_ || !(settings == settings_);
    settings_ = settings;
}

void FirmwareDevice::set_clock(CivilSeconds standard_time) {
    clock_set_to_ = standard_time;
    since_clock_set_s_ = 0;
}

/// The clock chip has a cell of its own: it counts on without mains.
firmware::Inputs FirmwareDevice::inputs(const TerminalsIn& in) const {
    firmware::Inputs inputs;
    for (std::size_t s = 0; s < inputs.counts.size(); ++s) {
        inputs.counts[s] = counts_from_milliohm(in.milliohm[s]);
    }
    const double gained_s =
        std::floor(spec_.clock_drift_s_per_day * static_cast<double>(since_clock_set_s_) / day_s);
    inputs.clock_s = static_cast<std::uint32_t>(std::max<std::int64_t>(
        0, clock_set_to_ + since_clock_set_s_ + static_cast<std::int64_t>(gained_s)));
    inputs.flow_pulses = in.flow_pulses;
    inputs.pump_hand = in.pump_hand;
    inputs.backup_hand = in.backup_hand;
    return inputs;
}

void FirmwareDevice::save(const firmware::Inputs& in) {
    firmware::store(firmware::to_save(settings_, state_, in), memory_, {&memory_, write_byte});
}

TerminalsOut FirmwareDevice::second(const TerminalsIn& in) {
    const firmware::Inputs inputs = this->inputs(in);
    ++since_clock_set_s_;
    ++age_s_;
    if (!in.mains) {
        was_powered_ = false;
        return {};
    }
    if (!was_powered_) {
        const firmware::Persistent saved = firmware::load(memory_);
        if (!setting_changed_) settings_ = saved.settings;
        state_ = firmware::start(saved, inputs);
        was_powered_ = true;
    }
    const firmware::Outputs out = firmware::tick(settings_, inputs, state_);
    if (setting_changed_ || age_s_ % save_every_s == 0) save(inputs);
    setting_changed_ = false;
    return {out.pump_relay != 0, out.backup_relay != 0, out.speed_signal_pct};
}

std::unique_ptr<Device> make_firmware_device(const DeviceSpec& spec) {
    return std::make_unique<FirmwareDevice>(spec);
}

}  // namespace noonbench::harness
