// SPDX-License-Identifier: MIT
// A rank that is killed cannot say so, and mpirun then ends all the others at once, rank 0 as well.
// So each rank works in a child of the process that mpirun has started; that one only waits.
#pragma once
#include "harness/choose/launch.hpp"

namespace noonbench::harness {

/// Returns in the child, which does the work. The guard, called "noonbench guard" among the
/// processes, never returns. It ends with the child's exit code; with 3 if the child was killed,
/// which it tells, with how to go on; with 3 if it is itself asked to end (mpirun asks all ranks
/// when one has failed, or when it is stopped), which only the guard of rank 0 tells. A guard that
/// is killed takes its child along. Throws std::system_error if there is no process to be had.
/// Linux; before any thread is started.
void stand_guard(const Launch& launch);

}  // namespace noonbench::harness
