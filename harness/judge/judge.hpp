// SPDX-License-Identifier: MIT
// Runs a scenario and judges it: what was asked for, whether it held, by how much, and why not.
#pragma once
#include "monitor.hpp"

#include "harness/bench/run.hpp"
#include "harness/bench/run_result.hpp"
#include "harness/bench/signals.hpp"
#include "harness/language/requirement.hpp"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

struct Verdict {
    std::string name;
    std::string text;  // the requirement as written
    Outcome outcome;
    double scale = 1.0;              // of the first margin
    std::int64_t tightest_at_s = 0;  // of the first margin; the start if there is none
    std::vector<std::string> chain;  // the reasons up to that moment, in words
    std::string look_at;             // where a trainee should look
};

struct Judged {
    RunResult result;
    std::vector<Verdict> verdicts;  // in the order of the requirements
};

/// All that a requirement may speak of: the columns of the trace and one on_off signal for each
/// advice, "advice_NAME".
[[nodiscard]] std::vector<traces::Signal> judged_signals(const Scenario& scenario);
/// The same with where they are read.
[[nodiscard]] std::vector<Column> judged_columns(const Scenario& scenario);

/// The scenario's requirements, understood. Throws InputRefused with every problem.
[[nodiscard]] std::vector<Requirement> requirements_of(const Scenario& scenario);

/// Runs the scenario with everything that a run leaves; with requirements every tick is watched,
/// without any, passed as told. Throws what run() throws.
[[nodiscard]] Judged judge(const Scenario& scenario, std::span<const Requirement> requirements,
                           const Progress& progress = {}, Passing passing = Passing::skipping);

/// Outcomes with the reasons that led to their tightest moments.
[[nodiscard]] std::vector<Verdict> verdicts_of(std::span<const Requirement> requirements,
                                               std::vector<Outcome> outcomes,
                                               const std::vector<traces::Event>& events,
                                               std::int64_t start_s);

/// Only the outcomes, as cheaply as a run can be had; for searches.
[[nodiscard]] std::vector<Outcome> outcomes_of(const Scenario& scenario,
                                               std::span<const Requirement> requirements);

/// A margin with its unit: "3.10 K", "4.5 min", "over 1.0 h" for a shift that was not looked
/// beyond, "any" where nothing in this unit could change the verdict.
[[nodiscard]] std::string margin_text(const MarginClass& margin_class, double margin);
/// "held, by 3.1 K", "not held, by 40 s", "not yet known (-2 to 3.1 K)".
[[nodiscard]] std::string verdict_words(const Outcome& outcome);
[[nodiscard]] bool all_held(std::span<const Verdict> verdicts);

}  // namespace noonbench::harness
