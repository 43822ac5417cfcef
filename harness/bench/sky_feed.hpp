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
#include <string>
#include <variant>
#include <vector>

namespace noonbench::harness {

class SkyFeed {
  public:
    /// Reads the weather file, if the scenario names one; what was detected or filled goes to
    /// `messages`. Throws InputRefused for a file that cannot serve.
    SkyFeed(const Scenario& scenario, std::vector<std::string>& messages);

    /// The scenario's site, or the weather file's.
    [[nodiscard]] const plant::Site& site() const { return site_; }

    /// The stretch of linear weather that holds `now`. Cheapest when `now` moves forward.
    [[nodiscard]] const plant::WeatherSpan& at(CivilSeconds now);

  private:
    void load_day(CivilSeconds midnight);
    [[nodiscard]] std::vector<plant::SkyKnot> day_of_sky(CivilSeconds midnight) const;

    plant::Site site_;
    std::vector<plant::Row> rows_;
    std::variant<plant::ClearDay, plant::SeededYear, plant::HourlySky, plant::CloudedHours> sky_;
    std::vector<plant::SkyKnot> tomorrow_;
    std::vector<plant::PlaneKnot> knots_;  // of the day loaded, both midnights included
    std::size_t end_ = 0;                  // knots_[end_] is the end of span_
    plant::WeatherSpan span_{};            // empty (0 to 0) until the first call
};

}  // namespace noonbench::harness
