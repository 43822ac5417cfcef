// SPDX-License-Identifier: MIT
// What it costs to work out the loop's flow and pressure: a healthy year with the flow given and
// with it solved, one after the other in one run of this program. Prints a table and one line of
// JSON. Seconds are those of the processor, so that other work beside it counts little. Solved may
// cost a third more; that is printed, never judged, since a busy machine still moves it. Exit code
// 1 if the two years differ in what they bring.
#include "harness/bench/run.hpp"
#include "harness/scenario/read.hpp"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <ctime>
#include <string>
#include <vector>

namespace {

using namespace noonbench::harness;

constexpr double most_ratio = 4.0 / 3.0;  // of the times
constexpr double most_gap = 0.005;        // between the heats to the store

struct Year {
    std::string hydraulics;
    double seconds = 0.0;
    double tick_ns = 0.0;
    double to_store_kwh = 0.0;
    std::int64_t starts = 0;
    bool finished = false;  // every day is there, and the books hold
};

Year year_with(const std::string& hydraulics) {
    const Scenario scenario =
        read_scenario(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/years/average_climate.yaml",
                      std::vector<std::string>{"loop.hydraulics=" + hydraulics});
    const std::clock_t begin = std::clock();
    const RunResult result = run(scenario);
    const double taken_s = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    const auto length_s = static_cast<double>(scenario.length_s);
    Year year;
    year.hydraulics = hydraulics;
    year.seconds = taken_s;
    year.tick_ns = taken_s / length_s * 1e9;
    year.to_store_kwh = result.total.to_store_kwh;
    year.starts = result.total.pump_starts;
    const auto days = static_cast<double>(result.days.size());
    year.finished = days * 86400.0 == length_s && result.balance.holds;
    fmt::print("{:6}  {:7.1f} s  {:7.1f} ns a tick  {:8.1f} kWh to the store  {:5} starts  {}\n",
               year.hydraulics, year.seconds, year.tick_ns, year.to_store_kwh, year.starts,
               year.finished ? "books hold" : "NOT FINISHED");
    return year;
}

}  // namespace

int main() {
    const Year given = year_with("given");
    const Year solved = year_with("solved");
    const double ratio = solved.seconds / given.seconds;
    const double gap = std::abs(solved.to_store_kwh / given.to_store_kwh - 1.0);
    fmt::print("time ratio {:.3f} (limit {:.3f}: {}), heat differs by {:.3f} %\n", ratio,
               most_ratio, ratio <= most_ratio ? "kept" : "EXCEEDED", 100.0 * gap);
    fmt::print(
        "{{\"given_s\": {:.2f}, \"solved_s\": {:.2f}, \"ratio\": {:.4f}, \"given_tick_ns\": "
        "{:.1f}, "
        "\"solved_tick_ns\": {:.1f}, \"given_kwh\": {:.2f}, \"solved_kwh\": {:.2f}, "
        "\"given_starts\": {}, \"solved_starts\": {}}}\n",
        given.seconds, solved.seconds, ratio, given.tick_ns, solved.tick_ns, given.to_store_kwh,
        solved.to_store_kwh, given.starts, solved.starts);
    return given.finished && solved.finished && gap <= most_gap ? 0 : 1;
}
