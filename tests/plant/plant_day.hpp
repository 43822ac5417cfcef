// SPDX-License-Identifier: MIT
// A clear April day with everything moving, for the tests of balance, solver and plant: a plain
// difference rule on the pump, draws, backup in a morning window, circulation.
#pragma once
#include "plant/plant.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace noonbench::plant::testing {

/// 6.5 kWh/m2 on the plane, air 6..17 degC, sky 17 K colder.
inline PlaneKnot april_knot(CivilSeconds at_s) {
    PlaneKnot knot;
    knot.at_s = at_s;
    const double hour = static_cast<double>(at_s % seconds_a_day) / 3600.0;
    const double of_day = (hour - 5.4) / 13.2;
    const double sun_w_m2 = of_day > 0.0 && of_day < 1.0
                                ? 870.0 * std::pow(std::sin(std::numbers::pi * of_day), 1.4)
                                : 0.0;
    for (int r = 0; r < most_rows; ++r) {
        knot.received_w_m2[r] = sun_w_m2;
        knot.absorbable_w_m2[r] = 0.95 * sun_w_m2;  // incidence and diffuse share, day's mean
    }
    knot.air_c = 11.5 - 5.5 * std::cos(2.0 * std::numbers::pi * (hour - 3.0) / 24.0);
    knot.sky_c = knot.air_c - 17.0;
    knot.wind_m_s = 2.0;
    return knot;
}

struct DayFindings {
    int starts = 0;
    int running_s = 0;
    double highest_collector_c = -100.0;
};

/// The hand that moves the plant: decisions from the readings alone.
class April {
  public:
    explicit April(Plant& plant) : plant_(plant) {}

    /// One second at `now`; returns what the plant reported.
    StepReport tick(CivilSeconds now) {
        if (now % 60 == 0) weather_ = {april_knot(now), april_knot(now + 60)};
        const Readings shown = readings(plant_);
        const double difference_k = shown.collector_sensor_c - shown.store_bottom_sensor_c;
        if (!pump_on_ && difference_k >= 8.0) {
            pump_on_ = true;
            since_ = now;
            ++found_.starts;
        } else if (pump_on_ && difference_k <= 4.0 && now - since_ >= 180) {
            pump_on_ = false;
        }
        found_.running_s += pump_on_ ? 1 : 0;
        found_.highest_collector_c = std::max(found_.highest_collector_c, shown.collector_sensor_c);
        const CivilSeconds of_day = now % seconds_a_day;
        Actions actions;
        actions.pump_relay = pump_on_;
        actions.backup_asked =
            of_day >= 5 * 3600 && of_day < 7 * 3600 && shown.store_top_sensor_c < 52.0;
        return advance(plant_, weather_, now, actions, drawn_kg_s(of_day));
    }

    void run(CivilSeconds from, int seconds) {
        for (int s = 0; s < seconds; ++s) tick(from + s);
    }

    [[nodiscard]] const WeatherSpan& weather() const { return weather_; }
    [[nodiscard]] const DayFindings& found() const { return found_; }

  private:
    static double drawn_kg_s(CivilSeconds of_day) {
        const auto within = [of_day](CivilSeconds from, CivilSeconds length) {
            return of_day >= from && of_day < from + length;
        };
        return within(7 * 3600, 600) || within(12 * 3600, 200) || within(19 * 3600, 700) ? 0.1
                                                                                         : 0.0;
    }

    Plant& plant_;
    WeatherSpan weather_{};
    bool pump_on_ = false;
    CivilSeconds since_ = 0;
    DayFindings found_{};
};

}  // namespace noonbench::plant::testing
