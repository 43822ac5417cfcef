// SPDX-License-Identifier: MIT
// Slush and ice: energy is read back without doubt, ice follows the lever rule, and nothing changes
// above the freezing point.
#include "plant/ice.hpp"

#include "plant/circuit.hpp"
#include "plant/random.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

BOOST_AUTO_TEST_SUITE(ice)

namespace {

using namespace noonbench::plant;

constexpr double coldest_c = -60.0;
constexpr double round_trip = 1e-9;  // of the energy or, in kelvin, of what a body is asked for

double total_j(const FluidState& state, double fluid_kg, double metal_j_k) {
    return fluid_kg * state.e_j_kg + metal_j_k * state.t_c;
}

/// 0 in a tenth of the draws, else spread evenly over the powers of ten.
double none_or_many(RandomSequence& numbers, double least, double most) {
    if (numbers.uniform() < 0.1) return 0.0;
    return least * std::pow(most / least, numbers.uniform());
}

std::uint64_t bits_of(double value) {
    std::uint64_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    return bits;
}

}  // namespace

BOOST_AUTO_TEST_CASE(any_body_comes_back_from_its_energy) {
    RandomSequence numbers(1);
    for (const double share : {0.0, 0.01, 0.1, 0.25, 0.4, 0.5, 0.6}) {
        const IcyFluid fluid = icy_fluid(share);
        for (int i = 0; i < 4000; ++i) {
            const double kg = none_or_many(numbers, 1e-9, 1e3);
            const double metal_j_k = kg > 0.0 ? none_or_many(numbers, 1e-3, 1e6) : 500.0;
            const double t_c = coldest_c + numbers.uniform() * (5.0 - coldest_c);
            const double energy_j = body_energy_j(fluid, kg, metal_j_k, t_c);
            const FluidState state = fluid_state(fluid, kg, metal_j_k, energy_j);
            BOOST_TEST_CONTEXT("share " << share << ", " << kg << " kg, " << metal_j_k << " J/K, "
                                        << t_c << " degC") {
                BOOST_CHECK_SMALL(state.t_c - t_c, round_trip);
                BOOST_CHECK_SMALL(total_j(state, kg, metal_j_k) - energy_j,
                                  round_trip * std::abs(energy_j));
                BOOST_TEST((state.ice_share >= 0.0 && state.ice_share <= 1.0));
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(more_energy_is_never_colder_nor_icier_and_nothing_jumps) {
    for (const double share : {0.0, 0.02, 0.2, 0.4, 0.6}) {
        const IcyFluid fluid = icy_fluid(share);
        for (const double kg : {1e-3, 0.4, 30.0}) {
            for (const double metal_j_k : {0.0, 300.0, 1e5}) {
                constexpr int steps = 5000;
                const double from_j = body_energy_j(fluid, kg, metal_j_k, coldest_c - 10.0);
                const double step_j = (body_energy_j(fluid, kg, metal_j_k, 10.0) - from_j) / steps;
                // What an energy step can do at most: warm the body with no ice melting (the liquid
                // takes least where it is coldest), or melt ice with nothing warming.
                const double least_j_kgk = fluid.liquid.specific_heat_j_kgk(coldest_c - 10.0);
                const double most_k = step_j / (least_j_kgk * kg + metal_j_k);
                const double most_ice = step_j / (fusion_j_kg * kg);
                FluidState before = fluid_state(fluid, kg, metal_j_k, from_j);
                for (int i = 1; i <= steps; ++i) {
                    const double energy_j = from_j + i * step_j;
                    const FluidState now = fluid_state(fluid, kg, metal_j_k, energy_j);
                    const double warmer_k = now.t_c - before.t_c;
                    const double melted = before.ice_share - now.ice_share;
                    const double e_j_kg = now.e_j_kg - before.e_j_kg;
                    const bool holds = warmer_k >= 0.0 && warmer_k <= most_k * 1.000001 &&
                                       melted >= 0.0 && melted <= most_ice * 1.000001 &&
                                       e_j_kg > 0.0 && e_j_kg <= step_j / kg * 1.000001;
                    BOOST_TEST_CONTEXT("share " << share << ", " << kg << " kg, " << metal_j_k
                                                << " J/K, " << now.t_c << " degC: warmer by "
                                                << warmer_k << ", melted " << melted << ", e by "
                                                << e_j_kg)
                    BOOST_REQUIRE(holds);
                    before = now;
                }
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(seams_close_to_the_rounding) {
    for (const double share : {0.0, 0.05, 0.3, 0.5}) {
        const IcyFluid fluid = icy_fluid(share);
        constexpr double kg = 0.5;
        constexpr double metal_j_k = 800.0;
        const auto check_seam = [&](double energy_j) {
            const double hair_j = 1e-6;
            const FluidState above = fluid_state(fluid, kg, metal_j_k, energy_j + hair_j);
            const FluidState below = fluid_state(fluid, kg, metal_j_k, energy_j - hair_j);
            BOOST_TEST_CONTEXT("share " << share << ", " << energy_j << " J") {
                BOOST_CHECK_SMALL(above.t_c - below.t_c, 1e-8);
                BOOST_CHECK_SMALL(above.ice_share - below.ice_share, 1e-8);
                BOOST_CHECK_SMALL(above.e_j_kg - below.e_j_kg, 1e-5);
            }
        };
        const double freezing_j = freezing_energy_j(fluid, kg, metal_j_k);
        check_seam(freezing_j);
        check_seam(freezing_j - fluid.jumps_to * kg * fusion_j_kg);
        for (const double place : {1.0, 4.0, 240.0}) {
            check_seam(
                body_energy_j(fluid, kg, metal_j_k, fluid.freezing_c - place * IcyFluid::step_k));
        }
        BOOST_TEST(fluid_state(fluid, kg, metal_j_k, freezing_j).ice_share == 0.0);
        BOOST_TEST(fluid_state(fluid, kg, metal_j_k, freezing_j - 1.0).ice_share > 0.0);
    }
}

BOOST_AUTO_TEST_CASE(above_freezing_a_cell_has_bit_for_bit_the_temperature_of_the_circuit) {
    Parameters p;
    const Circuit c = make_circuit(p);
    int compared = 0;
    for (std::size_t i = 0; i < static_cast<std::size_t>(c.layout.layers_first); ++i) {
        const double freezing_j = freezing_energy_j(c.icy, c.fluid_kg[i], c.metal_j_k[i]);
        for (double t_c = c.icy.freezing_c; t_c < 220.0; t_c += 1.37) {
            const double energy_j = cell_energy_j(c, static_cast<int>(i), t_c);
            if (energy_j < freezing_j) continue;
            const FluidState state = fluid_state(c.icy, c.fluid_kg[i], c.metal_j_k[i], energy_j);
            BOOST_TEST_CONTEXT("cell " << i << ", " << t_c << " degC") {
                BOOST_TEST(bits_of(state.t_c) == bits_of(cell_temperature(c, i, energy_j)));
                BOOST_TEST(state.e_j_kg == c.loop_fluid.energy_j_kg(state.t_c));
                BOOST_TEST(state.ice_share == 0.0);
            }
            ++compared;
        }
    }
    BOOST_TEST(compared > 1000);
}

BOOST_AUTO_TEST_CASE(water_gives_off_its_heat_of_fusion_at_nought_degrees) {
    const IcyFluid water = icy_fluid(0.0);
    BOOST_TEST(water.freezing_c == 0.0);
    BOOST_TEST(freezing_energy_j(water, 1.0, 0.0) == 0.0);
    for (const double metal_j_k : {0.0, 5000.0}) {
        // Half frozen and just frozen: metal stays at 0 degC, where it holds nothing.
        const FluidState half = fluid_state(water, 2.0, metal_j_k, -333.6e3);
        BOOST_TEST(half.t_c == 0.0);
        BOOST_CHECK_CLOSE(half.ice_share, 0.5, 1e-10);
        const FluidState frozen = fluid_state(water, 1.0, metal_j_k, -333.6e3);
        BOOST_CHECK_SMALL(frozen.t_c, 1e-12);
        BOOST_CHECK_CLOSE(frozen.ice_share, 1.0, 1e-10);
        BOOST_CHECK_CLOSE(frozen.e_j_kg, -333.6e3, 1e-10);
        BOOST_TEST(body_energy_j(water, 1.0, metal_j_k, 0.0) == 0.0);  // the liquid end
        // 10 K below: the liquid's slope goes on.
        const double colder_j = water.liquid.energy_j_kg(-10.0) - 10.0 * metal_j_k;
        const FluidState cold = fluid_state(water, 1.0, metal_j_k, colder_j - 333.6e3);
        BOOST_CHECK_SMALL(cold.t_c + 10.0, 1e-9);
        BOOST_TEST(cold.ice_share == 1.0);
    }
}

BOOST_AUTO_TEST_CASE(ice_follows_the_lever_rule) {
    struct Row {
        double share;
        double rest;  // what begins to freeze at the temperature looked at
        double ice;   // 1 - share / rest, by hand
        double within;
    };
    constexpr double lines = 0.002;  // the table's straight lines from 10 % glycol up (ice.hpp)
    for (const Row& row :
         {Row{0.05, 0.1, 0.5, 0.01}, Row{0.1, 0.2, 0.5, lines}, Row{0.2, 0.3, 1.0 / 3.0, lines},
          Row{0.2, 0.4, 0.5, lines}, Row{0.3, 0.4, 0.25, lines}, Row{0.4, 0.5, 0.2, lines},
          Row{0.5, 0.6, 1.0 / 6.0, lines}}) {
        const IcyFluid fluid = icy_fluid(row.share);
        const double t_c = freezing_point_c(row.rest);
        const double energy_j = body_energy_j(fluid, 1.0, 0.0, t_c);
        const FluidState state = fluid_state(fluid, 1.0, 0.0, energy_j);
        BOOST_TEST_CONTEXT("share " << row.share << " at " << t_c << " degC, ice "
                                    << state.ice_share << ", by hand " << row.ice) {
            BOOST_CHECK_SMALL(state.ice_share - row.ice, row.within);
            // and its energy: the liquid's less that ice's fusion
            const double by_hand_j_kg = fluid.liquid.energy_j_kg(t_c) - 333.6e3 * row.ice;
            BOOST_CHECK_SMALL(state.e_j_kg - by_hand_j_kg, row.within * 333.6e3);
        }
    }
}

BOOST_AUTO_TEST_CASE(ice_stops_at_sixty_percent_glycol) {
    // Nothing is known of stronger rests; 40 % glycol leaves at most a third of ice.
    const IcyFluid fluid = icy_fluid(0.4);
    for (const double t_c : {-52.0, -60.0, -90.0}) {
        const FluidState state =
            fluid_state(fluid, 1.0, 200.0, body_energy_j(fluid, 1.0, 200.0, t_c));
        BOOST_CHECK_SMALL(state.t_c - t_c, round_trip);
        BOOST_CHECK_SMALL(state.ice_share - 1.0 / 3.0, 1e-12);
    }
    BOOST_TEST(fluid_state(icy_fluid(0.6), 1.0, 0.0, -250e3).ice_share == 0.0);
}

BOOST_AUTO_TEST_CASE(a_body_that_runs_dry_ends_as_bare_metal) {
    for (const double share : {0.0, 0.3}) {
        const IcyFluid fluid = icy_fluid(share);
        constexpr double metal_j_k = 1200.0;
        for (const double t_c : {-45.0, -20.3, -0.4, 3.0, 150.0}) {
            const FluidState dry = fluid_state(fluid, 0.0, metal_j_k, metal_j_k * t_c);
            const FluidState drop = fluid_state(fluid, 1e-12, metal_j_k, metal_j_k * t_c);
            const double own_j_kg = body_energy_j(fluid, 1.0, 0.0, t_c);
            BOOST_TEST_CONTEXT("share " << share << ", " << t_c << " degC, e dry " << dry.e_j_kg
                                        << ", with a drop " << drop.e_j_kg) {
                BOOST_CHECK_SMALL(dry.t_c - t_c, 1e-12);
                BOOST_CHECK_SMALL(dry.e_j_kg - own_j_kg, round_trip * std::abs(own_j_kg));
                BOOST_CHECK_SMALL(drop.t_c - t_c, 1e-8);
                BOOST_CHECK_SMALL(drop.e_j_kg - own_j_kg, 1e-3);
            }
        }
    }
}

BOOST_AUTO_TEST_CASE(slush_thickens_until_it_stands) {
    BOOST_TEST(slush_thickening(0.0) == 1.0);
    BOOST_CHECK_CLOSE(slush_thickening(0.15), 4.0, 1e-10);
    BOOST_CHECK_CLOSE(slush_thickening(0.27), 100.0, 1e-10);
    for (double share = 0.0; share < 0.29; share += 0.01) {
        BOOST_TEST(slush_thickening(share + 0.01) > slush_thickening(share));
    }
    BOOST_TEST(std::isinf(slush_thickening(stuck_ice_share)));
    BOOST_TEST(std::isinf(slush_thickening(1.0)));
}

BOOST_AUTO_TEST_SUITE_END()
