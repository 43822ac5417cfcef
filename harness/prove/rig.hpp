// SPDX-License-Identifier: MIT
// The laboratory's bench: resistance decades at the sensor sockets, a switch in the mains, fingers
// on the hand keys, and lamps on the relays. It knows the settings that it typed in and nothing
// else of the device.
#pragma once
#include "device.hpp"
#include "tests.hpp"

#include <array>
#include <cstdint>
#include <optional>

namespace noonbench::harness {

class Rig {
  public:
    /// Types the settings in and sets the clock; all fitted sensors stand at 20 degC.
    Rig(Device& device, const firmware::Settings& set, CivilSeconds now);

    void set(const firmware::Settings& settings);
    [[nodiscard]] const firmware::Settings& set() const { return set_; }
    /// A setting in K, degC or its own unit as a plain number.
    [[nodiscard]] double value(firmware::Setting setting) const;
    /// A setting that is a duration.
    [[nodiscard]] std::int64_t seconds(firmware::Setting setting) const;

    void put(firmware::Sensor sensor, double celsius);
    void put_store(double celsius);  // bottom and top
    void break_wire(firmware::Sensor sensor);
    void short_wire(firmware::Sensor sensor);
    void lead(firmware::Sensor sensor, double ohm);
    void mains(bool connected) { in_.mains = connected; }
    void pump_hand(firmware::HandRequest request) { in_.pump_hand = request; }
    void backup_hand(firmware::HandRequest request) { in_.backup_hand = request; }

    void second();
    void hold(std::int64_t seconds);
    /// Seconds until the output is so, counted to the first second in which it is; nothing if it
    /// has not come within `most_s`. 1 at the least.
    std::optional<std::int64_t> seconds_until(Output output, bool on, std::int64_t most_s);
    /// Is the output so in at least one of the next seconds?
    bool ever(Output output, bool on, std::int64_t seconds);
    /// Back to rest: hands to automatic, whole wires, collector at the store's temperature, held
    /// until least run and least rest are over and readings are settled.
    void rest(double store_c);

    [[nodiscard]] bool is_on(Output output) const {
        return output == Output::pump ? out_.pump_relay : out_.backup_relay;
    }
    /// Speed signal as a level: 100 is full speed whatever the profile.
    [[nodiscard]] int level_pct() const;
    [[nodiscard]] CivilSeconds now() const { return now_; }

  private:
    struct Socket {
        double celsius = 20.0;
        double lead_ohm = 0.0;
        bool fitted = true;
        WireState state = WireState::sound;
    };
    Socket& at(firmware::Sensor sensor) { return sockets_[static_cast<std::size_t>(sensor)]; }
    void turn(firmware::Sensor sensor);

    Device& device_;
    firmware::Settings set_{};
    std::array<Socket, firmware::sensor_count> sockets_{};
    TerminalsIn in_{};
    TerminalsOut out_{};
    CivilSeconds now_ = 0;
};

/// A sensor turned step by step until an output switches.
struct Staircase {
    firmware::Sensor sensor{};
    double from_c = 0.0;
    double until_c = 0.0;  // given up beyond
    Steps steps;
};

/// Where an output switched: between two steps of a staircase; the middle is stated.
std::optional<double> switching_point(Rig& rig, const Staircase& stairs, Output output, bool on);

/// Every collector sensor that is fitted, at one temperature.
void put_collectors(Rig& rig, double celsius);

}  // namespace noonbench::harness
