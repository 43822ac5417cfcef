// SPDX-License-Identifier: MIT
// Where the years of a search are run: on the threads of this process, or by whoever else takes a
// list of them and tells each as it is done.
#pragma once
#include "trial.hpp"

#include "firmware-model/settings.hpp"

#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <utility>

namespace noonbench::harness {

/// One year that is wanted, as plain data: with the site it says all that a run needs.
struct WantedYear {
    std::uint64_t seed = 1;  // of the worlds
    std::size_t world = 0;   // its number under the seed
    TrialLength length = TrialLength::typical_weeks;
    std::optional<firmware::Settings> settings{};  // none: as delivered and without the sun
    friend bool operator==(const WantedYear&, const WantedYear&) = default;
};

/// Told the place of a year in the list and its figures. Never at the same time from two threads.
using YearDone = std::function<void(std::size_t, const YearFigures&)>;

/// Runs all of a list in any order. What a year or the telling throws ends the call after the years
/// under way, which are told as well.
using RunYears = std::function<void(std::span<const WantedYear>, const YearDone&)>;

/// Runs years of one site, good for several threads at once. The sky of each world that was met is
/// kept: neighbours in a list mostly share it.
class YearBench {
  public:
    /// `run_year` must be good for several threads at once.
    explicit YearBench(Scenario site, RunYear run_year = harness::run_year);
    /// Throws what `run_year` throws.
    [[nodiscard]] YearFigures run(const WantedYear& year);

  private:
    [[nodiscard]] std::shared_ptr<const SkyFeed> sky_of(const World& world, TrialLength length);

    Scenario site_;
    RunYear run_year_;
    std::mutex skies_door_;
    std::map<std::pair<std::uint64_t, TrialLength>, std::shared_ptr<const SkyFeed>>
        skies_;  // by the world's seed
};

/// On threads of this process. `threads` of 0 counts as 1.
[[nodiscard]] RunYears years_on_threads(Scenario site, unsigned threads,
                                        RunYear run_year = harness::run_year);

}  // namespace noonbench::harness
