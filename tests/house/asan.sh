#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# asan.sh SOURCE: all tests under the address and undefined-behaviour sanitizers but those of seeded
# defects (spoilt code is not ours to mend), with a walk of ten million controller ticks.
set -euo pipefail
cd "${1:?source folder}"
cmake --preset asan >/dev/null
cmake --build --preset asan
NOONBENCH_WALK_TICKS=${NOONBENCH_WALK_TICKS:-10000000} \
    ctest --preset asan --parallel "$(nproc)" --output-on-failure --exclude-regex '^defects\.'
