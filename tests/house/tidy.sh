#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# tidy.sh BUILD FILE: clang-tidy on one source, silent when it is clean.
set -euo pipefail
build=${1:?build folder} file=${2:?source}
out=$(clang-tidy --quiet -p "$build" --extra-arg=-Wno-unknown-warning-option "$file" 2>/dev/null) || {
    echo "$out"
    exit 1
}
