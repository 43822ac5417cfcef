// SPDX-License-Identifier: MIT
// What a proving file may ask for: one struct a kind of test, filled by its table of keys
// (keys.cpp). Temperatures in degC, differences in K, times in s. The figures here are what a file
// gets that does not say otherwise.
#pragma once
#include "firmware-model/settings.hpp"

#include "harness/scenario/scenario.hpp"

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace noonbench::harness {

/// A resistance decade is turned in steps, each held longer than the controller averages.
struct Steps {
    double step_k = 0.1;
    std::int64_t hold_s = 10;
};

/// Start and stop difference at several store temperatures.
struct DifferenceTest {
    std::vector<double> store_c{20.0, 40.0, 60.0, 80.0};
    Steps steps;
    std::int64_t repeat = 3;
};

/// A setting at whose value a relay switches: the sensor input is read off from it.
enum class SwitchedBy : std::uint8_t {
    frost_start,         // collector
    collector_cut_out,   // collector
    store_limit,         // store bottom
    store_ceiling,       // store top
    backup_temperature,  // store top
};

struct AccuracyPoints {
    SwitchedBy by = SwitchedBy::store_limit;
    std::vector<double> at_c;
};

struct SensorAccuracyTest {
    Steps steps;
    std::vector<AccuracyPoints> points;
};

/// What a resistance in the two wires of a sensor does.
struct SensorLineTest {
    double lead_ohm = 10.0;
    double store_c = 40.0;
    Steps steps;
};

/// Broken and shorted sensors, at rest and while running.
struct SensorFaultTest {
    double store_c = 40.0;
    std::int64_t answer_within_s = 10;
    std::int64_t back_within_s = 30;  // after the repair, the least rest being over
    std::int64_t watch_s = 120;
};

/// Store limit, store ceiling and collector cut-out, each with its release.
struct OverTemperatureTest {
    Steps steps;
    double ceiling_release_k = 2.0;  // as stated for the controller; it is no setting
};

/// Frost guard with its floor.
struct FrostTest {
    double store_c = 40.0;
    double floor_margin_k = 1.0;  // as stated for the controller; it is no setting
    Steps steps;
};

/// Mains lost and back.
struct PowerCutTest {
    std::int64_t cut_s = 60;
    double store_c = 40.0;
    std::int64_t trusted_after_s = 8;  // as stated: no start before so many seconds of readings
    std::int64_t answer_within_s = 20;
    std::int64_t watch_s = 600;
    Steps steps;
};

/// Backup windows day by day.
struct ClockTest {
    CivilSeconds from_s = 0;  // midnight is made of it
    std::int64_t days = 31;
    double drift_allowed_s_per_day = 2.0;
    std::int64_t cut_on_day = 0;  // mains lost from noon of that day; 0 = never
    std::int64_t cut_s = 7200;
};

struct RunAndRestTest {
    double store_c = 40.0;
    std::int64_t answer_within_s = 10;
    std::int64_t repeat = 3;
};

/// The speed signal against differences that the laboratory imposes, and in a simulated loop.
struct SpeedTest {
    double store_c = 40.0;
    double step_k = 2.0;
    std::int64_t loop_time_s = 60;   // time constant of the simulated loop
    std::int64_t loop_delay_s = 20;  // its dead time
    std::int64_t settle_within_s = 1200;
    double overshoot = 0.25;  // share of the change
};

/// Conditions that the laboratory can make at the terminals.
enum class Condition : std::uint8_t {
    store_ceiling,
    store_sensor_lost,
    hand_on,
    hand_off,
    collector_sensor_lost,
    collector_cut_out,
    frost,
    store_limit,
    difference,
    nothing,
};

enum class Output : std::uint8_t { pump, backup };

/// Two conditions at once: what the relay does says which of them wins.
struct Contest {
    Condition wins = Condition::nothing;
    Condition over = Condition::nothing;
    Output output = Output::pump;
    bool is_on = false;  // what the winner forces, as stated for the controller
};

struct PriorityTest {
    std::int64_t settle_s = 180;  // longer than least run and least rest
    std::vector<Contest> contests;
};

/// Sampling and exercise runs.
struct TimedRunsTest {
    double store_c = 40.0;
};

using AnyTest = std::variant<DifferenceTest, SensorAccuracyTest, SensorLineTest, SensorFaultTest,
                             OverTemperatureTest, FrostTest, PowerCutTest, ClockTest,
                             RunAndRestTest, SpeedTest, PriorityTest, TimedRunsTest>;

/// One proving file.
struct ProvingTest {
    std::string name;  // stem of the file
    std::string title;
    std::string about;
    firmware::Settings settings = firmware::default_settings();  // typed in before the test
    double clock_drift_s_per_day = 0.0;                          // of the simulated device
    AnyTest what{};
};

}  // namespace noonbench::harness
