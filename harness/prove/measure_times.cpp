// SPDX-License-Identifier: MIT
// Least run and rest, sampling and exercise runs.
#include "measure.hpp"

#include <fmt/format.h>

#include <utility>

namespace noonbench::harness {

namespace {

using firmware::HandRequest;
using firmware::Setting;

constexpr double well_above_k = 12.0;
constexpr std::int64_t an_hour = 3600;
constexpr std::int64_t a_day = 86400;

const char* const one_second = "One second each way: the relays are looked at once a second.";

Measurement seconds_row(std::string name, std::string where, std::int64_t set_s,
                        std::optional<std::int64_t> measured_s) {
    Measurement row;
    row.name = std::move(name);
    row.where = std::move(where);
    row.set = static_cast<double>(set_s);
    if (measured_s) row.measured = static_cast<double>(*measured_s);
    row.unit = "s";
    row.allowed = {-1.0, 1.0, one_second};
    return row;
}

void sun(Rig& rig, double store_c, bool shines) {
    put_collectors(rig, shines ? store_c + rig.value(Setting::start_difference) + well_above_k
                               : store_c - 5.0);
}

/// The sun goes as soon as the pump runs, and is back as soon as it stands.
void run_and_rest(const RunAndRestTest& test, Rig& rig, int run, Measurements& rows) {
    const std::int64_t least_run_s = rig.seconds(Setting::least_run_time);
    const std::int64_t least_rest_s = rig.seconds(Setting::least_rest_time);
    rig.rest(test.store_c);
    sun(rig, test.store_c, true);
    const bool ran = rig.seconds_until(Output::pump, true, an_hour).has_value();
    sun(rig, test.store_c, false);
    const auto run_s = ran ? rig.seconds_until(Output::pump, false, an_hour) : std::nullopt;
    rows.push_back(seconds_row("least run", "sun gone at once", least_run_s, run_s));
    rows.back().run = run;
    rows.back().done = "Seconds from pump on to pump off, the collector cold meanwhile.";
    sun(rig, test.store_c, true);
    const auto rest_s = run_s ? rig.seconds_until(Output::pump, true, an_hour) : std::nullopt;
    rows.push_back(seconds_row("least rest", "sun back at once", least_rest_s, rest_s));
    rows.back().run = run;
    rows.back().done = "Seconds from pump off to pump on, the collector hot meanwhile.";
}

/// A guard may not wait for the least run, nor frost and hands for the least rest.
void exceptions(const RunAndRestTest& test, Rig& rig, Measurements& rows) {
    const Allowed answer{
        0.0, static_cast<double>(test.answer_within_s),
        fmt::format("The file allows {} s for the reading to follow.", test.answer_within_s)};
    rig.rest(test.store_c);
    sun(rig, test.store_c, true);
    rig.seconds_until(Output::pump, true, an_hour);
    put_collectors(rig, rig.value(Setting::collector_cut_out) + 30.0);
    rows.push_back(seconds_row("run broken off by the collector cut-out", "within the least run", 0,
                               rig.seconds_until(Output::pump, false, an_hour)));
    rows.back().allowed = answer;
    rows.back().done = "Collector turned far above its cut-out just after the start.";
    rig.pump_hand(HandRequest::on);
    rows.push_back(seconds_row("rest broken off by hand", "within the least rest", 0,
                               rig.seconds_until(Output::pump, true, an_hour)));
    rows.back().allowed = answer;
    rows.back().done = "Pump switched on by hand just after it had stopped.";
}

}  // namespace

Measurements measure(const RunAndRestTest& test, Rig& rig) {
    Measurements rows;
    for (int run = 1; run <= test.repeat; ++run) run_and_rest(test, rig, run, rows);
    exceptions(test, rig, rows);
    rig.rest(test.store_c);
    return rows;
}

// ------------------------------------------------------------------ timed runs

namespace {

struct Run {
    CivilSeconds on_s = 0;
    CivilSeconds off_s = 0;
};

std::vector<Run> watch_runs(Rig& rig, std::int64_t seconds) {
    std::vector<Run> runs;
    bool was_on = rig.is_on(Output::pump);
    for (std::int64_t s = 0; s < seconds; ++s) {
        const CivilSeconds now = rig.now();
        rig.second();
        const bool is_on = rig.is_on(Output::pump);
        if (is_on && !was_on) runs.push_back({now, now});
        if (!is_on && was_on && !runs.empty()) runs.back().off_s = now;
        was_on = is_on;
    }
    return runs;
}

/// The longest or shortest of the runs, whichever deviates more.
std::optional<std::int64_t> worst(const std::vector<std::int64_t>& values, std::int64_t set) {
    std::optional<std::int64_t> worst;
    for (const std::int64_t value : values) {
        const std::int64_t off = value > set ? value - set : set - value;
        if (!worst || off > (*worst > set ? *worst - set : set - *worst)) worst = value;
    }
    return worst;
}

void sampling(Rig& rig, Measurements& rows) {
    const CivilSeconds midnight = rig.now();
    const std::vector<Run> runs = watch_runs(rig, a_day);
    std::vector<std::int64_t> lengths;
    std::vector<std::int64_t> pauses;
    std::int64_t outside = 0;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        lengths.push_back(runs[i].off_s - runs[i].on_s);
        if (i > 0) pauses.push_back(runs[i].on_s - runs[i - 1].off_s);
        const std::int64_t in_day_s = runs[i].on_s - midnight;
        if (in_day_s < rig.seconds(Setting::sampling_from) ||
            in_day_s >= rig.seconds(Setting::sampling_until)) {
            ++outside;
        }
    }
    const std::int64_t every_s = rig.seconds(Setting::sampling_every);
    const std::int64_t for_s = rig.seconds(Setting::sampling_for);
    const std::string where = fmt::format("worst of {} runs", runs.size());
    rows.push_back(seconds_row("sampling run, length", where, for_s, worst(lengths, for_s)));
    rows.back().done = "A day without sun; each run of the pump timed.";
    rows.push_back(
        seconds_row("sampling run, rest before it", where, every_s, worst(pauses, every_s)));
    rows.back().done = "The same day; each standstill between two runs timed.";
    Measurement count;
    count.name = "sampling runs outside their hours";
    count.where = "a day without sun";
    count.measured = static_cast<double>(outside);
    count.allowed.ground = "There must be none.";
    count.done = "The same day; the hours are those set, by a clock without summer time.";
    rows.push_back(std::move(count));
}

}  // namespace

Measurements measure(const TimedRunsTest& test, Rig& rig) {
    Measurements rows;
    const firmware::Settings as_set = rig.set();
    rig.put_store(test.store_c);
    put_collectors(rig, test.store_c - 10.0);
    sampling(rig, rows);
    firmware::Settings no_sampling = as_set;
    no_sampling[Setting::sampling] = 0;
    rig.set(no_sampling);
    rig.rest(test.store_c);
    rig.pump_hand(HandRequest::on);  // the standstill is counted from here
    rig.hold(60);
    rig.pump_hand(HandRequest::automatic);
    const bool stands = rig.seconds_until(Output::pump, false, an_hour).has_value();
    const std::int64_t after_s = rig.seconds(Setting::exercise_after);
    const auto started =
        stands ? rig.seconds_until(Output::pump, true, after_s + an_hour) : std::nullopt;
    rows.push_back(seconds_row("exercise run, standstill before it", "no sun", after_s, started));
    rows.back().done = "Seconds from the last stop to the exercise run.";
    rows.push_back(
        seconds_row("exercise run, length", "no sun", rig.seconds(Setting::exercise_for),
                    started ? rig.seconds_until(Output::pump, false, an_hour) : std::nullopt));
    rows.back().done = "That run timed.";
    rig.set(as_set);
    rig.rest(test.store_c);
    return rows;
}

}  // namespace noonbench::harness
