// SPDX-License-Identifier: MIT
// Under mpirun -n 3: years that fail on a rank, and rows that cannot be written, end the search
// with the failure on rank 0, after the years under way, and nobody waits for ever.
#include "harness/choose/ranks/trial_ranks.hpp"
#include "harness/scenario/problem.hpp"

#include <iostream>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

using namespace noonbench::harness;

constexpr std::size_t list_size = 40;
int failed = 0;

void check(bool holds, const std::string& what) {
    if (holds) return;
    std::cout << "FAILED: " << what << '\n';
    failed = 1;
}

/// Half an hour is not to be had of a year: a site of which every year fails at once.
RankSite site_of_failures() {
    RankSite part;
    part.site.sky.kind = SkyKind::file;
    part.site.sky.weather_file.path = "no_such_weather.epw";
    return part;
}

/// A year is drawn and run for each: the quickest site there is.
RankSite sound_site() {
    return {};
}

std::string failure_of(const RunYears& run_years, const YearDone& done) {
    try {
        run_years(std::vector<WantedYear>(list_size), done);
    } catch (const InputRefused& refused) {
        return "refused " + std::to_string(refused.problems().size()) + " " +
               refused.problems().at(0).file;
    } catch (const std::exception& error) {
        return error.what();
    }
    return "none";
}

int years_that_fail(const RunYears& run_years) {
    std::size_t told = 0;
    for (int again = 0; again < 2; ++again) {  // a failure leaves nothing behind for the next list
        const std::string failure = failure_of(run_years, [&](auto, const auto&) { ++told; });
        check(failure == "refused 1 no_such_weather.epw", "failure told: " + failure);
    }
    check(told == 0, "a year that failed was told as done");
    return failed;
}

int rows_that_cannot_be_written(const RunYears& run_years) {
    std::size_t told = 0;
    const auto disk_full = [&](std::size_t, const YearFigures&) {
        ++told;
        throw std::runtime_error("the disk is full");
    };
    const std::string failure = failure_of(run_years, disk_full);
    check(failure == "the disk is full", "failure told: " + failure);
    // The first, and what the other rank had under way.
    check(told == 2, "years told: " + std::to_string(told));
    return failed;
}

}  // namespace

int main(int argc, char** argv) {
    const std::string part = argc == 2 ? argv[1] : "";
    const bool fail = part == "years";
    if (!fail && part != "rows") return 2;
    return search_on_ranks(launch_from_environment(),
                           {fail ? site_of_failures : sound_site,
                            fail ? years_that_fail : rows_that_cannot_be_written});
}
