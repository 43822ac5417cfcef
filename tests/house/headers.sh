#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# headers.sh SOURCE [COMPILER]: every header of the three folders without an include path compiles
# alone, as the first line of a source. (The harness's headers: all_verify_interface_header_sets.)
set -euo pipefail
cd "${1:?source folder}"
compiler=${2:-g++}
count=0
for header in firmware-model/*.hpp plant/*.hpp traces/*.hpp; do
    echo "#include \"$header\"" | "$compiler" -std=c++20 -fsyntax-only -I. -x c++ -
    count=$((count + 1))
done
echo "$count headers compile alone"
((count > 0))
