// SPDX-License-Identifier: MIT
#include "judge.hpp"

#include "harness/bench/why.hpp"

#include <cstddef>
#include <iterator>
#include <utility>

namespace noonbench::harness {
namespace {

constexpr std::size_t links_of_a_chain = 4;

/// A monitor with its eyes: the columns that it needs, in its order.
class Watcher {
  public:
    Watcher(const Scenario& scenario, std::span<const Requirement> requirements)
        : monitor_(requirements, scenario.start_s) {
        const std::vector<Column> all = judged_columns(scenario);
        for (const std::size_t index : monitor_.signals()) columns_.push_back(all[index]);
    }
    void look(const Bench& bench) {
        double* value = monitor_.row();
        for (const Column& column : columns_) *value++ = column.value(bench);
        monitor_.tick();
    }
    std::vector<Outcome> finish() { return monitor_.finish(); }

  private:
    Monitor monitor_;
    std::vector<Column> columns_;
};

Verdict verdict_of(const Requirement& requirement, Outcome outcome,
                   const std::vector<traces::Event>& events, std::int64_t start_s) {
    Verdict verdict;
    verdict.name = requirement.name;
    verdict.text = requirement.text;
    verdict.scale = requirement.scale;
    verdict.look_at = requirement.look_at;
    verdict.tightest_at_s =
        outcome.margins.empty() ? start_s : outcome.margins.front().tightest_at_s;
    verdict.chain = chain_of_reasons(events, verdict.tightest_at_s, links_of_a_chain);
    verdict.outcome = std::move(outcome);
    return verdict;
}

}  // namespace

std::vector<Column> judged_columns(const Scenario& scenario) {
    std::vector<Column> columns = columns_of(scenario);
    std::vector<Column> advice = advice_columns();
    std::move(advice.begin(), advice.end(), std::back_inserter(columns));
    return columns;
}

std::vector<traces::Signal> judged_signals(const Scenario& scenario) {
    return signals_of(judged_columns(scenario));
}

std::vector<Requirement> requirements_of(const Scenario& scenario) {
    return understood_requirements(scenario.require, judged_signals(scenario));
}

std::vector<Verdict> verdicts_of(std::span<const Requirement> requirements,
                                 std::vector<Outcome> outcomes,
                                 const std::vector<traces::Event>& events, std::int64_t start_s) {
    std::vector<Verdict> verdicts;
    for (std::size_t i = 0; i < requirements.size(); ++i) {
        verdicts.push_back(verdict_of(requirements[i], std::move(outcomes[i]), events, start_s));
    }
    return verdicts;
}

Judged judge(const Scenario& scenario, std::span<const Requirement> requirements,
             const Progress& progress, Passing passing) {
    Watcher watcher(scenario, requirements);
    Judged judged;
    RunWishes wishes{progress, {}, passing};
    if (!requirements.empty()) wishes.watch = [&](const Bench& bench) { watcher.look(bench); };
    judged.result = run(scenario, wishes);
    judged.verdicts =
        verdicts_of(requirements, watcher.finish(), judged.result.events, scenario.start_s);
    return judged;
}

std::vector<Outcome> outcomes_of(const Scenario& scenario,
                                 std::span<const Requirement> requirements) {
    Watcher watcher(scenario, requirements);
    run_watched(scenario, [&watcher](const Bench& bench) { watcher.look(bench); });
    return watcher.finish();
}

}  // namespace noonbench::harness
