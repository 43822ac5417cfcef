// SPDX-License-Identifier: MIT
// Whether this process is one of several that a launcher of MPI programs has started.
#pragma once

namespace noonbench::harness {

struct Launch {
    int rank = 0;   // from 0
    int ranks = 1;  // in all
};

/// As the launcher says in the environment, before MPI is started and in a program that has none:
/// OMPI_COMM_WORLD_RANK and _SIZE (Open MPI), PMI_RANK and PMI_SIZE (MPICH and its kin). One rank
/// where neither pair makes sense.
[[nodiscard]] Launch launch_from_environment();

}  // namespace noonbench::harness
