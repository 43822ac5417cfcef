// SPDX-License-Identifier: MIT
// The figures of a year, told from short stretches here, and what a score makes of them.
#include "harness/bench/clock.hpp"
#include "harness/bench/run.hpp"
#include "harness/choose/trial.hpp"
#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <numeric>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_trial)

namespace {

using namespace noonbench::harness;
using noonbench::firmware::Setting;

constexpr std::int64_t hour_s = 3600;
constexpr std::int64_t day_s = 86400;

Scenario orchard(const std::vector<std::string>& sets = {}) {
    return read_scenario(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/sites/orchard_lane_3.yaml",
                         sets);
}

/// Stretches as short as a test can afford; under a clear day no year of weather need be drawn.
TrialStretch hours(CivilSeconds from_s, std::int64_t count, double weight) {
    return {from_s, count * hour_s, from_s, weight};
}

const CivilSeconds may_morning = civil_seconds(2026, 5, 12) + 10 * hour_s;

std::size_t constraint_number(std::string_view name) {
    const auto all = constraint_table();
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const ConstraintInfo& each) { return each.name == name; });
    return static_cast<std::size_t>(found - all.begin());
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_year_is_four_weeks_that_weigh_as_many_days_as_it_has) {
    for (const int year : {2026, 2028}) {
        for (std::size_t k = 0; k < 20; ++k) {
            const auto all = stretches_of(TrialLength::typical_weeks, civil_seconds(year, 4, 15),
                                          world_of(1, k));
            BOOST_TEST_REQUIRE(all.size() == 4U);
            double days = 0.0;
            for (std::size_t quarter = 0; quarter < all.size(); ++quarter) {
                const TrialStretch& s = all[quarter];
                days += s.weight * counted_days;
                BOOST_TEST(s.counted_from_s - s.start_s == run_in_days * day_s);
                BOOST_TEST(s.start_s + s.length_s - s.counted_from_s == counted_days * day_s);
                // The week lies within its quarter.
                BOOST_TEST((date_of(s.counted_from_s).month - 1) / 3 == quarter);
                BOOST_TEST((date_of(s.start_s + s.length_s - 1).month - 1) / 3 == quarter);
                BOOST_TEST(date_of(s.counted_from_s).year == year);
            }
            BOOST_TEST(days == (year == 2028 ? 366.0 : 365.0), boost::test_tools::tolerance(1e-12));
        }
    }
}

BOOST_AUTO_TEST_CASE(weeks_of_many_worlds_visit_every_day_of_a_quarter) {
    std::vector<int> visits(90, 0);
    for (std::size_t k = 0; k < 1000; ++k) {
        const auto all =
            stretches_of(TrialLength::typical_weeks, civil_seconds(2026, 1, 1), world_of(5, k));
        const auto first =
            static_cast<std::size_t>((all[0].counted_from_s - civil_seconds(2026, 1, 1)) / day_s);
        for (std::size_t d = first; d < first + counted_days; ++d) ++visits.at(d);
    }
    for (std::size_t d = 0; d < 90; ++d) BOOST_TEST(visits[d] > 0, "day " << d << " of the year");
    BOOST_TEST(std::accumulate(visits.begin(), visits.end(), 0) == 1000 * counted_days);
}

BOOST_AUTO_TEST_CASE(a_full_year_counts_each_of_its_days_once) {
    const auto all = stretches_of(TrialLength::full_year, civil_seconds(2028, 4, 15), World{});
    BOOST_TEST_REQUIRE(all.size() == 1U);
    BOOST_TEST(all[0].counted_from_s == civil_seconds(2028, 1, 1));
    BOOST_TEST(all[0].start_s == civil_seconds(2027, 12, 30));
    BOOST_TEST(all[0].start_s + all[0].length_s == civil_seconds(2029, 1, 1));
    BOOST_TEST(all[0].weight == 1.0);
}

BOOST_AUTO_TEST_CASE(figures_are_those_of_the_run_times_the_weight) {
    Scenario site = orchard();
    const TrialStretch morning = hours(may_morning, 3, 10.0);
    const YearFigures year = figures_of(site, std::vector{morning}, SkyFeed(site));
    site.start_s = morning.start_s;
    site.length_s = morning.length_s;
    const RunResult run = noonbench::harness::run(site);
    BOOST_TEST_REQUIRE(run.total.pump_starts > 0);
    BOOST_TEST(year.to_store_kwh == 10.0 * run.total.to_store_kwh);
    BOOST_TEST(year.pump_kwh == 10.0 * run.total.pump_electricity_kwh);
    BOOST_TEST(year.pump_starts == 10.0 * static_cast<double>(run.total.pump_starts));
    BOOST_TEST(year.most_starts_a_day == static_cast<double>(run.total.pump_starts));
    BOOST_TEST(year.tap_hottest_c == std::max(0.0, run.total.tap_hottest_c));
    BOOST_TEST(year.collector_hottest_c == run.total.collector_highest_c);
    BOOST_TEST(year.days_without_60 == (run.total.store_top_highest_c >= sanitised_c ? 0.0 : 1.0));
}

BOOST_AUTO_TEST_CASE(stretches_add_up_and_the_run_in_does_not_count) {
    const Scenario site = orchard();
    const TrialStretch late = hours(civil_seconds(2026, 5, 11) + 23 * hour_s, 1, 1.0);
    TrialStretch across = late;  // an hour before midnight as run-in, an hour after it counted
    across.length_s = 2 * hour_s;
    across.counted_from_s = civil_seconds(2026, 5, 12);
    const YearFigures run_in = figures_of(site, std::vector{late}, SkyFeed(site));
    TrialStretch whole = across;
    whole.counted_from_s = whole.start_s;
    const YearFigures both = figures_of(site, std::vector{whole}, SkyFeed(site));
    const YearFigures counted = figures_of(site, std::vector{across}, SkyFeed(site));
    // Some heat is drawn or made up for in the hour before midnight: the start at 50 degC on top is
    // below the thermostat's 55.
    const auto used = [](const YearFigures& f) { return f.tapped_kwh + f.pump_run_h + f.tapped_l; };
    BOOST_TEST(counted.tapped_l + run_in.tapped_l == both.tapped_l,
               boost::test_tools::tolerance(1e-9));
    BOOST_TEST(counted.backup_kwh + run_in.backup_kwh == both.backup_kwh,
               boost::test_tools::tolerance(1e-9));
    BOOST_TEST(used(counted) <= used(both));
    const YearFigures twice = figures_of(site, std::vector{late, across}, SkyFeed(site));
    BOOST_TEST(twice.tapped_l == both.tapped_l, boost::test_tools::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(the_time_between_two_hot_days_is_found_across_the_run_in) {
    // Three days without backup and sun: the store's top starts at 65 degC and is drawn cold.
    Scenario site =
        orchard({"store.start_top=65 degC", "store.start_bottom=60 degC", "backup.kind=none",
                 "controller.backup_control=off", "controller.exercise_after=0 day"});
    site = without_sun(std::move(site));
    site.household.pattern.profile = noonbench::plant::DrawProfile::extra_large;
    const CivilSeconds first = civil_seconds(2026, 5, 12);
    const TrialStretch three{first, 3 * day_s, first + day_s, 1.0};
    const YearFigures year = figures_of(site, std::vector{three}, SkyFeed(site));
    BOOST_TEST(year.days_without_60 == 2.0);
    BOOST_TEST(year.store_top_hottest_c < 60.0);  // of the counted days alone
    BOOST_TEST(year.cool_l > 0.0);
    BOOST_TEST(year.cool_l <= year.tapped_l);
}

BOOST_AUTO_TEST_CASE(without_the_sun_the_pump_stands_still_and_the_coil_brings_nothing) {
    const Scenario site = orchard();
    const std::vector<TrialStretch> noon{hours(may_morning, 2, 1.0)};
    const YearFigures with = figures_of(site, noon, SkyFeed(site));
    const YearFigures without = figures_of(without_sun(site), noon, SkyFeed(without_sun(site)));
    BOOST_TEST(with.to_store_kwh > 0.5);
    BOOST_TEST(without.pump_run_h == 0.0);
    BOOST_TEST(without.pump_starts == 0.0);
    BOOST_TEST(std::abs(without.to_store_kwh) < 0.02);  // what conducts through a standing loop
    BOOST_TEST(without.collector_hottest_c < 40.0);
}

BOOST_AUTO_TEST_CASE(a_job_runs_in_its_world_with_its_settings) {
    const Scenario site = orchard();
    YearJob job;
    job.world = world_of(9, 2);
    job.settings = site.controller.settings;
    (*job.settings)[Setting::start_difference] = 650;
    const Scenario there = scenario_of(site, job);
    BOOST_TEST(there.controller.settings[Setting::start_difference] == 650);
    BOOST_TEST(there.seed == job.world.seed);
    job.settings.reset();
    const Scenario dark = scenario_of(site, job);
    BOOST_TEST((dark.controller.settings == site.controller.settings));
    BOOST_TEST(dark.moves.size() == there.moves.size() + 2U);
}

BOOST_AUTO_TEST_CASE(a_score_is_the_backup_saved_less_the_weighted_pump) {
    YearFigures candidate;
    candidate.backup_kwh = 900.0;
    candidate.pump_kwh = 40.0;
    YearFigures delivered = candidate;
    delivered.backup_kwh = 950.0;
    YearFigures dark;
    dark.backup_kwh = 3000.0;
    const Score score = score_of({candidate, delivered, dark}, {});
    BOOST_TEST(score.saving_kwh == 2100.0);
    BOOST_TEST(score.objective_kwh == 2100.0 - 2.5 * 40.0);
    const Score other = score_of({candidate, delivered, dark}, {.backup = 0.5, .pump = 1.0});
    BOOST_TEST(other.saving_kwh == 2100.0);
    BOOST_TEST(other.objective_kwh == 1050.0 - 40.0);
    BOOST_TEST(score.margins.size() == constraint_table().size());
}

BOOST_AUTO_TEST_CASE(settings_as_delivered_keep_every_constraint_however_bad_the_site_is) {
    YearFigures bad;
    bad.tapped_l = 60000.0;
    bad.cool_l = 9000.0;
    bad.tapped_kwh = 2500.0;
    bad.missing_kwh = 90.0;
    bad.stagnation_h = 400.0;
    bad.most_starts_a_day = 70.0;
    bad.tap_hottest_c = 88.0;
    bad.days_without_60 = 9.0;
    bad.high_limit_trips = 2.0;
    const Score score = score_of({bad, bad, bad}, {});
    for (std::size_t i = 0; i < score.margins.size(); ++i)
        BOOST_TEST(score.margins[i] >= 0.0, constraint_table()[i].name);
}

BOOST_AUTO_TEST_CASE(comfort_is_not_traded_for_backup_energy) {
    YearFigures delivered;
    delivered.tapped_l = 70000.0;
    delivered.cool_l = 100.0;
    YearFigures mean = delivered;
    mean.backup_kwh = -500.0;  // however much it saves
    mean.cool_l = 100.0 + 0.002 * 70000.0 + 1.0;
    const std::size_t comfort = constraint_number("water below comfort");
    BOOST_TEST(score_of({mean, delivered, delivered}, {}).margins.at(comfort) == -1.0,
               boost::test_tools::tolerance(1e-9));
    mean.cool_l -= 2.0;
    BOOST_TEST(score_of({mean, delivered, delivered}, {}).margins.at(comfort) == 1.0,
               boost::test_tools::tolerance(1e-9));
}

BOOST_AUTO_TEST_CASE(plain_limits_stand_where_the_site_as_delivered_is_better) {
    const YearFigures delivered;
    YearFigures candidate;
    candidate.most_starts_a_day = 31.0;
    candidate.tap_hottest_c = 62.0;
    candidate.days_without_60 = 7.0;
    candidate.high_limit_trips = 1.0;
    candidate.stagnation_h = 12.0;
    const Score score = score_of({candidate, delivered, delivered}, {});
    const auto margin = [&](std::string_view name) {
        return score.margins.at(constraint_number(name));
    };
    BOOST_TEST(margin("most starts of the pump in a day") == -1.0);
    BOOST_TEST(margin("hottest water at the tap") == -2.0);
    BOOST_TEST(margin("days in a row without 60 degC at the store's top") == -1.0);
    BOOST_TEST(margin("trips of the high-limit stat") == -1.0);
    BOOST_TEST(margin("stagnation") == -2.0);
}

BOOST_AUTO_TEST_SUITE_END()
