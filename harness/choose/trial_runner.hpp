// SPDX-License-Identifier: MIT
// Runs the trials of a search: what the results file already holds is looked up, what is missing is
// run, on threads or elsewhere, and written down at once. The same scores and the same rows
// wherever and on how many threads the years are run.
#pragma once
#include "results_file.hpp"
#include "score.hpp"
#include "trial.hpp"
#include "year_bench.hpp"

#include "firmware-model/settings.hpp"

#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace noonbench::harness {

/// Told after each year: of those that the call under way has to run. Never at the same time from
/// two threads.
struct YearsUnderway {
    std::size_t done = 0;
    std::size_t expected = 0;
};

/// What all trials have in common.
struct TrialGround {
    Scenario site;                                               // settings as delivered
    std::function<firmware::Settings(std::size_t)> settings_of;  // of a candidate
    std::uint64_t seed = 1;                                      // of the worlds
    Weights weights{};
    TrialLength length = TrialLength::typical_weeks;
    RunYear run_year = harness::run_year;  // must be good for several threads at once
};

class TrialRunner {
  public:
    /// `file` must outlive the runner. The ground's `run_year` is left to `run_years`.
    TrialRunner(TrialGround ground, ResultsFile& file, RunYears run_years,
                std::function<void(const YearsUnderway&)> told = {});
    /// On threads of this process; 0 counts as 1.
    TrialRunner(TrialGround ground, ResultsFile& file, unsigned threads,
                std::function<void(const YearsUnderway&)> told = {});

    /// Scores in the order of the trials. Beside each candidate's year, its world's years as
    /// delivered and without the sun are run, each once. What a year throws ends the call after the
    /// years under way; what is done is kept.
    [[nodiscard]] std::vector<Score> run(std::span<const Trial> trials);

    /// The same for a search; refers to this runner.
    [[nodiscard]] RunTrials as_function();

    /// Of a trial that has been run. Throws std::out_of_range for one that has not.
    [[nodiscard]] YearFigures figures_of_trial(const Trial& trial) const;
    /// Of the same world as delivered, and without the sun.
    [[nodiscard]] YearFigures figures_as_delivered(std::size_t world) const;
    [[nodiscard]] YearFigures figures_without_sun(std::size_t world) const;

  private:
    struct Missing {
        std::vector<RowKey> keys;
        std::vector<WantedYear> years;  // of these keys, in their order
    };
    [[nodiscard]] RowKey key_of(const Trial& trial) const;
    [[nodiscard]] RowKey key_of_world(std::size_t world, std::string_view settings) const;
    [[nodiscard]] Missing missing(std::span<const Trial> trials) const;
    void run_all(const Missing& missing);
    [[nodiscard]] YearFigures held(const RowKey& key) const;

    TrialGround ground_;
    ResultsFile* file_;
    RunYears run_years_;
    std::function<void(const YearsUnderway&)> told_;
};

}  // namespace noonbench::harness
