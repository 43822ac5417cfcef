// SPDX-License-Identifier: MIT
// The tests themselves, one a kind: each turns decades and switches on the rig and writes down what
// the relays do. Each begins and ends at rest.
#pragma once
#include "measurement.hpp"
#include "rig.hpp"
#include "tests.hpp"

#include <string>
#include <vector>

namespace noonbench::harness {

using Measurements = std::vector<Measurement>;

Measurements measure(const DifferenceTest& test, Rig& rig);
Measurements measure(const SensorAccuracyTest& test, Rig& rig);
Measurements measure(const SensorLineTest& test, Rig& rig);
Measurements measure(const SensorFaultTest& test, Rig& rig);
Measurements measure(const OverTemperatureTest& test, Rig& rig);
Measurements measure(const FrostTest& test, Rig& rig);
Measurements measure(const PowerCutTest& test, Rig& rig);
Measurements measure(const ClockTest& test, Rig& rig);
Measurements measure(const RunAndRestTest& test, Rig& rig);
Measurements measure(const SpeedTest& test, Rig& rig);
Measurements measure(const PriorityTest& test, Rig& rig);
Measurements measure(const TimedRunsTest& test, Rig& rig);

/// The moment at which a test of this kind begins on the laboratory's clock.
[[nodiscard]] CivilSeconds beginning(const AnyTest& test);

/// One step of the staircase each way, and why.
[[nodiscard]] Allowed one_step(const Steps& steps);

/// "store at 60 °C"
[[nodiscard]] std::string at_text(const char* what, double celsius);

/// A relay that has to be `wanted`, and is if `seen`.
[[nodiscard]] Measurement relay_row(std::string name, std::string where, bool wanted, bool seen);

}  // namespace noonbench::harness
