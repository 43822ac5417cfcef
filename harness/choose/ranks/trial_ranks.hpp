// SPDX-License-Identifier: MIT
// A search whose years are run by the ranks of an MPI launch. Rank 0 decides, writes and shows; the
// others run the years that it hands out, one at a time each, and write nothing. A
// program links one of two libraries: `ranks_mpi`, or `ranks_none`, which refuses.
#pragma once
#include "harness/choose/launch.hpp"
#include "harness/choose/year_bench.hpp"

#include "harness/scenario/scenario.hpp"

#include <functional>
#include <string>

namespace noonbench::harness {

/// What a rank has read by itself.
struct RankSite {
    Scenario site;
    std::string text;  // all that the years follow from; every rank must have the same
};

struct RankedSearch {
    std::function<RankSite()> read;                // called on every rank
    std::function<int(const RunYears&)> search{};  // called on rank 0 alone; gives an exit code
};

/// Called once, before any thread is started, on every rank of a launch of more than one. Gives the
/// exit code of the search on rank 0, 0 on the others. Rank 0 throws what `read` and `search` throw
/// there and InputRefused if another rank has not read the same; the others then end without a
/// word. A rank that is killed ends the launch with exit code 3, see stand_guard().
[[nodiscard]] int search_on_ranks(const Launch& launch, const RankedSearch& search);

}  // namespace noonbench::harness
