// SPDX-License-Identifier: MIT
// The plain rule under which every peer's pump runs, and what a way of solving came to.
#pragma once
#include "plant/plant.hpp"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <limits>
#include <string>
#include <vector>

namespace noonbench::benchmarks {

using namespace noonbench::plant;

/// What the pump is told.
struct Order {
    bool on = false;
    double level = 1.0;
    friend bool operator==(const Order&, const Order&) = default;
};

/// On at 8 K, off at 4 K, on whole seconds, on for 180 s at least. A regulated pump gets its level
/// in proportion to the difference: a quarter at 4 K, all at 16 K, in whole percents, looked at
/// every 10 s while it runs.
struct Rule {
    static constexpr double start_k = 8.0;
    static constexpr double stop_k = 4.0;
    static constexpr double full_k = 16.0;
    static constexpr double least_level = 0.25;
    static constexpr CivilSeconds least_run_s = 180;
    static constexpr CivilSeconds look_every_s = 10;

    bool regulated = false;
    Order order{};
    CivilSeconds since_s = 0;

    static double difference_k(const Readings& shown) {
        return shown.collector_sensor_c - shown.store_bottom_sensor_c;
    }
    static double level_of(double difference_k) {
        const double share = (difference_k - stop_k) / (full_k - stop_k);
        return std::round(100.0 *
                          std::clamp(least_level + (1.0 - least_level) * share, least_level, 1.0)) /
               100.0;
    }
    /// What crosses zero where the pump is switched.
    [[nodiscard]] double crossing_k(const Readings& shown) const {
        return difference_k(shown) - (order.on ? stop_k : start_k);
    }
    [[nodiscard]] Order wants(const Readings& shown, CivilSeconds now) const {
        const double difference = difference_k(shown);
        Order next = order;
        next.on =
            order.on ? difference > stop_k || now - since_s < least_run_s : difference >= start_k;
        if (!next.on) return {};
        const bool look = !order.on || (now - since_s) % look_every_s == 0;
        if (regulated && look) next.level = level_of(difference);
        return next;
    }
    /// True when the order changes.
    bool decide(const Readings& shown, CivilSeconds now) {
        const Order next = wants(shown, now);
        if (next == order) return false;
        if (next.on != order.on) since_s = now;
        order = next;
        return true;
    }
    /// First second after `now` at which something may change although nothing crosses.
    [[nodiscard]] CivilSeconds next_look_s(CivilSeconds now) const {
        if (!order.on) return std::numeric_limits<CivilSeconds>::max();
        if (regulated) return now + look_every_s - (now - since_s) % look_every_s;
        return now < since_s + least_run_s ? since_s + least_run_s
                                           : std::numeric_limits<CivilSeconds>::max();
    }
};

struct Switching {
    CivilSeconds at_s = 0;
    bool on = false;
};

/// What one way of solving came to.
struct Solved {
    std::string name;
    double cpu_s = 0.0;
    double heat_kwh = 0.0;
    std::vector<Switching> switchings{};
    long evaluations = 0;
    CivilSeconds disturbed_s = 0;  // with steam, air or ice in the loop, where that is known
    double disturbed_cpu_s = 0.0;  // what these cost, where that is known

    void note(const Rule& rule, CivilSeconds now) {
        const bool was_on = !switchings.empty() && switchings.back().on;
        if (was_on != rule.order.on) switchings.push_back({now, rule.order.on});
    }
    [[nodiscard]] int starts() const {
        return static_cast<int>(std::count_if(switchings.begin(), switchings.end(),
                                              [](const Switching& s) { return s.on; }));
    }
};

/// Seconds of the processor in this process, all threads: other work on the machine counts little.
inline double cpu_seconds() {
    timespec used{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &used);
    return static_cast<double>(used.tv_sec) + 1e-9 * static_cast<double>(used.tv_nsec);
}

}  // namespace noonbench::benchmarks
