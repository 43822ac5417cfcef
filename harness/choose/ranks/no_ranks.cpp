// SPDX-License-Identifier: MIT
// For a program without MPI: several ranks would run the whole search each, into the same file.
#include "trial_ranks.hpp"

#include "harness/scenario/problem.hpp"

#include <fmt/format.h>

namespace noonbench::harness {

int search_on_ranks(const Launch& launch, const RankedSearch& /*search*/) {
    if (launch.rank > 0) return 0;  // told once
    throw InputRefused(
        {{"noonbench choose", 0, 0,
          fmt::format("was started as {} ranks, but this program is built without MPI",
                      launch.ranks),
          "one process, or a program configured with -D NOONBENCH_MPI=ON"}});
}

}  // namespace noonbench::harness
