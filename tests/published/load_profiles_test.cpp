// SPDX-License-Identifier: MIT
// Load profiles of Regulation (EU) 812/2013, Annex VII table 3. The energies, flows and sums are
// the Regulation's; masses and durations are worked out here by hand from 4.186 kJ/(kg K), 1 kg/l
// and cold water of 10 degC (the last from memory of EN 13203-2).
#include "plant/load_profiles.hpp"
#include "plant/draw_pattern.hpp"
#include "plant/si.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>

BOOST_AUTO_TEST_SUITE(load_profiles)

using namespace noonbench::plant;

namespace {

std::vector<Draw> day_of(DrawProfile profile) {
    DrawPattern pattern;
    pattern.profile = profile;
    return draws_of_day(pattern, 0);
}

double mass_at_60_kg(const std::vector<Draw>& draws) {
    return energy_asked_j(draws) / (4186.0 * 50.0);
}

}  // namespace

BOOST_AUTO_TEST_CASE(reference_energies_and_numbers_of_draws_are_the_regulations) {
    struct Row {
        DrawProfile profile;
        std::size_t draws;
        double kwh;
        double kg_at_60;  // worked out, printed to 0.1
    };
    for (const Row& row :
         {Row{DrawProfile::small, 11, 2.100, 36.1}, Row{DrawProfile::medium, 23, 5.845, 100.5},
          Row{DrawProfile::large, 24, 11.655, 200.5},
          Row{DrawProfile::extra_large, 30, 19.070, 328.0}}) {
        const auto draws = day_of(row.profile);
        BOOST_TEST_CONTEXT("sum " << row.kwh) {
            BOOST_TEST(draws.size() == row.draws);
            // The sum is exact in thousandths; only rounding of the additions remains.
            BOOST_CHECK_SMALL(kilowatt_hours(energy_asked_j(draws)) - row.kwh, 1e-9);
            BOOST_CHECK_SMALL(mass_at_60_kg(draws) - row.kg_at_60, 0.05);
        }
    }
}

BOOST_AUTO_TEST_CASE(single_draws_have_their_mass_and_shortest_time) {
    struct Row {
        double kwh, lpm, useful_c, peak_c;
        double kg, minutes;  // printed to 0.01
    };
    for (const Row& row :
         {Row{1.4, 6, 40, 0, 40.13, 6.69}, Row{0.315, 4, 10, 55, 6.02, 1.51},
          Row{0.735, 4, 10, 55, 14.05, 3.51}, Row{3.605, 10, 10, 40, 103.34, 10.33},
          Row{1.82, 6, 40, 0, 52.17, 8.70}, Row{4.42, 10, 10, 40, 126.71, 12.67},
          Row{0.105, 3, 25, 0, 6.02, 2.01}}) {
        const Draw draw{0, joules_from_kwh(row.kwh), row.lpm / 60000.0, row.useful_c, row.peak_c};
        BOOST_TEST_CONTEXT("kWh " << row.kwh) {
            BOOST_CHECK_SMALL(nominal_mass_kg(draw) - row.kg, 0.0051);
            BOOST_CHECK_SMALL(nominal_duration_s(draw) / 60.0 - row.minutes, 0.0051);
        }
    }
}

BOOST_AUTO_TEST_CASE(no_draw_before_seven_and_times_rise) {
    for (const DrawProfile profile :
         {DrawProfile::small, DrawProfile::medium, DrawProfile::large, DrawProfile::extra_large}) {
        CivilSeconds before = 7 * 3600 - 1;
        for (const Draw& draw : day_of(profile)) {
            BOOST_TEST(draw.at_s > before);
            before = draw.at_s;
        }
        BOOST_TEST(before == 21 * 3600 + 30 * 60);  // the last draw of all four
    }
}

BOOST_AUTO_TEST_CASE(draws_can_follow_one_another_at_their_own_flow) {
    // At 60 degC, no draw of the profiles runs into the next.
    for (const DrawProfile profile :
         {DrawProfile::small, DrawProfile::medium, DrawProfile::large, DrawProfile::extra_large}) {
        const auto draws = day_of(profile);
        for (std::size_t i = 0; i + 1 < draws.size(); ++i) {
            const double seconds =
                draws[i].energy_j / (4186.0 * 50.0) / 1000.0 / draws[i].flow_m3_s;
            BOOST_TEST(draws[i].at_s + static_cast<CivilSeconds>(seconds) < draws[i + 1].at_s);
        }
    }
}

BOOST_AUTO_TEST_CASE(rows_that_set_the_profiles_apart_are_as_printed) {
    const auto at = [](DrawProfile profile, int hour, int minute) {
        for (const ProfileRow& row : load_profile(profile)) {
            if (row.hour == hour && row.minute == minute) {
                return row;
            }
        }
        return ProfileRow{};
    };
    const ProfileRow bath = at(DrawProfile::large, 21, 0);
    BOOST_TEST(bath.energy_kwh == 3.605);
    BOOST_TEST(bath.flow_lpm == 10.0);
    BOOST_TEST(bath.useful_from_c == 10.0);
    BOOST_TEST(bath.peak_c == 40.0);
    const ProfileRow shower = at(DrawProfile::medium, 21, 30);
    BOOST_TEST(shower.energy_kwh == 1.4);
    BOOST_TEST(shower.flow_lpm == 6.0);
    BOOST_TEST(shower.useful_from_c == 40.0);
    const ProfileRow dishes = at(DrawProfile::small, 20, 30);
    BOOST_TEST(dishes.energy_kwh == 0.42);
    BOOST_TEST(dishes.peak_c == 55.0);
    BOOST_TEST(at(DrawProfile::extra_large, 20, 46).energy_kwh == 4.42);
}

BOOST_AUTO_TEST_SUITE_END()
