// SPDX-License-Identifier: MIT
// The figures of one year of one candidate in one world, and what is made of them: saving,
// objective and the margins of the constraints. A year is either run day by day or told from a
// typical week of each quarter.
#pragma once
#include "score.hpp"
#include "worlds.hpp"

#include "firmware-model/settings.hpp"

#include "harness/bench/sky_feed.hpp"

#include "harness/scenario/scenario.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace noonbench::harness {

// ---------------------------------------------------------------- stretches of time

enum class TrialLength : std::uint8_t { typical_weeks, full_year };

/// "typical_weeks", "full_year".
[[nodiscard]] std::string_view name_of(TrialLength length);

/// Days before those that are counted. A store of 50 l for each square metre forgets what was in it
/// within two days of draws: a day's draws are about its content (common practice, no source, for
/// the sizes).
inline constexpr int run_in_days = 2;

/// Days of a typical week. Seven, since a household's week has seven kinds of day, backup windows
/// may differ by weekday, and the sanitise cycle comes once in seven days: a fresh controller makes
/// its first in the run-in and the next on the sixth counted day, unless the sun was hot enough.
inline constexpr int counted_days = 7;

/// A run of the bench of which the days from `counted_from_s` on count, each `weight` times.
struct TrialStretch {
    CivilSeconds start_s = 0;
    std::int64_t length_s = 0;
    CivilSeconds counted_from_s = 0;  // a midnight, or the start
    double weight = 1.0;
};

/// The calendar year in which the scenario starts; weeks lie in their quarters as the world says.
[[nodiscard]] std::vector<TrialStretch> stretches_of(TrialLength length,
                                                     CivilSeconds scenario_start_s,
                                                     const World& world);

// ---------------------------------------------------------------- figures

/// Of a year, sums weighted. Plain data.
struct YearFigures {
    double backup_kwh = 0.0;
    double pump_kwh = 0.0;
    double tapped_kwh = 0.0;
    double missing_kwh = 0.0;  // asked for at the tap and not delivered
    double to_store_kwh = 0.0;
    double tapped_l = 0.0;
    double cool_l = 0.0;        // below comfort
    double stagnation_h = 0.0;  // a collector above 120 degC
    double pump_starts = 0.0;
    double most_starts_a_day = 0.0;
    double short_runs = 0.0;  // the sun's own runs shorter than `short_run_s`
    double pump_run_h = 0.0;
    double backup_starts = 0.0;
    double backup_run_h = 0.0;
    double tap_hottest_c = 0.0;  // 0: nothing was tapped
    double collector_hottest_c = 0.0;
    double store_top_hottest_c = 0.0;
    double days_without_60 = 0.0;   // longest time in which the store's top did not reach 60 degC
    double high_limit_trips = 0.0;  // stretches in which the hard-wired stat tripped
    double lost_fluid_l = 0.0;
    std::string advice;  // what the controller suspected, each once, "; " between
    friend bool operator==(const YearFigures&, const YearFigures&) = default;
};

/// A run that is over before the hot pipe has been renewed a few times brings no heat (12 m of pipe
/// take 40 s, the store's coil as long; calculation of ours).
inline constexpr double short_run_s = 180.0;

/// Temperature that kills legionella (HSG274 part 2, DVGW W 551), less the 0.6 K that a sensor of
/// class B may show too much: no controller can know better.
inline constexpr double sanitised_c = 60.0 - 0.6;

enum class Joining : std::uint8_t { sum, most };

/// One line of the only list of figures.
struct FigureInfo {
    std::string_view name;  // the column of the results file
    double YearFigures::*value;
    Joining joining;
    std::string_view unit;
};
[[nodiscard]] std::span<const FigureInfo> figure_table();

/// Runs the stretches one after the other. Throws what run() throws.
[[nodiscard]] YearFigures figures_of(const Scenario& scenario,
                                     std::span<const TrialStretch> stretches, const SkyFeed& sky);

// ---------------------------------------------------------------- one year

/// What a year is run with.
struct YearJob {
    std::optional<firmware::Settings> settings;  // none: as delivered and without the sun
    World world{};
    TrialLength length = TrialLength::typical_weeks;
    std::function<std::shared_ptr<const SkyFeed>()> sky{};  // none: made for this job alone
};

/// The sky of a world with the stretches' days kept, for all candidates that meet it: drawing a
/// year of weather takes as long as running days of it. Throws as SkyFeed does.
[[nodiscard]] std::shared_ptr<const SkyFeed> sky_of_world(const Scenario& site, const World& world,
                                                          TrialLength length);

/// The scenario of a job: in its world, with its settings; nothing recorded but sums.
[[nodiscard]] Scenario scenario_of(const Scenario& site, const YearJob& job);

/// The same site without the sun's help: the glass covered and the pump switched off by hand, so
/// that nothing moves in the loop, whose pressures are then not worked out.
[[nodiscard]] Scenario without_sun(Scenario scenario);

/// figures_of() the job's stretches. Throws what run() throws.
[[nodiscard]] YearFigures run_year(const Scenario& site, const YearJob& job);
using RunYear = std::function<YearFigures(const Scenario& site, const YearJob& job)>;

// ---------------------------------------------------------------- what it is worth

/// How much a kilowatt-hour counts.
struct Weights {
    double backup = 1.0;  // of backup energy saved
    double pump = 2.5;    // of the pump's electricity: primary energy of the grid's electricity
                          // (Directive 2012/27/EU, from memory)
    friend bool operator==(const Weights&, const Weights&) = default;
};

/// One constraint: a figure may not pass its limit, which the same world as delivered may move.
struct ConstraintInfo {
    std::string_view name;
    std::string_view unit;
    std::string_view why;  // and where the figure comes from
    double YearFigures::*figure;
    double (*limit)(const YearFigures& as_delivered);
    int decimals;
};
[[nodiscard]] std::span<const ConstraintInfo> constraint_table();

/// The three years that a score is made of, all in the same world and of the same length.
struct YearsOfWorld {
    const YearFigures& candidate;
    const YearFigures& as_delivered;
    const YearFigures& without_sun;
};
[[nodiscard]] Score score_of(const YearsOfWorld& years, const Weights& weights);

}  // namespace noonbench::harness
