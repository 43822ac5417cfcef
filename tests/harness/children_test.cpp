// SPDX-License-Identifier: MIT
#include "harness/judge/children.hpp"

#include <boost/test/unit_test.hpp>

#include <csignal>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <vector>

BOOST_AUTO_TEST_SUITE(children)

using namespace noonbench::harness;

BOOST_AUTO_TEST_CASE(results_stand_in_order_whatever_the_number_of_jobs) {
    const Work work = [](std::size_t i, const auto&) { return "piece " + std::to_string(i); };
    for (const unsigned jobs : {1U, 3U, 64U}) {
        const std::vector<Left> left = in_children(9, jobs, work);
        BOOST_TEST_REQUIRE(left.size() == 9U);
        for (std::size_t i = 0; i < left.size(); ++i) {
            BOOST_TEST(left[i].failure == "");
            BOOST_TEST(left[i].bytes == "piece " + std::to_string(i));
        }
    }
}

BOOST_AUTO_TEST_CASE(a_crash_is_one_failure_and_the_others_go_on) {
    const Work work = [](std::size_t i, const auto&) -> std::string {
        if (i == 1) {
            std::signal(SIGABRT, SIG_DFL);  // whatever the test program has set up
            std::abort();
        }
        if (i == 2) throw std::runtime_error("no such weather");
        return "fine";
    };
    const std::vector<Left> left = in_children(4, 2, work);
    BOOST_TEST(left[0].bytes == "fine");
    BOOST_TEST(left[1].failure.starts_with("crashed (signal 6"), left[1].failure);
    BOOST_TEST(left[1].bytes == "");
    BOOST_TEST(left[2].failure == "no such weather");
    BOOST_TEST(left[3].bytes == "fine");
}

BOOST_AUTO_TEST_CASE(results_larger_than_a_pipe_arrive_whole) {
    const Work work = [](std::size_t i, const auto&) {
        return std::string(std::size_t{3} << 20, static_cast<char>('a' + i));
    };
    const std::vector<Left> left = in_children(2, 2, work);
    BOOST_TEST(left[0].bytes.size() == std::size_t{3} << 20);
    BOOST_TEST((left[1].bytes == std::string(std::size_t{3} << 20, 'b')));
}

BOOST_AUTO_TEST_CASE(progress_grows_to_one_and_names_who_runs) {
    const Work work = [](std::size_t, const std::function<void(double)>& tell) -> std::string {
        for (double share = 0.25; share < 1.0; share += 0.25) tell(share);
        return {};
    };
    std::vector<double> shares;
    std::size_t most_running = 0;
    const auto watch = [&](const Underway& now) {
        shares.push_back(now.share);
        most_running = std::max(most_running, now.running.size());
        BOOST_TEST(now.all == 5U);
    };
    static_cast<void>(in_children(5, 2, work, watch));
    BOOST_TEST(shares.front() == 0.0);
    BOOST_TEST(shares.back() == 1.0);
    BOOST_TEST(most_running == 2U);
    for (std::size_t i = 1; i < shares.size(); ++i) BOOST_TEST(shares[i] >= shares[i - 1]);
}

BOOST_AUTO_TEST_CASE(no_work_gives_no_results) {
    BOOST_TEST(in_children(0, 4, [](std::size_t, const auto&) { return std::string(); }).empty());
}

BOOST_AUTO_TEST_SUITE_END()
