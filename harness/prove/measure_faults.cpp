// SPDX-License-Identifier: MIT
// Broken and shorted sensors, and mains lost and back.
#include "measure.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace noonbench::harness {

namespace {

using firmware::HandRequest;
using firmware::Sensor;
using firmware::Setting;

constexpr double well_above_k = 12.0;  // beyond the start difference: no doubt that the sun shines

Measurement seconds_row(std::string name, std::string where, double set_s,
                        std::optional<std::int64_t> measured_s, Allowed allowed) {
    Measurement row;
    row.name = std::move(name);
    row.where = std::move(where);
    row.set = set_s;
    if (measured_s) row.measured = static_cast<double>(*measured_s);
    row.unit = "s";
    row.allowed = std::move(allowed);
    return row;
}

void collect(Rig& rig, double store_c) {
    rig.rest(store_c);
    put_collectors(rig, store_c + rig.value(Setting::start_difference) + well_above_k);
    rig.hold(rig.seconds(Setting::least_run_time) + 30);
}

// ------------------------------------------------------------------ sensors

struct Fault {
    Sensor sensor;
    const char* where;
    bool shorted;

    [[nodiscard]] bool of_store() const {
        return sensor == Sensor::store_bottom || sensor == Sensor::store_top;
    }
    void make(Rig& rig) const { shorted ? rig.short_wire(sensor) : rig.break_wire(sensor); }
};

/// Between stop and start difference: a store read as too cold would start the pump, and so would a
/// collector read as too hot.
void at_rest(const SensorFaultTest& test, const Fault& fault, Rig& rig, Measurements& rows) {
    rig.rest(test.store_c);
    put_collectors(rig, test.store_c + 0.5 * (rig.value(Setting::start_difference) +
                                              rig.value(Setting::stop_difference)));
    rig.hold(30);
    fault.make(rig);
    rows.push_back(relay_row("pump at rest, sensor lost", fault.where, false,
                             rig.ever(Output::pump, true, test.watch_s)));
    rows.back().done = "The fault made while the pump stood; it must not start.";
}

/// The second from which a relay stayed off until the last that was watched.
std::optional<std::int64_t> off_since(std::int64_t last_on_s, std::int64_t watched_s) {
    if (last_on_s == watched_s) return std::nullopt;
    return last_on_s + 1;
}

void running(const SensorFaultTest& test, const Fault& fault, Rig& rig, Measurements& rows) {
    const Allowed answer{0.0, static_cast<double>(test.answer_within_s),
                         fmt::format("The file allows {} s: some samples to be sure of the fault "
                                     "(common practice, no source).",
                                     test.answer_within_s)};
    collect(rig, test.store_c);
    rig.backup_hand(HandRequest::on);
    rig.hold(10);
    fault.make(rig);
    std::int64_t pump_on_s = 0;  // last seen on
    std::int64_t backup_on_s = 0;
    bool backup_stayed = true;
    for (std::int64_t s = 1; s <= test.watch_s; ++s) {
        rig.second();
        if (rig.is_on(Output::pump)) pump_on_s = s;
        if (rig.is_on(Output::backup)) backup_on_s = s;
        backup_stayed = backup_stayed && rig.is_on(Output::backup);
    }
    rows.push_back(seconds_row("pump running, sensor lost: off after", fault.where, 0.0,
                               off_since(pump_on_s, test.watch_s), answer));
    rows.back().done =
        fmt::format("The fault made while the pump collected; watched for {} s.", test.watch_s);
    if (fault.of_store()) {
        rows.push_back(seconds_row("backup on by hand, sensor lost: off after", fault.where, 0.0,
                                   off_since(backup_on_s, test.watch_s), answer));
        rows.back().done = "Heat without a store temperature has to end, even by hand.";
    } else {
        rows.push_back(
            relay_row("backup on by hand, sensor lost", fault.where, true, backup_stayed));
        rows.back().done = "The collector's sensor is no concern of the backup.";
    }
}

void repaired(const SensorFaultTest& test, const Fault& fault, Rig& rig, Measurements& rows) {
    const double warm_c = test.store_c + rig.value(Setting::start_difference) + well_above_k;
    rig.put(fault.sensor, fault.of_store() ? test.store_c : warm_c);
    rows.push_back(seconds_row(
        "pump, after the repair: on after", fault.where, 0.0,
        rig.seconds_until(Output::pump, true, 10 * test.back_within_s),
        {0.0, static_cast<double>(test.back_within_s),
         fmt::format("The file allows {} s for the reading to be trusted again; the least rest was "
                     "over (common practice, no source).",
                     test.back_within_s)}));
    rows.back().done = "Wire mended under the same sun; the pump has to come back by itself.";
}

}  // namespace

Measurements measure(const SensorFaultTest& test, Rig& rig) {
    Measurements rows;
    std::vector<Fault> faults{{Sensor::collector, "collector open", false},
                              {Sensor::collector, "collector shorted", true},
                              {Sensor::store_bottom, "store bottom open", false},
                              {Sensor::store_bottom, "store bottom shorted", true},
                              {Sensor::store_top, "store top open", false},
                              {Sensor::store_top, "store top shorted", true}};
    if (rig.set()[Setting::second_collector_fitted] != 0) {
        faults.push_back({Sensor::second_collector, "second collector open", false});
        faults.push_back({Sensor::second_collector, "second collector shorted", true});
    }
    for (const Fault& fault : faults) {
        at_rest(test, fault, rig, rows);
        running(test, fault, rig, rows);
        repaired(test, fault, rig, rows);
    }
    rig.rest(test.store_c);
    return rows;
}

// ------------------------------------------------------------------ mains

namespace {

void cut(const PowerCutTest& test, Rig& rig) {
    rig.mains(false);
    rig.hold(test.cut_s);
    rig.mains(true);
}

Allowed up_to(std::int64_t seconds, const char* why) {
    return {0.0, static_cast<double>(seconds), fmt::format("Up to {} s later: {}", seconds, why)};
}

void restart(const PowerCutTest& test, Rig& rig, Measurements& rows) {
    const std::string after = fmt::format("after {} s without mains", test.cut_s);
    collect(rig, test.store_c);
    rig.mains(false);
    rows.push_back(relay_row("pump without mains", "the sun still shining", false,
                             rig.ever(Output::pump, true, test.cut_s)));
    rows.back().done = "Mains cut while the pump collected.";
    rig.mains(true);
    rows.push_back(
        seconds_row("start after mains came back", "the sun still shining",
                    static_cast<double>(rig.seconds(Setting::least_rest_time)),
                    rig.seconds_until(Output::pump, true, test.watch_s),
                    up_to(test.answer_within_s,
                          "readings have to settle first (common practice, no source).")));
    rows.back().done = "Seconds from mains to pump; the least rest holds here too.";
    rig.rest(test.store_c);
    rig.pump_hand(HandRequest::on);
    rig.hold(10);
    cut(test, rig);
    rows.push_back(relay_row("pump, on by hand before the cut", after, false,
                             rig.ever(Output::pump, true, test.watch_s)));
    rows.back().done = "Hand mode must not come back by itself.";
}

/// With no rest to hide behind: what do the first, unsettled readings do?
void unsettled(const PowerCutTest& test, Rig& rig, Measurements& rows) {
    const firmware::Settings as_set = rig.set();
    firmware::Settings without_rest = as_set;
    without_rest[Setting::least_rest_time] = 0;
    const double warm_c = test.store_c + rig.value(Setting::start_difference) + well_above_k;
    rig.set(without_rest);
    rig.rest(test.store_c);
    cut(test, rig);
    put_collectors(rig, warm_c);  // a loose contact warms itself: hot for a moment, then cold
    bool ran = rig.ever(Output::pump, true, 2);
    put_collectors(rig, test.store_c - 10.0);
    ran = rig.ever(Output::pump, true, 120) || ran;
    rows.push_back(
        relay_row("pump, readings unsettled", "collector hot for 2 s, then cold", false, ran));
    rows.back().done = "Least rest set to 0; a first reading alone must not start the pump.";
    rig.rest(test.store_c);
    cut(test, rig);
    put_collectors(rig, warm_c);
    rows.push_back(seconds_row("first start, least rest set to 0",
                               "collector hot from the first second",
                               static_cast<double>(test.trusted_after_s),
                               rig.seconds_until(Output::pump, true, test.watch_s),
                               up_to(test.answer_within_s, "as for the start above.")));
    rows.back().done = "Not before the readings can be trusted, as stated for the controller.";
    rig.set(as_set);
}

void settings_kept(const PowerCutTest& test, Rig& rig, Measurements& rows) {
    const auto row = [&](const char* name, double set_k, std::optional<double> collector_c) {
        Measurement m;
        m.name = name;
        m.where = at_text("store", test.store_c);
        m.set = set_k;
        if (collector_c) m.measured = *collector_c - test.store_c;
        m.unit = "K";
        m.decimals = 2;
        m.allowed = one_step(test.steps);
        m.done = "Staircase once more after the cut: settings have to outlive it.";
        rows.push_back(std::move(m));
    };
    rig.rest(test.store_c);
    cut(test, rig);
    rig.rest(test.store_c);
    const double start_k = rig.value(Setting::start_difference);
    const double stop_k = rig.value(Setting::stop_difference);
    const double start_c = test.store_c + start_k;
    row("start difference after the cut", start_k,
        switching_point(rig, {Sensor::collector, start_c - 2.0, start_c + 2.0, test.steps},
                        Output::pump, true));
    rig.hold(rig.seconds(Setting::least_run_time));
    row("stop difference after the cut", stop_k,
        switching_point(rig,
                        {Sensor::collector, start_c + 1.0, test.store_c + stop_k - 2.0, test.steps},
                        Output::pump, false));
}

void hot_return(const PowerCutTest& test, Rig& rig, Measurements& rows) {
    const double cut_out_c = rig.value(Setting::collector_cut_out);
    const double release_c = rig.value(Setting::collector_release);
    collect(rig, test.store_c);
    put_collectors(rig, cut_out_c + 10.0);
    rig.hold(30);
    cut(test, rig);
    rows.push_back(relay_row("pump, mains back over a hot collector",
                             at_text("collector", cut_out_c + 10.0), false,
                             rig.ever(Output::pump, true, test.watch_s)));
    rows.back().done = fmt::format("Watched for {} s: it has to stay barred.", test.watch_s);
    Measurement m;
    m.name = "release after that";
    m.where = "pump on";
    m.set = release_c;
    m.measured = switching_point(
        rig, {Sensor::collector, release_c + 2.0, release_c - 2.0, test.steps}, Output::pump, true);
    m.unit = "degC";
    m.decimals = 2;
    m.allowed = one_step(test.steps);
    m.done = "Collector turned down until the pump ran.";
    rows.push_back(std::move(m));
}

}  // namespace

Measurements measure(const PowerCutTest& test, Rig& rig) {
    Measurements rows;
    restart(test, rig, rows);
    unsettled(test, rig, rows);
    settings_kept(test, rig, rows);
    hot_return(test, rig, rows);
    rig.rest(test.store_c);
    return rows;
}

}  // namespace noonbench::harness
