#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# firmware_integers.sh SOURCE [COMPILER]: compiles the firmware model for x86-64 with integer
# registers only, which refuses every float and double that is left at run time.
set -euo pipefail
source_dir=${1:?source folder}
compiler=${2:-g++}
flags=(-std=c++20 -O2 -ffreestanding -fno-exceptions -fno-rtti -mgeneral-regs-only -c -o /dev/null)

# The fence must be up: a function of doubles has to be refused.
if echo 'double half(double x) { return x / 2; }' | "$compiler" -x c++ "${flags[@]}" - 2> /dev/null; then
    echo "$compiler takes floating point in spite of -mgeneral-regs-only"
    exit 1
fi
count=0
for source in "$source_dir"/firmware-model/*.cpp; do
    "$compiler" "${flags[@]}" "$source"
    count=$((count + 1))
done
echo "$count sources, no floating point"
((count > 0))
