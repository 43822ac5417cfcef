// SPDX-License-Identifier: MIT
#include "plant/draw_pattern.hpp"
#include "plant/calendar.hpp"
#include "plant/si.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>
#include <stdexcept>

BOOST_AUTO_TEST_SUITE(draw_pattern)

using namespace noonbench::plant;

namespace {

constexpr double joules_a_m3 = 1000.0 * 4186.0 * 35.0;  // at 45 degC over 10 degC

DrawPattern family(std::uint64_t seed) {
    DrawPattern pattern;
    pattern.profile = DrawProfile::people;
    pattern.seed = seed;
    return pattern;
}

bool same(const std::vector<Draw>& a, const std::vector<Draw>& b) {
    if (a.size() != b.size()) {
        return false;
    }
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (a[i].at_s != b[i].at_s || a[i].energy_j != b[i].energy_j ||
            a[i].flow_m3_s != b[i].flow_m3_s) {
            return false;
        }
    }
    return true;
}

}  // namespace

BOOST_AUTO_TEST_CASE(days_may_be_asked_for_in_any_order) {
    const DrawPattern pattern = family(5);
    const CivilSeconds monday = midnight_of({2024, 1, 1});
    std::vector<std::vector<Draw>> forward;
    for (int day = 0; day < 20; ++day) {
        forward.push_back(draws_of_day(pattern, monday + day * seconds_a_day));
    }
    for (int day = 19; day >= 0; --day) {
        const auto again = draws_of_day(pattern, monday + day * seconds_a_day);
        BOOST_TEST(same(again, forward[static_cast<std::size_t>(day)]), "day " << day);
    }
    BOOST_TEST(!same(forward[0], forward[1]));
    BOOST_TEST(!same(forward[0], draws_of_day(family(6), monday)));
}

BOOST_AUTO_TEST_CASE(a_family_draws_its_volume_in_the_mean_of_years) {
    constexpr int days = 3 * 365;
    const CivilSeconds start = midnight_of({2021, 1, 1});
    for (const int people : {1, 3, 5}) {
        DrawPattern pattern = family(11);
        pattern.people = people;
        double volume_m3 = 0.0;
        for (int day = 0; day < days; ++day) {
            volume_m3 +=
                energy_asked_j(draws_of_day(pattern, start + day * seconds_a_day)) / joules_a_m3;
        }
        const double a_person_day = volume_m3 / (days * people);
        BOOST_TEST_CONTEXT("people " << people << " m3 a person and day " << a_person_day) {
            // Rounding of the number of draws spreads a day by at most half a mean draw in each
            // kind; baths (0.12 m3) dominate. Four standard errors of that.
            const double error = 4 * 0.5 * std::hypot(0.12, 0.04) / std::sqrt(double{days});
            BOOST_CHECK_SMALL(a_person_day - 0.048, error / people);
        }
    }
}

BOOST_AUTO_TEST_CASE(draws_come_sorted_within_their_day) {
    for (int day = 0; day < 400; ++day) {
        const CivilSeconds midnight = midnight_of({1999, 12, 1}) + day * seconds_a_day;
        CivilSeconds before = midnight;
        for (const Draw& draw : draws_of_day(family(3), midnight)) {
            BOOST_TEST(draw.at_s >= before);
            BOOST_TEST(draw.at_s < midnight + seconds_a_day);
            BOOST_TEST(draw.energy_j > 0.0);
            BOOST_TEST(draw.flow_m3_s > 0.0);
            before = draw.at_s;
        }
    }
}

BOOST_AUTO_TEST_CASE(weekends_start_later) {
    double first_s[2] = {0.0, 0.0};
    int days[2] = {0, 0};
    for (int day = 0; day < 700; ++day) {
        const CivilSeconds midnight = midnight_of({2024, 1, 1}) + day * seconds_a_day;  // a Monday
        const auto draws = draws_of_day(family(4), midnight);
        if (!draws.empty()) {
            const int kind = day % 7 >= 5 ? 1 : 0;
            first_s[kind] += static_cast<double>(draws.front().at_s - midnight);
            ++days[kind];
        }
    }
    const double later_s = first_s[1] / days[1] - first_s[0] / days[0];
    // An hour and a half by construction; means of 500 and 200 days with about 1500 s of spread.
    BOOST_CHECK_SMALL(later_s - 5400.0, 4 * 1500.0 * std::sqrt(1.0 / 500 + 1.0 / 200));
}

BOOST_AUTO_TEST_CASE(nobody_draws_while_away) {
    const CivilSeconds first = midnight_of({2024, 8, 1});
    const CivilSeconds end = midnight_of({2024, 8, 15});
    for (DrawPattern pattern : {family(1), DrawPattern{}}) {
        pattern.away = {{first, end}};
        BOOST_TEST(!draws_of_day(pattern, first - seconds_a_day).empty());
        BOOST_TEST(draws_of_day(pattern, first).empty());
        BOOST_TEST(draws_of_day(pattern, end - seconds_a_day).empty());
        BOOST_TEST(!draws_of_day(pattern, end).empty());
    }
}

BOOST_AUTO_TEST_CASE(scale_multiplies_every_energy) {
    for (const DrawPattern& pattern : {family(1), DrawPattern{}}) {
        DrawPattern twice = pattern;
        twice.scale = 2.0;
        const auto once_draws = draws_of_day(pattern, 0);
        const auto twice_draws = draws_of_day(twice, 0);
        BOOST_REQUIRE(once_draws.size() == twice_draws.size());
        for (std::size_t i = 0; i < once_draws.size(); ++i) {
            BOOST_TEST(twice_draws[i].energy_j == 2.0 * once_draws[i].energy_j);
            BOOST_TEST(twice_draws[i].at_s == once_draws[i].at_s);
        }
        twice.scale = 0.0;
        BOOST_TEST(draws_of_day(twice, 0).empty());
    }
}

BOOST_AUTO_TEST_CASE(impossible_patterns_are_refused_by_name_and_value) {
    DrawPattern pattern = family(1);
    pattern.people = 0;
    BOOST_CHECK_EXCEPTION(draws_of_day(pattern, 0), std::invalid_argument, [](const auto& error) {
        return std::string(error.what()) == "draw pattern: people is 0";
    });
    pattern = family(1);
    pattern.volume_m3_person_day = 0.6;
    BOOST_CHECK_THROW(draws_of_day(pattern, 0), std::invalid_argument);
    pattern = DrawPattern{};
    pattern.scale = -1.0;
    BOOST_CHECK_THROW(draws_of_day(pattern, 0), std::invalid_argument);
}

BOOST_AUTO_TEST_SUITE_END()
