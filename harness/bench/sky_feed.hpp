// SPDX-License-Identifier: MIT
// The scenario's sky, brought to the collectors and handed out second by second. Days are made when
// they are asked for; each is a function of (scenario, day) alone.
#pragma once
#include "plant/clear_day.hpp"
#include "plant/climate.hpp"
#include "plant/drive.hpp"
#include "plant/hourly_sky.hpp"
#include "plant/minute_clouds.hpp"

#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <variant>
#include <vector>

namespace noonbench::harness {

class SkyFeed {
  public:
    using Sky =
        std::variant<plant::ClearDay, plant::SeededYear, plant::HourlySky, plant::CloudedHours>;

    /// Reads the weather file, if the scenario names one, or draws its year. Throws InputRefused
    /// for a file that cannot serve.
    explicit SkyFeed(const Scenario& scenario);

    /// What was detected in a weather file or filled.
    [[nodiscard]] const std::vector<std::string>& messages() const { return messages_; }

    /// The scenario's site, or the weather file's.
    [[nodiscard]] const plant::Site& site() const { return site_; }

    /// The stretch of linear weather that holds `now`. Cheapest when `now` moves forward.
    [[nodiscard]] const plant::WeatherSpan& at(CivilSeconds now);

    /// Works out the days from one midnight to another for good: copies made from now on share them
    /// (about 30 kB a day). For many runs under one sky.
    void keep_days(CivilSeconds from_midnight, CivilSeconds until_midnight);

  private:
    using Knots = std::vector<plant::PlaneKnot>;

    void load_day(CivilSeconds midnight);
    [[nodiscard]] std::vector<plant::SkyKnot> day_of_sky(CivilSeconds midnight) const;
    [[nodiscard]] std::shared_ptr<const Knots> planes_of_day(CivilSeconds midnight);

    std::vector<std::string> messages_;
    plant::Site site_;
    std::vector<plant::Row> rows_;
    std::shared_ptr<const Sky> sky_;  // never changes: copies share it
    std::map<CivilSeconds, std::shared_ptr<const Knots>> kept_;
    std::vector<plant::SkyKnot> tomorrow_;
    std::shared_ptr<const Knots> knots_;  // of the day loaded, both midnights included
    std::size_t end_ = 0;                 // knots_[end_] is the end of span_
    plant::WeatherSpan span_{};           // empty (0 to 0) until the first call
};

}  // namespace noonbench::harness
