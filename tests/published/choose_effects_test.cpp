// SPDX-License-Identifier: MIT
// What others found that settings, flow and stratification do, beside what the bench does with the
// demo house: the findings are harness/choose/theory_effects. A case's name says what the bench
// shows; where that is not what was published, the reason stands above it. A year is told from four
// typical weeks in two drawn worlds, each variant in the same two; ten seconds in all.
#include "harness/bench/run.hpp"
#include "harness/choose/theory.hpp"
#include "harness/choose/theory_effects.hpp"
#include "harness/choose/trial.hpp"
#include "harness/scenario/read.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <functional>
#include <limits>
#include <memory>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(choose_effects)

using namespace noonbench;
using namespace noonbench::harness;

namespace {

using firmware::Setting;
using Change = std::function<void(Scenario&)>;

Scenario scenario_in(const char* file) {
    const std::vector<std::string> on_off{"controller.pump_drive=on_off"};
    return read_scenario(std::string(NOONBENCH_SOURCE_DIR) + "/scenarios/" + file, on_off);
}

Change differences(double start_k, double stop_k) {
    return [=](Scenario& scenario) {
        firmware::Settings& settings = scenario.controller.settings;
        settings[Setting::start_difference] = static_cast<std::int16_t>(100.0 * start_k);
        settings[Setting::stop_difference] = static_cast<std::int16_t>(100.0 * stop_k);
    };
}

/// Of the field, whose area is the same in every case here; not worked out from pressures.
Change flow(double l_h_m2) {
    return [=](Scenario& scenario) {
        const plant::Row& row = scenario.plant.rows.front();
        scenario.plant.loop.hydraulics = plant::Hydraulics::given;
        scenario.plant.loop.pump.full_flow_m3_s =
            l_h_m2 / 3.6e6 * row.collector.area_m2 * row.collectors_in_series;
    };
}

/// The published comparisons are of stores that the sun alone heats.
void without_backup(Scenario& scenario) {
    scenario.plant.backup.kind = plant::BackupKind::none;
    scenario.controller.settings[Setting::backup_control] = 0;
}

/// Conduction a thousand times that of water and wall: one temperature from bottom to top.
void well_mixed(Scenario& scenario) {
    scenario.plant.store.conductivity_w_mk = 5000.0;
}

/// Sums of a year told from four weeks, and the days that they are made of.
struct Year {
    double to_store_kwh = 0.0;
    double sun_kwh = 0.0;
    double run_h = 0.0;
    double starts = 0.0;
    double tapped_kwh = 0.0;
    double missing_kwh = 0.0;
    double backup_kwh = 0.0;
    std::vector<Sums> days;

    /// Of what was asked for; the store is the only heat.
    [[nodiscard]] double solar_fraction() const { return tapped_kwh / (tapped_kwh + missing_kwh); }
};

constexpr std::size_t world_count = 2;

/// The same two worlds for each change.
class Worlds {
  public:
    Worlds() : site_(scenario_in("sites/orchard_lane_3.yaml")) {
        for (std::size_t k = 0; k < world_count; ++k)
            skies_.push_back(sky_of_world(site_, world_of(1, k), TrialLength::typical_weeks));
    }

    [[nodiscard]] std::vector<Year> with(const std::vector<Change>& changes) const {
        std::vector<Year> years;
        for (std::size_t k = 0; k < world_count; ++k) {
            Scenario scenario = in_world(world_of(1, k), site_);
            for (const Change& change : changes) change(scenario);
            years.push_back(year_of(scenario, k));
        }
        return years;
    }

  private:
    [[nodiscard]] Year year_of(Scenario scenario, std::size_t k) const {
        Year year;
        scenario.record.every_s = std::numeric_limits<std::int32_t>::max();
        RunWishes wishes;
        wishes.sky = skies_[k].get();
        for (const TrialStretch& stretch :
             stretches_of(TrialLength::typical_weeks, site_.start_s, world_of(1, k))) {
            scenario.start_s = stretch.start_s;
            scenario.length_s = stretch.length_s;
            for (const Sums& day : run(scenario, wishes).days)
                if (day.from_s >= stretch.counted_from_s) add(year, day, stretch.weight);
        }
        return year;
    }

    static void add(Year& year, const Sums& day, double weight) {
        year.to_store_kwh += weight * day.to_store_kwh;
        year.sun_kwh += weight * day.sun_kwh;
        year.run_h += weight * day.pump_run_h;
        year.starts += weight * static_cast<double>(day.pump_starts);
        year.tapped_kwh += weight * day.tapped_kwh;
        year.missing_kwh += weight * day.missing_kwh;
        year.backup_kwh += weight * day.backup_kwh;
        year.days.push_back(day);
    }

    Scenario site_;
    std::vector<std::shared_ptr<const SkyFeed>> skies_;
};

const Worlds& worlds() {
    static const Worlds the_only;
    return the_only;
}

/// Lowered to where the published work begins, and raised by eight kelvins.
const std::vector<Year>& eager() {
    static const std::vector<Year> years = worlds().with({differences(4.0, 2.0)});
    return years;
}
const std::vector<Year>& raised() {
    static const std::vector<Year> years = worlds().with({differences(12.0, 2.0)});
    return years;
}

double percent(double from, double to) {
    return 100.0 * (to / from - 1.0);
}

/// Says the figure in the log and how it lies to what was published.
Against found(const char* key, double simulated) {
    const PublishedEffect& effect = published_effect(key);
    const Against lies = against(effect, simulated, 0.0);
    BOOST_TEST_MESSAGE(key << ": bench " << simulated << ' ' << effect.unit << ", "
                           << words_of(lies, effect.has_band));
    return lies;
}

double day_efficiency(const Sums& day) {
    return 100.0 * day.to_store_kwh / day.sun_kwh;
}

/// A clear April day at this flow with these differences; the controller's least run and rest,
/// which would hide the cycling, are off.
Sums clear_day(double l_h_m2, double start_k, double stop_k) {
    Scenario scenario = scenario_in("days/clear_spring_day.yaml");
    flow(l_h_m2)(scenario);
    differences(start_k, stop_k)(scenario);
    scenario.controller.settings[Setting::least_run_time] = 0;
    scenario.controller.settings[Setting::least_rest_time] = 0;
    return run(scenario).total;
}

double start_over_stop(double l_h_m2) {
    Scenario scenario = scenario_in("days/clear_spring_day.yaml");
    flow(l_h_m2)(scenario);
    const Moment spring{.store_c = 40.0, .air_c = 12.0};
    return loop_theory(loop_figures(scenario.plant), {8.0, 4.0}, spring).start_over_stop;
}

/// Five hours about noon into a store of 3000 m3 that stays at 30 degC: heat of a collector of
/// F' = 0.92 and U_L = 4.5 W/m2K with water, its inlet always the same. `cells` as the plant
/// divides it: two for each collector in series.
double useful_kwh(double l_h_m2, int collectors) {
    Scenario scenario = scenario_in("days/clear_spring_day.yaml");
    scenario.start_s += 10 * 3600;
    scenario.length_s = 5 * 3600;
    plant::Parameters& p = scenario.plant;
    plant::Row& row = p.rows.front();
    row.collector.area_m2 = 4.0 / collectors;
    row.collector.content_m3 *= 2.0 / collectors;
    row.collectors_in_series = collectors;
    row.collector.a1_w_m2k = 0.92 * 4.5;
    row.collector.a2_w_m2k2 = 0.0;
    row.collector.a4 = 0.0;
    p.loop.glycol_mass_share = 0.0;
    p.store.volume_m3 = 3000.0;
    p.store.solar_coil.ua_w_k = 1e5;
    p.store.high_limit_fitted = false;
    without_backup(scenario);
    scenario.start_temperatures.store_bottom_c = 30.0;
    scenario.start_temperatures.store_top_c = 30.0;
    flow(l_h_m2)(scenario);
    Move by_hand;
    by_hand.at_s = ever_since;
    by_hand.what = HandMove{Hand::pump, firmware::HandRequest::on};
    scenario.moves.push_back(by_hand);
    const Sums sums = run(scenario).total;
    BOOST_TEST_REQUIRE(sums.pump_run_h > 4.99);  // the filter needs a few seconds at first
    return sums.absorbed_kwh - sums.collector_loss_kwh;
}

}  // namespace

// ---------------------------------------------------------------- start difference

BOOST_AUTO_TEST_CASE(a_start_difference_raised_by_8_k_lowers_the_year_and_shortens_the_run) {
    for (std::size_t k = 0; k < world_count; ++k) {
        const Year& low = eager()[k];
        const Year& high = raised()[k];
        BOOST_TEST(high.to_store_kwh < low.to_store_kwh);
        const double points =
            100.0 * (high.to_store_kwh / high.sun_kwh) - 100.0 * (low.to_store_kwh / low.sun_kwh);
        BOOST_TEST((found("start_difference_efficiency", points) == Against::within));
        BOOST_TEST((found("start_difference_run_time", percent(low.run_h, high.run_h)) ==
                    Against::within));
        // What a household notices is little: the sunny days, which make the year, lose nothing.
        BOOST_TEST(percent(low.to_store_kwh, high.to_store_kwh) > -6.0);
    }
}

BOOST_AUTO_TEST_CASE(it_costs_most_on_poor_days) {
    double bright = 0.0;
    double poor = 0.0;
    for (std::size_t k = 0; k < world_count; ++k) {
        for (std::size_t d = 0; d < eager()[k].days.size(); ++d) {
            const Sums& low = eager()[k].days[d];
            const double points = day_efficiency(raised()[k].days[d]) - day_efficiency(low);
            double& worst = low.sun_kwh_m2 < 1.0 ? poor : bright;
            worst = std::min(worst, points);
            if (low.sun_kwh_m2 >= 4.0) BOOST_TEST(points > -2.0);
        }
    }
    BOOST_TEST_MESSAGE("worst day " << bright << " points, of the poorest " << poor);
    BOOST_TEST((found("start_difference_efficiency", bright) == Against::within));
    BOOST_TEST(poor < bright);
}

// Published: at most 26 points. Days of 0.4 kWh/m2 lose more here, since then a few minutes of
// running are all there is; how poor the poorest published days were is not told in what was seen.
BOOST_AUTO_TEST_CASE(the_poorest_day_loses_more_than_the_published_26_points) {
    double worst = 0.0;
    double its_sun = 0.0;
    for (std::size_t k = 0; k < world_count; ++k) {
        for (std::size_t d = 0; d < eager()[k].days.size(); ++d) {
            const Sums& low = eager()[k].days[d];
            const double points = day_efficiency(raised()[k].days[d]) - day_efficiency(low);
            if (points >= worst) continue;
            worst = points;
            its_sun = low.sun_kwh_m2;
        }
    }
    BOOST_TEST((found("start_difference_efficiency", worst) == Against::same_direction));
    BOOST_TEST(its_sun < 0.5);
}

// ---------------------------------------------------------------- cycling

BOOST_AUTO_TEST_CASE(with_the_rule_kept_a_clear_day_has_one_start_at_any_flow) {
    for (const double l_h_m2 : {50.0, 30.0, 12.0}) {
        const double ratio = start_over_stop(l_h_m2);
        BOOST_TEST_CONTEXT(l_h_m2 << " l/h m2, rule of this loop " << ratio) {
            const Sums kept = clear_day(l_h_m2, std::min(20.0, 1.3 * ratio), 1.0);
            BOOST_TEST((found("clear_day_starts", static_cast<double>(kept.pump_starts)) ==
                        Against::within));
        }
    }
}

BOOST_AUTO_TEST_CASE(a_ratio_below_the_rule_cycles_at_high_flow_and_less_at_low_flow) {
    // 8 K to start and 6 K to stop break the rule at either flow, 8 and 4 K hardly at the low one.
    const Sums high = clear_day(50.0, 8.0, 6.0);
    const Sums low = clear_day(12.0, 8.0, 6.0);
    BOOST_TEST_MESSAGE("8/6: " << high.pump_starts << " starts at 50 l/h m2, " << low.pump_starts
                               << " at 12");
    BOOST_TEST(high.pump_starts >= 10);
    BOOST_TEST(low.pump_starts >= 2);
    BOOST_TEST(high.pump_starts >= 3 * low.pump_starts);
    const Sums calmer = clear_day(50.0, 8.0, 4.0);
    BOOST_TEST(calmer.pump_starts > 1);
    BOOST_TEST(calmer.pump_starts < high.pump_starts);
    // On a clear day the heat is nearly the same: what cycling costs is the relay.
    BOOST_TEST(std::abs(percent(calmer.to_store_kwh, high.to_store_kwh)) < 1.0);
}

// The rule asks for 8 at the high flow in this loop; the bench starts twice with 4, the lower end
// of what is in use. The rule is of a loop without heat capacity in a sun that stands still; here
// the standing collector's warm fluid has to pass first, and the morning's sun rises meanwhile.
BOOST_AUTO_TEST_CASE(half_the_ratio_of_the_rule_is_nearly_calm_at_high_flow) {
    BOOST_TEST(start_over_stop(50.0) > 7.0);
    const Sums usual = clear_day(50.0, 8.0, 2.0);
    BOOST_TEST(usual.pump_starts <= 3);
}

BOOST_AUTO_TEST_CASE(a_smaller_gap_between_start_and_stop_brings_more_starts) {
    const std::vector<Year> wide = worlds().with({differences(8.0, 2.0)});
    const std::vector<Year> narrow = worlds().with({differences(8.0, 6.0)});
    for (std::size_t k = 0; k < world_count; ++k) {
        const double change = percent(wide[k].starts, narrow[k].starts);
        BOOST_TEST((found("smaller_gap_starts", change) == Against::same_direction));
        BOOST_TEST(change > 100.0);
        BOOST_TEST(
            (found("differences_order", percent(wide[k].to_store_kwh, narrow[k].to_store_kwh)) ==
             Against::same_direction));
    }
}

// ---------------------------------------------------------------- flow and drive

BOOST_AUTO_TEST_CASE(a_third_of_the_flow_costs_a_long_field_the_published_6_percent) {
    const double change = percent(useful_kwh(54.0, 8), useful_kwh(18.0, 8));
    BOOST_TEST((found("low_flow_efficiency", change) == Against::within));
}

// Published: 5.5 to 6.5 %. The plant takes each collector as two stirred cells; with two collectors
// that is four, in which a slow flow is warmer on the average than in the plug flow of the formula.
BOOST_AUTO_TEST_CASE(two_collectors_of_two_stirred_cells_each_lose_a_percent_more) {
    const double change = percent(useful_kwh(54.0, 2), useful_kwh(18.0, 2));
    BOOST_TEST((found("low_flow_efficiency", change) == Against::same_direction));
    BOOST_TEST(change > -8.0);
}

BOOST_AUTO_TEST_CASE(stratified_at_low_flow_beats_well_mixed_at_high_flow_as_published) {
    const std::vector<Year> low = worlds().with({without_backup, flow(7.0)});
    const std::vector<Year> mixed = worlds().with({without_backup, flow(54.0), well_mixed});
    for (std::size_t k = 0; k < world_count; ++k) {
        const double change = percent(mixed[k].solar_fraction(), low[k].solar_fraction());
        BOOST_TEST((found("low_flow_stratification", change) == Against::within));
    }
}

// Published: low flow with a stratified store raises the solar fraction. The published stores are
// charged at the top by the warm fluid itself, this one through a coil below, whose heat rises
// through the layers at any flow (the likely reason; it was not isolated): a low flow gains few
// layers here and loses in the collector.
BOOST_AUTO_TEST_CASE(a_coil_in_the_store_leaves_a_low_flow_no_gain) {
    const std::vector<Year> low = worlds().with({without_backup, flow(7.0)});
    const std::vector<Year> high = worlds().with({without_backup, flow(54.0)});
    for (std::size_t k = 0; k < world_count; ++k) {
        const double change = percent(high[k].solar_fraction(), low[k].solar_fraction());
        BOOST_TEST((found("low_flow_solar_fraction", change) == Against::opposite));
        BOOST_TEST(change > -10.0);
    }
}

// Published: up to half as much again, over fields and stores of all sizes; the abstract gives no
// figure for a field that suits its store, as here. The direction is all that can be compared.
BOOST_AUTO_TEST_CASE(a_speed_that_follows_the_sun_brings_a_little_more_heat_than_on_and_off) {
    const std::vector<Year> on_off = worlds().with({});
    const std::vector<Year> speed = worlds().with(
        {[](Scenario& scenario) { scenario.controller.settings[Setting::pump_drive] = 1; }});
    for (std::size_t k = 0; k < world_count; ++k) {
        const double heat = percent(on_off[k].to_store_kwh, speed[k].to_store_kwh);
        BOOST_TEST((found("proportional_day", heat) == Against::same_direction));
        BOOST_TEST((found("proportional_year", heat) == Against::within));
        BOOST_TEST(heat < 5.0);
        BOOST_TEST(speed[k].backup_kwh < on_off[k].backup_kwh);
    }
}

BOOST_AUTO_TEST_SUITE_END()
