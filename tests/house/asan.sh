#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# asan.sh SOURCE: all tests under the address and undefined-behaviour sanitizers, with a walk of ten
# million controller ticks. Left out: seeded defects (spoilt code is not ours to mend), benchmarks, the
# walk of a browser, and shelves, whole days and whole searches, whose code the unit suites and the lever
# days run too; of the longest suites NOONBENCH_SHORT takes a part.
set -euo pipefail
cd "${1:?source folder}"
cmake --preset asan >/dev/null
cmake --build --preset asan
NOONBENCH_WALK_TICKS=${NOONBENCH_WALK_TICKS:-10000000} NOONBENCH_QUIET_CASES=200000 \
    NOONBENCH_SHORT=1 ctest --preset asan --parallel "$(nproc)" --output-on-failure \
    --exclude-regex '^(shelf|page)\.|^published\.choose_effects|^harness\.(sealed|day_promises|choose_(twin|cli|flat_set|halving_exhaustive))$'
