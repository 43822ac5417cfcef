// SPDX-License-Identifier: MIT
#include "plant/cloud_passages.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

BOOST_AUTO_TEST_SUITE(cloud_passages)

namespace {

using namespace noonbench::plant;

/// Every share, every pair of borders, some seeds.
template <typename F>
void for_many_hours(F&& f) {
    for (int percent = 4; percent <= 96; percent += 2) {
        for (unsigned borders = 0; borders < 16; ++borders) {
            for (std::uint64_t seed = 1; seed <= 5; ++seed) {
                CloudyHour hour;
                hour.sunny_share = percent / 100.0;
                hour.begins_sunny = (borders & 1U) != 0;
                hour.ends_sunny = (borders & 2U) != 0;
                hour.sun_at_begin = (borders & 4U) != 0 ? 0.4 : (hour.begins_sunny ? 1.0 : 0.0);
                hour.sun_at_end = (borders & 8U) != 0 ? 0.4 : (hour.ends_sunny ? 1.0 : 0.0);
                f(hour, draw_passages(hour, random_stream(seed, "test")));
            }
        }
    }
}

double mean_sun(const std::vector<SunBend>& bends) {
    double sum = 0.0;
    for (std::size_t i = 1; i < bends.size(); ++i) {
        sum += 0.5 * (bends[i].sun + bends[i - 1].sun) * (bends[i].second - bends[i - 1].second);
    }
    return sum / 3600.0;
}

int turns_of(const std::vector<SunBend>& bends) {
    int turns = 0;
    for (std::size_t i = 1; i < bends.size(); ++i) {
        turns += std::abs(bends[i].sun - bends[i - 1].sun) == 1.0 ? 1 : 0;
    }
    return turns;
}

}  // namespace

BOOST_AUTO_TEST_CASE(bends_rise_from_border_to_border) {
    for_many_hours([](const CloudyHour& hour, const std::vector<SunBend>& bends) {
        BOOST_REQUIRE(bends.front().second == 0);
        BOOST_REQUIRE(bends.back().second == 3600);
        BOOST_REQUIRE(bends.front().sun == hour.sun_at_begin);
        BOOST_REQUIRE(bends.back().sun == hour.sun_at_end);
        for (std::size_t i = 1; i < bends.size(); ++i) {
            BOOST_REQUIRE(bends[i].second > bends[i - 1].second);
        }
    });
}

BOOST_AUTO_TEST_CASE(every_edge_lasts_20_to_90_seconds) {
    for_many_hours([](const CloudyHour&, const std::vector<SunBend>& bends) {
        for (std::size_t i = 1; i < bends.size(); ++i) {
            if (bends[i].sun == bends[i - 1].sun) continue;
            const std::int32_t edge_s = bends[i].second - bends[i - 1].second;
            BOOST_REQUIRE(edge_s >= 20);
            BOOST_REQUIRE(edge_s <= 90);
        }
    });
}

// Rounding moves each turn and each middle of an edge by half a second; an edge that joins a smooth
// hour is not counted by its half, which is 45 s at most at either end.
BOOST_AUTO_TEST_CASE(the_sun_shines_for_its_share) {
    double worst = 0.0;
    for_many_hours([&](const CloudyHour& hour, const std::vector<SunBend>& bends) {
        const bool joins = hour.sun_at_begin == 0.4 || hour.sun_at_end == 0.4;
        const double off_s = 3600.0 * std::abs(mean_sun(bends) - hour.sunny_share);
        if (!joins) worst = std::max(worst, off_s);
        BOOST_REQUIRE(off_s <= 0.5 * (turns_of(bends) + 2) + (joins ? 90.0 : 0.0));
    });
    BOOST_TEST_MESSAGE("worst error of a share without smooth neighbours: " << worst << " s");
}

// 24 s (1 - s) cycles of two turns an hour expected; the draw's own spread over 500 seeds is 1 %.
BOOST_AUTO_TEST_CASE(passages_are_as_frequent_as_in_the_seeded_years) {
    for (const double share : {0.3, 0.5, 0.8}) {
        CloudyHour hour{share, 1.0, 0.0, true, false};
        int turns = 0;
        for (std::uint64_t seed = 0; seed < 500; ++seed) {
            turns += turns_of(draw_passages(hour, random_stream(seed, "test")));
        }
        const double expected = 2.0 * 24.0 * share * (1.0 - share) - 1.0;
        BOOST_TEST_CONTEXT("share " << share << ": " << turns / 500.0) {
            BOOST_CHECK_CLOSE(turns / 500.0, expected, 5.0);
        }
    }
}

BOOST_AUTO_TEST_SUITE_END()
