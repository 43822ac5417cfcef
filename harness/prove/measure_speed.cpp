// SPDX-License-Identifier: MIT
// The speed signal. First against differences that the laboratory imposes: what the output does is
// then the controller's own. Then in a simulated loop, where it acts on what it measures: heat that
// the laboratory sets, a rise in inverse proportion to the level, a lag and a dead time.
#include "measure.hpp"

#include "harness/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <deque>
#include <utility>

namespace noonbench::harness {

namespace {

using firmware::Setting;

constexpr double full_pct = 100.0;
constexpr std::int64_t long_enough_s = 3600;

Measurement level_row(std::string name, std::string where, double set_pct, double measured_pct,
                      Allowed allowed) {
    Measurement row;
    row.name = std::move(name);
    row.where = std::move(where);
    row.set = set_pct;
    row.measured = measured_pct;
    row.unit = "%";
    row.allowed = std::move(allowed);
    return row;
}

Allowed of_level(double pct, std::string ground) {
    return {-pct, pct, std::move(ground)};
}

void impose(Rig& rig, double store_c, double difference_k) {
    put_collectors(rig, store_c + difference_k);
}

/// At rest, then started with `difference_k`; true if the pump runs.
bool start(Rig& rig, double store_c, double difference_k) {
    rig.rest(store_c);
    impose(rig, store_c, difference_k);
    return rig.seconds_until(Output::pump, true, long_enough_s).has_value();
}

void boost_and_ends(const SpeedTest& test, Rig& rig, Measurements& rows) {
    const double target_k = rig.value(Setting::target_difference);
    const double least_pct = rig.value(Setting::least_level);
    // the regulator wants the least level here, so that the end of the boost is seen
    const double low_k = 0.5 * (rig.value(Setting::stop_difference) +
                                std::min(target_k, rig.value(Setting::start_difference)));
    rig.rest(test.store_c);
    rows.push_back(level_row("signal at rest, as a level", "pump off", 0.0, rig.level_pct(),
                             of_level(0.0, "A pump at rest gets the signal of standstill.")));
    rows.back().done = "Speed signal read while the relay was off, by the profile set.";
    const bool started = start(rig, test.store_c, rig.value(Setting::start_difference) + 0.5);
    impose(rig, test.store_c, low_k);
    std::int64_t boost_s = started && rig.level_pct() == full_pct ? 1 : 0;
    while (boost_s > 0 && boost_s < long_enough_s) {
        rig.second();
        if (rig.level_pct() != full_pct) break;
        ++boost_s;
    }
    Measurement boost;
    boost.name = "start boost";
    boost.where = "full level after the start";
    boost.set = rig.value(Setting::start_boost_time);
    if (started) boost.measured = static_cast<double>(boost_s);
    boost.unit = "s";
    boost.allowed = {-1.0, 1.0, "One second each way: the signal is looked at once a second."};
    boost.done = "Seconds at full level, the difference then below its target.";
    rows.push_back(std::move(boost));
    rig.hold(120);
    rows.push_back(level_row("least level", fmt::format("difference {} K", number_text(low_k, 1)),
                             least_pct, rig.level_pct(),
                             of_level(1.0, "The signal is a whole per cent.")));
    rows.back().done = "Difference held below its target.";
    impose(rig, test.store_c, target_k + 30.0);
    rig.hold(long_enough_s);
    rows.push_back(
        level_row("greatest level", fmt::format("difference {} K", number_text(target_k + 30.0, 0)),
                  full_pct, rig.level_pct(), of_level(1.0, "The signal is a whole per cent.")));
    rows.back().done = "Difference held far above its target.";
}

/// Ups the difference slowly: the level may never fall.
void monotonic(const SpeedTest& test, Rig& rig, Measurements& rows) {
    const double target_k = rig.value(Setting::target_difference);
    start(rig, test.store_c, rig.value(Setting::start_difference) + 1.0);
    impose(rig, test.store_c, target_k - 4.0);
    rig.hold(rig.seconds(Setting::start_boost_time) + 300);
    double falls_pct = 0.0;
    int before = rig.level_pct();
    for (int step = 0; step <= 40; ++step) {
        impose(rig, test.store_c, target_k - 4.0 + 0.5 * step);
        for (int s = 0; s < 60; ++s) {
            rig.second();
            falls_pct = std::max(falls_pct, static_cast<double>(before - rig.level_pct()));
            before = rig.level_pct();
        }
    }
    rows.push_back(level_row("largest fall of the level", "difference rising by 0.5 K a minute",
                             0.0, falls_pct, {0.0, 0.0, "More difference must not mean less."}));
    rows.back().done = "Difference turned up in steps across the target, the signal watched.";
}

/// A step of the imposed difference from the target: what follows at once, and how fast it goes on.
void imposed_step(const SpeedTest& test, Rig& rig, Measurements& rows) {
    constexpr std::int64_t at_once_s = 20;  // averaging and one appointment of the regulator
    constexpr std::int64_t watched_s = 240;
    const double target_k = rig.value(Setting::target_difference);
    const double gain = rig.value(Setting::level_gain);
    const double reset_s = rig.value(Setting::level_reset_time);
    const double at_once_pct = gain * test.step_k;
    const double a_second_pct = at_once_pct / reset_s;
    start(rig, test.store_c, std::max(target_k, rig.value(Setting::start_difference)) + 1.0);
    impose(rig, test.store_c, target_k + 1.0);
    rig.hold(rig.seconds(Setting::start_boost_time));
    for (int s = 0; s < long_enough_s && rig.level_pct() < 50; ++s) rig.second();
    impose(rig, test.store_c, target_k);
    rig.hold(60);
    const int level_pct = rig.level_pct();
    rig.hold(600);
    rows.push_back(level_row("drift of the level in 10 minutes", "difference on its target", 0.0,
                             rig.level_pct() - level_pct,
                             of_level(2.0,
                                      "Inputs err by up to 0.05 K, which the reset adds up "
                                      "to one per cent; and a whole per cent of reading.")));
    rows.back().done = "Difference held on its target: the level has to stay.";
    const int from_pct = rig.level_pct();
    impose(rig, test.store_c, target_k + test.step_k);
    rig.hold(at_once_s);
    rows.push_back(
        level_row("change at once", fmt::format("step of {} K", number_text(test.step_k, 0)),
                  at_once_pct, rig.level_pct() - from_pct,
                  of_level(1.0 + a_second_pct * at_once_s,
                           "A whole per cent of reading and what the reset adds within 20 s.")));
    rows.back().done = "Level 20 s after the step less that before; set is gain times step.";
    const int after_pct = rig.level_pct();
    rig.hold(watched_s);
    rows.push_back(level_row(
        "change in the 4 minutes after that", "", a_second_pct * watched_s,
        rig.level_pct() - after_pct,
        of_level(1.5 + a_second_pct * 10.0,
                 "A per cent and a half of two readings and one appointment of the regulator.")));
    rows.back().where = "difference off its target";
    rows.back().done = "Set is gain times step, once in the reset time.";
}

/// A loop in which the level acts back on the difference.
class SimulatedLoop {
  public:
    SimulatedLoop(const SpeedTest& test, double difference_k)
        : test_(test), difference_k_(difference_k) {}

    /// `rise_k` is the rise at full level; the level acts after the dead time.
    void second(Rig& rig, double rise_k) {
        levels_.push_back(std::max(1, rig.level_pct()));
        if (levels_.size() > static_cast<std::size_t>(test_.loop_delay_s) + 1) levels_.pop_front();
        const double settled_k = rise_k * full_pct / levels_.front();
        difference_k_ += (settled_k - difference_k_) / static_cast<double>(test_.loop_time_s);
        impose(rig, test_.store_c, difference_k_);
        rig.second();
    }
    [[nodiscard]] double difference_k() const { return difference_k_; }

  private:
    const SpeedTest& test_;
    double difference_k_;
    std::deque<int> levels_;
};

void closed_loop(const SpeedTest& test, Rig& rig, Measurements& rows) {
    constexpr double band_k = 1.0;
    const double target_k = rig.value(Setting::target_difference);
    const double before_rise_k = 0.5 * target_k;  // settles at half the level ...
    const double after_rise_k = 0.75 * target_k;  // ... and at three quarters
    start(rig, test.store_c, std::max(target_k, rig.value(Setting::start_difference)) + 1.0);
    SimulatedLoop loop(test, target_k);
    for (std::int64_t s = 0; s < 2 * long_enough_s; ++s) loop.second(rig, before_rise_k);
    const double from_pct = rig.level_pct();
    std::int64_t last_off_s = 0;
    int highest_pct = 0;
    for (std::int64_t s = 1; s <= 2 * long_enough_s; ++s) {
        loop.second(rig, after_rise_k);
        if (std::abs(loop.difference_k() - target_k) > band_k) last_off_s = s;
        highest_pct = std::max(highest_pct, rig.level_pct());
    }
    const double final_pct = rig.level_pct();
    const char* where = "simulated loop";
    rows.push_back(level_row("level that holds the target", where, 75.0, final_pct,
                             of_level(5.0,
                                      "Half a kelvin of the difference and the whole per "
                                      "cents of the signal.")));
    rows.back().done = "Heat raised by half; the level that holds the target follows from it.";
    Measurement settling;
    settling.name = "settling time";
    settling.where = where;
    if (last_off_s < 2 * long_enough_s) settling.measured = static_cast<double>(last_off_s);
    settling.unit = "s";
    settling.allowed = {0.0, static_cast<double>(test.settle_within_s),
                        "The file's limit (our own; common practice, no source)."};
    settling.done = "Until the difference stays within 1 K of its target.";
    rows.push_back(std::move(settling));
    rows.push_back(level_row(
        "overshoot of the level", where, 0.0,
        full_pct * std::max(0.0, highest_pct - final_pct) / std::max(1.0, final_pct - from_pct),
        {0.0, full_pct * test.overshoot,
         "The file's limit, in per cent of the change (our own; common practice, no source)."}));
    rows.back().done = "Highest level above the one that it settled at.";
}

}  // namespace

Measurements measure(const SpeedTest& test, Rig& rig) {
    Measurements rows;
    boost_and_ends(test, rig, rows);
    monotonic(test, rig, rows);
    imposed_step(test, rig, rows);
    closed_loop(test, rig, rows);
    rig.rest(test.store_c);
    return rows;
}

}  // namespace noonbench::harness
