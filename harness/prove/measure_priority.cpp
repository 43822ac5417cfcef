// SPDX-License-Identifier: MIT
// Two conditions at once: what the relay does says which of them wins.
#include "measure.hpp"

#include "proving_keys.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace noonbench::harness {

namespace {

using firmware::HandRequest;
using firmware::Sensor;
using firmware::Setting;

/// Makes the condition at the terminals and leaves all else as it is; conditions of the collector
/// come after those of the store (see sort below), since `difference` is measured from it.
void make(Condition condition, Rig& rig, double& store_bottom_c) {
    switch (condition) {
        case Condition::store_ceiling:
            rig.put(Sensor::store_top, rig.value(Setting::store_ceiling) + 1.0);
            break;
        case Condition::store_sensor_lost:
            rig.break_wire(Sensor::store_top);
            break;
        case Condition::hand_on:
            rig.pump_hand(HandRequest::on);
            rig.backup_hand(HandRequest::on);
            break;
        case Condition::hand_off:
            rig.pump_hand(HandRequest::off);
            rig.backup_hand(HandRequest::off);
            break;
        case Condition::collector_sensor_lost:
            rig.break_wire(Sensor::collector);
            break;
        case Condition::collector_cut_out:
            put_collectors(rig, rig.value(Setting::collector_cut_out) + 5.0);
            break;
        case Condition::frost:
            put_collectors(rig, rig.value(Setting::frost_start) - 3.0);
            break;
        case Condition::store_limit:
            store_bottom_c = rig.value(Setting::store_limit) + 1.0;
            rig.put(Sensor::store_bottom, store_bottom_c);
            break;
        case Condition::difference:
            put_collectors(rig, store_bottom_c + rig.value(Setting::start_difference) + 5.0);
            break;
        case Condition::nothing:
            break;
    }
}

/// Order of making: the store and hands, the sun, what spoils it; a wire is broken last, whatever
/// stood on it.
int order_of(Condition condition) {
    switch (condition) {
        case Condition::store_sensor_lost:
        case Condition::collector_sensor_lost:
            return 3;
        case Condition::collector_cut_out:
        case Condition::frost:
            return 2;
        case Condition::difference:
            return 1;
        default:
            return 0;
    }
}

std::string words_of(Condition condition) {
    std::string word(condition_words()[static_cast<std::size_t>(condition)]);
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

}  // namespace

Measurements measure(const PriorityTest& test, Rig& rig) {
    constexpr double cool_store_c = 40.0;
    Measurements rows;
    for (const Contest& contest : test.contests) {
        rig.rest(cool_store_c);
        double store_bottom_c = cool_store_c;
        Condition first = contest.wins;
        Condition second = contest.over;
        if (order_of(second) < order_of(first)) std::swap(first, second);
        make(first, rig, store_bottom_c);
        make(second, rig, store_bottom_c);
        rig.hold(test.settle_s);
        rows.push_back(
            relay_row("who wins",
                      fmt::format("{} over {}: {}", words_of(contest.wins), words_of(contest.over),
                                  contest.output == Output::pump ? "pump" : "backup"),
                      contest.is_on, rig.is_on(contest.output)));
        rows.back().done =
            fmt::format("Both made at the terminals and held for {} s.", test.settle_s);
    }
    rig.rest(cool_store_c);
    return rows;
}

}  // namespace noonbench::harness
