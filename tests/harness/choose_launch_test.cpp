// SPDX-License-Identifier: MIT
// A program knows from the environment that it is one of several.
#include "harness/choose/launch.hpp"

#include <boost/test/unit_test.hpp>

#include <cstdlib>
#include <map>
#include <string>

BOOST_AUTO_TEST_SUITE(choose_launch)

namespace {

/// The launch that this environment tells, with nothing else of a launcher in it.
noonbench::harness::Launch launch_with(const std::map<std::string, std::string>& variables) {
    for (const char* name :
         {"OMPI_COMM_WORLD_RANK", "OMPI_COMM_WORLD_SIZE", "PMI_RANK", "PMI_SIZE"})
        unsetenv(name);
    for (const auto& [name, value] : variables) setenv(name.c_str(), value.c_str(), 1);
    return noonbench::harness::launch_from_environment();
}

void check(const std::map<std::string, std::string>& variables, int rank, int ranks) {
    const auto launch = launch_with(variables);
    BOOST_TEST(launch.rank == rank);
    BOOST_TEST(launch.ranks == ranks);
}

}  // namespace

BOOST_AUTO_TEST_CASE(both_families_of_launchers_are_known) {
    check({{"OMPI_COMM_WORLD_RANK", "2"}, {"OMPI_COMM_WORLD_SIZE", "5"}}, 2, 5);
    check({{"PMI_RANK", "0"}, {"PMI_SIZE", "3"}}, 0, 3);
}

BOOST_AUTO_TEST_CASE(anything_else_is_one_process) {
    check({}, 0, 1);
    check({{"OMPI_COMM_WORLD_SIZE", "5"}}, 0, 1);
    check({{"OMPI_COMM_WORLD_RANK", "5"}, {"OMPI_COMM_WORLD_SIZE", "5"}}, 0, 1);
    check({{"OMPI_COMM_WORLD_RANK", "-1"}, {"OMPI_COMM_WORLD_SIZE", "5"}}, 0, 1);
    check({{"PMI_RANK", "0"}, {"PMI_SIZE", "three"}}, 0, 1);
    check({{"PMI_RANK", "0"}, {"PMI_SIZE", "3x"}}, 0, 1);
    check({{"PMI_RANK", ""}, {"PMI_SIZE", ""}}, 0, 1);
}

BOOST_AUTO_TEST_SUITE_END()
