// SPDX-License-Identifier: MIT
// Tests in which one decade is turned until a guard acts: store limit, store ceiling, collector
// cut-out, frost guard; and the sensor inputs, read off from such switching points.
#include "measure.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace noonbench::harness {

namespace {

using firmware::HandRequest;
using firmware::Sensor;
using firmware::Setting;

constexpr double approach_k = 2.0;
constexpr double warm_store_c = 40.0;
constexpr double least_frost_stop_c = -15.0;  // the setting goes no lower

Measurement threshold_row(std::string name, std::string where, double set_c,
                          std::optional<double> measured_c, const Steps& steps) {
    Measurement row;
    row.name = std::move(name);
    row.where = std::move(where);
    row.set = set_c;
    row.measured = measured_c;
    row.unit = "degC";
    row.decimals = 2;
    row.allowed = one_step(steps);
    return row;
}

/// From `approach_k` before the value in the direction of turning to as far beyond it.
std::optional<double> around(Rig& rig, Sensor sensor, double value_c, bool upwards,
                             const Steps& steps, std::pair<Output, bool> wanted) {
    const double sign = upwards ? 1.0 : -1.0;
    return switching_point(
        rig, {sensor, value_c - sign * approach_k, value_c + sign * approach_k, steps},
        wanted.first, wanted.second);
}

/// The store stands, the collector far enough above it, and the pump runs.
void collect(Rig& rig, double store_c) {
    rig.rest(store_c);
    put_collectors(rig, store_c + rig.value(Setting::start_difference) + 10.0);
    rig.hold(rig.seconds(Setting::least_run_time) + 30);
}

void store_limit(const OverTemperatureTest& test, Rig& rig, Measurements& rows) {
    const double limit_c = rig.value(Setting::store_limit);
    const double release_c = limit_c - rig.value(Setting::store_limit_release);
    collect(rig, limit_c - approach_k);
    put_collectors(rig, limit_c + rig.value(Setting::start_difference) + 10.0);
    rows.push_back(threshold_row(
        "store limit", "pump off", limit_c,
        around(rig, Sensor::store_bottom, limit_c, true, test.steps, {Output::pump, false}),
        test.steps));
    rows.back().done = "Store bottom turned up under a hot collector until the pump stopped.";
    rows.push_back(threshold_row(
        "store limit, release", "pump on", release_c,
        around(rig, Sensor::store_bottom, release_c, false, test.steps, {Output::pump, true}),
        test.steps));
    rows.back().done = "Store bottom turned down until the pump ran again.";
}

void store_ceiling(const OverTemperatureTest& test, Rig& rig, Output output, Measurements& rows) {
    const double ceiling_c = rig.value(Setting::store_ceiling);
    const double release_c = ceiling_c - test.ceiling_release_k;
    const char* relay = output == Output::pump ? "pump" : "backup";
    rig.rest(warm_store_c);
    rig.put(Sensor::store_top, ceiling_c - approach_k);
    rig.pump_hand(HandRequest::on);
    rig.backup_hand(HandRequest::on);
    rig.hold(test.steps.hold_s);
    rows.push_back(threshold_row(
        "store ceiling", fmt::format("{} on by hand, off", relay), ceiling_c,
        around(rig, Sensor::store_top, ceiling_c, true, test.steps, {output, false}), test.steps));
    rows.back().done = "Both relays on by hand, store top turned up until they went off.";
    rows.push_back(threshold_row(
        "store ceiling, release", fmt::format("{} on by hand, back", relay), release_c,
        around(rig, Sensor::store_top, release_c, false, test.steps, {output, true}), test.steps));
    rows.back().done = "Store top turned down until they came back.";
}

void collector_cut_out(const OverTemperatureTest& test, Rig& rig, Measurements& rows) {
    const double cut_out_c = rig.value(Setting::collector_cut_out);
    const double release_c = rig.value(Setting::collector_release);
    collect(rig, warm_store_c);
    rows.push_back(threshold_row(
        "collector cut-out", "pump off", cut_out_c,
        around(rig, Sensor::collector, cut_out_c, true, test.steps, {Output::pump, false}),
        test.steps));
    rows.back().done = "Collector turned up over a cool store until the pump stopped.";
    rows.push_back(threshold_row(
        "collector cut-out, release", "pump on", release_c,
        around(rig, Sensor::collector, release_c, false, test.steps, {Output::pump, true}),
        test.steps));
    rows.back().done = "Collector turned down until the pump ran again.";
}

}  // namespace

Measurements measure(const OverTemperatureTest& test, Rig& rig) {
    Measurements rows;
    store_limit(test, rig, rows);
    store_ceiling(test, rig, Output::pump, rows);
    store_ceiling(test, rig, Output::backup, rows);
    collector_cut_out(test, rig, rows);
    rig.rest(warm_store_c);
    return rows;
}

Measurements measure(const FrostTest& test, Rig& rig) {
    Measurements rows;
    const double start_c = rig.value(Setting::frost_start);
    const double stop_c = rig.value(Setting::frost_stop);
    const double floor_c = rig.value(Setting::frost_store_floor);
    rig.rest(test.store_c);
    const auto turn = [&](const char* name, Sensor sensor, double at_c, bool upwards, bool on) {
        rows.push_back(threshold_row(
            name, on ? "pump on" : "pump off", at_c,
            around(rig, sensor, at_c, upwards, test.steps, {Output::pump, on}), test.steps));
    };
    turn("frost guard, start", Sensor::collector, start_c, false, true);
    rows.back().done = "Collector turned down over a warm store until the pump ran.";
    turn("frost guard, stop", Sensor::collector, stop_c, true, false);
    rows.back().done = "Collector turned up until the pump stopped.";
    put_collectors(rig, start_c - 3.0);
    rig.hold(rig.seconds(Setting::least_rest_time) + 30);
    turn("frost guard, floor of the store", Sensor::store_bottom, floor_c, false, false);
    rows.back().done = "Store bottom turned down in frost until the pump stopped.";
    turn("frost guard, back above the floor", Sensor::store_bottom, floor_c + test.floor_margin_k,
         true, true);
    rows.back().done = "Store bottom turned up in frost until the pump ran again.";
    rig.rest(test.store_c);
    return rows;
}

namespace {

struct Arranged {
    Sensor sensor;
    bool upwards;
    std::pair<Output, bool> wanted;
};

/// Sets the threshold and all that has to stand aside, and brings the rig to `approach_k` before.
Arranged arrange(Rig& rig, SwitchedBy by, double at_c) {
    firmware::Settings set = rig.set();
    const auto stored = [](double celsius) { return static_cast<std::int16_t>(celsius * 100.0); };
    switch (by) {
        case SwitchedBy::frost_start:
            set[Setting::frost_start] = stored(at_c);
            set[Setting::frost_stop] = stored(std::max(at_c + 3.0, least_frost_stop_c));
            rig.set(set);
            rig.rest(warm_store_c);
            return {Sensor::collector, false, {Output::pump, true}};
        case SwitchedBy::collector_cut_out:
            set[Setting::collector_cut_out] = stored(at_c);
            set[Setting::collector_release] = stored(at_c - 10.0);
            rig.set(set);
            collect(rig, warm_store_c);
            return {Sensor::collector, true, {Output::pump, false}};
        case SwitchedBy::store_limit:
            set[Setting::store_limit] = stored(at_c);
            rig.set(set);
            collect(rig, at_c - rig.value(Setting::store_limit_release) - 1.0);
            put_collectors(rig, at_c + rig.value(Setting::start_difference) + 10.0);
            return {Sensor::store_bottom, true, {Output::pump, false}};
        case SwitchedBy::store_ceiling:
            set[Setting::store_ceiling] = stored(at_c);
            rig.set(set);
            rig.rest(warm_store_c);
            rig.put(Sensor::store_top, at_c - approach_k);
            rig.pump_hand(HandRequest::on);
            rig.hold(30);
            return {Sensor::store_top, true, {Output::pump, false}};
        case SwitchedBy::backup_temperature:
            break;
    }
    set[Setting::backup_temperature] = stored(at_c);
    rig.set(set);
    rig.rest(at_c - rig.value(Setting::backup_hysteresis) - 1.0);
    return {Sensor::store_top, true, {Output::backup, false}};
}

const char* words_of(SwitchedBy by) {
    switch (by) {
        case SwitchedBy::frost_start:
            return "by its frost start";
        case SwitchedBy::collector_cut_out:
            return "by its cut-out";
        case SwitchedBy::store_limit:
            return "by the store limit";
        case SwitchedBy::store_ceiling:
            return "by the store ceiling";
        case SwitchedBy::backup_temperature:
            return "by the backup temperature";
    }
    return "";
}

const char* name_of(Sensor sensor) {
    switch (sensor) {
        case Sensor::store_bottom:
            return "store bottom sensor";
        case Sensor::store_top:
            return "store top sensor";
        default:
            return "collector sensor";
    }
}

}  // namespace

Measurements measure(const SensorAccuracyTest& test, Rig& rig) {
    Measurements rows;
    const firmware::Settings as_set = rig.set();
    for (const AccuracyPoints& points : test.points) {
        for (const double at_c : points.at_c) {
            const Arranged arranged = arrange(rig, points.by, at_c);
            rows.push_back(threshold_row(
                name_of(arranged.sensor), words_of(points.by), at_c,
                around(rig, arranged.sensor, at_c, arranged.upwards, test.steps, arranged.wanted),
                test.steps));
            rows.back().done =
                "The threshold set to a value, the resistance turned until the relay switched, and "
                "read back as a temperature by IEC 60751.";
            rig.set(as_set);
        }
    }
    rig.rest(warm_store_c);
    return rows;
}

}  // namespace noonbench::harness
