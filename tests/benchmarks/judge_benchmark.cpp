// SPDX-License-Identifier: MIT
// What judging costs: the same run, every second a tick, with fifty requirements and with none.
// Prints a table and one line of JSON. The figure is a ratio within one program run; the two sides
// take turns, and the medians are compared.
#include "harness/judge/judge.hpp"
#include "harness/scenario/read.hpp"
#include "harness/scenario/read_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <string>
#include <vector>

namespace {

using namespace noonbench::harness;

constexpr int turns = 9;

template <typename Work>
double seconds_of(Work work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

double median(std::vector<double> values) {
    std::nth_element(values.begin(), values.begin() + values.size() / 2, values.end());
    return values[values.size() / 2];
}

}  // namespace

int main() {
    const std::string root = NOONBENCH_SOURCE_DIR;
    Scenario scenario =
        read_scenario(root + "/scenarios/years/average_climate.yaml",
                      std::vector<std::string>{"length=20 day", "start=2026-05-01"});
    scenario.require = read_checks(root + "/tests/benchmarks/fifty_requirements.yaml").require;
    const std::vector<Requirement> fifty = requirements_of(scenario);
    std::vector<double> bare_s;
    std::vector<double> judged_s;
    std::size_t held = 0;
    for (int turn = 0; turn < turns; ++turn) {
        bare_s.push_back(seconds_of([&] { run_watched(scenario, [](const Bench&) {}); }));
        judged_s.push_back(seconds_of([&] {
            const std::vector<Outcome> outcomes = outcomes_of(scenario, fifty);
            held = static_cast<std::size_t>(
                std::count_if(outcomes.begin(), outcomes.end(),
                              [](const Outcome& o) { return o.truth == Truth::held; }));
        }));
    }
    const double ticks = static_cast<double>(scenario.length_s);
    const double bare_ns = median(bare_s) / ticks * 1e9;
    const double judged_ns = median(judged_s) / ticks * 1e9;
    fmt::print("{} requirements, {} held; {:.0f} ticks, {} turns\n", fifty.size(), held, ticks,
               turns);
    fmt::print("run alone      {:7.1f} ns a tick\n", bare_ns);
    fmt::print("run and judge  {:7.1f} ns a tick\n", judged_ns);
    fmt::print("extra          {:7.1f} %\n", 100.0 * (judged_ns / bare_ns - 1.0));
    fmt::print(
        "{{\"requirements\": {}, \"run_ns\": {:.1f}, \"judged_ns\": {:.1f}, \"ratio\": {:.4f}}}\n",
        fifty.size(), bare_ns, judged_ns, judged_ns / bare_ns);
    return held == fifty.size() ? 0 : 1;
}
