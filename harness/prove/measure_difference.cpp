// SPDX-License-Identifier: MIT
// Start and stop difference: the collector's decade is turned slowly up and down while the store's
// stands still. Several store temperatures, because differentials of real controllers were seen to
// depend on it (J. Solar Energy Engineering 106(2), 1984, p. 235).
#include "measure.hpp"

#include "harness/bench/wires.hpp"
#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace noonbench::harness {

namespace {

using firmware::Sensor;
using firmware::Setting;

constexpr double approach_k = 2.0;  // begin so far from the threshold, give up so far beyond

struct Differences {
    std::optional<double> start_k;
    std::optional<double> stop_k;
};

std::optional<double> less(std::optional<double> celsius, double store_c) {
    if (!celsius) return std::nullopt;
    return *celsius - store_c;
}

/// Up until the pump runs, on by a kelvin, down until it stops. `shift_k` moves all steps, so that
/// repeated runs do not meet the threshold at the same place of a step.
Differences up_and_down(Rig& rig, double store_c, const Steps& steps, double shift_k) {
    Differences found;
    const double start_c = store_c + rig.value(Setting::start_difference) + shift_k;
    const double stop_c = store_c + rig.value(Setting::stop_difference) + shift_k;
    rig.rest(store_c);
    found.start_k = less(
        switching_point(rig, {Sensor::collector, start_c - approach_k, start_c + approach_k, steps},
                        Output::pump, true),
        store_c);
    rig.put(Sensor::collector, start_c + 1.0);
    rig.hold(rig.seconds(Setting::least_run_time) + steps.hold_s);
    found.stop_k =
        less(switching_point(rig, {Sensor::collector, start_c + 1.0, stop_c - approach_k, steps},
                             Output::pump, false),
             store_c);
    return found;
}

Measurement difference_row(const char* name, double set_k, std::optional<double> measured_k,
                           const Steps& steps) {
    Measurement row;
    row.name = name;
    row.set = set_k;
    row.measured = measured_k;
    row.unit = "K";
    row.decimals = 2;
    row.allowed = one_step(steps);
    return row;
}

struct Series {
    const char* name;
    std::vector<double> mean_k;    // one a store temperature
    std::vector<double> spread_k;  // greatest less least of its runs
};

double span_of(const std::vector<double>& values) {
    if (values.empty()) return 0.0;
    const auto [least, most] = std::minmax_element(values.begin(), values.end());
    return *most - *least;
}

void note_runs(Series& series, const std::vector<double>& runs) {
    if (runs.empty()) return;
    double sum = 0.0;
    for (const double run : runs) sum += run;
    series.mean_k.push_back(sum / static_cast<double>(runs.size()));
    series.spread_k.push_back(span_of(runs));
}

void add_spread_and_drift(const Series& series, const DifferenceTest& test, Measurements& rows) {
    const auto add = [&](const char* what, const std::string& where,
                         const std::vector<double>& values, double value, const char* done) {
        Measurement row = difference_row(series.name, 0.0, std::nullopt, test.steps);
        row.name += what;
        row.where = where;
        if (!values.empty()) row.measured = value;
        row.allowed.least = 0.0;
        row.done = done;
        rows.push_back(std::move(row));
    };
    const double worst = series.spread_k.empty()
                             ? 0.0
                             : *std::max_element(series.spread_k.begin(), series.spread_k.end());
    add(", spread of the runs", fmt::format("worst of {} store temperatures", test.store_c.size()),
        series.spread_k, worst, "Greatest less least of the runs at one store temperature.");
    add(", change with the store", "means of the store temperatures", series.mean_k,
        span_of(series.mean_k),
        "Greatest less least of the means; does the difference depend on the level?");
}

}  // namespace

Measurements measure(const DifferenceTest& test, Rig& rig) {
    Measurements rows;
    Series start{"start difference", {}, {}};
    Series stop{"stop difference", {}, {}};
    for (const double store_c : test.store_c) {
        std::vector<double> starts;
        std::vector<double> stops;
        for (int run = 1; run <= test.repeat; ++run) {
            const double shift_k = test.steps.step_k * (run - 1) / static_cast<double>(test.repeat);
            const Differences found = up_and_down(rig, store_c, test.steps, shift_k);
            if (found.start_k) starts.push_back(*found.start_k);
            if (found.stop_k) stops.push_back(*found.stop_k);
            Measurement row = difference_row(start.name, rig.value(Setting::start_difference),
                                             found.start_k, test.steps);
            row.where = at_text("store", store_c);
            row.run = run;
            row.done = "Collector turned up in steps until the pump ran, the store held.";
            rows.push_back(row);
            row = difference_row(stop.name, rig.value(Setting::stop_difference), found.stop_k,
                                 test.steps);
            row.where = at_text("store", store_c);
            row.run = run;
            row.done = "Collector turned down in steps until the pump stopped, the store held.";
            rows.push_back(row);
        }
        note_runs(start, starts);
        note_runs(stop, stops);
    }
    add_spread_and_drift(start, test, rows);
    add_spread_and_drift(stop, test, rows);
    rig.rest(test.store_c.front());
    return rows;
}

namespace {

/// The temperature at which a platinum element shows `ohm`.
double celsius_of(double ohm) {
    double low = -50.0;
    double high = 400.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (element_ohm(SensorType::platinum_1000, middle) < ohm ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

double with_lead(double celsius, double ohm) {
    return celsius_of(element_ohm(SensorType::platinum_1000, celsius) + ohm);
}

}  // namespace

Measurements measure(const SensorLineTest& test, Rig& rig) {
    Measurements rows;
    const double start_k = rig.value(Setting::start_difference);
    const std::string lead = number_text(test.lead_ohm, 0) + " Ω in the ";
    const auto add = [&](const char* line, double collector_ohm, double bottom_ohm) {
        rig.rest(test.store_c);
        rig.lead(Sensor::collector, collector_ohm);
        rig.lead(Sensor::store_bottom, bottom_ohm);
        rig.hold(test.steps.hold_s);
        // what the collector's element has to be so that the sockets show the start difference
        const double socket_c = with_lead(test.store_c, bottom_ohm) + start_k;
        const double element_c = with_lead(socket_c, -collector_ohm);
        const auto found = switching_point(
            rig, {Sensor::collector, element_c - approach_k, element_c + approach_k, test.steps},
            Output::pump, true);
        Measurement row =
            difference_row("start difference with a long line", element_c - test.store_c,
                           less(found, test.store_c), test.steps);
        row.where = lead + line;
        row.done = "Resistance put in series with the sensor; set is what IEC 60751 makes of it.";
        rows.push_back(std::move(row));
        rig.lead(Sensor::collector, 0.0);
        rig.lead(Sensor::store_bottom, 0.0);
    };
    add("collector's line", test.lead_ohm, 0.0);
    add("store bottom's line", 0.0, test.lead_ohm);
    add("lines of both", test.lead_ohm, test.lead_ohm);
    rig.rest(test.store_c);
    return rows;
}

}  // namespace noonbench::harness
