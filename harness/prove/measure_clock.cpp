// SPDX-License-Identifier: MIT
// The weekly windows of the backup heat, watched for days. The laboratory knows the windows that it
// typed in, and has a calendar of its own (the C++ standard library's).
#include "measure.hpp"

#include "harness/bench/clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <limits>
#include <utility>

namespace noonbench::harness {

namespace {

using firmware::Setting;

constexpr std::int64_t a_day = 86400;
constexpr std::int64_t an_hour = 3600;

struct Edge {
    CivilSeconds at_s = 0;
    bool opens = false;
};

/// Seconds by which the clock on the wall is ahead of standard time (directive 2000/84/EC: from
/// 01:00 UTC, here 02:00 standard time, on the last Sundays of March and October).
std::int64_t summer_s(CivilSeconds standard_s, bool follows_summer) {
    using namespace std::chrono;
    if (!follows_summer) return 0;
    const year this_year{date_of(standard_s).year};
    const auto change = [&](month in) {
        const sys_days sunday{this_year / in / Sunday[last]};
        return (sunday - sys_days{year{2000} / January / 1}).count() * a_day + 2 * an_hour;
    };
    return standard_s >= change(March) && standard_s < change(October) ? an_hour : 0;
}

struct Window {
    unsigned days = 0;  // bit 0 = Monday
    std::int64_t from_s = 0;
    std::int64_t until_s = 0;
};

bool is_open(const Window& w, CivilSeconds wall_s) {
    constexpr std::int64_t saturday = 5;  // 2000-01-01
    const std::int64_t weekday = (wall_s / a_day + saturday) % 7;
    const std::int64_t in_day_s = wall_s % a_day;
    const auto begins_on = [&](std::int64_t day) {
        return ((w.days >> static_cast<unsigned>(day)) & 1U) != 0;
    };
    if (w.from_s <= w.until_s) {
        return in_day_s >= w.from_s && in_day_s < w.until_s && begins_on(weekday);
    }
    return (in_day_s >= w.from_s && begins_on(weekday)) ||
           (in_day_s < w.until_s && begins_on((weekday + 6) % 7));
}

std::vector<Edge> expected_edges(const Rig& rig, CivilSeconds from_s, CivilSeconds until_s) {
    const auto window = [&](Setting days, Setting from, Setting until) {
        return Window{static_cast<unsigned>(rig.set()[days]), rig.seconds(from),
                      rig.seconds(until)};
    };
    const std::array windows{
        window(Setting::window_1_days, Setting::window_1_from, Setting::window_1_until),
        window(Setting::window_2_days, Setting::window_2_from, Setting::window_2_until),
        window(Setting::window_3_days, Setting::window_3_from, Setting::window_3_until)};
    const bool follows_summer = rig.set()[Setting::summer_time] != 0;
    std::vector<Edge> edges;
    bool was_open = false;
    for (CivilSeconds at = from_s; at < until_s; at += 60) {  // windows are set by the minute
        const CivilSeconds wall = at + summer_s(at, follows_summer);
        const bool open = std::any_of(windows.begin(), windows.end(),
                                      [&](const Window& w) { return is_open(w, wall); });
        if (open != was_open) edges.push_back({at, open});
        was_open = open;
    }
    return edges;
}

std::vector<Edge> watch(const ClockTest& test, Rig& rig) {
    const CivilSeconds from_s = rig.now();
    const CivilSeconds cut_from_s = from_s + (test.cut_on_day - 1) * a_day + a_day / 2;
    std::vector<Edge> edges;
    bool was_on = false;
    for (std::int64_t s = 0; s < test.days * a_day; ++s) {
        const CivilSeconds now = rig.now();
        const bool is_cut =
            test.cut_on_day > 0 && now >= cut_from_s && now < cut_from_s + test.cut_s;
        rig.mains(!is_cut);
        rig.second();
        const bool is_on = rig.is_on(Output::backup);
        if (is_on != was_on) edges.push_back({now, is_on});
        was_on = is_on;
    }
    return edges;
}

/// The observed switching nearest to the expected one, of the same sense, within half a day.
std::optional<std::int64_t> late_s(const Edge& expected, const std::vector<Edge>& observed) {
    std::optional<std::int64_t> best;
    for (const Edge& edge : observed) {
        const std::int64_t late = edge.at_s - expected.at_s;
        if (edge.opens != expected.opens || std::abs(late) > a_day / 2) continue;
        if (!best || std::abs(late) < std::abs(*best)) best = late;
    }
    return best;
}

Measurement late_row(const Edge& expected, const std::vector<Edge>& observed, double allowed_s) {
    Measurement row;
    row.name = expected.opens ? "backup window opens, late by" : "backup window closes, late by";
    row.where = date_time_text(expected.at_s);
    if (const auto late = late_s(expected, observed)) row.measured = static_cast<double>(*late);
    row.unit = "s";
    row.allowed = {
        -allowed_s, allowed_s,
        "The drift that the file allows, times the days since the clock was set, and one "
        "second (common practice of quartz clocks, no source)."};
    row.done = "The backup relay watched, the store's top kept cool; times are standard time.";
    return row;
}

/// The first and last days, the day of the change of the clock, and the day after the cut.
bool is_shown(std::int64_t day, const ClockTest& test, std::int64_t change_day) {
    return day == 0 || day == test.days - 1 || day == change_day || day == test.cut_on_day;
}

}  // namespace

Measurements measure(const ClockTest& test, Rig& rig) {
    Measurements rows;
    constexpr double cool_top_c = 25.0;
    const CivilSeconds from_s = rig.now();
    const CivilSeconds until_s = from_s + test.days * a_day;
    rig.put_store(cool_top_c);
    put_collectors(rig, cool_top_c - 10.0);
    const bool follows_summer = rig.set()[Setting::summer_time] != 0;
    std::int64_t change_day = -1;
    for (std::int64_t day = 1; day < test.days; ++day) {
        const CivilSeconds noon = from_s + day * a_day + a_day / 2;
        if (summer_s(noon, follows_summer) != summer_s(noon - a_day, follows_summer)) {
            change_day = day;
        }
    }
    const std::vector<Edge> expected = expected_edges(rig, from_s, until_s);
    const std::vector<Edge> observed = watch(test, rig);
    Measurement count;
    count.name = "switchings of the backup";
    count.where = fmt::format("{} days", test.days);
    count.set = static_cast<double>(expected.size());
    count.measured = static_cast<double>(observed.size());
    count.allowed.ground = "As many as the windows ask for.";
    count.done = "All changes of the relay counted.";
    rows.push_back(std::move(count));
    Measurement worst;
    double worst_excess_s = -std::numeric_limits<double>::infinity();
    for (const Edge& edge : expected) {
        const std::int64_t day = (edge.at_s - from_s) / a_day;
        const double allowed_s = test.drift_allowed_s_per_day * static_cast<double>(day + 1) + 1.0;
        Measurement row = late_row(edge, observed, allowed_s);
        if (is_shown(day, test, change_day)) rows.push_back(row);
        const double excess_s = row.measured ? std::abs(*row.measured) - allowed_s
                                             : std::numeric_limits<double>::infinity();
        if (excess_s > worst_excess_s) {
            worst_excess_s = excess_s;
            worst = std::move(row);
        }
    }
    worst.name = "worst switching of all days, late by";
    worst.unit = "s";
    worst.done = "The one that leaves the least of its allowance; the relay watched each second.";
    rows.push_back(std::move(worst));
    rig.rest(cool_top_c);
    return rows;
}

}  // namespace noonbench::harness
