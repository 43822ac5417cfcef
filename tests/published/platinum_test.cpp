// SPDX-License-Identifier: MIT
// Temperature sensors against published tables. The firmware's conversion is taken through the
// divider of terminals.hpp; where it does not reach, a formula in doubles stands here.
#include "firmware-model/sensors.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>

BOOST_AUTO_TEST_SUITE(platinum)

using namespace noonbench::firmware;

namespace {

// IEC 60751 (scope of EN IEC 60751: -200..850 degC, ITS-90).
constexpr double a = 3.9083e-3;
constexpr double b = -5.775e-7;
constexpr double c = -4.183e-12;

double platinum_ohm(double r0_ohm, double t_c) {
    const double quartic = t_c < 0.0 ? c * (t_c - 100.0) * t_c * t_c * t_c : 0.0;
    return r0_ohm * (1.0 + a * t_c + b * t_c * t_c + quartic);
}

// By bisection, as R(t) rises throughout.
double platinum_c(double r0_ohm, double ohm) {
    double low = -200.0;
    double high = 850.0;
    for (int i = 0; i < 80; ++i) {
        const double middle = (low + high) / 2.0;
        (platinum_ohm(r0_ohm, middle) < ohm ? low : high) = middle;
    }
    return low;
}

double class_a_k(double t_c) {
    return 0.15 + 0.002 * std::abs(t_c);
}
double class_b_k(double t_c) {
    return 0.3 + 0.005 * std::abs(t_c);
}

// Steinhart and Hart, R in ohm.
double thermistor_c(double ohm) {
    const double l = std::log(ohm);
    return 1.0 / (1.129241e-3 + 2.341077e-4 * l + 8.775468e-8 * l * l * l) - 273.15;
}

std::uint16_t counts(double ohm) {
    return static_cast<std::uint16_t>(
        std::lround(full_scale_counts * ohm / (ohm + reference_resistor_milliohm / 1000.0)));
}

double firmware_c(double ohm) {
    return temperature_of(counts(ohm) * 8U).centicelsius / 100.0;
}

}  // namespace

BOOST_AUTO_TEST_CASE(resistance_rows_of_iec_60751) {
    // A complete table in steps of 1 degC headed IEC 60751, and a sensor maker's reference table
    // that agrees: 100 ohm sensor, two decimals, so +-0.005 ohm. The older DIN 43760 has 138.50,
    // 84.21 and 194.08.
    const struct {
        double t_c, ohm;
    } rows[] = {{-40, 84.27},  {-20, 92.16},  {0, 100.00},  {20, 107.79},
                {40, 115.54},  {60, 123.24},  {80, 130.90}, {100, 138.51},
                {150, 157.33}, {200, 175.86}, {250, 194.10}};
    const double printed_ohm = 0.005;
    // Firmware: half a printed digit of a 1000 ohm sensor (0.05 ohm of at least 3.62 ohm/K) and the
    // 0.05 K of the conversion.
    const double firmware_k = 0.05 / 3.62 + 0.05;
    for (const auto& row : rows) {
        BOOST_TEST_CONTEXT(row.t_c << " degC") {
            BOOST_CHECK_SMALL(platinum_ohm(100.0, row.t_c) - row.ohm, printed_ohm);
            BOOST_CHECK_SMALL(firmware_c(row.ohm * 10.0) - row.t_c, firmware_k);
            if (row.t_c < 250) {  // which is the very end of the range
                BOOST_TEST((status_of(counts(row.ohm * 10.0)) == SensorStatus::good));
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(class_limits_in_kelvin) {
    // Data sheet "Pt100 IEC 60751 (1995)", tolerance table: two decimals.
    const struct {
        double t_c, class_a, class_b;
    } rows[] = {{-200, 0.55, 1.3}, {-100, 0.35, 0.8}, {0, 0.15, 0.3},
                {100, 0.35, 0.8},  {200, 0.55, 1.3},  {300, 0.75, 1.8}};
    const double printed_k = 0.005;
    for (const auto& row : rows) {
        BOOST_TEST_CONTEXT(row.t_c << " degC") {
            BOOST_CHECK_SMALL(class_a_k(row.t_c) - row.class_a, printed_k);
            BOOST_CHECK_SMALL(class_b_k(row.t_c) - row.class_b, printed_k);
        }
    }
}

BOOST_AUTO_TEST_CASE(class_limits_in_ohms) {
    // The same data sheet, 100 ohm sensor: the limit in kelvin times the slope there.
    const struct {
        double t_c, class_a, class_b;
    } rows[] = {{-200, 0.24, 0.56}, {-100, 0.14, 0.32}, {0, 0.06, 0.12},
                {100, 0.13, 0.30},  {200, 0.20, 0.48},  {300, 0.27, 0.64}};
    const double printed_ohm = 0.005;
    for (const auto& row : rows) {
        BOOST_TEST_CONTEXT(row.t_c << " degC") {
            const double slope =
                (platinum_ohm(100.0, row.t_c + 0.5) - platinum_ohm(100.0, row.t_c - 0.5));
            BOOST_CHECK_SMALL(class_a_k(row.t_c) * slope - row.class_a, printed_ohm);
            BOOST_CHECK_SMALL(class_b_k(row.t_c) * slope - row.class_b, printed_ohm);
        }
    }
}

BOOST_AUTO_TEST_CASE(a_class_b_sensor_passes_through_the_firmware_within_its_class) {
    // Two sensors at the limits of class B at 60 degC: +-0.6 K (IEC 60751), and 0.05 K of ours.
    for (const double error_k : {-0.6, 0.6}) {
        const double read = firmware_c(platinum_ohm(1000.0, 60.0 + error_k));
        BOOST_CHECK_SMALL(read - 60.0, 0.65);
        BOOST_TEST(std::abs(read - 60.0) > 0.55);
    }
}

BOOST_AUTO_TEST_CASE(worked_example_of_an_instrument_manual) {
    // 1051.9 ohm is 13.3 degC, where class B allows +-1.428 ohm = +-0.37 K.
    BOOST_CHECK_SMALL(platinum_c(1000.0, 1051.9) - 13.3, 0.05);
    BOOST_CHECK_SMALL(firmware_c(1051.9) - 13.3, 0.05 + 0.05);
    const double slope = platinum_ohm(1000.0, 13.8) - platinum_ohm(1000.0, 12.8);
    BOOST_CHECK_SMALL(class_b_k(13.3) * slope - 1.428, 0.002);
    BOOST_CHECK_SMALL(class_b_k(13.3) - 0.37, 0.005);
}

BOOST_AUTO_TEST_CASE(a_long_thin_lead_reads_high) {
    // Common practice, no source: 2 x 50 m of 0.5 mm2 copper with 0.017 ohm mm2/m are 3.4 ohm, on a
    // 100 ohm sensor 8.8 K (slope 0.385 ohm/K); the same lead on 1000 ohm is a tenth of it.
    const double lead_ohm = 2.0 * 50.0 * 0.017 / 0.5;
    BOOST_CHECK_SMALL(lead_ohm - 3.4, 1e-12);
    BOOST_CHECK_SMALL(lead_ohm / 0.385 - 8.8, 0.05);
    BOOST_CHECK_SMALL(firmware_c(1000.0 + lead_ohm) - firmware_c(1000.0) - 0.88, 0.1);
    // Common practice, no source: 4 ohm are about 1 K. The rule is good to 5 %.
    BOOST_CHECK_SMALL(platinum_c(1000.0, platinum_ohm(1000.0, 20.0) + 4.0) - 20.0 - 1.0, 0.05);
}

BOOST_AUTO_TEST_CASE(one_ohm_of_lead_in_kelvin) {
    // Computed from IEC 60751 (1 / slope at that temperature, and the curvature over one ohm).
    const struct {
        double t_c, error_k;
    } rows[] = {{0, 0.2559},   {20, 0.2574},  {60, 0.2605},
                {100, 0.2637}, {150, 0.2678}, {200, 0.2720}};
    const double printed_k = 1e-4;
    for (const auto& row : rows) {
        BOOST_TEST_CONTEXT(row.t_c << " degC") {
            const double ohm = platinum_ohm(1000.0, row.t_c);
            BOOST_CHECK_SMALL(platinum_c(1000.0, ohm + 1.0) - row.t_c - row.error_k, printed_k);
            // Two readings of the firmware, each within 0.05 K.
            BOOST_CHECK_SMALL(firmware_c(ohm + 1.0) - firmware_c(ohm) - row.error_k, 0.1);
        }
    }
}

BOOST_AUTO_TEST_CASE(a_corroded_clip_and_a_damp_joint) {
    // Trade figures, computed from IEC 60751: 10 ohm in series +2.6 K; 100 kohm across the sensor
    // at 60 degC -3.9 K, 20 kohm -19 K (both rounded to two figures).
    BOOST_CHECK_SMALL(firmware_c(platinum_ohm(1000.0, 60.0) + 10.0) - 60.0 - 2.6, 0.05 + 0.05);
    const auto across = [](double leak_ohm) {
        const double r = platinum_ohm(1000.0, 60.0);
        return firmware_c(r * leak_ohm / (r + leak_ohm)) - 60.0;
    };
    BOOST_CHECK_SMALL(across(100e3) + 3.9, 0.05 + 0.05);
    BOOST_CHECK_SMALL(across(20e3) + 19.0, 0.5 + 0.05);
}

BOOST_AUTO_TEST_CASE(a_straight_line_would_not_do) {
    // (R - 1000) / 3.851 at true temperatures: errors computed from IEC 60751.
    const struct { double t_c, error_k; } rows[] = {{50, 0.369}, {150, -1.142}, {200, -3.023}};
    const double printed_k = 1e-3;
    for (const auto& row : rows) {
        const double ohm = platinum_ohm(1000.0, row.t_c);
        BOOST_CHECK_SMALL((ohm - 1000.0) / 3.851 - row.t_c - row.error_k, printed_k);
        BOOST_CHECK_SMALL(firmware_c(ohm) - row.t_c, 0.05);
    }
}

BOOST_AUTO_TEST_CASE(thermistor_rows_of_a_data_loggers_manual) {
    // Table C-1 of the manual (column of actual temperatures) with its own Steinhart-Hart
    // constants.
    const struct {
        double ohm, t_c;
    } rows[] = {{336103.2, -40}, {176804.8, -30}, {97006.9, -20}, {55303.9, -10}, {31030.8, 1}};
    const double printed_k = 0.005;
    for (const auto& row : rows) {
        BOOST_TEST_CONTEXT(row.ohm << " ohm") {
            BOOST_CHECK_SMALL(thermistor_c(row.ohm) - row.t_c, printed_k);
            // On the platinum socket such a sensor is not taken for a temperature at all.
            BOOST_TEST((status_of(counts(row.ohm)) == SensorStatus::open));
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
