// SPDX-License-Identifier: MIT
#include "year_bench.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace noonbench::harness {

YearBench::YearBench(Scenario site, RunYear run_year)
    : site_(std::move(site)), run_year_(std::move(run_year)) {}

/// Two threads that come to a new world at once may both make its sky; the first is kept.
std::shared_ptr<const SkyFeed> YearBench::sky_of(const World& world, TrialLength length) {
    const std::pair key(world.seed, length);
    {
        const std::lock_guard lock(skies_door_);
        const auto known = skies_.find(key);
        if (known != skies_.end()) return known->second;
    }
    auto made = sky_of_world(site_, world, length);
    const std::lock_guard lock(skies_door_);
    return skies_.emplace(key, std::move(made)).first->second;
}

YearFigures YearBench::run(const WantedYear& year) {
    YearJob job{year.settings, world_of(year.seed, year.world), year.length};
    job.sky = [&] { return sky_of(job.world, job.length); };
    return run_year_(site_, job);
}

namespace {

/// One list on several threads.
class ThreadedYears {
  public:
    ThreadedYears(YearBench& bench, std::span<const WantedYear> years, const YearDone& done)
        : bench_(&bench), years_(years), done_(&done) {}

    void run(unsigned threads) {
        {
            const std::size_t count = std::min<std::size_t>(threads, years_.size());
            std::vector<std::jthread> crew;
            crew.reserve(count);
            for (std::size_t t = 0; t < count; ++t) crew.emplace_back([this] { work(); });
        }
        if (failure_) std::rethrow_exception(failure_);
    }

  private:
    void work() {
        for (std::size_t i = next_++; i < years_.size(); i = next_++) {
            try {
                const YearFigures year = bench_->run(years_[i]);
                const std::lock_guard lock(door_);
                (*done_)(i, year);
            } catch (...) {
                next_ = years_.size();
                const std::lock_guard lock(door_);
                if (!failure_) failure_ = std::current_exception();
            }
        }
    }

    YearBench* bench_;
    std::span<const WantedYear> years_;
    const YearDone* done_;
    std::atomic<std::size_t> next_{0};
    std::mutex door_;  // to the telling and the first failure
    std::exception_ptr failure_;
};

}  // namespace

RunYears years_on_threads(Scenario site, unsigned threads, RunYear run_year) {
    auto bench = std::make_shared<YearBench>(std::move(site), std::move(run_year));
    return [bench, threads](std::span<const WantedYear> years, const YearDone& done) {
        ThreadedYears(*bench, years, done).run(std::max(1U, threads));
    };
}

}  // namespace noonbench::harness
