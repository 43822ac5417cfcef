// SPDX-License-Identifier: MIT
// Days under a plain difference rule on the pump, carried by single seconds or by strides that end
// where the rule decides anew. For the tests of the solver.
#pragma once
#include "plant_day.hpp"

#include "plant/stride.hpp"

namespace noonbench::plant::testing {

struct DifferenceRule {
    double start_k = 8.0;
    double stop_k = 4.0;
    CivilSeconds least_run_s = 180;
    bool on = false;
    CivilSeconds since_s = 0;

    [[nodiscard]] bool wants(const Readings& shown, CivilSeconds now) const {
        const double difference_k = shown.collector_sensor_c - shown.store_bottom_sensor_c;
        if (!on) return difference_k >= start_k;
        return difference_k > stop_k || now - since_s < least_run_s;
    }
    /// True when the pump changes.
    bool decide(const Readings& shown, CivilSeconds now) {
        if (wants(shown, now) == on) return false;
        on = !on;
        since_s = now;
        return true;
    }
};

struct Course {
    int starts = 0;
    CivilSeconds running_s = 0;
    long evaluations = 0;
    long strides = 0;
    long strides_running = 0;
};

inline WeatherSpan april_span(CivilSeconds now, CivilSeconds knot_s) {
    const CivilSeconds from = now / knot_s * knot_s;
    return {april_knot(from), april_knot(from + knot_s)};
}

/// By single seconds, with the method that the plant is set to.
inline Course live_by_seconds(Plant& plant, CivilSeconds days, CivilSeconds knot_s) {
    DifferenceRule rule;
    Course course;
    for (CivilSeconds now = 0; now < days * seconds_a_day; ++now) {
        if (rule.decide(readings(plant), now)) course.starts += rule.on ? 1 : 0;
        Actions actions;
        actions.pump_relay = rule.on;
        const StepReport report = advance(plant, april_span(now, knot_s), now, actions, 0.0);
        course.evaluations += report.substeps * (plant.method == Method::everyday ? 2 : 4);
        course.running_s += rule.on ? 1 : 0;
        ++course.strides;
    }
    return course;
}

/// One stride, cut at the first second within it at which the rule decides anew.
inline StrideReport stride_to_decision(Plant& plant, const DifferenceRule& rule,
                                       const WeatherSpan& weather, CivilSeconds now,
                                       Course& course) {
    Actions actions;
    actions.pump_relay = rule.on;
    const Plant before = plant;
    int most = static_cast<int>(weather.to.at_s - now);
    for (;;) {
        const StrideReport report = stride(plant, weather, now, actions, 0.0, most);
        course.evaluations += report.evaluations;
        int cut = 0;
        for (int s = 1; s < report.seconds && cut == 0; ++s) {
            if (rule.wants(report.sensors.at(s), now + s) != rule.on) cut = s;
        }
        if (cut == 0) return report;
        plant = before;
        plant.stride_s = cut;
        most = cut;
    }
}

inline Course live_by_strides(Plant& plant, CivilSeconds days, CivilSeconds knot_s) {
    DifferenceRule rule;
    Course course;
    for (CivilSeconds now = 0; now < days * seconds_a_day;) {
        if (rule.decide(readings(plant), now)) course.starts += rule.on ? 1 : 0;
        const StrideReport report =
            stride_to_decision(plant, rule, april_span(now, knot_s), now, course);
        now += report.seconds;
        course.running_s += rule.on ? report.seconds : 0;
        ++course.strides;
        course.strides_running += rule.on ? 1 : 0;
    }
    return course;
}

}  // namespace noonbench::plant::testing
