// SPDX-License-Identifier: MIT
#include "firmware-model/boiling.hpp"

#include <boost/test/unit_test.hpp>

BOOST_AUTO_TEST_SUITE(boiling)

using namespace noonbench::firmware;

BOOST_AUTO_TEST_CASE(boiling_points_follow_the_vapour_pressures) {
    // Computed for these volume shares from Raoult's law with the vapour pressures of IAPWS-IF97
    // and of Eisenbach et al. (2021); the table's own rows within its rounding, 0.02 K.
    struct Row {
        int centibar;
        int share;
        double celsius;
    };
    for (const Row& row : {Row{150, 0, 111.35},
                           {150, 20, 113.08},
                           {150, 30, 114.24},
                           {150, 40, 115.70},
                           {150, 50, 117.60},
                           {200, 0, 120.21},
                           {200, 40, 124.77},
                           {300, 30, 136.77},
                           {350, 50, 146.04},
                           {400, 0, 143.61},
                           {500, 40, 157.15},
                           {600, 20, 161.02},
                           {700, 0, 164.95},
                           {700, 50, 173.02}}) {
        BOOST_TEST_CONTEXT(row.centibar << " centibar, " << row.share << " %") {
            const Temperature t = boiling_point(static_cast<std::int16_t>(row.share), row.centibar);
            BOOST_CHECK_SMALL(t.centicelsius / 100.0 - row.celsius, 0.021);
        }
    }
    // 40 % at 1 atm, 58 and 118 psia: Siegenthaler, PM Engineer, 219 F, 300 F; stated as +-1 K.
    BOOST_CHECK_SMALL(boiling_point(40, 101).centicelsius / 100.0 - 103.9, 1.0);
    BOOST_CHECK_SMALL(boiling_point(40, 400).centicelsius / 100.0 - 148.9, 1.0);
}

BOOST_AUTO_TEST_CASE(boiling_points_rise_with_pressure_and_share) {
    for (std::int16_t share = 0; share <= 60; ++share) {
        for (int centibar = 0; centibar < 800; ++centibar) {
            BOOST_REQUIRE(boiling_point(share, centibar) <= boiling_point(share, centibar + 1));
            BOOST_REQUIRE(boiling_point(share, centibar) <=
                          boiling_point(static_cast<std::int16_t>(share + 1), centibar));
        }
    }
    BOOST_TEST(boiling_point(0, -100).centicelsius == 8132);
    BOOST_TEST(boiling_point(60, 900).centicelsius == 17302);
}

BOOST_AUTO_TEST_SUITE_END()
