// SPDX-License-Identifier: MIT
// A whole scenario from its first second to its last.
#pragma once
#include "bench.hpp"
#include "run_result.hpp"

#include <functional>

namespace noonbench::harness {

/// Told now and then how far a run is, 0..1; may be empty.
using Progress = std::function<void(double)>;

/// Shown the bench at every tick, as it is between decision and advance; may be empty. To be
/// watched changes nothing.
using TickWatch = std::function<void(const Bench&)>;

/// How a scenario is to be run.
struct RunWishes {
    Progress progress;
    TickWatch watch;  // with it every tick is run
    Passing passing = Passing::skipping;
    const SkyFeed* sky = nullptr;  // one that was made of the same scenario before; none: made now
};

/// Throws InputRefused where only running shows that the input cannot serve (a weather file), and
/// std::invalid_argument for parameters that make no plant.
RunResult run(const Scenario& scenario, const RunWishes& wishes = {});

/// The same without keeping anything: for searches, which only watch.
void run_watched(const Scenario& scenario, const TickWatch& watch);
/// Likewise, and no further than is needed to show every tick before `until`; they are those of the
/// whole run.
void run_watched(const Scenario& scenario, CivilSeconds until, const TickWatch& watch);

/// Boiling point at the collector's top at the pressure there now, degC.
double boiling_point_at_top_c(const plant::Plant& plant);

}  // namespace noonbench::harness
