// SPDX-License-Identifier: MIT
#include "rig.hpp"

#include "harness/bench/wires.hpp"
#include "harness/scenario/setting_text.hpp"

#include <algorithm>
#include <cmath>

namespace noonbench::harness {

namespace {

using firmware::HandRequest;
using firmware::Sensor;
using firmware::Setting;

const firmware::SettingInfo& row_of(Setting setting) {
    return firmware::setting_table()[static_cast<std::size_t>(setting)];
}

constexpr std::int64_t reading_settles_s = 30;

}  // namespace

Rig::Rig(Device& device, const firmware::Settings& set, CivilSeconds now)
    : device_(device), now_(now) {
    this->set(set);
    device_.set_clock(now);
}

void Rig::set(const firmware::Settings& settings) {
    set_ = settings;
    at(Sensor::station_return).fitted = settings[Setting::station_return_fitted] != 0;
    at(Sensor::second_collector).fitted = settings[Setting::second_collector_fitted] != 0;
    device_.set_by_hand(settings);
    for (std::size_t s = 0; s < firmware::sensor_count; ++s) turn(static_cast<Sensor>(s));
}

double Rig::value(Setting setting) const {
    const SettingScale scale = scale_of(row_of(setting).unit);
    return static_cast<double>(set_[setting]) / scale.per_unit;
}

std::int64_t Rig::seconds(Setting setting) const {
    const std::int64_t amount = set_[setting];
    switch (row_of(setting).unit) {
        case firmware::SettingUnit::minutes:
        case firmware::SettingUnit::minute_of_day:
            return amount * 60;
        case firmware::SettingUnit::hours:
            return amount * 3600;
        case firmware::SettingUnit::days:
            return amount * 86400;
        default:
            return amount;
    }
}

void Rig::turn(Sensor sensor) {
    const Socket& socket = at(sensor);
    SensorWire wire;
    wire.type = socket.fitted ? SensorType::platinum_1000 : SensorType::not_fitted;
    wire.state = socket.state;
    wire.lead_resistance_ohm = socket.lead_ohm;
    in_.milliohm[static_cast<std::size_t>(sensor)] = socket_milliohm(wire, socket.celsius, 0.0);
}

void Rig::put(Sensor sensor, double celsius) {
    at(sensor).celsius = celsius;
    at(sensor).state = WireState::sound;
    turn(sensor);
}

void Rig::put_store(double celsius) {
    put(Sensor::store_bottom, celsius);
    put(Sensor::store_top, celsius);
}

void Rig::break_wire(Sensor sensor) {
    at(sensor).state = WireState::open;
    turn(sensor);
}

void Rig::short_wire(Sensor sensor) {
    at(sensor).state = WireState::shorted;
    turn(sensor);
}

void Rig::lead(Sensor sensor, double ohm) {
    at(sensor).lead_ohm = ohm;
    turn(sensor);
}

void Rig::second() {
    out_ = device_.second(in_);
    in_.pump_hand = HandRequest::none;
    in_.backup_hand = HandRequest::none;
    ++now_;
}

void Rig::hold(std::int64_t seconds) {
    for (std::int64_t s = 0; s < seconds; ++s) second();
}

std::optional<std::int64_t> Rig::seconds_until(Output output, bool on, std::int64_t most_s) {
    for (std::int64_t s = 1; s <= most_s; ++s) {
        second();
        if (is_on(output) == on) return s;
    }
    return std::nullopt;
}

bool Rig::ever(Output output, bool on, std::int64_t seconds) {
    bool seen = false;
    for (std::int64_t s = 0; s < seconds; ++s) {
        second();
        seen = seen || is_on(output) == on;
    }
    return seen;
}

void Rig::rest(double store_c) {
    mains(true);
    pump_hand(HandRequest::automatic);
    backup_hand(HandRequest::automatic);
    put_store(store_c);
    put_collectors(*this, store_c);
    hold(std::max(seconds(Setting::least_run_time), std::int64_t{reading_settles_s}) +
         seconds(Setting::least_rest_time) + reading_settles_s);
}

int Rig::level_pct() const {
    constexpr int full = 100;
    const bool more_is_slower = set_[Setting::speed_signal] != 0;
    return more_is_slower ? full - out_.speed_signal_pct : out_.speed_signal_pct;
}

void put_collectors(Rig& rig, double celsius) {
    rig.put(Sensor::collector, celsius);
    rig.put(Sensor::second_collector, celsius);
    rig.put(Sensor::station_return, celsius);
}

std::optional<double> switching_point(Rig& rig, const Staircase& stairs, Output output, bool on) {
    const double direction = stairs.until_c < stairs.from_c ? -1.0 : 1.0;
    const auto last = static_cast<int>(
        std::floor(std::abs(stairs.until_c - stairs.from_c) / stairs.steps.step_k));
    // by number, not by adding up: the hundredth step is exact too
    const auto celsius = [&](int step) {
        return stairs.from_c + direction * stairs.steps.step_k * step;
    };
    for (int step = 0; step <= last; ++step) {
        rig.put(stairs.sensor, celsius(step));
        for (std::int64_t s = 0; s < stairs.steps.hold_s; ++s) {
            rig.second();
            if (rig.is_on(output) != on) continue;
            if (step == 0) return std::nullopt;  // it was so before anything was turned
            return 0.5 * (celsius(step - 1) + celsius(step));
        }
    }
    return std::nullopt;
}

}  // namespace noonbench::harness
