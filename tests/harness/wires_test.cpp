// SPDX-License-Identifier: MIT
#include "unprinted.hpp"

#include "firmware-model/sensors.hpp"
#include "firmware-model/settings.hpp"

#include "harness/bench/wires.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <cstdint>
#include <initializer_list>

BOOST_AUTO_TEST_SUITE(wires)

namespace {

using namespace noonbench::harness;
namespace firmware = noonbench::firmware;

SensorWire platinum() {
    SensorWire wire;
    wire.type = SensorType::platinum_1000;
    return wire;
}

/// What the controller makes of a wire, degC.
double read_as_c(const SensorWire& wire, double temperature_c) {
    const auto counts = counts_from_milliohm(socket_milliohm(wire, temperature_c, 0.0));
    return firmware::temperature_of(counts * 8U).centicelsius / 100.0;
}

firmware::SensorStatus status(const SensorWire& wire, double temperature_c) {
    return firmware::status_of(counts_from_milliohm(socket_milliohm(wire, temperature_c, 0.0)));
}

}  // namespace

// ------------------------------------------------------------------ elements

// IEC 60751, the table of the standard times ten; its last digit is 0.01 ohm of a Pt100.
BOOST_AUTO_TEST_CASE(platinum_follows_the_table_of_iec_60751) {
    struct Row {
        double t_c, pt100_ohm;
    };
    for (const Row row : {Row{-40, 84.27}, Row{-20, 92.16}, Row{0, 100.00}, Row{20, 107.79},
                          Row{40, 115.54}, Row{60, 123.24}, Row{80, 130.90}, Row{100, 138.51},
                          Row{150, 157.33}, Row{200, 175.86}, Row{250, 194.10}}) {
        BOOST_TEST_CONTEXT("at " << row.t_c << " degC") {
            const double ohm = element_ohm(SensorType::platinum_1000, row.t_c);
            BOOST_CHECK_SMALL(ohm - 10.0 * row.pt100_ohm, 0.05);
        }
    }
}

// A data logger's manual, resistance table of a common 10 kohm curve, column of actual
// temperatures; the curve's slope there is 4.5 to 6.5 % a kelvin, and 0.005 K is its rounding.
BOOST_AUTO_TEST_CASE(the_ntc_follows_the_table_of_its_curve) {
    struct Row {
        double t_c, ohm;
    };
    for (const Row row : {Row{-40, 336103.2}, Row{-30, 176804.8}, Row{-20, 97006.9},
                          Row{-10, 55303.9}, Row{1, 31030.8}}) {
        BOOST_TEST_CONTEXT("at " << row.t_c << " degC, " << row.ohm << " ohm") {
            const double k = std::log(element_ohm(SensorType::ntc_10k, row.t_c - 0.5) /
                                      element_ohm(SensorType::ntc_10k, row.t_c + 0.5));
            const double off_k = std::log(element_ohm(SensorType::ntc_10k, row.t_c) / row.ohm) / k;
            BOOST_CHECK_SMALL(off_k, 0.005);
        }
    }
}

// The same three coefficients solved by another program, printed to 0.1 ohm.
BOOST_AUTO_TEST_CASE(the_ntc_follows_its_formula_where_a_store_and_a_collector_are) {
    struct Row {
        double t_c, ohm;
    };
    for (const Row row :
         {Row{20, 12493.3}, Row{25, 10000.0}, Row{40, 5325.0}, Row{50, 3601.1}, Row{60, 2487.1},
          Row{80, 1256.1}, Row{85, 1070.4}, Row{100, 678.4}, Row{120, 388.3}}) {
        BOOST_TEST_CONTEXT("at " << row.t_c << " degC") {
            BOOST_CHECK_SMALL(element_ohm(SensorType::ntc_10k, row.t_c) - row.ohm, 0.06);
        }
    }
}

// 1630, 2000 and 3392 ohm at 0, 25 and 100 degC: from memory, the common 2 kohm silicon curve.
BOOST_AUTO_TEST_CASE(silicon_passes_its_three_points) {
    BOOST_CHECK_SMALL(element_ohm(SensorType::silicon_2k, 0.0) - 1630.0, 1e-9);
    BOOST_CHECK_SMALL(element_ohm(SensorType::silicon_2k, 25.0) - 2000.0, 1e-9);
    BOOST_CHECK_SMALL(element_ohm(SensorType::silicon_2k, 100.0) - 3392.0, 1e-9);
}

BOOST_AUTO_TEST_CASE(platinum_and_silicon_rise_and_the_ntc_falls_all_the_way) {
    for (double t = -59.0; t < 249.0; t += 1.0) {
        BOOST_TEST_CONTEXT("at " << t << " degC") {
            BOOST_TEST(element_ohm(SensorType::platinum_1000, t + 1.0) >
                       element_ohm(SensorType::platinum_1000, t));
            BOOST_TEST(element_ohm(SensorType::silicon_2k, t + 1.0) >
                       element_ohm(SensorType::silicon_2k, t));
            BOOST_TEST(element_ohm(SensorType::ntc_10k, t + 1.0) <
                       element_ohm(SensorType::ntc_10k, t));
        }
    }
}

BOOST_AUTO_TEST_CASE(no_temperature_makes_an_element_unusable) {
    for (const auto type :
         {SensorType::platinum_1000, SensorType::ntc_10k, SensorType::silicon_2k}) {
        for (const double t : {-273.0, -100.0, 400.0, 2000.0}) {
            const double ohm = element_ohm(type, t);
            BOOST_TEST_CONTEXT("type " << static_cast<int>(type) << " at " << t) {
                BOOST_TEST(std::isfinite(ohm));
                BOOST_TEST(ohm > 0.0);
            }
        }
    }
}

// ------------------------------------------------------------------ cable

// One ohm in the lead of a Pt1000 reads 0.2559, 0.2574, 0.2605, 0.2637 and 0.2678 K high at 0, 20,
// 60, 100 and 150 degC: one over the slope that follows from IEC 60751. Ten ohms show it through
// converter and table, whose errors are 0.017 and 0.025 K at each of the two readings.
BOOST_AUTO_TEST_CASE(series_resistance_of_a_corroded_clip_reads_high) {
    struct Row {
        double t_c, k_per_ohm;
    };
    SensorWire clip = platinum();
    clip.lead_resistance_ohm = 10.0;
    for (const Row row :
         {Row{0, 0.2559}, Row{20, 0.2574}, Row{60, 0.2605}, Row{100, 0.2637}, Row{150, 0.2678}}) {
        BOOST_TEST_CONTEXT("at " << row.t_c << " degC") {
            BOOST_CHECK_SMALL(read_as_c(clip, row.t_c) - row.t_c - 10.0 * row.k_per_ohm, 0.05);
        }
    }
}

// Damp in parallel with R = 1232.42 ohm (60 degC): R*L/(R + L) falls by R*R/(R + L), that is 15.00
// ohm for 100 kohm and 71.5 ohm for 20 kohm; over 3.839 ohm/K (IEC 60751) -3.9 and about -19 K.
// The second is a finite step along the curve, hence the wider bound.
BOOST_AUTO_TEST_CASE(damp_in_a_joint_reads_low) {
    SensorWire damp = platinum();
    damp.leakage_ohm = 100e3;
    BOOST_CHECK_SMALL(read_as_c(damp, 60.0) - (60.0 - 3.9), 0.1);
    damp.leakage_ohm = 20e3;
    BOOST_CHECK_SMALL(read_as_c(damp, 60.0) - (60.0 - 18.6), 0.2);
}

BOOST_AUTO_TEST_CASE(no_leakage_is_written_as_nought) {
    SensorWire dry = platinum();
    dry.leakage_ohm = 0.0;
    BOOST_TEST(socket_milliohm(dry, 0.0, 0.0) == 1'000'000U);
}

BOOST_AUTO_TEST_CASE(offset_and_noise_are_of_the_element) {
    SensorWire wire = platinum();
    wire.offset_k = 10.0;
    wire.noise_k = 5.0;
    BOOST_TEST(socket_milliohm(wire, 20.0, 2.0) == socket_milliohm(platinum(), 40.0, 0.0));
    BOOST_TEST(socket_milliohm(wire, 20.0, -2.0) == socket_milliohm(platinum(), 20.0, 0.0));
}

BOOST_AUTO_TEST_CASE(a_healthy_wire_reads_true_within_converter_and_table) {
    // Half a count 0.017 K, table 0.025 K, rounding of milliohm and hundredths 0.005 K.
    constexpr double budget_k = 0.047;
    for (double t = -49.0; t <= 249.0; t += 0.37) {
        BOOST_TEST_CONTEXT("at " << t << " degC") {
            BOOST_CHECK_SMALL(read_as_c(platinum(), t) - t, budget_k);
        }
    }
}

BOOST_AUTO_TEST_CASE(a_sensor_of_the_wrong_type_reads_absurdly) {
    SensorWire wire = platinum();
    wire.type = SensorType::ntc_10k;
    BOOST_TEST(status(wire, 20.0) == firmware::SensorStatus::open);
    BOOST_TEST(status(wire, 60.0) == firmware::SensorStatus::out_of_range);  // 2487 ohm
    BOOST_TEST(read_as_c(wire, 80.0) < 70.0);                                // 1256 ohm
    wire.type = SensorType::silicon_2k;
    BOOST_TEST(read_as_c(wire, 5.0) > 150.0);  // about 1700 ohm
}

// ------------------------------------------------------------------ breaks and the input stage

BOOST_AUTO_TEST_CASE(a_short_an_open_wire_and_an_empty_socket_are_told_apart_from_a_sensor) {
    SensorWire wire = platinum();
    wire.state = WireState::shorted;
    BOOST_TEST(socket_milliohm(wire, 60.0, 0.0) == 0U);
    BOOST_TEST(status(wire, 60.0) == firmware::SensorStatus::shorted);
    wire.state = WireState::open;
    BOOST_TEST(socket_milliohm(wire, 60.0, 0.0) == open_socket_milliohm);
    BOOST_TEST(status(wire, 60.0) == firmware::SensorStatus::open);
    wire = platinum();
    wire.type = SensorType::not_fitted;
    BOOST_TEST(socket_milliohm(wire, 60.0, 0.0) == open_socket_milliohm);
    BOOST_TEST(status(wire, 60.0) == firmware::SensorStatus::open);
    BOOST_TEST(status(platinum(), 60.0) == firmware::SensorStatus::good);
}

BOOST_AUTO_TEST_CASE(a_short_hides_damp_and_offset) {
    SensorWire wire = platinum();
    wire.state = WireState::shorted;
    wire.offset_k = 30.0;
    wire.leakage_ohm = 100e3;
    wire.lead_resistance_ohm = 5.0;
    BOOST_TEST(socket_milliohm(wire, 20.0, 0.0) == 0U);
}

// counts = 65535 R/(R + 2000 ohm), worked out by hand: at 2000 ohm half of 65535, at 1000 ohm a
// third, at nothing 0, and the largest resistance that fits 32 bits stays within 16.
BOOST_AUTO_TEST_CASE(the_divider_counts_what_its_formula_says) {
    BOOST_TEST(counts_from_milliohm(0) == 0U);
    BOOST_TEST(counts_from_milliohm(1'000'000) == 21845U);
    BOOST_TEST(counts_from_milliohm(2'000'000) == 32768U);  // 32767.5, half goes up
    BOOST_TEST(counts_from_milliohm(4'000'000'000U) == 65502U);
    BOOST_TEST(counts_from_milliohm(UINT32_MAX) == 65504U);
}

BOOST_AUTO_TEST_CASE(counts_never_fall_while_the_resistance_rises) {
    std::uint16_t before = 0;
    for (std::uint64_t milliohm = 0; milliohm <= UINT32_MAX; milliohm += 1 + milliohm / 997) {
        const auto counts = counts_from_milliohm(static_cast<std::uint32_t>(milliohm));
        BOOST_TEST_REQUIRE(counts >= before, milliohm << " milliohm");
        before = counts;
    }
    BOOST_TEST(before > 65400U);
}

BOOST_AUTO_TEST_CASE(counts_from_both_ends_of_the_trusted_range_are_good_and_beyond_are_not) {
    BOOST_TEST(status(platinum(), -49.9) == firmware::SensorStatus::good);
    BOOST_TEST(status(platinum(), 249.9) == firmware::SensorStatus::good);
    BOOST_TEST(status(platinum(), -51.0) == firmware::SensorStatus::out_of_range);
    BOOST_TEST(status(platinum(), 251.0) == firmware::SensorStatus::out_of_range);
}

// ------------------------------------------------------------------ what a move changes

BOOST_AUTO_TEST_CASE(what_is_set_on_a_wire_is_what_is_read_from_it) {
    SensorWire wire = platinum();
    struct Row {
        WireField field;
        double value;
    };
    for (const Row row :
         {Row{WireField::state, 2.0}, Row{WireField::type, 1.0}, Row{WireField::offset, -3.25},
          Row{WireField::lead_resistance, 12.5}, Row{WireField::leakage, 2e4},
          Row{WireField::noise, 0.125}, Row{WireField::plugged_into, 4.0}}) {
        set_wire(wire, row.field, row.value);
        BOOST_TEST_CONTEXT("field " << static_cast<int>(row.field)) {
            BOOST_TEST(wire_number(wire, row.field) == row.value);
        }
    }
    BOOST_CHECK(wire.state == WireState::shorted);
    BOOST_CHECK(wire.type == SensorType::ntc_10k);
    BOOST_CHECK(wire.plugged_into == firmware::Sensor::second_collector);
    BOOST_TEST(wire.offset_k == -3.25);
    BOOST_TEST(wire.lead_resistance_ohm == 12.5);
    BOOST_TEST(wire.leakage_ohm == 2e4);
    BOOST_TEST(wire.noise_k == 0.125);
}

BOOST_AUTO_TEST_SUITE_END()
