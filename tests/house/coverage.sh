#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# coverage.sh SOURCE: every branch of the firmware model is taken by its own tests, or this fails.
set -euo pipefail
cd "${1:?source folder}"
cmake --preset coverage >/dev/null
cmake --build --preset coverage
find .build/coverage -name '*.gcda' -delete
NOONBENCH_QUIET_CASES=${NOONBENCH_QUIET_CASES:-200000}
export NOONBENCH_QUIET_CASES  # enough to take every branch
ctest --preset coverage --parallel 2 >/dev/null ||
    ctest --preset coverage --rerun-failed --output-on-failure
gcovr --root . --filter 'firmware-model/' --exclude-unreachable-branches --exclude-throw-branches \
    --branches --fail-under-branch 100 .build/coverage
