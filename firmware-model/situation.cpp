// SPDX-License-Identifier: MIT
#include "situation.hpp"

#include "bounds.hpp"
#include "setting_values.hpp"

#include <cstddef>

namespace noonbench::firmware {

namespace {

constexpr std::int16_t every_weekday = 0x7F;

Trust trust_in(const Reading& reading) {
    switch (reading.status) {
        case SensorStatus::good:
            return Trust::good;
        case SensorStatus::settling:
            return Trust::settling;
        default:
            return Trust::lost;
    }
}

const Reading& of(const Readings& readings, Sensor sensor) {
    return readings[static_cast<std::size_t>(sensor)];
}

void see_collectors(const Settings& settings, const Readings& readings, Situation& seen) {
    const Reading& first = of(readings, Sensor::collector);
    seen.collector = trust_in(first);
    seen.hottest_collector = first.temperature;
    seen.coldest_collector = first.temperature;
    if (is_on(settings, Setting::second_collector_fitted)) {
        const Reading& second = of(readings, Sensor::second_collector);
        seen.collector = greater(seen.collector, trust_in(second));
        seen.hottest_collector = greater(first.temperature, second.temperature);
        seen.coldest_collector = lesser(first.temperature, second.temperature);
    }
}

void see_store(const Readings& readings, Situation& seen) {
    const Reading& bottom = of(readings, Sensor::store_bottom);
    const Reading& top = of(readings, Sensor::store_top);
    seen.store = greater(trust_in(bottom), trust_in(top));
    seen.store_bottom = bottom.temperature;
    seen.store_top = top.temperature;
    for (const Reading* reading : {&bottom, &top}) {
        if (reading->status == SensorStatus::good) {
            seen.hottest_store = seen.store_seen ? greater(seen.hottest_store, reading->temperature)
                                                 : reading->temperature;
            seen.store_seen = true;
        }
    }
}

bool in_daylight_window(const Settings& settings, const Situation& situation) {
    return in_window(situation.time, every_weekday, settings[Setting::sampling_from],
                     settings[Setting::sampling_until]);
}

}  // namespace

Situation see(const Settings& settings, const Readings& readings, const Inputs& inputs,
              Ticks now) noexcept {
    Situation seen;
    seen.now = now;
    seen.clock_is_set = inputs.clock_is_set != 0;
    if (seen.clock_is_set) {
        seen.time = civil_time(inputs.clock_s, settings);
    }
    see_collectors(settings, readings, seen);
    see_store(readings, seen);
    seen.difference = seen.hottest_collector - seen.store_bottom;
    return seen;
}

bool by_day(const Settings& settings, const Situation& situation) noexcept {
    return situation.clock_is_set && in_daylight_window(settings, situation);
}

bool by_night(const Settings& settings, const Situation& situation) noexcept {
    return situation.clock_is_set && !in_daylight_window(settings, situation);
}

}  // namespace noonbench::firmware
