// SPDX-License-Identifier: MIT
#include "plant/random.hpp"

#include <boost/test/unit_test.hpp>

#include <array>
#include <cmath>
#include <vector>

BOOST_AUTO_TEST_SUITE(random_numbers)

using namespace noonbench::plant;

BOOST_AUTO_TEST_CASE(mixing_is_splitmix64) {
    // Widely published first outputs of splitmix64 started at 0 (from memory).
    BOOST_TEST(splitmix64(0) == 0xe220a8397b1dcdafULL);
    BOOST_TEST(splitmix64(0x9e3779b97f4a7c15ULL) == 0x6e789e6aa1b965f4ULL);
    BOOST_TEST(splitmix64(2 * 0x9e3779b97f4a7c15ULL) == 0x06c45d188009454fULL);
}

BOOST_AUTO_TEST_CASE(a_number_depends_on_seed_name_and_counter_alone) {
    const RandomStream clouds = random_stream(7, "clouds");
    const std::uint64_t before = random_bits(clouds, 5);
    random_bits(clouds, 6);
    BOOST_TEST(random_bits(random_stream(7, "clouds"), 5) == before);
    BOOST_TEST(random_bits(clouds, 6) != before);
    BOOST_TEST(random_bits(random_stream(8, "clouds"), 5) != before);
    BOOST_TEST(random_bits(random_stream(7, "cloudz"), 5) != before);
    BOOST_TEST(random_bits(sub_stream(clouds, 0), 5) != before);
    BOOST_TEST(random_bits(sub_stream(clouds, 0), 5) != random_bits(sub_stream(clouds, 1), 5));
}

BOOST_AUTO_TEST_CASE(uniform_numbers_fill_their_interval_evenly) {
    constexpr int count = 100000;
    constexpr int bins = 50;
    const RandomStream stream = random_stream(1, "uniform");
    std::array<int, bins> hits{};
    double sum = 0.0;
    double with_next = 0.0;
    double before = 0.5;
    for (int i = 0; i < count; ++i) {
        const double u = random_uniform(stream, static_cast<std::uint64_t>(i));
        BOOST_REQUIRE(u >= 0.0 && u < 1.0);
        ++hits[static_cast<std::size_t>(u * bins)];
        sum += u;
        with_next += (u - 0.5) * (before - 0.5);
        before = u;
    }
    double chi_square = 0.0;
    for (const int hit : hits) {
        const double misfit = hit - count / bins;
        chi_square += misfit * misfit / (count / bins);
    }
    // 49 degrees of freedom: mean 49, standard deviation 9.9; four of them either way.
    BOOST_TEST(chi_square > 49.0 - 4 * 9.9);
    BOOST_TEST(chi_square < 49.0 + 4 * 9.9);
    // Standard error of the mean 0.2887 / sqrt(n), of the lag-one correlation 1 / sqrt(n); four.
    BOOST_CHECK_SMALL(sum / count - 0.5, 4 * 0.2887 / std::sqrt(double{count}));
    BOOST_CHECK_SMALL(with_next / count * 12.0, 4 / std::sqrt(double{count}));
}

BOOST_AUTO_TEST_CASE(noise_is_bounded_with_unit_variance) {
    constexpr int count = 100000;
    const RandomStream stream = random_stream(2, "noise");
    double sum = 0.0;
    double squares = 0.0;
    double fourth = 0.0;
    for (int i = 0; i < count; ++i) {
        const double n = random_noise(stream, static_cast<std::uint64_t>(i));
        BOOST_REQUIRE(std::abs(n) <= 3.47);
        sum += n;
        squares += n * n;
        fourth += n * n * n * n;
    }
    BOOST_CHECK_SMALL(sum / count, 4 / std::sqrt(double{count}));
    // Fourth moment of a sum of four uniforms: 3 - 1.2 / 4 = 2.7; hence the error of the variance
    // is sqrt(1.7 / n). Four of them; the fourth moment itself more loosely.
    BOOST_CHECK_SMALL(squares / count - 1.0, 4 * std::sqrt(1.7 / count));
    BOOST_CHECK_SMALL(fourth / count - 2.7, 0.1);
}

BOOST_AUTO_TEST_CASE(integers_reach_both_ends_and_nothing_beyond) {
    const RandomStream stream = random_stream(3, "integers");
    std::vector<int> hits(71, 0);
    for (std::uint64_t i = 0; i < 71000; ++i) {
        const std::int64_t value = random_integer(stream, i, 20, 90);
        BOOST_REQUIRE(value >= 20);
        BOOST_REQUIRE(value <= 90);
        ++hits[static_cast<std::size_t>(value - 20)];
    }
    for (std::size_t i = 0; i < hits.size(); ++i) {
        BOOST_TEST_CONTEXT("value " << i + 20) {
            // 1000 expected, standard deviation 31.4; five of them for the worst of 71.
            BOOST_TEST(std::abs(hits[i] - 1000) < 157);
        }
    }
    BOOST_TEST(random_integer(stream, 0, -5, -5) == -5);
}

BOOST_AUTO_TEST_SUITE_END()
