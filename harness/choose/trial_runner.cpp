// SPDX-License-Identifier: MIT
#include "trial_runner.hpp"

#include "candidates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <stdexcept>
#include <utility>

namespace noonbench::harness {

TrialRunner::TrialRunner(TrialGround ground, ResultsFile& file, RunYears run_years,
                         std::function<void(const YearsUnderway&)> told)
    : ground_(std::move(ground)),
      file_(&file),
      run_years_(std::move(run_years)),
      told_(std::move(told)) {}

TrialRunner::TrialRunner(TrialGround ground, ResultsFile& file, unsigned threads,
                         std::function<void(const YearsUnderway&)> told)
    : ground_(std::move(ground)),
      file_(&file),
      run_years_(years_on_threads(ground_.site, threads, ground_.run_year)),
      told_(std::move(told)) {}

RowKey TrialRunner::key_of(const Trial& trial) const {
    return key_of_world(trial.world, candidate_text(ground_.site.controller.settings,
                                                    ground_.settings_of(trial.candidate)));
}

RowKey TrialRunner::key_of_world(std::size_t world, std::string_view settings) const {
    return {ground_.length, world, std::string(settings)};
}

/// World by world, so that what a world has in common is wanted by neighbours in time.
TrialRunner::Missing TrialRunner::missing(std::span<const Trial> trials) const {
    std::vector<Trial> by_world(trials.begin(), trials.end());
    std::stable_sort(by_world.begin(), by_world.end(),
                     [](const Trial& a, const Trial& b) { return a.world < b.world; });
    Missing missing;
    std::set<RowKey> seen;
    const auto want = [&](RowKey key, std::optional<firmware::Settings> settings) {
        if (!seen.insert(key).second || file_->find(key)) return;
        missing.years.push_back({ground_.seed, key.world, key.length, settings});
        missing.keys.push_back(std::move(key));
    };
    const firmware::Settings& delivered = ground_.site.controller.settings;
    for (const Trial& trial : by_world) {
        want(key_of_world(trial.world, without_sun_text), std::nullopt);
        want(key_of_world(trial.world, candidate_text(delivered, delivered)), delivered);
        want(key_of(trial), ground_.settings_of(trial.candidate));
    }
    return missing;
}

void TrialRunner::run_all(const Missing& missing) {
    YearsUnderway underway{0, missing.years.size()};
    run_years_(missing.years, [&](std::size_t i, const YearFigures& figures) {
        const WantedYear& year = missing.years[i];
        file_->add(missing.keys[i], world_of(year.seed, year.world), figures);
        ++underway.done;
        if (told_) told_(underway);
    });
}

YearFigures TrialRunner::held(const RowKey& key) const {
    const std::optional<YearFigures> figures = file_->find(key);
    if (!figures) {
        throw std::out_of_range(
            fmt::format("no year of world {} with {}", key.world, key.settings));
    }
    return *figures;
}

std::vector<Score> TrialRunner::run(std::span<const Trial> trials) {
    run_all(missing(trials));
    std::vector<Score> scores;
    scores.reserve(trials.size());
    for (const Trial& trial : trials) {
        scores.push_back(score_of({held(key_of(trial)), figures_as_delivered(trial.world),
                                   figures_without_sun(trial.world)},
                                  ground_.weights));
    }
    return scores;
}

RunTrials TrialRunner::as_function() {
    return [this](std::span<const Trial> trials) { return run(trials); };
}

YearFigures TrialRunner::figures_of_trial(const Trial& trial) const {
    return held(key_of(trial));
}

YearFigures TrialRunner::figures_as_delivered(std::size_t world) const {
    const firmware::Settings& delivered = ground_.site.controller.settings;
    return held(key_of_world(world, candidate_text(delivered, delivered)));
}

YearFigures TrialRunner::figures_without_sun(std::size_t world) const {
    return held(key_of_world(world, without_sun_text));
}

}  // namespace noonbench::harness
