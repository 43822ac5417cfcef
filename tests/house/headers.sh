#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# headers.sh SOURCE [COMPILER]: every header compiles alone, as the first line of a source.
set -euo pipefail
cd "${1:?source folder}"
compiler=${2:-g++}
mapfile -t headers < <(find firmware-model plant traces harness -name '*.hpp' | sort)
((${#headers[@]} > 0))
alone() { echo "#include \"$2\"" | "$1" -std=c++20 -fsyntax-only -I. -x c++ -; }
export -f alone
printf '%s\0' "${headers[@]}" | xargs -0 -P "$(nproc)" -I{} bash -c 'alone "$@"' - "$compiler" {}
echo "${#headers[@]} headers compile alone"
