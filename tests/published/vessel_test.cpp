// SPDX-License-Identifier: MIT
// Expansion of the fluid, vessel, precharge and the pressure at the collectors' top against what is
// published or follows from an exact law.
#include "within.hpp"

#include "plant/expansion.hpp"
#include "plant/fluid.hpp"
#include "plant/plant.hpp"
#include "plant/vessel_size.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cstddef>

BOOST_AUTO_TEST_SUITE(vessel)

namespace {

using namespace noonbench::plant;
using noonbench::published::check_within;

constexpr double litre = 1e-3;
constexpr double bar = 1e5;

// 30, 40, 50 % by volume as shares by mass, by ASHRAE's own conversion.
constexpr double share_30 = 0.3061;
constexpr double share_40 = 0.4043;
constexpr double share_50 = 0.5012;

double expansion_percent(double share, double from_c, double to_c) {
    const SpecificVolume fluid = specific_volume(share);
    return 100.0 * (fluid.at(to_c) / fluid.at(from_c) - 1.0);
}

/// A loop at rest at its fill temperature, at sea level, ten metres under its collectors.
Plant filled_loop(double share, double gauge_bar) {
    Parameters p;
    p.site.elevation_m = 0.0;
    p.loop.glycol_mass_share = share;
    p.loop.height_m = 10.0;
    p.loop.gauge_pressure_pa = gauge_bar * bar;
    p.store.room_c = p.loop.fill_temperature_c;
    const double t_c = p.loop.fill_temperature_c;
    return make_plant(p, t_c, t_c, t_c);
}

}  // namespace

BOOST_AUTO_TEST_CASE(fluids_expand_as_the_ashrae_densities_say) {
    // From 10 degC, computed from the densities of ASHRAE Handbook Fundamentals 2001 (glycol, % by
    // volume) and of IAPWS-IF97 (water). The bench's densities are Melinder's; the two differ by up
    // to 0.7 %, not alike at both ends, so that expansions may differ by 0.4 % of the volume.
    constexpr double sources_differ = 0.4;
    struct Row {
        double share;
        double to_c;
        double percent;
    };
    for (const Row& row :
         {Row{0.0, 40, 0.754}, Row{0.0, 60, 1.678}, Row{0.0, 80, 2.871}, Row{0.0, 100, 4.314},
          Row{share_30, 20, 0.408}, Row{share_30, 40, 1.387}, Row{share_30, 60, 2.594},
          Row{share_30, 80, 4.044}, Row{share_30, 100, 5.755}, Row{share_40, 20, 0.454},
          Row{share_40, 40, 1.525}, Row{share_40, 60, 2.829}, Row{share_40, 80, 4.381},
          Row{share_40, 100, 6.203}, Row{share_50, 20, 0.496}, Row{share_50, 40, 1.655},
          Row{share_50, 60, 3.048}, Row{share_50, 80, 4.694}, Row{share_50, 100, 6.616}}) {
        BOOST_TEST_CONTEXT("share " << row.share << " to " << row.to_c << " degC") {
            check_within("expansion, %", expansion_percent(row.share, 10.0, row.to_c), row.percent,
                         sources_differ);
        }
    }
    check_within("30 %, -10..100", expansion_percent(share_30, -10, 100), 6.459, sources_differ);
    check_within("40 %, -10..100", expansion_percent(share_40, -10, 100), 7.004, sources_differ);
    check_within("50 %, -10..100", expansion_percent(share_50, -10, 100), 7.513, sources_differ);
}

BOOST_AUTO_TEST_CASE(beyond_the_tables_the_expansion_goes_on_believably) {
    // The same densities continued as polynomials; the bench continues in a straight line, so it
    // falls short: by up to 0.5 % of the volume at 120 degC and 0.8 % at 130 degC.
    check_within("water to 120", expansion_percent(0.0, 10, 120), 6.005, 0.4);
    check_within("30 % to 120", expansion_percent(share_30, 10, 120), 7.75, 0.6);
    check_within("40 % to 120", expansion_percent(share_40, 10, 120), 8.32, 0.4);
    check_within("50 % to 120", expansion_percent(share_50, 10, 120), 8.84, 0.4);
    check_within("30 % to 130", expansion_percent(share_30, 10, 130), 8.87, 0.9);
    check_within("40 % to 130", expansion_percent(share_40, 10, 130), 9.50, 0.9);
    check_within("50 % to 130", expansion_percent(share_50, 10, 130), 10.08, 0.9);
}

BOOST_AUTO_TEST_CASE(water_expands_as_practice_counts) {
    // SBZ Monteur: 1000 l from 20 to 60 degC become about 1015 l.
    check_within("litres", 1000.0 * (1.0 + expansion_percent(0.0, 20, 60) / 100.0), 1015.0, 1.0);
    // A German calculator page, table of DIN style: 800 l from 10 to 80 degC give 22.48 l; IF97
    // gives 22.97 l, so the table is taken as 2 % low.
    check_within("litres", 8.0 * expansion_percent(0.0, 10, 80), 22.97, 0.5);
}

BOOST_AUTO_TEST_CASE(a_vessel_takes_up_what_boyles_law_says) {
    // Exact gas law, 18 l precharged to 1.5 bar over an atmosphere of one bar; litres at p over it.
    const Vessel vessel{18.0 * litre, 2.5 * bar};
    constexpr std::array p_bar{1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 5.4, 6.0};
    constexpr std::array litres{0.0, 3.0, 5.1429, 6.75, 9.0, 10.5, 10.9688, 11.5714};
    for (std::size_t i = 0; i < p_bar.size(); ++i) {
        check_within("litres", water_volume_m3(vessel, (p_bar[i] + 1.0) * bar) / litre, litres[i],
                     0.5e-4);
    }
    // Acceptance factor (pe - p0)/(pe + 1).
    check_within("1.0/3.0", acceptance_share(1.0 * bar, 3.0 * bar), 0.5, 0.5e-4);
    check_within("1.5/5.4", acceptance_share(1.5 * bar, 5.4 * bar), 0.6094, 0.5e-4);
    check_within("1.7/5.4", acceptance_share(1.7 * bar, 5.4 * bar), 0.5781, 0.5e-4);
    check_within("2.5/5.4", acceptance_share(2.5 * bar, 5.4 * bar), 0.4531, 0.5e-4);
}

BOOST_AUTO_TEST_CASE(worked_examples_of_vessel_sizes_come_out) {
    const auto taken_share = [](double p0_abs, double pe_abs) {
        return water_volume_m3({1.0, p0_abs}, pe_abs);
    };
    // Heating form V = e C / (1 - Pi/Pf), two worked examples on course pages.
    check_within("600 l, e 0.035", 0.035 * 600.0 / taken_share(2.3, 4.0), 49.41, 0.01);
    check_within("500 l, e 0.0434", 0.0434 * 500.0 / taken_share(1.013, 6.0), 26.108, 0.01);
    // A US trade training note, Vc 6, Vp 16, a 0.07, 26.2 ft, 87 psi.
    const double taken_up = 1.1 * 22.0 * 0.07 + 6.0;
    const double least_psi = 0.45 * 26.2 + 7.0;
    check_within("Va", taken_up, 7.694, 0.01);
    check_within("Vet", taken_up / taken_share(least_psi + 14.7, 87.0 + 14.7), 11.47, 0.01);
}

BOOST_AUTO_TEST_CASE(the_rule_of_the_trade_chooses_the_vessel_of_its_worked_example) {
    // Common practice, no source: 22 l, one collector of 4.2 l, 4 m, valve at 6 bar: 16.1 l, with a
    // safety of 1.5 the 25 l vessel.
    const VesselDuty duty{22.0 * litre, 4.2 * litre, 1.4 * bar, 6.0 * bar};
    check_within("expansion, l", rule_expansion * 22.0, 2.86, 0.01);
    check_within("reserve, l", rule_reserve_m3(duty.system_m3) / litre, 3.0, 1e-9);
    check_within("reserve of a large system, l", rule_reserve_m3(1.0) / litre, 5.0, 1e-9);
    check_within("final pressure, bar", rule_final_pa(6.0 * bar) / bar, 5.4, 1e-9);
    check_within("size, l", needed_vessel_m3(duty) / litre, 16.1, 0.05);
    check_within("bought, l", next_vessel_m3(1.5 * needed_vessel_m3(duty)) / litre, 25.0, 1e-9);
}

BOOST_AUTO_TEST_CASE(the_precharge_follows_the_second_of_the_trades_rules) {
    // Common practice, no source: fill 1.3 + 0.1 h, precharge half a bar below; h = 4, 8, 10, 15 m.
    constexpr std::array fill_bar{1.7, 2.1, 2.3, 2.8};
    constexpr std::array precharge_bar{1.2, 1.6, 1.8, 2.3};
    for (std::size_t i = 0; i < fill_bar.size(); ++i) {
        Loop loop;
        loop.gauge_pressure_pa = fill_bar[i] * bar;
        check_within("precharge, bar", vessel_precharge_pa(loop) / bar, precharge_bar[i], 1e-9);
    }
}

BOOST_AUTO_TEST_CASE(steam_begins_at_the_collector_where_practice_says) {
    // Raoult's law, collector ten metres over the gauge; physics good to 1.5 K.
    struct Row {
        double gauge_bar;
        double top_abs_bar;
        std::array<double, 4> boiling_c;  // water, 30, 40, 50 % by volume
    };
    constexpr std::array shares{0.0, share_30, share_40, share_50};
    for (const Row& row : {Row{2.0, 2.013, {120.4, 123.5, 125.0, 127.0}},
                           Row{2.5, 2.513, {127.6, 130.7, 132.3, 134.4}},
                           Row{3.0, 3.013, {133.7, 136.9, 138.6, 140.7}},
                           Row{5.4, 5.413, {154.9, 158.4, 160.2, 162.6}},
                           Row{6.0, 6.013, {158.9, 162.6, 164.4, 166.8}}}) {
        for (std::size_t i = 0; i < shares.size(); ++i) {
            const LoopPressure p = loop_pressure(filled_loop(shares[i], row.gauge_bar));
            const double top_pa = p.atmosphere_pa + p.top_pa;
            check_within("top, bar", top_pa / bar, row.top_abs_bar, 0.05);
            check_within("boils at, degC", boiling_point_c(shares[i], top_pa), row.boiling_c[i],
                         1.5);
        }
    }
}

BOOST_AUTO_TEST_CASE(little_steam_fills_a_collector) {
    // IAPWS-IF97: 6 l at 5 bar hold 6 x 2.668 = 16.0 g. An ideal gas at the boiling point needs
    // 4.5 % less; the remaining room must be that much too large and no more.
    const LoopRoom rigid{0.0, 5.0 * bar, 0.0, 0.0, 1e-30};
    const LoopContents steam{0.0, 0.0160, 0.0, 20.0};
    const double litres = surplus_m3(rigid, {0.0, bar}, steam, 5.0 * bar) / litre;
    check_within("litres", litres / 1.0453, 6.0, 0.03);
}

BOOST_AUTO_TEST_SUITE_END()
