// SPDX-License-Identifier: MIT
// The firmware model in its box: input stage, memory that outlives a power cut, clock chip.
#pragma once
#include "device.hpp"

#include "firmware-model/controller.hpp"

namespace noonbench::harness {

class FirmwareDevice final : public Device {
  public:
    explicit FirmwareDevice(const DeviceSpec& spec);

    void set_by_hand(const firmware::Settings& settings) override;
    void set_clock(CivilSeconds standard_time) override;
    TerminalsOut second(const TerminalsIn& in) override;

  private:
    [[nodiscard]] firmware::Inputs inputs(const TerminalsIn& in) const;
    void save(const firmware::Inputs& in);

    DeviceSpec spec_;
    firmware::Settings settings_{};
    firmware::State state_{};
    firmware::Block memory_{};
    CivilSeconds clock_set_to_ = 0;
    std::int64_t since_clock_set_s_ = 0;
    std::int64_t age_s_ = 0;
    bool was_powered_ = false;
    bool setting_changed_ = false;
};

/// DeviceMaker of the above.
[[nodiscard]] std::unique_ptr<Device> make_firmware_device(const DeviceSpec& spec);

}  // namespace noonbench::harness
