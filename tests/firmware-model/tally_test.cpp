// SPDX-License-Identifier: MIT
#include "firmware-model/tally.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstring>

BOOST_AUTO_TEST_SUITE(tally)

using namespace noonbench::firmware;

namespace {

constexpr std::size_t place(Sensor sensor) {
    return static_cast<std::size_t>(sensor);
}

struct Bench {
    Settings settings = default_settings();
    std::array<Reading, sensor_count> readings{};
    TallyState state{};
    std::uint32_t now = 1000;

    Bench() {
        for (Reading& r : readings) r.status = SensorStatus::good;
        set(Sensor::collector, 6000);
        set(Sensor::store_bottom, 5000);
        settings[Setting::typed_in_flow] = 300;  // 3 l/min
        settings[Setting::glycol_share] = 40;    // 3848 J/(l K)
    }
    void set(Sensor sensor, std::int16_t centicelsius) {
        readings[place(sensor)].temperature = {centicelsius};
    }
    void tick(bool on, int level = 100, int pulses = 0) {
        keep_tally(
            settings, readings,
            {Ticks{now}, static_cast<std::uint16_t>(pulses), static_cast<std::uint8_t>(on ? 1 : 0),
             static_cast<std::uint8_t>(on ? level : 0)},
            state);
        ++now;
    }
    void ticks(int n, bool on, int level = 100) {
        for (int i = 0; i < n; ++i) tick(on, level);
    }
    // Sum of the counter and its remainder.
    [[nodiscard]] double joule() const {
        return state.counters.heat_wh * 3600.0 + state.counters.heat_rest_uj * 1e-6;
    }
    [[nodiscard]] TallyCounters counters() const { return counters_at(state, Ticks{now}); }
};

const double rounding_j = 1e-5;  // a microjoule at each of fewer than ten bookings

// Melinder's polynomials, i.e. powers of t - 32.7083 degC and of the mass share - 0.307031.
using Powers = double[4][6];
constexpr Powers density = {{1018, 76.04, -24.98, -155, -113.1, 234.2},
                            {-0.5406, -0.945, 0.27, 2.829, -2.221, 0},
                            {-0.002666, 0.005541, -0.004018, -0.007175, 0, 0},
                            {1.347e-05, -1.343e-05, 3.376e-05, 0, 0, 0}};
constexpr Powers specific_heat = {{3882, -1304, -1598, 353.9, 5000, -4959},
                                  {2.699, 5.07, 0.9534, 31.02, -71.35, 0},
                                  {-0.001659, -0.004752, 0.1167, -0.295, 0, 0},
                                  {-1.032e-05, 0.0001522, -0.000487, 0, 0, 0}};

double polynomial(const Powers& c, double t, double mass_share) {
    double sum = 0.0;
    for (int i = 0; i < 4; ++i) {
        for (int j = 0; j < 6; ++j) {
            sum += c[i][j] * std::pow(t - 32.7083, i) * std::pow(mass_share - 0.307031, j);
        }
    }
    return sum;
}

// Mass share of a volume share: inverse of the fit to the ASHRAE table of mass and volume.
double mass_share(double volume_share) {
    if (volume_share == 0.0) return 0.0;
    const auto volume = [](double m) {
        const double d = m - 0.35;
        return 0.3444914 +
               d * (1.017458 +
                    d * (0.1072974 + d * (-0.06232392 + d * (-0.8168932 + d * -1.552606))));
    };
    double low = 0.0;
    double high = 0.7;
    for (int i = 0; i < 60; ++i) {
        const double m = (low + high) / 2.0;
        (volume(m) < volume_share ? low : high) = m;
    }
    return low;
}

double capacity(int share_pct, double t) {
    const double m = mass_share(share_pct / 100.0);
    return polynomial(density, t, m) * polynomial(specific_heat, t, m) / 1000.0;
}

}  // namespace

BOOST_AUTO_TEST_CASE(heat_capacity_follows_the_published_polynomials) {
    // The polynomials themselves, against values printed by two independent implementations:
    // 20 % by mass at 40 degC, five digits.
    BOOST_TEST(polynomial(density, 40.0, 0.2) == 1006.4, boost::test_tools::tolerance(5e-5));
    BOOST_TEST(polynomial(specific_heat, 40.0, 0.2) == 4019.0, boost::test_tools::tolerance(5e-5));
    for (int share = 0; share <= 60; ++share) {
        BOOST_TEST_CONTEXT(share << " % by volume") {
            const double here = heat_capacity_j_per_litre_k(static_cast<std::int16_t>(share));
            // Chords of a curve with a second derivative of about 0.45 per %^2: 5 of 4000.
            BOOST_TEST(here == capacity(share, 50.0), boost::test_tools::tolerance(0.0015));
            BOOST_TEST(here == capacity(share, 20.0), boost::test_tools::tolerance(0.02));
            BOOST_TEST(here == capacity(share, 80.0), boost::test_tools::tolerance(0.02));
        }
    }
    for (int share = 0; share <= 60; share += 10) {  // the rows themselves: rounded to 1 J/(l K)
        BOOST_CHECK_SMALL(
            heat_capacity_j_per_litre_k(static_cast<std::int16_t>(share)) - capacity(share, 50.0),
            0.51);
    }
}

BOOST_AUTO_TEST_CASE(shares_beyond_the_table_are_taken_as_its_ends) {
    BOOST_TEST(heat_capacity_j_per_litre_k(-1) == heat_capacity_j_per_litre_k(0));
    BOOST_TEST(heat_capacity_j_per_litre_k(61) == heat_capacity_j_per_litre_k(60));
    BOOST_TEST(heat_capacity_j_per_litre_k(32767) == 3548u);
    BOOST_TEST(heat_capacity_j_per_litre_k(40) == 3848u);
    BOOST_TEST(heat_capacity_j_per_litre_k(45) == 3778u);  // (3848 + 3709) / 2 = 3778.5, downwards
}

BOOST_AUTO_TEST_CASE(typed_in_flow_is_booked_after_sixty_seconds_and_not_before) {
    Bench bench;
    bench.ticks(60, true);  // the start and 59 s
    BOOST_TEST(bench.joule() == 0.0);
    bench.tick(true);
    // 3 l/min for a minute, 10 K: 3 * 3848 * 10 J.
    BOOST_CHECK_SMALL(bench.joule() - 115440.0, rounding_j);
    BOOST_TEST(bench.state.counters.heat_wh == 32u);
}

BOOST_AUTO_TEST_CASE(the_end_of_a_run_books_its_last_part) {
    Bench bench;
    bench.ticks(91, true);
    bench.tick(false);  // on for 91 s
    BOOST_CHECK_SMALL(bench.joule() - 115440.0 * 91 / 60, rounding_j);
    const double after = bench.joule();
    bench.ticks(200, false);
    BOOST_TEST(bench.joule() == after);
}

BOOST_AUTO_TEST_CASE(a_new_level_books_the_old_one_first) {
    Bench bench;
    bench.ticks(20, true, 100);
    bench.ticks(30, true, 50);
    bench.tick(false);
    BOOST_CHECK_SMALL(bench.joule() - 115440.0 * (20 + 15) / 60, rounding_j);
}

BOOST_AUTO_TEST_CASE(pulses_are_booked_at_once_each_with_the_difference_of_its_second) {
    Bench bench;
    bench.settings[Setting::tally_source] = 1;
    bench.settings[Setting::pulses_per_litre] = 10;
    bench.tick(true, 100, 5);  // half a litre, 10 K
    BOOST_CHECK_SMALL(bench.joule() - 19240.0, rounding_j);
    bench.set(Sensor::collector, 7000);
    bench.tick(true, 100, 1);
    BOOST_CHECK_SMALL(bench.joule() - 19240.0 - 7696.0, rounding_j);
    bench.ticks(200, true);  // the typed-in flow does not count as well
    BOOST_CHECK_SMALL(bench.joule() - 19240.0 - 7696.0, rounding_j);
    bench.tick(false, 0, 1);  // the second that has ended was still part of the run
    BOOST_CHECK_SMALL(bench.joule() - 19240.0 - 2 * 7696.0, rounding_j);
}

BOOST_AUTO_TEST_CASE(a_pulse_meter_without_a_number_of_pulses_does_not_divide_by_zero) {
    Bench bench;
    bench.settings[Setting::tally_source] = 1;
    bench.settings[Setting::pulses_per_litre] = 0;
    bench.tick(true, 100, 1);
    BOOST_CHECK_SMALL(bench.joule() - 38480.0, rounding_j);
}

BOOST_AUTO_TEST_CASE(pulses_are_ignored_where_the_flow_is_typed_in) {
    Bench bench;
    bench.tick(true, 100, 500);
    BOOST_TEST(bench.joule() == 0.0);
}

BOOST_AUTO_TEST_CASE(the_cold_side_is_the_station_where_a_sensor_is_fitted_there) {
    Bench bench;
    bench.set(Sensor::station_return, 4000);
    bench.settings[Setting::station_return_fitted] = 1;
    bench.ticks(61, true);
    BOOST_CHECK_SMALL(bench.joule() - 2 * 115440.0, rounding_j);  // 20 K
}

BOOST_AUTO_TEST_CASE(the_counter_never_runs_backwards) {
    Bench bench;
    bench.set(Sensor::collector, 5000);
    bench.ticks(61, true);
    BOOST_TEST(bench.joule() == 0.0);
    bench.set(Sensor::collector, 3000);
    bench.ticks(60, true);
    BOOST_TEST(bench.joule() == 0.0);
    bench.set(Sensor::collector, 5001);
    bench.ticks(60, true);
    BOOST_CHECK_SMALL(bench.joule() - 115.44, rounding_j);
}

BOOST_AUTO_TEST_CASE(a_sensor_that_is_not_good_books_nothing) {
    for (const Sensor sensor : {Sensor::collector, Sensor::store_bottom}) {
        for (const SensorStatus status :
             {SensorStatus::settling, SensorStatus::open, SensorStatus::out_of_range}) {
            Bench bench;
            bench.readings[place(sensor)].status = status;
            bench.ticks(200, true);
            BOOST_TEST(bench.joule() == 0.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(starts_and_run_time_are_exact_at_every_read) {
    Bench bench;
    BOOST_TEST(bench.counters().pump_starts == 0u);
    std::uint32_t run_s = 0;
    for (int run = 1; run <= 5; ++run) {
        for (int i = 0; i < 37 * run; ++i) {
            bench.tick(true);
            ++run_s;
            BOOST_TEST(bench.counters().pump_run_s == run_s);
            BOOST_TEST(bench.counters().pump_starts == static_cast<std::uint32_t>(run));
        }
        for (int i = 0; i < 10; ++i) {
            bench.tick(false);
            BOOST_TEST(bench.counters().pump_run_s == run_s);
        }
    }
}

BOOST_AUTO_TEST_CASE(nothing_changes_between_two_appointments) {
    Bench bench;
    bench.ticks(3, true);
    const TallyState before = bench.state;
    for (std::uint32_t i = 3; i < 60; ++i) {
        BOOST_TEST(!tally_appointment(Ticks{bench.now}, bench.state));
        bench.tick(true);
        BOOST_TEST(std::memcmp(&before, &bench.state, sizeof before) == 0);
    }
    BOOST_TEST(tally_appointment(Ticks{bench.now}, bench.state));
    bench.tick(true);
    BOOST_TEST(std::memcmp(&before, &bench.state, sizeof before) != 0);
    bench.tick(false);
    BOOST_TEST(!tally_appointment(Ticks{bench.now + 1000}, bench.state));
}

BOOST_AUTO_TEST_CASE(a_run_across_the_wrap_of_the_tick_counter_counts_on) {
    Bench bench;
    bench.now = 0xFFFFFFFFU - 30;
    bench.ticks(100, true);
    bench.tick(false);
    BOOST_TEST(bench.counters().pump_run_s == 100u);
    BOOST_CHECK_SMALL(bench.joule() - 115440.0 * 100 / 60, rounding_j);
}

BOOST_AUTO_TEST_CASE(a_caller_that_stays_away_books_a_minute_at_most) {
    Bench bench;
    bench.tick(true);
    bench.now += 5000;
    bench.tick(true);
    BOOST_CHECK_SMALL(bench.joule() - 115440.0, rounding_j);
}

BOOST_AUTO_TEST_CASE(the_extremes_of_all_factors_do_not_overflow) {
    Bench bench;
    bench.settings[Setting::typed_in_flow] = 3000;
    bench.settings[Setting::glycol_share] = 0;
    bench.set(Sensor::collector, 32767);
    bench.set(Sensor::store_bottom, -32768);
    bench.ticks(61, true);
    // 30 l, 4130 J/(l K), 655.35 K.
    BOOST_CHECK_SMALL(bench.joule() - 30.0 * 4130.0 * 655.35, rounding_j);
    bench.settings[Setting::tally_source] = 1;
    bench.settings[Setting::pulses_per_litre] = 1;
    const double before = bench.joule();
    bench.tick(true, 100, 65535);
    BOOST_CHECK_SMALL(bench.joule() - before - 65535.0 * 4130.0 * 655.35, rounding_j);
    bench.settings[Setting::tally_source] = 0;
    bench.settings[Setting::typed_in_flow] = -5;  // nothing, not a huge flow
    const double then = bench.joule();
    bench.ticks(61, true);
    BOOST_TEST(bench.joule() == then);
}

BOOST_AUTO_TEST_CASE(a_day_of_small_bookings_loses_nothing) {
    Bench bench;
    bench.set(Sensor::collector, 5007);  // 0.07 K: less than a Wh each minute
    bench.ticks(86400, true);
    bench.tick(false);
    BOOST_CHECK_SMALL(bench.joule() - 86400.0 / 60 * 3 * 3848 * 0.07, 1441e-6);
}

BOOST_AUTO_TEST_CASE(saved_counters_go_on_with_the_pump_at_rest) {
    Bench bench;
    bench.ticks(100, true);
    const TallyCounters saved = bench.counters();
    BOOST_TEST(saved.pump_run_s == 100u);
    Bench again;
    again.state = resume_tally(saved);
    BOOST_TEST((again.counters() == saved));
    again.ticks(10, true);
    again.tick(false);
    BOOST_TEST(again.counters().pump_run_s == 110u);
    BOOST_TEST(again.counters().pump_starts == 2u);
}

BOOST_AUTO_TEST_CASE(counters_are_equal_only_in_all_parts) {
    const TallyCounters counters{1, 2, 3, 4};
    BOOST_TEST((counters == TallyCounters{1, 2, 3, 4}));
    BOOST_TEST(!(counters == TallyCounters{0, 2, 3, 4}));
    BOOST_TEST(!(counters == TallyCounters{1, 0, 3, 4}));
    BOOST_TEST(!(counters == TallyCounters{1, 2, 0, 4}));
    BOOST_TEST(!(counters == TallyCounters{1, 2, 3, 0}));
}

BOOST_AUTO_TEST_SUITE_END()
