// SPDX-License-Identifier: MIT
#include "plant/cloud_spells.hpp"

#include <boost/test/unit_test.hpp>

#include <algorithm>
#include <cmath>

BOOST_AUTO_TEST_SUITE(cloud_spells)

using namespace noonbench::plant;

namespace {

RandomStream stream_of(std::uint64_t day) {
    return sub_stream(random_stream(1, "cloud spells test"), day);
}

constexpr int day_s = 86400;

}  // namespace

BOOST_AUTO_TEST_CASE(clouds_cover_their_share_of_the_time) {
    constexpr int days = 60;
    for (const double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
        double covered_s = 0.0;
        std::size_t passages = 0;
        for (std::uint64_t day = 0; day < days; ++day) {
            const auto edges = cloud_edges(share, stream_of(day));
            CoverReader cover(edges);
            for (std::int32_t second = 0; second < day_s; second += 10) {
                covered_s += 10.0 * cover.at(second);
            }
            passages += edges.size() / 2;
        }
        const double cycle_s = 150.0 / (share * (1.0 - share));
        const double expected = day_s / cycle_s;
        const double a_day = static_cast<double>(passages) / days;
        BOOST_TEST_CONTEXT("share " << share << " found " << covered_s / (days * day_s)
                                    << ", passages a day " << a_day << " of " << expected) {
            // Renewal process with about exponential spells: share's variance over a time T is
            // at most 2 share (1 - share) 150 s / T. Four standard deviations, and the clear start.
            const double spread = std::sqrt(2.0 * share * (1.0 - share) * 150.0 / (days * day_s));
            BOOST_CHECK_SMALL(covered_s / (days * day_s) - share, 4 * spread + 150.0 / day_s);
            // The count of cycles varies by at most its square root.
            BOOST_CHECK_SMALL(a_day - expected, 4 * std::sqrt(expected / days) + 1.0);
        }
    }
}

BOOST_AUTO_TEST_CASE(edges_last_20_to_90_seconds_evenly_and_never_overlap) {
    double sum_s = 0.0;
    int count = 0;
    int shortest = day_s;
    int longest = 0;
    for (std::uint64_t day = 0; day < 50; ++day) {
        const auto edges = cloud_edges(0.5, stream_of(day));
        for (std::size_t i = 1; i < edges.size(); ++i) {
            const int length = edges[i].end_s - edges[i].begin_s;
            BOOST_TEST(edges[i].begin_s >= edges[i - 1].end_s);
            BOOST_TEST(edges[i].cover_after == 1.0 - edges[i - 1].cover_after);
            BOOST_TEST(edges[i].end_s < day_s + 1);
            shortest = std::min(shortest, length);
            longest = std::max(longest, length);
            sum_s += length;
            ++count;
        }
    }
    BOOST_TEST(shortest == 20);
    BOOST_TEST(longest == 90);
    // Evenly spread over 71 values: standard deviation 20.5 s; four standard errors.
    BOOST_CHECK_SMALL(sum_s / count - 55.0, 4 * 20.5 / std::sqrt(double(count)));
}

BOOST_AUTO_TEST_CASE(spells_are_exponential_beyond_their_edge) {
    // Half cover: clear and cloudy spells of 300 s in the mean, 55 s of it the edge.
    double sum_s = 0.0;
    double squares = 0.0;
    int count = 0;
    for (std::uint64_t day = 0; day < 100; ++day) {
        const auto edges = cloud_edges(0.5, stream_of(day));
        for (std::size_t i = 2; i < edges.size(); ++i) {
            const double plateau = edges[i].begin_s - edges[i - 1].end_s;
            sum_s += plateau;
            squares += plateau * plateau;
            ++count;
        }
    }
    const double mean = sum_s / count;
    // Exponential: standard deviation equals the mean. Four standard errors; the end of the day
    // cuts long spells off, one in 288, which costs about half a percent.
    BOOST_CHECK_SMALL(mean / 245.0 - 1.0, 4 / std::sqrt(double(count)) + 0.007);
    BOOST_CHECK_SMALL(std::sqrt(squares / count - mean * mean) / mean - 1.0, 0.04);
}

BOOST_AUTO_TEST_CASE(no_cloud_and_full_cloud_need_no_edges) {
    for (const double share : {0.0, 1.0}) {
        const auto edges = cloud_edges(share, stream_of(1));
        BOOST_TEST(edges.size() == 1U);
        BOOST_TEST(bends(edges).empty());
        CoverReader cover(edges);
        BOOST_TEST(cover.at(43200) == share);
    }
}

BOOST_AUTO_TEST_CASE(cover_is_straight_between_its_bends) {
    const std::vector<CloudEdge> edges{{0, 0, 0.0}, {100, 140, 1.0}, {200, 220, 0.0}};
    CoverReader cover(edges);
    BOOST_TEST(cover.at(0) == 0.0);
    BOOST_TEST(cover.at(100) == 0.0);
    BOOST_TEST(cover.at(110) == 0.25);
    BOOST_TEST(cover.at(140) == 1.0);
    BOOST_TEST(cover.at(199) == 1.0);
    BOOST_TEST(cover.at(210) == 0.5);
    BOOST_TEST(cover.at(5000) == 0.0);
    const std::vector<std::int32_t> expected{100, 140, 200, 220};
    BOOST_TEST(bends(edges) == expected, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_cloud_takes_the_beam_and_leaves_raised_diffuse) {
    const HorizontalSky clear{700.0, 850.0, 100.0};  // broken sky, sun at about 45 degrees
    const double cos_zenith = 600.0 / 850.0;
    const CloudClimate clouds = cloud_climate(0.6);
    const HorizontalSky gap = behind_clouds(clear, clouds, 0.0, cos_zenith);
    const HorizontalSky cloud = behind_clouds(clear, clouds, 1.0, cos_zenith);
    BOOST_TEST(cloud.beam_normal_w_m2 < 0.07 * clear.beam_normal_w_m2);
    BOOST_TEST(cloud.diffuse_horizontal_w_m2 > clear.diffuse_horizontal_w_m2);
    BOOST_TEST(gap.diffuse_horizontal_w_m2 > clear.diffuse_horizontal_w_m2);
    BOOST_TEST(gap.beam_normal_w_m2 > 0.8 * clear.beam_normal_w_m2);
    const HorizontalSky half = behind_clouds(clear, clouds, 0.5, cos_zenith);
    BOOST_CHECK_CLOSE(half.beam_normal_w_m2, 0.5 * (gap.beam_normal_w_m2 + cloud.beam_normal_w_m2),
                      1e-10);
    BOOST_CHECK_CLOSE(half.global_horizontal_w_m2,
                      half.diffuse_horizontal_w_m2 + half.beam_normal_w_m2 * cos_zenith, 1e-10);
}

BOOST_AUTO_TEST_CASE(a_clearer_day_has_more_of_the_suns_heat) {
    const HorizontalSky clear{700.0, 850.0, 100.0};
    double before = -1.0;
    for (int step = 0; step <= 100; ++step) {
        const CloudClimate clouds = cloud_climate(0.01 * step);
        const auto mean = [&](double cover) {
            return behind_clouds(clear, clouds, cover, 600.0 / 850.0).global_horizontal_w_m2;
        };
        const double share = clouds.cloudy_share;
        const double global = (1.0 - share) * mean(0.0) + share * mean(1.0);
        BOOST_TEST_CONTEXT("clearness " << 0.01 * step) {
            BOOST_TEST(global > before);
        }
        BOOST_TEST(global <= clear.global_horizontal_w_m2 + 1e-9);
        before = global;
    }
}

BOOST_AUTO_TEST_SUITE_END()
