// SPDX-License-Identifier: MIT
// From the sensor in its pocket to the socket on the controller.
#include "key_making.hpp"
#include "wire_names.hpp"

#include <utility>

namespace noonbench::harness {

namespace {

Wiring& wiring(Draft& d) {
    return d.scenario.wiring;
}

template <class Member>
SlotOf on_wire(std::size_t sensor, Member SensorWire::*member) {
    return [sensor, member](Draft& d) -> Slot {
        auto& value = wiring(d).sensors[sensor].*member;
        if constexpr (std::is_enum_v<Member>)
            return byte_of(value);
        else
            return &value;
    };
}

/// In the order of WireField, without the plug (`swapped` moves it).
SlotOf wire_slot(std::size_t sensor, WireField field) {
    switch (field) {
        case WireField::state:
            return on_wire(sensor, &SensorWire::state);
        case WireField::type:
            return on_wire(sensor, &SensorWire::type);
        case WireField::offset:
            return on_wire(sensor, &SensorWire::offset_k);
        case WireField::lead_resistance:
            return on_wire(sensor, &SensorWire::lead_resistance_ohm);
        case WireField::leakage:
            return on_wire(sensor, &SensorWire::leakage_ohm);
        case WireField::noise:
            return on_wire(sensor, &SensorWire::noise_k);
        case WireField::plugged_into:
            break;
    }
    return {};
}

/// How well a sensor sits in its pocket belongs to the plant; null where that is not modelled.
SlotOf contact_slot(firmware::Sensor sensor) {
    switch (sensor) {
        case firmware::Sensor::collector:
            return [](Draft& d) { return &d.scenario.plant.rows[0].sensor_contact; };
        case firmware::Sensor::second_collector:
            return [](Draft& d) -> Slot {
                if (d.scenario.plant.rows.size() < 2) return std::monostate{};
                return &d.scenario.plant.rows[1].sensor_contact;
            };
        case firmware::Sensor::store_bottom:
            return [](Draft& d) { return &d.scenario.plant.store.bottom_sensor_contact; };
        case firmware::Sensor::store_top:
            return [](Draft& d) { return &d.scenario.plant.store.top_sensor_contact; };
        case firmware::Sensor::station_return:
            break;
    }
    return {};
}

void add_sensor_keys(std::vector<Key>& keys, std::size_t sensor) {
    const std::string section = "wiring." + std::string(sensor_names[sensor]) + ".";
    const auto infos = wire_fields();
    for (std::size_t i = 0; i < infos.size(); ++i) {
        const SlotOf slot = wire_slot(sensor, static_cast<WireField>(i));
        if (!slot) continue;
        const WireFieldInfo& info = infos[i];
        const std::string path = section + std::string(info.name);
        const std::string meaning(info.meaning);
        if (info.words.empty())
            keys.push_back(number_key(path, {info.range.unit, info.range.least, info.range.most},
                                      meaning, slot));
        else
            keys.push_back(word_key(path, {info.words.begin(), info.words.end()}, meaning, slot));
    }
    if (const SlotOf contact = contact_slot(static_cast<firmware::Sensor>(sensor)))
        keys.push_back(number_key(section + "contact", {"%", 0, 100},
                                  "100 % is home in its pocket, 0 % hangs in the air", contact));
}

Key swapped_key() {
    Key key = key_of(Form::words, "wiring.swapped",
                     "the two sensors whose plugs sit in each other's socket",
                     [](Draft& d) { return &d.swapped; });
    key.words.assign(sensor_names.begin(), sensor_names.end());
    key.take = [](Draft& d) -> std::vector<Objection> {
        if (d.swapped.empty()) return {};
        if (d.swapped.size() != 2 || d.swapped[0] == d.swapped[1])
            return {
                {"not two different sensors", "[collector, store_bottom], or any other pair", {}}};
        auto& sensors = wiring(d).sensors;
        std::swap(sensors[d.swapped[0]].plugged_into, sensors[d.swapped[1]].plugged_into);
        return {};
    };
    return key;
}

}  // namespace

void add_wiring_keys(std::vector<Key>& keys) {
    for (std::size_t sensor = 0; sensor < sensor_names.size(); ++sensor)
        add_sensor_keys(keys, sensor);
    keys.push_back(swapped_key());
    keys.push_back(key_of(Form::flag, "wiring.pulse_meter.fitted", "a pulse flow meter",
                          [](Draft& d) { return &wiring(d).pulse_meter.fitted; }));
    keys.push_back(number_key("wiring.pulse_meter.pulses", {"pulses/l", 0.1, 1000},
                              "of the meter itself, whatever the setting says",
                              [](Draft& d) { return &wiring(d).pulse_meter.pulses_per_litre; }));
    keys.push_back(key_of(Form::flag, "wiring.speed_wire_connected",
                          "no: the pump sees no speed signal",
                          [](Draft& d) { return &wiring(d).speed_wire_connected; }));
    keys.push_back(key_of(Form::flag, "wiring.pump_bridged",
                          "yes: mains reaches the pump's supply whatever the relay does, since the "
                          "contact has welded or the pump hangs on a permanent live",
                          [](Draft& d) { return &wiring(d).pump_bridged; }));
    keys.push_back(number_key("wiring.pocket_lag.collector", {"s", 1, 600},
                              "from pocket to element, to 63 %",
                              [](Draft& d) { return &d.scenario.plant.lags.collector_s; }));
    keys.push_back(number_key("wiring.pocket_lag.store", {"s", 1, 600},
                              "from pocket to element, to 63 %",
                              [](Draft& d) { return &d.scenario.plant.lags.store_s; }));
    keys.push_back(number_key("wiring.pocket_lag.pipe", {"s", 1, 600},
                              "from pipe to element, to 63 %",
                              [](Draft& d) { return &d.scenario.plant.lags.pipe_s; }));
}

}  // namespace noonbench::harness
