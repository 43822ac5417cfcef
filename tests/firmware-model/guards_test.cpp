// SPDX-License-Identifier: MIT
#include "decisions.hpp"

#include "firmware-model/guards.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(guards)

using namespace noonbench::firmware;
using namespace noonbench::firmware::decisions;

namespace {

struct Guards {
    Settings settings = default_settings();
    Situation situation = quiet_afternoon();
    GuardsState guards{};

    Guards() {
        settings[Setting::store_limit] = 7500;
        settings[Setting::store_limit_release] = 300;
        settings[Setting::store_ceiling] = 9000;
        settings[Setting::collector_cut_out] = 12000;
        settings[Setting::collector_release] = 11000;
        settings[Setting::day_shedding_start] = 10500;
        settings[Setting::night_shedding_target] = 4500;
        settings[Setting::frost_start] = 400;
        settings[Setting::frost_stop] = 600;
        settings[Setting::frost_store_floor] = 1000;
        settings[Setting::start_difference] = 800;
        settings[Setting::stop_difference] = 400;
        settings[Setting::sampling_from] = 7 * 60;
        settings[Setting::sampling_until] = 19 * 60;
    }
    void keep() { keep_guards(settings, situation, guards); }
    /// Temperatures in hundredths of a degree.
    void keep(int collector, int bottom, int top) {
        read(situation, {static_cast<std::int16_t>(collector)}, {static_cast<std::int16_t>(bottom)},
             {static_cast<std::int16_t>(top)});
        keep();
    }
    void at_night() { situation.time.minute_of_day = 2 * 60; }
};

}  // namespace

BOOST_FIXTURE_TEST_CASE(the_store_limit_looks_at_the_bottom_and_releases_below, Guards) {
    keep(9000, 7499, 8000);
    BOOST_TEST(guards.at_limit == 0);
    keep(9000, 7500, 8000);
    BOOST_TEST(guards.at_limit == 1);
    keep(9000, 7201, 8000);
    BOOST_TEST(guards.at_limit == 1);
    keep(9000, 7200, 8000);
    BOOST_TEST(guards.at_limit == 0);
}

BOOST_FIXTURE_TEST_CASE(the_ceiling_looks_at_the_hottest_store_sensor, Guards) {
    keep(9000, 3000, 8999);
    BOOST_TEST(guards.at_ceiling == 0);
    keep(9000, 3000, 9000);
    BOOST_TEST(guards.at_ceiling == 1);
    keep(9000, 3000, 8801);
    BOOST_TEST(guards.at_ceiling == 1);
    keep(9000, 3000, 8800);
    BOOST_TEST(guards.at_ceiling == 0);
    keep(9000, 9000, 3000);
    BOOST_TEST(guards.at_ceiling == 1);
}

BOOST_FIXTURE_TEST_CASE(one_good_store_sensor_can_reach_the_ceiling_but_not_release_it, Guards) {
    situation.store = Trust::lost;
    situation.hottest_store = {8999};
    keep();
    BOOST_TEST(guards.at_ceiling == 0);
    situation.hottest_store = {9000};
    keep();
    BOOST_TEST(guards.at_ceiling == 1);
    situation.hottest_store = {2000};
    keep();
    BOOST_TEST(guards.at_ceiling == 1);
    situation.store_seen = false;
    keep();
    BOOST_TEST(guards.at_ceiling == 1);
    keep(2000, 2000, 2000);
    BOOST_TEST(guards.at_ceiling == 0);
}

BOOST_FIXTURE_TEST_CASE(a_store_that_is_not_good_keeps_the_limit_as_it_was, Guards) {
    keep(9000, 7500, 8000);
    situation.store = Trust::lost;
    situation.store_bottom = {1000};
    keep();
    BOOST_TEST(guards.at_limit == 1);
}

BOOST_FIXTURE_TEST_CASE(the_cut_out_trips_and_releases_by_itself, Guards) {
    keep(11999, 3000, 5000);
    BOOST_TEST(guards.cut_out == 0);
    keep(12000, 3000, 5000);
    BOOST_TEST(guards.cut_out == 1);
    keep(11001, 3000, 5000);
    BOOST_TEST(guards.cut_out == 1);
    situation.collector = Trust::lost;
    situation.hottest_collector = {2000};
    keep();
    BOOST_TEST(guards.cut_out == 1);
    keep(11000, 3000, 5000);
    BOOST_TEST(guards.cut_out == 0);
}

BOOST_FIXTURE_TEST_CASE(the_cut_out_looks_at_the_hotter_and_frost_at_the_colder_collector, Guards) {
    settings[Setting::frost_guard] = 1;
    read(situation, {2000}, {3000}, {5000});
    situation.hottest_collector = {12000};
    situation.coldest_collector = {400};
    keep();
    BOOST_TEST(guards.cut_out == 1);
    BOOST_TEST(guards.frost == 1);
}

BOOST_FIXTURE_TEST_CASE(a_release_above_the_cut_out_acts_one_kelvin_below_it, Guards) {
    settings[Setting::collector_release] = 19500;
    keep(12000, 3000, 5000);
    BOOST_TEST(guards.cut_out == 1);
    keep(11901, 3000, 5000);
    BOOST_TEST(guards.cut_out == 1);
    keep(11900, 3000, 5000);
    BOOST_TEST(guards.cut_out == 0);
}

BOOST_FIXTURE_TEST_CASE(the_frost_guard_runs_between_its_two_temperatures, Guards) {
    keep(400, 3000, 5000);
    BOOST_TEST(guards.frost == 0);  // switched off
    settings[Setting::frost_guard] = 1;
    keep(401, 3000, 5000);
    BOOST_TEST(guards.frost == 0);
    keep(400, 3000, 5000);
    BOOST_TEST(guards.frost == 1);
    keep(599, 3000, 5000);
    BOOST_TEST(guards.frost == 1);
    keep(600, 3000, 5000);
    BOOST_TEST(guards.frost == 0);
}

BOOST_FIXTURE_TEST_CASE(the_frost_guard_leaves_the_store_its_floor, Guards) {
    settings[Setting::frost_guard] = 1;
    keep(0, 1100, 5000);
    BOOST_TEST(guards.frost == 0);
    keep(0, 1101, 5000);
    BOOST_TEST(guards.frost == 1);
    keep(0, 1001, 5000);
    BOOST_TEST(guards.frost == 1);
    keep(0, 1000, 5000);
    BOOST_TEST(guards.frost == 0);
}

BOOST_FIXTURE_TEST_CASE(the_frost_guard_needs_good_readings, Guards) {
    settings[Setting::frost_guard] = 1;
    keep(0, 3000, 5000);
    situation.collector = Trust::lost;
    keep();
    BOOST_TEST(guards.frost == 0);
    keep(0, 3000, 5000);
    situation.store = Trust::settling;
    keep();
    BOOST_TEST(guards.frost == 0);
}

BOOST_FIXTURE_TEST_CASE(a_frost_stop_below_its_start_acts_one_kelvin_above_it, Guards) {
    settings[Setting::frost_guard] = 1;
    settings[Setting::frost_stop] = -1500;
    keep(400, 3000, 5000);
    keep(499, 3000, 5000);
    BOOST_TEST(guards.frost == 1);
    keep(500, 3000, 5000);
    BOOST_TEST(guards.frost == 0);
}

BOOST_FIXTURE_TEST_CASE(day_shedding_runs_above_the_store_limit_only, Guards) {
    keep(10500, 7500, 8000);
    BOOST_TEST(guards.shedding_by_day == 0);  // switched off
    settings[Setting::day_shedding] = 1;
    keep(10499, 7500, 8000);
    BOOST_TEST(guards.shedding_by_day == 0);
    keep(10500, 7500, 8000);
    BOOST_TEST(guards.shedding_by_day == 1);
    keep(9501, 7500, 8000);
    BOOST_TEST(guards.shedding_by_day == 1);
    keep(9500, 7500, 8000);
    BOOST_TEST(guards.shedding_by_day == 0);
    keep(10500, 7200, 8000);
    BOOST_TEST(guards.shedding_by_day == 0);  // below the limit's release: collecting does it
    keep(10500, 7500, 8000);
    situation.collector = Trust::lost;
    keep();
    BOOST_TEST(guards.shedding_by_day == 0);
}

BOOST_FIXTURE_TEST_CASE(night_shedding_gives_heat_back_while_the_store_is_warmer, Guards) {
    at_night();
    keep(5200, 6000, 7000);
    BOOST_TEST(guards.shedding_by_night == 0);  // switched off
    settings[Setting::night_shedding] = 1;
    keep(5201, 6000, 7000);
    BOOST_TEST(guards.shedding_by_night == 0);
    keep(5200, 6000, 7000);
    BOOST_TEST(guards.shedding_by_night == 1);
    keep(5899, 6000, 7000);
    BOOST_TEST(guards.shedding_by_night == 1);
    keep(5900, 6000, 7000);
    BOOST_TEST(guards.shedding_by_night == 0);
}

BOOST_FIXTURE_TEST_CASE(night_shedding_stops_at_its_target, Guards) {
    at_night();
    settings[Setting::night_shedding] = 1;
    keep(1000, 4600, 7000);
    BOOST_TEST(guards.shedding_by_night == 0);
    keep(1000, 4601, 7000);
    BOOST_TEST(guards.shedding_by_night == 1);
    keep(1000, 4501, 7000);
    BOOST_TEST(guards.shedding_by_night == 1);
    keep(1000, 4500, 7000);
    BOOST_TEST(guards.shedding_by_night == 0);
}

BOOST_FIXTURE_TEST_CASE(night_shedding_needs_night_by_the_clock_and_good_readings, Guards) {
    settings[Setting::night_shedding] = 1;
    keep(1000, 6000, 7000);
    BOOST_TEST(guards.shedding_by_night == 0);  // three in the afternoon
    at_night();
    keep(1000, 6000, 7000);
    BOOST_TEST(guards.shedding_by_night == 1);
    situation.clock_is_set = false;
    keep();
    BOOST_TEST(guards.shedding_by_night == 0);
    situation.clock_is_set = true;
    situation.collector = Trust::lost;
    keep();
    BOOST_TEST(guards.shedding_by_night == 0);
}

BOOST_FIXTURE_TEST_CASE(the_holiday_begins_and_ends_by_its_dates, Guards) {
    at_night();
    settings[Setting::holiday_from] = 8900;
    settings[Setting::holiday_until] = 8910;
    for (const auto& [date, expected] :
         {std::pair{8899, false}, {8900, true}, {8910, true}, {8911, false}}) {
        BOOST_TEST_CONTEXT("date " << date) {
            situation.time.date = static_cast<std::uint16_t>(date);
            BOOST_TEST(on_holiday(settings, situation) == expected);
            keep(1000, 6000, 7000);
            BOOST_TEST(bool{guards.shedding_by_night != 0} == expected);
        }
    }
    situation.time.date = 8905;
    situation.clock_is_set = false;
    BOOST_TEST(!on_holiday(settings, situation));
    situation.clock_is_set = true;
    settings[Setting::holiday_from] = 0;  // never
    BOOST_TEST(!on_holiday(settings, situation));
}

BOOST_AUTO_TEST_SUITE_END()
