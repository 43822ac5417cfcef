// SPDX-License-Identifier: MIT
// How soon a planted weakness is found: the hunt against random points, runs until the first break,
// for twenty seeds that were fixed before anything was measured. The search was chosen with seeds
// 101 to 120. Prints a table and one line of JSON; exit code 1 if the hunt is not five times as
// quick.
#include "plant/random.hpp"

#include "harness/hunt/hunt.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

namespace {

namespace plant = noonbench::plant;
using namespace noonbench::harness;

constexpr int budget = 5000;  // runs, for either
constexpr std::uint64_t first_seed = 1;
constexpr std::uint64_t last_seed = 20;
constexpr double wanted_ratio = 5.0;

/// Runs until the first break; the whole budget if there was none.
int hunted(const SearchProblem& problem, std::uint64_t seed) {
    const SearchResult found = search(problem, {budget, seed, false});
    return found.broken ? found.runs_to_break : budget;
}

/// The same with uniform random points of the same cube.
int at_random(const SearchProblem& problem, std::uint64_t seed) {
    plant::RandomSequence random(seed);
    std::vector<double> point(problem.nominal.size());
    for (int run = 1; run <= budget; ++run) {
        for (double& share : point) share = random.uniform();
        if (problem.margin_at(problem.snap(point)) < 0.0) return run;
    }
    return budget;
}

double median(std::vector<int> runs) {
    std::sort(runs.begin(), runs.end());
    const std::size_t half = runs.size() / 2;
    return 0.5 * (runs[half - 1] + runs[half]);
}

}  // namespace

int main() {
    HuntRequest request;
    request.scenario =
        std::string(NOONBENCH_SOURCE_DIR) + "/tests/harness/weakness/cloud_rhythm.yaml";
    request.requirement = "each start is worth it";
    Ground ground(request);
    const SearchProblem problem = ground.problem();
    std::vector<int> hunt_runs;
    std::vector<int> random_runs;
    fmt::print("seed    hunt  random   (runs to the first break, at most {})\n", budget);
    for (std::uint64_t seed = first_seed; seed <= last_seed; ++seed) {
        hunt_runs.push_back(hunted(problem, seed));
        random_runs.push_back(at_random(problem, seed));
        fmt::print("{:4}  {:6}  {:6}\n", seed, hunt_runs.back(), random_runs.back());
    }
    const double ratio = median(random_runs) / median(hunt_runs);
    fmt::print("median {:5.1f}  {:6.1f}   ratio {:.1f}\n", median(hunt_runs), median(random_runs),
               ratio);
    fmt::print(
        "{{\"hunt_runs\": [{}], \"random_runs\": [{}], \"hunt_median\": {}, \"random_median\": {}, "
        "\"ratio\": {:.2f}}}\n",
        fmt::join(hunt_runs, ", "), fmt::join(random_runs, ", "), median(hunt_runs),
        median(random_runs), ratio);
    return ratio >= wanted_ratio ? 0 : 1;
}
