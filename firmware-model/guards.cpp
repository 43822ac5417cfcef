// SPDX-License-Identifier: MIT
#include "guards.hpp"

#include "setting_values.hpp"

namespace noonbench::firmware {

namespace {

/// Set from `set_at` up, released from `release_at` down, else as it was.
std::uint8_t high_latch(std::uint8_t was, TemperatureDifference value, TemperatureDifference set_at,
                        TemperatureDifference release_at) {
    if (value >= set_at) {
        return 1;
    }
    return value <= release_at ? std::uint8_t{0} : was;
}

/// A condition with hysteresis: to begin it needs a margin that it may use up afterwards.
bool above_floor(bool begun, TemperatureDifference value, TemperatureDifference floor) {
    return value > (begun ? floor : floor + floor_hysteresis);
}

std::uint8_t ceiling(const Settings& s, const Situation& now, std::uint8_t was) {
    if (!now.store_seen) {
        return was;
    }
    const TemperatureDifference at = degrees_of(s, Setting::store_ceiling);
    const TemperatureDifference hottest = above_zero(now.hottest_store);
    if (now.store != Trust::good) {  // the other sensor may be the hotter one
        return hottest >= at ? std::uint8_t{1} : was;
    }
    return high_latch(was, hottest, at, at - ceiling_release);
}

std::uint8_t frost(const Settings& s, const Situation& now, bool was) {
    const bool cold_store =
        !above_floor(was, above_zero(now.store_bottom), degrees_of(s, Setting::frost_store_floor));
    if (!is_on(s, Setting::frost_guard) || !now.sees_difference() || cold_store) {
        return 0;
    }
    const TemperatureDifference coldest = above_zero(now.coldest_collector);
    return coldest <= degrees_of(s, Setting::frost_start) || (was && coldest < frost_stop(s));
}

std::uint8_t shedding_by_day(const Settings& s, const Situation& now, const GuardsState& guards) {
    if (!is_on(s, Setting::day_shedding) || !now.sees_difference() || guards.at_limit == 0) {
        return 0;
    }
    const TemperatureDifference start = degrees_of(s, Setting::day_shedding_start);
    return high_latch(guards.shedding_by_day, above_zero(now.hottest_collector), start,
                      start - day_shedding_hysteresis);
}

std::uint8_t shedding_by_night(const Settings& s, const Situation& now, bool was) {
    const bool wanted = is_on(s, Setting::night_shedding) || on_holiday(s, now);
    if (!wanted || !now.sees_difference() || !by_night(s, now) ||
        !above_floor(was, above_zero(now.store_bottom),
                     degrees_of(s, Setting::night_shedding_target))) {
        return 0;
    }
    return high_latch(was, -now.difference, difference_of(s, Setting::start_difference),
                      night_shedding_stop);
}

}  // namespace

bool on_holiday(const Settings& settings, const Situation& situation) noexcept {
    const std::int32_t today = situation.time.date;
    return situation.clock_is_set && settings[Setting::holiday_from] != 0 &&
           today >= settings[Setting::holiday_from] && today <= settings[Setting::holiday_until];
}

void keep_guards(const Settings& settings, const Situation& situation,
                 GuardsState& guards) noexcept {
    guards.at_ceiling = ceiling(settings, situation, guards.at_ceiling);
    if (situation.store == Trust::good) {
        const TemperatureDifference limit = degrees_of(settings, Setting::store_limit);
        guards.at_limit = high_latch(guards.at_limit, above_zero(situation.store_bottom), limit,
                                     limit - difference_of(settings, Setting::store_limit_release));
    }
    if (situation.collector == Trust::good) {
        guards.cut_out = high_latch(guards.cut_out, above_zero(situation.hottest_collector),
                                    degrees_of(settings, Setting::collector_cut_out),
                                    collector_release(settings));
    }
    guards.frost = frost(settings, situation, guards.frost != 0);
    guards.shedding_by_day = shedding_by_day(settings, situation, guards);  // after the limit
    guards.shedding_by_night =
        shedding_by_night(settings, situation, guards.shedding_by_night != 0);
}

}  // namespace noonbench::firmware
