// SPDX-License-Identifier: MIT
#include "firmware-model/sensors.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

BOOST_AUTO_TEST_SUITE(sensors)

using namespace noonbench::firmware;

namespace {

// IEC 60751 in doubles, written apart from the firmware's integers.
double platinum_ohm(double t) {
    const double quartic = t < 0.0 ? -4.183e-12 * (t - 100.0) * t * t * t : 0.0;
    return 1000.0 * (1.0 + 3.9083e-3 * t - 5.775e-7 * t * t + quartic);
}

double divider_counts(double ohm) {
    return 65535.0 * ohm / (ohm + 2000.0);
}

std::uint16_t counts_of(double ohm) {
    return static_cast<std::uint16_t>(std::lround(divider_counts(ohm)));
}

// 10 kohm at 25 degC, Steinhart-Hart with the constants of a data-logger's manual.
double ntc_ohm(double t) {
    double low = 1.0;
    double high = 1e7;
    for (int i = 0; i < 200; ++i) {
        const double ohm = std::sqrt(low * high);
        const double l = std::log(ohm);
        const double kelvin = 1.0 / (1.129241e-3 + 2.341077e-4 * l + 8.775468e-8 * l * l * l);
        (kelvin > t + 273.15 ? low : high) = ohm;
    }
    return low;
}

// Silicon spreading-resistance sensor of 2 kohm at 25 degC (from memory: 0.79 %/K and 19e-6/K^2).
double silicon_ohm(double t) {
    const double d = t - 25.0;
    return 2000.0 * (1.0 + 7.88e-3 * d + 1.94e-5 * d * d);
}

constexpr std::size_t collector = static_cast<std::size_t>(Sensor::collector);

struct Bench {
    Settings settings = default_settings();
    SensorsState state{};
    Inputs inputs{};

    Bench() { inputs.counts.fill(counts_of(platinum_ohm(20.0))); }

    Reading tick(std::uint16_t counts) {
        inputs.counts[collector] = counts;
        return read_sensors(settings, inputs, state)[collector];
    }
    Reading ticks(std::uint16_t counts, int n) {
        Reading r;
        for (int i = 0; i < n; ++i) r = tick(counts);
        return r;
    }
};

std::uint16_t at_c(double t) {
    return counts_of(platinum_ohm(t));
}
const std::uint16_t open_counts = 65535;
const std::uint16_t short_counts = 0;

}  // namespace

BOOST_AUTO_TEST_CASE(the_table_stays_within_25_millikelvin_of_the_standard) {
    // Unrounded counts, so that only the table and the rounding of the result remain:
    // 0.025 K for the chord and the knots' rounding, 0.005 K for the result, 1/16 count of 2.5 mK.
    const double table_bound_k = 0.025 + 0.005 + 0.0025;
    double worst = 0.0;
    double worst_at = 0.0;
    for (int i = 0; i <= 90000; ++i) {  // 3.3 mK apart
        const double t = -50.0 + i / 300.0;
        const auto eighths =
            static_cast<std::uint32_t>(std::lround(8.0 * divider_counts(platinum_ohm(t))));
        const double error = std::abs(temperature_of(eighths).centicelsius / 100.0 - t);
        if (error > worst) {
            worst = error;
            worst_at = t;
        }
    }
    BOOST_TEST_MESSAGE("table with rounding: worst " << worst << " K at " << worst_at << " degC");
    BOOST_TEST(worst < table_bound_k, worst << " K at " << worst_at << " degC");
}

BOOST_AUTO_TEST_CASE(each_entry_of_the_table_is_the_standard_rounded_to_a_hundredth) {
    for (std::uint32_t knot = 73; knot <= 126; ++knot) {  // each 256 counts
        BOOST_TEST_CONTEXT("counts " << knot * 256) {
            // Half a unit, and 10 microkelvin for the integers' own rounding.
            const double ohm = 2000.0 * knot * 256 / (65535.0 - knot * 256);
            const int entry = temperature_of(knot * 2048).centicelsius;
            BOOST_TEST(platinum_ohm((entry - 0.501) / 100.0) < ohm);
            BOOST_TEST(platinum_ohm((entry + 0.501) / 100.0) > ohm);
        }
    }
}

BOOST_AUTO_TEST_CASE(between_two_entries_runs_a_straight_line_rounded_to_the_nearest) {
    for (std::uint32_t knot = 73; knot < 126; ++knot) {
        const int low = temperature_of(knot * 2048).centicelsius;
        const int high = temperature_of((knot + 1) * 2048).centicelsius;
        for (int part = 0; part < 2048; ++part) {
            const int got =
                temperature_of(knot * 2048 + static_cast<std::uint32_t>(part)).centicelsius;
            const int off_2048ths = got * 2048 - (low * 2048 + (high - low) * part);
            if (std::abs(off_2048ths) > 1024) BOOST_FAIL("segment " << knot << " part " << part);
        }
    }
}

BOOST_AUTO_TEST_CASE(whole_counts_stay_within_50_millikelvin) {
    double worst = 0.0;
    double worst_at = 0.0;
    for (int i = 0; i <= 90000; ++i) {
        const double t = -50.0 + i / 300.0;
        const double error = std::abs(temperature_of(at_c(t) * 8U).centicelsius / 100.0 - t);
        if (error > worst) {
            worst = error;
            worst_at = t;
        }
    }
    BOOST_TEST_MESSAGE("conversion in all: worst " << worst << " K at " << worst_at << " degC");
    BOOST_TEST(worst < 0.05, worst << " K at " << worst_at << " degC");
}

BOOST_AUTO_TEST_CASE(temperature_never_falls_as_counts_rise_and_stands_at_the_ends) {
    Temperature before = temperature_of(0);
    for (std::uint32_t eighths = 0; eighths < 65536 * 8; ++eighths) {
        const Temperature now = temperature_of(eighths);
        if (now < before) BOOST_FAIL("falls at " << eighths << " eighths of a count");
        before = now;
    }
    BOOST_TEST((temperature_of(0) == temperature_of(73 * 2048)));
    BOOST_TEST((temperature_of(73 * 2048) < temperature_of(73 * 2048 + 8)));
    BOOST_TEST((temperature_of(127 * 2048 - 8) < temperature_of(127 * 2048 - 1)));
    BOOST_TEST((temperature_of(127 * 2048 - 1) == temperature_of(127 * 2048)));
    BOOST_TEST((temperature_of(127 * 2048) == temperature_of(0xFFFFFFFFU)));
}

BOOST_AUTO_TEST_CASE(one_sample_is_judged_at_each_threshold_from_both_sides) {
    BOOST_TEST((status_of(counts_of(49.9)) == SensorStatus::shorted));
    BOOST_TEST((status_of(shorted_below_counts - 1) == SensorStatus::shorted));
    BOOST_TEST((status_of(shorted_below_counts) == SensorStatus::out_of_range));
    BOOST_TEST(shorted_below_counts - 1 <= divider_counts(50.0));
    BOOST_TEST(shorted_below_counts >= divider_counts(50.0));
    BOOST_TEST((status_of(open_from_counts - 1) == SensorStatus::out_of_range));
    BOOST_TEST((status_of(open_from_counts) == SensorStatus::open));
    BOOST_TEST(open_from_counts - 1 < divider_counts(10000.0));
    BOOST_TEST(open_from_counts >= divider_counts(10000.0));
    BOOST_TEST((status_of(at_c(-50.1)) == SensorStatus::out_of_range));
    BOOST_TEST((status_of(at_c(-49.9)) == SensorStatus::good));
    BOOST_TEST((status_of(at_c(249.9)) == SensorStatus::good));
    BOOST_TEST((status_of(at_c(250.1)) == SensorStatus::out_of_range));
    for (std::uint32_t c = 0; c < 65535; ++c) {  // exactly where the temperature passes the limit
        const auto here = static_cast<std::uint16_t>(c);
        const Temperature t = temperature_of(c * 8);
        const bool inside = !(t < least_temperature) && !(t > most_temperature) &&
                            here >= shorted_below_counts && here < open_from_counts;
        if ((status_of(here) == SensorStatus::good) != inside) BOOST_FAIL("wrong at " << c);
    }
}

BOOST_AUTO_TEST_CASE(a_reading_settles_until_the_filter_is_full) {
    Bench bench;
    for (int i = 1; i < 8; ++i) {
        BOOST_TEST_CONTEXT("sample " << i) {
            const Reading r = bench.tick(at_c(60.0));
            BOOST_TEST((r.status == SensorStatus::settling));
            BOOST_TEST(std::abs(r.temperature.centicelsius - 6000) <= 3);
        }
    }
    BOOST_TEST((bench.tick(at_c(60.0)).status == SensorStatus::good));
    BOOST_TEST((bench.ticks(at_c(60.0), 1000).status == SensorStatus::good));
}

BOOST_AUTO_TEST_CASE(the_filter_is_the_mean_of_the_last_eight_good_samples) {
    Bench bench;
    bench.ticks(20000, 8);
    for (std::uint32_t n = 1; n <= 8; ++n) {
        BOOST_TEST_CONTEXT(n << " new samples") {
            const Reading r = bench.tick(20800);
            BOOST_TEST((r.temperature == temperature_of((8 - n) * 20000 + n * 20800)));
        }
    }
}

BOOST_AUTO_TEST_CASE(the_reading_lies_within_the_hull_of_its_window) {
    Bench bench;
    std::mt19937 random(20260704);  // the engine is the same in every library
    std::vector<std::uint16_t> window;
    for (int i = 0; i < 20000; ++i) {
        const auto counts = static_cast<std::uint16_t>(18800 + random() % 13400);
        window.push_back(counts);
        if (window.size() > 8) window.erase(window.begin());
        const Reading r = bench.tick(counts);
        const auto [low, high] = std::minmax_element(window.begin(), window.end());
        if (r.temperature < temperature_of(*low * 8U) || r.temperature > temperature_of(*high * 8U))
            BOOST_FAIL("outside at sample " << i);
    }
}

BOOST_AUTO_TEST_CASE(four_bad_samples_are_left_out_and_the_fifth_is_a_fault) {
    for (const std::uint16_t bad : {open_counts, short_counts, at_c(251.0), at_c(-51.0)}) {
        BOOST_TEST_CONTEXT("counts " << bad) {
            Bench bench;
            bench.ticks(at_c(60.0), 8);
            const Reading before = bench.tick(at_c(60.0));
            const Reading fourth = bench.ticks(bad, 4);
            BOOST_TEST((fourth.status == SensorStatus::good));
            BOOST_TEST((fourth.temperature == before.temperature));
            BOOST_TEST((bench.tick(bad).status == status_of(bad)));
        }
    }
}

BOOST_AUTO_TEST_CASE(one_good_sample_between_spikes_begins_the_count_again) {
    Bench bench;
    bench.ticks(at_c(60.0), 8);
    for (int i = 0; i < 10; ++i) {
        bench.ticks(open_counts, 4);
        BOOST_TEST((bench.tick(at_c(60.0)).status == SensorStatus::good));
    }
}

BOOST_AUTO_TEST_CASE(a_fault_ends_after_ten_good_samples_and_the_filter_starts_afresh) {
    Bench bench;
    bench.ticks(at_c(60.0), 8);
    bench.ticks(open_counts, 20);
    BOOST_TEST((bench.ticks(at_c(30.0), 9).status == SensorStatus::open));
    BOOST_TEST((bench.tick(open_counts).status == SensorStatus::open));  // all ten again
    BOOST_TEST((bench.ticks(at_c(30.0), 9).status == SensorStatus::open));
    const Reading tenth = bench.tick(at_c(30.0));
    BOOST_TEST((tenth.status == SensorStatus::settling));
    BOOST_TEST(std::abs(tenth.temperature.centicelsius - 3000) <= 3);  // nothing left of the 60
    BOOST_TEST((bench.ticks(at_c(30.0), 6).status == SensorStatus::settling));
    BOOST_TEST((bench.tick(at_c(30.0)).status == SensorStatus::good));
}

BOOST_AUTO_TEST_CASE(a_second_fault_counts_its_good_samples_from_zero) {
    Bench bench;
    bench.ticks(open_counts, 5);
    bench.ticks(at_c(30.0), 18);  // good again
    bench.ticks(open_counts, 5);
    BOOST_TEST((bench.ticks(at_c(30.0), 9).status == SensorStatus::open));
    BOOST_TEST((bench.tick(at_c(30.0)).status == SensorStatus::settling));
}

BOOST_AUTO_TEST_CASE(a_fault_shows_its_latest_kind_and_the_raw_end_of_the_table) {
    Bench bench;
    const Reading open = bench.ticks(open_counts, 5);
    BOOST_TEST((open.status == SensorStatus::open));
    BOOST_TEST((open.temperature > most_temperature));
    const Reading shorted = bench.tick(short_counts);
    BOOST_TEST((shorted.status == SensorStatus::shorted));
    BOOST_TEST((shorted.temperature < least_temperature));
}

BOOST_AUTO_TEST_CASE(a_sensor_that_is_broken_from_the_start_is_found) {
    Bench bench;
    BOOST_TEST((bench.ticks(open_counts, 4).status == SensorStatus::settling));
    BOOST_TEST((bench.tick(open_counts).status == SensorStatus::open));
}

BOOST_AUTO_TEST_CASE(sensors_that_are_not_fitted_say_so_and_settle_once_they_are) {
    Bench bench;
    const auto station = static_cast<std::size_t>(Sensor::station_return);
    const auto second = static_cast<std::size_t>(Sensor::second_collector);
    for (int i = 0; i < 20; ++i) read_sensors(bench.settings, bench.inputs, bench.state);
    auto readings = read_sensors(bench.settings, bench.inputs, bench.state);
    BOOST_TEST((readings[station].status == SensorStatus::not_fitted));
    BOOST_TEST((readings[second].status == SensorStatus::not_fitted));
    BOOST_TEST(
        (readings[static_cast<std::size_t>(Sensor::store_top)].status == SensorStatus::good));
    bench.settings[Setting::station_return_fitted] = 1;
    readings = read_sensors(bench.settings, bench.inputs, bench.state);
    BOOST_TEST((readings[station].status == SensorStatus::settling));
    BOOST_TEST((readings[second].status == SensorStatus::not_fitted));
    bench.settings[Setting::second_collector_fitted] = 1;
    for (int i = 0; i < 8; ++i) readings = read_sensors(bench.settings, bench.inputs, bench.state);
    BOOST_TEST((readings[station].status == SensorStatus::good));
    BOOST_TEST((readings[second].status == SensorStatus::good));
    bench.settings[Setting::second_collector_fitted] = 0;
    readings = read_sensors(bench.settings, bench.inputs, bench.state);
    bench.settings[Setting::second_collector_fitted] = 1;
    readings = read_sensors(bench.settings, bench.inputs, bench.state);
    BOOST_TEST((readings[second].status == SensorStatus::settling));
}

BOOST_AUTO_TEST_CASE(a_thermistor_of_10_kohm_reads_open_when_cool_and_half_true_when_hot) {
    BOOST_TEST(std::abs(ntc_ohm(25.0) - 10000.0) < 10.0);  // the formula, before it is used
    BOOST_TEST((status_of(counts_of(ntc_ohm(0.0))) == SensorStatus::open));
    BOOST_TEST((status_of(counts_of(ntc_ohm(20.0))) == SensorStatus::open));
    BOOST_TEST((status_of(counts_of(ntc_ohm(40.0))) == SensorStatus::out_of_range));
    BOOST_TEST((status_of(counts_of(ntc_ohm(60.0))) == SensorStatus::out_of_range));
    // At 85 degC it has 1070 ohm and passes for 18 degC; at 80 degC for 67: it runs backwards.
    const std::uint16_t at_85 = counts_of(ntc_ohm(85.0));
    const std::uint16_t at_80 = counts_of(ntc_ohm(80.0));
    BOOST_TEST((status_of(at_85) == SensorStatus::good));
    BOOST_TEST(std::abs(temperature_of(at_85 * 8U).centicelsius - 1800) < 50);
    BOOST_TEST(std::abs(temperature_of(at_80 * 8U).centicelsius - 6620) < 50);
    BOOST_TEST((status_of(counts_of(ntc_ohm(120.0))) == SensorStatus::out_of_range));
}

BOOST_AUTO_TEST_CASE(a_silicon_sensor_of_2_kohm_reads_absurdly_hot) {
    // 2000 ohm lie beyond the 1941 ohm of platinum at 250 degC.
    BOOST_TEST((status_of(counts_of(silicon_ohm(25.0))) == SensorStatus::out_of_range));
    BOOST_TEST((temperature_of(counts_of(silicon_ohm(25.0)) * 8U) > most_temperature));
    BOOST_TEST((status_of(counts_of(silicon_ohm(100.0))) == SensorStatus::out_of_range));
    const std::uint16_t at_0 = counts_of(silicon_ohm(0.0));  // 1630 ohm: a good reading, 165 degC
    BOOST_TEST((status_of(at_0) == SensorStatus::good));
    BOOST_TEST(std::abs(temperature_of(at_0 * 8U).centicelsius - 16500) < 200);
}

BOOST_AUTO_TEST_CASE(a_platinum_sensor_of_100_ohm_is_out_of_range_but_not_shorted) {
    for (const double t : {-50.0, 20.0, 250.0}) {
        BOOST_TEST((status_of(counts_of(platinum_ohm(t) / 10.0)) == SensorStatus::out_of_range));
    }
}

// A band of counts says one thing only if every count in it does: those out of range lie on both
// sides of the good ones.
BOOST_AUTO_TEST_CASE(a_band_of_counts_is_of_one_status_or_not) {
    const auto count = [](int centicelsius) {
        std::uint16_t counts = shorted_below_counts;
        while (temperature_of(counts * 8U).centicelsius < centicelsius) ++counts;
        return counts;
    };
    const auto cold = static_cast<std::uint16_t>(count(-5000) - 1);
    const std::uint16_t hot = count(25001);
    BOOST_TEST((status_of(cold) == SensorStatus::out_of_range));
    BOOST_TEST((status_of(hot) == SensorStatus::out_of_range));
    BOOST_TEST(of_one_status(count(0), count(9000)));
    BOOST_TEST(of_one_status(cold, cold));
    BOOST_TEST(of_one_status(hot, hot));
    BOOST_TEST(!of_one_status(cold, hot));
    BOOST_TEST(!of_one_status(cold, count(0)));
    BOOST_TEST(!of_one_status(count(9000), hot));
}

BOOST_AUTO_TEST_SUITE_END()
