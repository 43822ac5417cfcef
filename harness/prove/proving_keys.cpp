// SPDX-License-Identifier: MIT
#include "proving_keys.hpp"

#include "harness/scenario/key_making.hpp"
#include "harness/scenario/quantity_text.hpp"
#include "harness/scenario/setting_text.hpp"
#include "harness/scenario/value.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace noonbench::harness {

namespace {

constexpr std::array<std::string_view, 5> by_words{
    "frost_start", "collector_cut_out", "store_limit", "store_ceiling", "backup_temperature"};
constexpr std::array<firmware::Setting, 5> by_settings{
    firmware::Setting::frost_start, firmware::Setting::collector_cut_out,
    firmware::Setting::store_limit, firmware::Setting::store_ceiling,
    firmware::Setting::backup_temperature};
constexpr std::array<std::string_view, 10> conditions{
    "store_ceiling", "store_sensor_lost",     "hand_on",
    "hand_off",      "collector_sensor_lost", "collector_cut_out",
    "frost",         "store_limit",           "difference",
    "nothing"};
constexpr std::array<std::string_view, 2> value_lists{"store", "at"};

ProvingDraft& of(Draft& draft) {
    return static_cast<ProvingDraft&>(draft);  // the reader of this folder passes nothing else
}

template <class Test>
Test& test_of(Draft& draft) {
    return std::get<Test>(of(draft).test.what);
}

template <class Test>
void choose(ProvingTest& test) {
    test.what = Test{};
}

/// A key of a test: the member that holds it.
template <class Test, class Member>
Key number_of(std::string path, Bounds bounds, std::string meaning, Member Test::*member) {
    return number_key(std::move(path), bounds, std::move(meaning),
                      [member](Draft& d) -> Slot { return &(test_of<Test>(d).*member); });
}

template <class Test>
void add_steps(std::vector<Key>& keys, const std::string& word) {
    // More than 0.1 K a step would make the step the largest error (common practice, no source).
    keys.push_back(number_key(word + ".step", {"K", 0.01, 0.1}, "one step of the decade",
                              [](Draft& d) -> Slot { return &test_of<Test>(d).steps.step_k; }));
    keys.push_back(number_key(word + ".hold", {"s", 1, 600},
                              "how long each step is held; longer than the device averages",
                              [](Draft& d) -> Slot { return &test_of<Test>(d).steps.hold_s; }));
}

template <class Test>
Key store_of(const std::string& word) {
    return number_of(word + ".store", {"degC", 10, 90}, "temperature of the store", &Test::store_c);
}

/// A list of temperatures, each pushed where `list` says.
Key temperatures_key(std::string path, Bounds bounds, std::string meaning,
                     std::vector<double>& (*list)(Draft&)) {
    Key value = required(number_key(std::string(wrapped_key), bounds, meaning,
                                    [](Draft& d) -> Slot { return &of(d).celsius; }));
    Key key = list_key(std::move(path), {"", 1, 20}, std::move(meaning), {std::move(value)});
    key.open = [list](Draft& d) { list(d).clear(); };
    return taken(std::move(key), [list](Draft& d) -> std::vector<Objection> {
        list(d).push_back(of(d).celsius);
        return {};
    });
}

std::vector<Key> difference_keys() {
    std::vector<Key> keys{temperatures_key(
        "difference.store", {"degC", 0, 90}, "temperatures of the store",
        [](Draft& d) -> std::vector<double>& { return test_of<DifferenceTest>(d).store_c; })};
    add_steps<DifferenceTest>(keys, "difference");
    keys.push_back(number_of("difference.repeat", {"", 1, 20}, "runs at each store temperature",
                             &DifferenceTest::repeat));
    return keys;
}

/// Can each of the values be set on the controller?
std::vector<Objection> take_points(Draft& draft) {
    const AccuracyPoints& points = of(draft).points;
    const firmware::Setting setting = setting_of(points.by);
    const auto& row = firmware::setting_table()[static_cast<std::size_t>(setting)];
    for (const double celsius : points.at_c) {
        const std::string text = quantity_text(celsius, "degC");
        const Parsed<std::int16_t> stored = parse_setting(row, text);
        if (!stored.value) {
            return {{fmt::format("{} cannot be set to {}", row.name, text), allowed_text(row), {}}};
        }
    }
    test_of<SensorAccuracyTest>(draft).points.push_back(points);
    return {};
}

std::vector<Key> sensor_accuracy_keys() {
    std::vector<Key> items{
        required(word_key("by", {by_words.begin(), by_words.end()},
                          "the setting at which a relay switches",
                          [](Draft& d) -> Slot { return byte_of(of(d).points.by); })),
        required(
            temperatures_key("at", {"degC", -20, 200}, "values that it is set to",
                             [](Draft& d) -> std::vector<double>& { return of(d).points.at_c; }))};
    Key points = list_key("sensor_accuracy.points", {"", 1, 20},
                          "thresholds from which a sensor input is read off", std::move(items));
    points.open = [](Draft& d) { test_of<SensorAccuracyTest>(d).points.clear(); };
    points.begin = [](Draft& d) { of(d).points = {}; };
    std::vector<Key> keys{required(taken(std::move(points), take_points))};
    add_steps<SensorAccuracyTest>(keys, "sensor_accuracy");
    return keys;
}

std::vector<Key> sensor_line_keys() {
    std::vector<Key> keys{
        number_of("sensor_line.lead", {"ohm", 0.1, 100},
                  "resistance put into the line of one sensor", &SensorLineTest::lead_ohm),
        store_of<SensorLineTest>("sensor_line")};
    add_steps<SensorLineTest>(keys, "sensor_line");
    return keys;
}

std::vector<Key> sensor_fault_keys() {
    return {store_of<SensorFaultTest>("sensor_fault"),
            number_of("sensor_fault.answer_within", {"s", 1, 600},
                      "relays have to be off so long after the fault at the latest",
                      &SensorFaultTest::answer_within_s),
            number_of("sensor_fault.back_within", {"s", 1, 3600},
                      "the pump has to run again so long after the repair",
                      &SensorFaultTest::back_within_s),
            number_of("sensor_fault.watch", {"s", 10, 86400}, "how long each fault is watched",
                      &SensorFaultTest::watch_s)};
}

std::vector<Key> over_temperature_keys() {
    std::vector<Key> keys{number_of("over_temperature.ceiling_release", {"K", 0, 20},
                                    "how far below the store ceiling its guard lets go, as stated",
                                    &OverTemperatureTest::ceiling_release_k)};
    add_steps<OverTemperatureTest>(keys, "over_temperature");
    return keys;
}

std::vector<Key> frost_keys() {
    std::vector<Key> keys{
        store_of<FrostTest>("frost"),
        number_of("frost.floor_margin", {"K", 0, 20},
                  "how far above its floor the store lets the guard begin, as stated",
                  &FrostTest::floor_margin_k)};
    add_steps<FrostTest>(keys, "frost");
    return keys;
}

std::vector<Key> power_cut_keys() {
    std::vector<Key> keys{
        number_of("power_cut.for", {"s", 1, 864000}, "length of the cut", &PowerCutTest::cut_s),
        store_of<PowerCutTest>("power_cut"),
        number_of("power_cut.trusted_after", {"s", 1, 600},
                  "no start before so many seconds of readings, as stated",
                  &PowerCutTest::trusted_after_s),
        number_of("power_cut.answer_within", {"s", 1, 600}, "and at most so much later",
                  &PowerCutTest::answer_within_s),
        number_of("power_cut.watch", {"s", 10, 86400}, "how long a barred pump is watched",
                  &PowerCutTest::watch_s)};
    add_steps<PowerCutTest>(keys, "power_cut");
    return keys;
}

std::vector<Key> clock_keys() {
    return {required(key_of(Form::date_time, "clock.from", "first day",
                            [](Draft& d) -> Slot { return &test_of<ClockTest>(d).from_s; })),
            number_of("clock.days", {"", 1, 400}, "days watched", &ClockTest::days),
            number_of("clock.drift_allowed", {"s/day", 0, 60}, "how far the clock may drift",
                      &ClockTest::drift_allowed_s_per_day),
            number_of("clock.cut_on_day", {"", 0, 400},
                      "mains is lost from noon of this day; 0: no", &ClockTest::cut_on_day),
            number_of("clock.cut_for", {"s", 1, 36000}, "for so long", &ClockTest::cut_s)};
}

std::vector<Key> run_and_rest_keys() {
    return {store_of<RunAndRestTest>("least_run_and_rest"),
            number_of("least_run_and_rest.answer_within", {"s", 1, 600},
                      "how long a guard may take to stop a run", &RunAndRestTest::answer_within_s),
            number_of("least_run_and_rest.repeat", {"", 1, 20}, "runs", &RunAndRestTest::repeat)};
}

std::vector<Key> speed_keys() {
    return {store_of<SpeedTest>("speed"),
            number_of("speed.step", {"K", 0.5, 20}, "step of the difference", &SpeedTest::step_k),
            number_of("speed.loop_time", {"s", 1, 3600}, "time constant of the simulated loop",
                      &SpeedTest::loop_time_s),
            number_of("speed.loop_delay", {"s", 0, 600}, "dead time of the simulated loop",
                      &SpeedTest::loop_delay_s),
            number_of("speed.settle_within", {"s", 10, 86400}, "longest settling time",
                      &SpeedTest::settle_within_s),
            number_of("speed.overshoot", {"%", 0, 100}, "largest overshoot, share of the change",
                      &SpeedTest::overshoot)};
}

std::vector<Key> priority_keys() {
    const std::vector<std::string_view> words(conditions.begin(), conditions.end());
    std::vector<Key> items{
        required(word_key("wins", words, "the condition that has to win",
                          [](Draft& d) -> Slot { return byte_of(of(d).contest.wins); })),
        required(word_key("over", words, "the condition that stands beside it",
                          [](Draft& d) -> Slot { return byte_of(of(d).contest.over); })),
        word_key("relay", {"pump", "backup"}, "the relay that is looked at",
                 [](Draft& d) -> Slot { return byte_of(of(d).contest.output); }),
        required(key_of(Form::flag, "is_on", "what it has to be",
                        [](Draft& d) -> Slot { return &of(d).contest.is_on; }))};
    Key contests = list_key("priority.contests", {"", 1, 60}, "pairs of conditions, both at once",
                            std::move(items));
    contests.begin = [](Draft& d) { of(d).contest = {}; };
    contests = taken(std::move(contests), [](Draft& d) -> std::vector<Objection> {
        test_of<PriorityTest>(d).contests.push_back(of(d).contest);
        return {};
    });
    return {required(std::move(contests)),
            number_of("priority.settle", {"s", 10, 3600}, "how long both are held",
                      &PriorityTest::settle_s)};
}

std::vector<KindInfo> make_kinds() {
    return {
        {"difference", "start and stop difference at several store temperatures", difference_keys(),
         choose<DifferenceTest>},
        {"sensor_accuracy", "sensor inputs, read off from switching points", sensor_accuracy_keys(),
         choose<SensorAccuracyTest>},
        {"sensor_line", "resistance in a sensor's line", sensor_line_keys(),
         choose<SensorLineTest>},
        {"sensor_fault", "broken and shorted sensors", sensor_fault_keys(),
         choose<SensorFaultTest>},
        {"over_temperature", "store limit, store ceiling, collector cut-out",
         over_temperature_keys(), choose<OverTemperatureTest>},
        {"frost", "frost guard and its floor", frost_keys(), choose<FrostTest>},
        {"power_cut", "mains lost and back", power_cut_keys(), choose<PowerCutTest>},
        {"clock", "backup windows day by day", clock_keys(), choose<ClockTest>},
        {"least_run_and_rest", "least times of run and rest", run_and_rest_keys(),
         choose<RunAndRestTest>},
        {"speed", "speed signal", speed_keys(), choose<SpeedTest>},
        {"priority", "which of two conditions wins", priority_keys(), choose<PriorityTest>},
        {"timed_runs",
         "sampling and exercise runs",
         {store_of<TimedRunsTest>("timed_runs")},
         choose<TimedRunsTest>},
    };
}

std::vector<Key> make_common_keys() {
    std::vector<Key> keys{
        key_of(Form::line, "title", "one line", [](Draft& d) -> Slot { return &of(d).test.title; }),
        key_of(Form::line, "about", "what the laboratory does and why",
               [](Draft& d) -> Slot { return &of(d).test.about; }),
        number_key("device.clock_drift", {"s/day", -600, 600},
                   "of the simulated device's clock chip; a board brings its own",
                   [](Draft& d) -> Slot { return &of(d).test.clock_drift_s_per_day; })};
    for (const Key& key : all_keys()) {
        if (key.form == Form::setting) keys.push_back(key);
    }
    return keys;
}

}  // namespace

const std::vector<KindInfo>& all_kinds() {
    static const std::vector<KindInfo> kinds = make_kinds();
    return kinds;
}

const std::vector<Key>& common_keys() {
    static const std::vector<Key> keys = make_common_keys();
    return keys;
}

std::span<const std::string_view> lists_of_values() {
    return value_lists;
}

namespace {

void add_key_lines(std::string& text, const std::vector<Key>& keys, const std::string& above) {
    for (const Key& key : keys) {
        const std::string path = above + key.path;
        const bool is_list = key.form == Form::list;
        text += fmt::format("  {:<36}{} ({})\n", path, key.meaning,
                            is_list ? "a list" : allowed_for(key));
        if (is_list && key.items.front().path != wrapped_key) {
            add_key_lines(text, key.items, path + ".");
        }
    }
}

}  // namespace

std::string kinds_text() {
    std::string text;
    for (const KindInfo& kind : all_kinds()) {
        text += fmt::format("{}: {}\n", kind.word, kind.meaning);
        add_key_lines(text, kind.keys, "");
    }
    return text;
}

std::span<const std::string_view> condition_words() {
    return conditions;
}

firmware::Setting setting_of(SwitchedBy by) {
    return by_settings[static_cast<std::size_t>(by)];
}

}  // namespace noonbench::harness
