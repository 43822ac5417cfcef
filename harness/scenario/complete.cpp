// SPDX-License-Identifier: MIT
#include "complete.hpp"

#include "commission.hpp"

#include "plant/plant.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace noonbench::harness {

namespace {

/// Two keys of which the first must be below the second.
struct Ordered {
    std::string_view low;
    std::string_view high;
    double low_value;
    double high_value;
};

class Completer {
  public:
    Completer(Draft& draft, const Given& given, const std::string& file, Findings& findings)
        : scenario_(draft.scenario), given_(given), file_(file), findings_(findings) {}

    void run() {
        fill();
        check_order();
        check_rows_of_trace();
        check_clouds();
        if (findings_.count() == 0) check_plant();
    }

  private:
    void fill() {
        std::stable_sort(scenario_.moves.begin(), scenario_.moves.end(),
                         [](const Move& a, const Move& b) { return a.at_s < b.at_s; });
        if (!given_.contains("record.every"))
            scenario_.record.every_s = scenario_.length_s <= 7 * plant::seconds_a_day ? 1 : 3600;
        scenario_.household.pattern.seed = scenario_.seed;
        scenario_.sky.clear_day.site = scenario_.plant.site;
        commission(scenario_, given_);
    }

    /// The place of the first of the keys that was given; the whole file if none was.
    [[nodiscard]] Place place_of(std::string_view one, std::string_view other) const {
        for (const std::string_view path : {one, other})
            if (const auto found = given_.find(path); found != given_.end()) return found->second;
        return {file_, 0, 0};
    }

    void check_order() {
        const plant::Parameters& p = scenario_.plant;
        const plant::ClearDay& day = scenario_.sky.clear_day;
        const Ordered pairs[] = {
            {"store.solar_coil.from_height", "store.solar_coil.to_height",
             p.store.solar_coil.from_height, p.store.solar_coil.to_height},
            {"backup.from_height", "backup.to_height", p.backup.from_height, p.backup.to_height},
            {"sky.clear_day.air_least", "sky.clear_day.air_most", day.air_least_c, day.air_most_c},
            {"store.start_bottom", "store.start_top", scenario_.start_temperatures.store_bottom_c,
             scenario_.start_temperatures.store_top_c},
            {"loop.hot_pipe.outdoor_length", "loop.hot_pipe.length", p.loop.hot_pipe.outdoor_m,
             p.loop.hot_pipe.length_m},
            {"loop.cold_pipe.outdoor_length", "loop.cold_pipe.length", p.loop.cold_pipe.outdoor_m,
             p.loop.cold_pipe.length_m},
            {"loop.pump.least_power", "loop.pump.full_power", p.loop.pump.least_power_w,
             p.loop.pump.full_power_w},
        };
        for (const Ordered& pair : pairs)
            if (pair.low_value > pair.high_value)
                findings_.add(place_of(pair.low, pair.high),
                              fmt::format("{} is above {}", pair.low, pair.high),
                              fmt::format("{} at most {}", pair.low, pair.high));
    }

    void check_rows_of_trace() {
        const std::int64_t rows = scenario_.length_s / std::max(scenario_.record.every_s, 1);
        if (rows <= most_trace_rows) return;
        findings_.add(place_of("record.every", "length"),
                      fmt::format("the trace would have {} rows", rows),
                      fmt::format("record.every of {} s or more for this length",
                                  scenario_.length_s / most_trace_rows + 1));
    }

    void check_clouds() {
        const CivilSeconds end_s = scenario_.start_s + scenario_.length_s;
        for (const plant::CloudPassage& cloud : scenario_.sky.clear_day.clouds) {
            const bool is_seen = cloud.from_s < end_s &&
                                 (cloud.daily || cloud.from_s + cloud.lasts_s > scenario_.start_s);
            if (!is_seen)
                findings_.add(place_of("sky.clear_day.clouds", "length"),
                              "a cloud passes outside the run", "a moment within the run");
        }
    }

    /// The plant knows best what makes no plant.
    void check_plant() {
        try {
            const StartTemperatures& start = scenario_.start_temperatures;
            (void)plant::make_plant(scenario_.plant, start.store_bottom_c, start.store_top_c,
                                    scenario_.sky.clear_day.air_least_c);
        } catch (const std::invalid_argument& refused) {
            findings_.add({file_, 0, 0}, fmt::format("this makes no plant: {}", refused.what()),
                          "");
        }
    }

    Scenario& scenario_;
    const Given& given_;
    const std::string& file_;
    Findings& findings_;
};

}  // namespace

void complete(Draft& draft, const Given& given, const std::string& file, Findings& findings) {
    Completer(draft, given, file, findings).run();
}

}  // namespace noonbench::harness
