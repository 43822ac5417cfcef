// SPDX-License-Identifier: MIT
// Christensen & Burch's correlation of mains water (Hendron et al., SimBuild 2004; Burch &
// Christensen, NREL 2007). Values for Chicago: a public unit test of the correlation; the others
// are worked out from the published formula.
#include "plant/mains.hpp"

#include <boost/test/unit_test.hpp>

#include <cmath>

BOOST_AUTO_TEST_SUITE(mains_water)

using namespace noonbench::plant;

namespace {

Mains chicago() {
    Mains mains;
    mains.from_air = true;
    mains.air_mean_c = 9.69;
    mains.air_range_k = 28.1;
    mains.least_c = 0.0;
    return mains;
}

}  // namespace

BOOST_AUTO_TEST_CASE(day_50_in_both_hemispheres) {
    // Printed 6.6667 and 19.3799 (1e-4); worked out 6.66671 and 19.37996.
    BOOST_CHECK_SMALL(mains_on_day_c(chicago(), 50) - 6.6667, 1e-4);
    Mains south = chicago();
    south.southern = true;
    BOOST_CHECK_SMALL(mains_on_day_c(south, 50) - 19.3799, 1e-4);
}

BOOST_AUTO_TEST_CASE(the_middle_days_of_the_months) {
    const int days[] = {15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349};
    const double printed_c[] = {7.447,  6.641,  7.441,  9.792,  12.931, 16.191,
                                18.514, 19.408, 18.527, 16.212, 12.956, 9.814};
    for (int i = 0; i < 12; ++i) {
        BOOST_TEST_CONTEXT("day " << days[i]) {
            BOOST_CHECK_SMALL(mains_on_day_c(chicago(), days[i]) - printed_c[i], 1e-3);
        }
    }
}

BOOST_AUTO_TEST_CASE(mean_and_extremes_of_the_year) {
    double sum = 0.0;
    double least = 100.0;
    double most = -100.0;
    int coldest = 0;
    int warmest = 0;
    for (int day = 1; day <= 365; ++day) {
        const double c = mains_on_day_c(chicago(), day);
        sum += c;
        if (c < least) {
            least = c;
            coldest = day;
        }
        if (c > most) {
            most = c;
            warmest = day;
        }
    }
    BOOST_CHECK_SMALL(sum / 365.0 - 13.025, 1e-3);
    BOOST_CHECK_SMALL(least - 6.639, 1e-3);
    BOOST_CHECK_SMALL(most - 19.408, 1e-3);
    BOOST_TEST(std::abs(coldest - 45) <= 1);
    BOOST_TEST(std::abs(warmest - 227) <= 1);
}

BOOST_AUTO_TEST_SUITE_END()
