// SPDX-License-Identifier: MIT
#include "trial_runner.hpp"

#include "candidates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <set>
#include <stdexcept>
#include <thread>
#include <utility>

namespace noonbench::harness {

TrialRunner::TrialRunner(TrialGround ground, ResultsFile& file, unsigned threads,
                         std::function<void(const YearsUnderway&)> told)
    : ground_(std::move(ground)),
      file_(&file),
      threads_(std::max(1U, threads)),
      told_(std::move(told)) {}

RowKey TrialRunner::key_of(const Trial& trial) const {
    return key_of_world(trial.world, candidate_text(ground_.site.controller.settings,
                                                    ground_.settings_of(trial.candidate)));
}

RowKey TrialRunner::key_of_world(std::size_t world, std::string_view settings) const {
    return {ground_.length, world, std::string(settings)};
}

/// World by world, so that what a world has in common is wanted by neighbours in time.
std::vector<TrialRunner::Year> TrialRunner::missing(std::span<const Trial> trials) const {
    std::vector<Trial> by_world(trials.begin(), trials.end());
    std::stable_sort(by_world.begin(), by_world.end(),
                     [](const Trial& a, const Trial& b) { return a.world < b.world; });
    std::vector<Year> years;
    std::set<RowKey> seen;
    const auto want = [&](RowKey key, std::optional<firmware::Settings> settings) {
        if (!seen.insert(key).second || file_->find(key)) return;
        const World world = world_of(ground_.seed, key.world);
        years.push_back({std::move(key), {settings, world, ground_.length}});
    };
    const firmware::Settings& delivered = ground_.site.controller.settings;
    for (const Trial& trial : by_world) {
        want(key_of_world(trial.world, without_sun_text), std::nullopt);
        want(key_of_world(trial.world, candidate_text(delivered, delivered)), delivered);
        want(key_of(trial), ground_.settings_of(trial.candidate));
    }
    return years;
}

/// Two threads that come to a new world at once may both make its sky; the first is kept.
std::shared_ptr<const SkyFeed> TrialRunner::sky_of(const World& world) {
    {
        const std::lock_guard lock(skies_door_);
        const auto known = skies_.find(world.seed);
        if (known != skies_.end()) return known->second;
    }
    auto made = sky_of_world(ground_.site, world, ground_.length);
    const std::lock_guard lock(skies_door_);
    return skies_.emplace(world.seed, std::move(made)).first->second;
}

void TrialRunner::run_one(const Year& year, Underway& underway) {
    YearJob job = year.job;
    job.sky = [&] { return sky_of(job.world); };
    const YearFigures figures = ground_.run_year(ground_.site, job);
    const std::lock_guard lock(underway.door);
    file_->add(year.key, job.world, figures);
    ++underway.years.done;
    if (told_) told_(underway.years);
}

void TrialRunner::run_all(std::span<const Year> years) {
    std::atomic<std::size_t> next{0};
    Underway underway;
    underway.years.expected = years.size();
    const auto work = [&] {
        for (std::size_t i = next++; i < years.size(); i = next++) {
            try {
                run_one(years[i], underway);
            } catch (...) {
                next = years.size();
                const std::lock_guard lock(underway.door);
                if (!underway.failure) underway.failure = std::current_exception();
            }
        }
    };
    {
        const std::size_t count = std::min<std::size_t>(threads_, years.size());
        std::vector<std::jthread> threads;
        threads.reserve(count);
        for (std::size_t t = 0; t < count; ++t) threads.emplace_back(work);
    }
    if (underway.failure) std::rethrow_exception(underway.failure);
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
