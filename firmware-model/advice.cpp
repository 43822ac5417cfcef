// SPDX-License-Identifier: MIT
#include "advice.hpp"

#include "boiling.hpp"
#include "bounds.hpp"
#include "drive_level.hpp"
#include "setting_values.hpp"

#include <cstddef>
#include <limits>

namespace noonbench::firmware {

namespace {

std::int16_t saturated(TemperatureDifference difference) {
    return static_cast<std::int16_t>(
        held_within<std::int32_t>(difference.centikelvin, std::numeric_limits<std::int16_t>::min(),
                                  std::numeric_limits<std::int16_t>::max()));
}

/// Running for the whole stretch since the last mark: a run that began in it proves nothing yet.
void mark_flow(const Situation& now, std::uint8_t level_pct, AdviceState& advice) {
    if (level_pct < full_level_pct || !now.sees_difference()) {
        advice.ran_at_mark = 0;
        advice.running_mark_ck = 0;
        return;
    }
    if (advice.ran_at_mark != 0) {
        const TemperatureDifference before{advice.running_mark_ck};
        if (now.difference >= suspicious_difference &&
            now.difference - before >= suspicious_growth) {
            advice.no_flow = 1;
        } else if (now.difference < proof_of_flow) {
            advice.no_flow = 0;
        }
    }
    advice.ran_at_mark = 1;
    advice.running_mark_ck = saturated(now.difference);
}

void mark_night(const Situation& now, bool pump_on, AdviceState& advice) {
    if (pump_on || now.collector != Trust::good) {
        advice.rested_at_mark = 0;
        advice.resting_mark = {};
        advice.dark_marks = 0;
        return;
    }
    const TemperatureDifference change = now.hottest_collector - advice.resting_mark;
    const bool dark = advice.rested_at_mark != 0 && change <= dark_rise && change >= dark_fall;
    advice.dark_marks =
        dark ? static_cast<std::uint8_t>(lesser<int>(advice.dark_marks + 1, dark_marks_needed))
             : std::uint8_t{0};
    advice.rested_at_mark = 1;
    advice.resting_mark = now.hottest_collector;
    if (advice.dark_marks == dark_marks_needed) {
        if (now.hottest_collector >= warm_at_night) {
            advice.warm_night = 1;
        } else if (now.hottest_collector < cool_at_night) {
            advice.warm_night = 0;
        }
    }
}

void mark_store(const Situation& now, AdviceState& advice) {
    const TemperatureDifference inversion = now.store_bottom - now.store_top;
    if (now.store != Trust::good || inversion < upside_down) {
        advice.inverted_marks = 0;
        if (now.store == Trust::good && inversion <= TemperatureDifference{}) {
            advice.swapped = 0;
        }
        return;
    }
    advice.inverted_marks =
        static_cast<std::uint8_t>(lesser<int>(advice.inverted_marks + 1, inverted_marks_needed));
    if (advice.inverted_marks == inverted_marks_needed) {
        advice.swapped = 1;
    }
}

bool broken(const Readings& readings) {
    for (const Reading& reading : readings) {
        if (reading.status == SensorStatus::open || reading.status == SensorStatus::shorted ||
            reading.status == SensorStatus::out_of_range) {
            return true;
        }
    }
    return false;
}

bool outside(const Reading& reading, Temperature least, Temperature most) {
    return reading.status == SensorStatus::good &&
           (reading.temperature < least || reading.temperature > most);
}

bool implausible(const Readings& readings) {
    const auto at = [&readings](Sensor sensor) {
        return readings[static_cast<std::size_t>(sensor)];
    };
    return outside(at(Sensor::collector), collector_least, collector_most) ||
           outside(at(Sensor::second_collector), collector_least, collector_most) ||
           outside(at(Sensor::store_bottom), store_least, store_most) ||
           outside(at(Sensor::store_top), store_least, store_most);
}

}  // namespace

Advice advise(const Settings& settings, const Situation& situation, const Readings& readings,
              State& state) noexcept {
    AdviceState& advice = state.advice;
    if (situation.now.count % mark_every_s == 0) {
        mark_flow(situation, state.drive.level_pct, advice);
        mark_night(situation, state.pump.relay_on != 0, advice);
        mark_store(situation, advice);
    }
    Advice all;
    const auto add_if = [&all](bool suspected, AdviceKind kind) {
        if (suspected) {
            all.bits = static_cast<std::uint16_t>(all.bits | 1U << static_cast<unsigned>(kind));
        }
    };
    add_if(advice.no_flow != 0, AdviceKind::no_flow_although_running);
    add_if(advice.warm_night != 0, AdviceKind::warm_collector_at_night);
    add_if(advice.swapped != 0, AdviceKind::sensors_swapped);
    add_if(implausible(readings), AdviceKind::sensor_implausible);
    add_if(broken(readings), AdviceKind::sensor_broken);
    add_if(state.backup.missed != 0, AdviceKind::sanitise_missed);
    add_if(settings_contradict(settings), AdviceKind::contradicting_settings);
    add_if(cut_out_above_boiling(settings), AdviceKind::cut_out_above_boiling_point);
    add_if(!situation.clock_is_set, AdviceKind::clock_unset);
    return all;
}

}  // namespace noonbench::firmware
